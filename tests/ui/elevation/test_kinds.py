"""Every kind of the catalogue as it is drawn, in each view, against its own solids worked out by hand."""

import itertools

import numpy as np
import pytest
from kinds import contact_sheet, on_its_own
from PySide6.QtGui import QImage

from mastlayout.geometry.silhouette import FROM_ABOVE, FROM_AHEAD, FROM_PORT, FROM_STARBOARD
from mastlayout.model.kind import Ball, Box, Can, Tube
from mastlayout.storage.catalogue import catalogue
from mastlayout.ui.elevation.shapes import outline
from mastlayout.ui.section.plan import from_above

KINDS = sorted(catalogue().values(), key=lambda kind: kind.id)
# The largest scale of the elevation is 4 pixels a millimetre: half a pixel there.
HALF_PIXEL_MM = 0.5 / 4.0
VIEWS = {"starboard": FROM_STARBOARD, "port": FROM_PORT, "ahead": FROM_AHEAD}


def disc(centre, axis, radius, way):
    """How far a disc reaches in a direction: its middle, and its radius as seen edge on."""
    return centre @ way + radius * np.sqrt(max(0.0, 1.0 - (axis @ way) ** 2))


def reach(solid, seats, way):
    """How far a solid of the catalogue reaches in a direction of the mast frame, from its own figures."""

    def put(point):
        return seats.origin[0] + np.asarray(point, dtype=float) @ seats.axes[0]

    match solid:
        case Ball():
            return put(solid.centre) @ way + solid.radius_mm
        case Tube():
            return max(put(solid.start) @ way, put(solid.end) @ way) + solid.radius_mm
        case Can():
            start, end = put(solid.start), put(solid.end)
            axis = (end - start) / np.linalg.norm(end - start)
            last = solid.radius_mm if solid.end_radius_mm is None else solid.end_radius_mm
            return max(disc(start, axis, solid.radius_mm, way), disc(end, axis, last, way))
        case Box():
            halves = itertools.product(*((-side / 2, side / 2) for side in solid.size))
            return max(put(np.asarray(solid.centre) + np.array(half)) @ way for half in halves)
    raise AssertionError(solid)


def drawn_solids(kind):
    """The solids of a kind that are drawn: all but the room a hand needs."""
    return [solid for solid in kind.solids if solid.part != "room"]


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.id)
def test_every_outline_is_as_large_as_its_solids(kind, qapp):
    """Part by part, from starboard, port and ahead, and from above: each edge to half a pixel."""
    placed = on_its_own(kind).scene.placed["own"]
    solids = drawn_solids(kind)
    depths = {"starboard": (0, -1, 0), "port": (0, 1, 0), "ahead": (1, 0, 0)}
    for view, axes in VIEWS.items():
        parts = outline(placed, view).parts
        assert len(parts) == len(solids)
        # Parts are painted back to front: the farthest from the watcher first.
        order = np.argsort(placed.solids.centre @ np.array(depths[view], dtype=float), kind="stable")
        for (path, _part), i in zip(parts, order, strict=True):
            box = path.boundingRect()
            edges = (box.right(), -box.left(), box.bottom(), -box.top())
            ways = (axes[0], -axes[0], axes[1], -axes[1])
            true = [reach(solids[i], placed.seats, way) for way in ways]
            assert edges == pytest.approx(true, abs=HALF_PIXEL_MM), (view, solids[i])
    for solid, seen in zip(solids, from_above(placed.solids), strict=True):
        edges = (*seen.max(axis=0), *-seen.min(axis=0))
        true = [reach(solid, placed.seats, way) for way in (*FROM_ABOVE, *-FROM_ABOVE)]
        assert edges == pytest.approx(true, abs=HALF_PIXEL_MM), solid


def test_slots_are_dark_and_a_horns_mouth_is_not(qapp):
    """Black is a hole or a slot; what only sounds keeps the colour of its body."""
    by_id = {kind.id: kind for kind in KINDS}

    def parts(name):
        return {part for _path, part in outline(on_its_own(by_id[name]).scene.placed["own"], "ahead").parts}

    assert "mouth" in parts("halyard-exit")
    assert "mouth" not in parts("hailer")
    assert "mouth" in parts("camera-aft")


def test_the_sheet_of_kinds_shows_every_one(qapp):
    """It is drawn without a fault, and is high enough for a row for each kind in four columns."""
    sheet = QImage.fromData(contact_sheet())
    assert not sheet.isNull()
    rows = -(-len(KINDS) // 4)
    assert sheet.height() >= rows * 100
