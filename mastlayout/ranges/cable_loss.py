"""What is lost between a radio and its antenna: the cable by type and length, its plugs, what arrives."""

from collections.abc import Mapping
from functools import cache

import tomli

from mastlayout.figures import Figure
from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import height_mm
from mastlayout.geometry.scene import Scene
from mastlayout.model.fitting import Cable
from mastlayout.model.measure import Measure, measure_of
from mastlayout.resources import resources
from mastlayout.words import _

# Radio system training guide, appendix H: each connector at 150 MHz.
CONNECTOR_DB = 0.25
CONNECTOR_SOURCE = "radio system training guide, appendix H: 0.25 dB a connector"
# What a fixed marine VHF gives at most: ITU Radio Regulations, Appendix 18 (from memory).
FULL_W = 25.0


@dataclass(frozen=True)
class Coax:
    """A type of coaxial cable: its loss at 150 to 160 MHz, dB in 100 m, how far sources differ, and which."""

    name: str
    db_per_100m: float
    spread: float
    source: str


@cache
def coaxes() -> Mapping[str, Coax]:
    """Return every type of coaxial cable by its name."""
    text = (resources() / "coax.toml").read_text(encoding="utf-8")
    return {
        name: Coax(name, float(entry["db_per_100m"]), float(entry["spread"]), _(entry["source"]))
        for name, entry in tomli.loads(text).items()
    }


def loss_db(coax: Coax, length_m: float, connectors: int) -> float:
    """Return what a length of cable with so many connectors loses, dB."""
    return coax.db_per_100m * length_m / 100.0 + CONNECTOR_DB * connectors


def share(loss_db: float) -> float:
    """Return the share of the power, 0 to 1, that a loss leaves."""
    return float(10.0 ** (-loss_db / 10.0))


def along_mm(scene: Scene, cable: Cable) -> float | None:
    """Return how far a cable runs along the mast, mm; None where one of its ends is not known."""
    placed, leaves = scene.placed.get(cable.fitting or ""), scene.placed.get(cable.exit or "")
    from_masthead = cable.exit_from_masthead_mm
    if leaves is not None:
        end = leaves.z_mm
    elif from_masthead is not None:
        end = float(height_mm(scene.skin.length_mm, from_masthead))
    else:
        return None
    return None if placed is None else abs(placed.z_mm - end)


def _missing(scene: Scene, cable: Cable) -> Measure | None:
    """Return the first measure that is missing for a cable's loss."""
    for field in ("coax", "connectors", "to_set_mm"):
        if getattr(cable, field) is None:
            return measure_of(Cable, field)
    # Whoever follows it from the set back to the mast finds where it leaves.
    return measure_of(Cable, "to_set_mm") if along_mm(scene, cable) is None else None


def loss(scene: Scene, cable: Cable) -> Figure:
    """Return what is lost in a cable and its plugs, dB, at the frequencies of marine VHF and AIS."""
    formula = _("loss of 100 m x length / 100 + loss of a connector x connectors")
    name, source = _("lost in cable and plugs"), _("published tables of coaxial cable")
    missing = _missing(scene, cable)
    if missing is not None:
        return Figure(name, None, "dB", formula, source, missing=missing.key)
    along, set_mm, plugs = along_mm(scene, cable) or 0.0, cable.to_set_mm or 0.0, cable.connectors or 0
    long = (along + set_mm) / 1000.0
    coax = coaxes()[cable.coax or ""]
    inputs = {
        "db_per_100m": coax.db_per_100m,
        "sources_differ_by_db_per_100m": coax.spread,
        "length_m": long,
        "connectors": float(plugs),
        "connector_db": CONNECTOR_DB,
    }
    source = f"{coax.source}; {CONNECTOR_SOURCE}"
    return Figure(name, loss_db(coax, long, plugs), "dB", formula, source, inputs)


def power(scene: Scene, cable: Cable) -> tuple[Figure, Figure]:
    """Return what arrives at the antenna: percent of the set's power, and watts of a VHF's full 25."""
    lost = loss(scene, cable)
    formula, source = _("10^(−loss / 10)"), _("the decibel")
    part = None if lost.value is None else share(lost.value)
    inputs = {} if lost.value is None else {"loss_db": lost.value}
    percent = None if part is None else 100.0 * part
    watts = None if part is None else FULL_W * part
    of_vhf = _("25 W x {share}").format(share=formula)
    return (
        Figure(_("arrives aloft"), percent, "%", formula, source, inputs, lost.missing),
        Figure(_("arrives of 25 W"), watts, "W", of_vhf, source, inputs, lost.missing),
    )
