"""What nobody has looked for: said once, with the measure, and never passed in silence."""

from asking import found
from builders import a_fitting, a_layout, a_mast, a_spreader, a_stay

from mastlayout.model.layout import Layout


def measures(layout, code):
    """The measures a code waits for."""
    return {f.measure for f in found(layout, code)}


def test_a_list_never_begun_blocks_what_it_would_be_measured_against():
    """A layout without stays, spreaders, halyards or old holes asks for each."""
    full = a_layout()
    bare = Layout(format=1, boat=full.boat, mast=full.mast, kinds=full.kinds, fittings=full.fittings)
    assert measures(bare, "clearance/stay") == {"layout.stays"}
    assert measures(bare, "clearance/spreader") == {"layout.spreaders"}
    assert "layout.halyards" in measures(bare, "hole/inside")
    assert measures(bare, "hole/spacing") == {"layout.holes"}


def test_an_empty_list_says_that_somebody_looked():
    """None is an answer."""
    looked = a_layout()
    for code in ("clearance/stay", "clearance/spreader", "hole/inside", "hole/spacing"):
        assert not found(looked, code)


def test_a_mast_nobody_looked_into_is_not_passed():
    """Conduits, taper and sleeves not known: holes are not checked."""
    layout = a_layout(mast=a_mast(conduits=None, taper=None, stretches=None))
    assert measures(layout, "hole/inside") == {"mast.conduits"}
    assert measures(layout, "hole/wall") == {"mast.stretches"}
    assert measures(layout, "seat/girth") == {"mast.taper"}


def test_a_fitting_without_a_place_is_named():
    """What hangs on a stay nobody taped is not checked, and says so."""
    free = {"from_masthead_mm": None, "girth": None, "in_hand": None}
    fittings = (a_fitting(), a_fitting("wire-1", on="forestay", along_mm=500.0, **free))
    layout = a_layout(stays=(a_stay(deck=None),), spreaders=(a_spreader(),), fittings=fittings)
    assert [(f.subjects, f.measure) for f in found(layout, "seat/unplaced")] == [
        (("wire-1", "forestay"), "stay.deck")
    ]


def test_a_file_tells_left_out_from_empty():
    """The key decides."""
    section = {"shape": "ellipse", "length": 100, "width": 80}
    tables = {"format": 1, "boat": {"name": "T"}, "mast": {"length": 9000, "section": section}}
    for more, begun in (({}, False), ({"stays": []}, True)):
        layout = Layout.model_validate(tables | more, by_alias=True, by_name=False)
        assert ("stays" in layout.model_fields_set) is begun
