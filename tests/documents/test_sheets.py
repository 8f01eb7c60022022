"""Every sheet on every paper: no text outside, over another, or too small, whatever the words."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sample_lists import CHAFE, CHAIR, ELEVATION, FINDINGS, LIMITS, MEASURE, MOUNT
from sample_plan import DRILL, HEAD, hailer
from sheet_check import faults, texts, words

from mastlayout.documents.chafe import chafe_pages
from mastlayout.documents.chair import chair_pages
from mastlayout.documents.drill import drill_pages
from mastlayout.documents.elevation import elevation_pages
from mastlayout.documents.findings import findings_pages
from mastlayout.documents.labels import label_pages
from mastlayout.documents.measure import measure_pages
from mastlayout.documents.mount import mount_pages
from mastlayout.documents.strips import strip_pages
from mastlayout.geometry.frames import reading

KINDS = (
    "drill", "checked", "mount", "labels", "strips", "chair", "elevation", "measure", "chafe", "findings",
)  # fmt: skip


def sheets(kind, paper="A4", head=HEAD):
    """Return the pages of one kind of the sample plan."""
    return {
        "drill": lambda: drill_pages(head, DRILL, paper),
        "checked": lambda: drill_pages(replace(head, holes_checked=True), DRILL, paper),
        "mount": lambda: mount_pages(head, MOUNT, paper),
        "labels": lambda: label_pages(head, DRILL, paper),
        "strips": lambda: strip_pages(head, DRILL, paper),
        "chair": lambda: chair_pages(head, CHAIR, paper),
        "elevation": lambda: elevation_pages(head, ELEVATION, paper),
        "measure": lambda: measure_pages(head, MEASURE, paper),
        "chafe": lambda: chafe_pages(head, CHAFE, paper),
        "findings": lambda: findings_pages(head, FINDINGS, LIMITS, paper, ("sails",)),
    }[kind]()


@pytest.mark.parametrize("paper", ["A4", "Letter", "A3"])
@pytest.mark.parametrize("kind", KINDS)
def test_every_text_has_its_place(kind, paper):
    """Inside the block, over no other text, 7 pt at least."""
    for page in sheets(kind, paper):
        assert faults(page) == []


@pytest.mark.parametrize("kind", KINDS)
def test_every_sheet_says_what_it_is_twice_and_carries_its_cautions(kind):
    """Yacht, kind and number in the bar and at the foot; day and plan mark; two whole lines of cautions."""
    pages = sheets(kind)
    for number, page in enumerate(pages, 1):
        said = words([page])
        of = f" {number} of {len(pages)}"
        assert "WHIMBREL" in said
        assert sum(text.endswith(of) for text in said) == 2
        assert "25 Nov 2026 · plan mark 7F3A" in said
        cautions = [
            text
            for text in texts(page)
            if text.x == 0 and text.y > page.block_mm[1] - 5 and text.size_pt == 7.2
        ]
        assert len(cautions) == 2
        assert not any(text.text.endswith("…") for text in cautions)


@pytest.mark.parametrize(
    ("kind", "is_map"), [("drill", True), ("elevation", True), ("mount", False), ("measure", False)]
)
def test_a_map_says_which_edge_is_the_masthead(kind, is_map):
    """Lists have the bar without those words."""
    assert ("MASTHEAD END OF THE SHEET" in words(sheets(kind))) == is_map


LONG = "W" * 200


@pytest.mark.parametrize("kind", KINDS)
def test_a_yacht_of_200_letters_fits(kind):
    """Bar and foot show its beginning."""
    for page in sheets(kind, head=replace(HEAD, yacht=LONG)):
        assert faults(page) == []


@settings(max_examples=25)
@given(st.text(min_size=1, max_size=200), st.text(max_size=300))
def test_any_words_fit_every_sheet(name, remark):
    """A name and a remark of any letters stay inside and over nothing else."""
    drill = drill_pages(HEAD, [replace(hailer(), name=name, facts=(remark, name))])
    mount = mount_pages(
        HEAD, [replace(MOUNT[0], name=name, remark=remark, holes=name, cable=remark, place=name)]
    )
    rows = (replace(ELEVATION.rows[0], what=name, face=name),)
    stays = (replace(ELEVATION.stays[0], name=name),)
    elevation = elevation_pages(HEAD, replace(ELEVATION, rows=rows, stays=stays))
    measure = measure_pages(
        HEAD, [replace(MEASURE[0], title=name, how=remark, blocks=remark, boxes=(name, name))]
    )
    findings = findings_pages(HEAD, [replace(FINDINGS[0], subjects=name, sentence=remark, remark=remark)], ())
    sail = CHAFE.sails[0]
    patches = (replace(sail.rows[0], what=remark, when=name), *sail.rows[1:])
    sails = (replace(sail, name=name, rows=patches, rubs=(remark, name), moved=(name,)),)
    chafe = chafe_pages(HEAD, replace(CHAFE, sails=sails, left_out=(name, remark)))
    labels = label_pages(HEAD, [replace(hailer(), name=name)])
    strips = strip_pages(HEAD, [replace(hailer(), name=name)])
    job = replace(MOUNT[0], name=name, remark=remark, holes=name, cable=remark, place=name)
    card = replace(CHAIR[0], near=name, jobs=(job,), look=(remark,), bring=(remark,), warnings=(name,))
    chair = chair_pages(HEAD, [card])
    for page in (*drill, *mount, *elevation, *measure, *findings, *labels, *chair, *strips, *chafe):
        assert faults(page) == []


def _in_inches(chafe):
    """The chafe sheet with the longest lengths that a tape reads on cloth."""
    two = ("111-11 1/2", "111-10 1/2")
    rows = [
        replace(row, up=two, out=two, leech=two, size=("22-11 1/2 up", "22-11 1/2 wide"))
        for row in chafe.sails[0].rows
    ]
    return replace(chafe, sails=(replace(chafe.sails[0], rows=tuple(rows)),))


def test_an_inches_sheet_has_its_places_too():
    """Feet, inches and fractions are longer, and still overlap nothing."""
    head = replace(HEAD, units="inches", total=reading(0, 17300, "inches"), holes_checked=True)
    # The longest reading there is: 11 inches and odd sixteenths.
    wide = 47 * 304.8 + 10 * 25.4 + 13 / 16 * 25.4
    rows = tuple(replace(row, height=reading(wide, 17300 + wide / 2, "inches")) for row in ELEVATION.rows)
    mount = [replace(row, height=reading(row.height.masthead, 17300, "inches")) for row in MOUNT]
    pages = [
        *drill_pages(head, [hailer("inches")]),
        *elevation_pages(head, replace(ELEVATION, rows=rows)),
        *mount_pages(head, mount),
        *label_pages(head, [hailer("inches")]),
        *chair_pages(head, [replace(CHAIR[0], top=reading(wide, 17300, "inches"), jobs=tuple(mount))]),
        *measure_pages(head, MEASURE),
        *chafe_pages(head, _in_inches(CHAFE)),
    ]
    for page in pages:
        assert faults(page) == []
