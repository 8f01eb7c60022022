"""Sails: every measure that their paths will need and nobody took."""

from asking import found
from builders import a_layout

from mastlayout.model.sails import Halyard, Sail

KNOWN = {
    "lp_mm": 6000.0, "luff_mm": 14000.0, "tack_mm": 15000.0, "clew_mm": 14000.0, "head_mm": 900.0,
    "quarter_width_mm": 4500.0, "half_width_mm": 3000.0, "three_quarter_width_mm": 1500.0,
}  # fmt: skip


def genoa(**fields):
    """A furled headsail, all measured."""
    return Sail(
        **(
            {"id": "genoa", "name": "Genoa", "role": "headsail", "halyard": "line", "furled_mm": 170.0}
            | KNOWN
            | fields
        )
    )


def line(**fields):
    """Its halyard, at ten degrees to the stay."""
    return Halyard(**({"id": "line", "name": "Halyard", "rope_mm": 12.0, "swivel_angle_deg": 10.0} | fields))


def test_a_sail_all_measured_asks_nothing():
    """Nothing is missing."""
    assert not found(a_layout(sails=(genoa(),), halyards=(line(),)), "sail/measured")


def test_every_missing_measure_is_asked_for_on_its_own():
    """Tack, clew and head are three measures; three widths are one."""
    sail = genoa(tack_mm=None, clew_mm=None, head_mm=None, half_width_mm=None, quarter_width_mm=None)
    findings = found(a_layout(sails=(sail,), halyards=(line(),)), "sail/measured")
    assert {f.measure for f in findings} == {"sail.tack", "sail.clew", "sail.head", "sail.widths"}
