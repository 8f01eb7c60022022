"""Layouts whose templates are awkward: each face, every kind of track, tall and wide feet, small masts."""

import numpy as np
from builders import a_fitting, a_foot, a_kind, a_layout, a_mast

from mastlayout.checks.report import check
from mastlayout.documents.schedule.plan import plan_of
from mastlayout.geometry.scene import build
from mastlayout.model.mast import DShape, Ellipse, FreeOutline, RoundedBox, Taper, Track

RAISED = Track(kind="track", width_mm=32.0, depth_mm=13.0)
BIG = RoundedBox(shape="rounded box", length_mm=238, width_mm=148, corner_radius_mm=70)
SMALL = Ellipse(shape="ellipse", length_mm=80, width_mm=60)
D = DShape(shape="d", length_mm=180, width_mm=120, side_mm=70, corner_radius_mm=15)


def four(across, along, fastener="M6 tapped"):
    """Four holes at plus and minus these distances from a foot's middle."""
    corners = [(a * across, b * along) for b in (1, -1) for a in (-1, 1)]
    return [{"across_mm": a, "along_mm": b, "fastener": fastener} for a, b in corners]


ENTRY = {"across_mm": 0, "along_mm": -100, "diameter_mm": 14}
TALL = a_foot(across_mm=60, along_mm=480, holes=four(18, 226), entry=ENTRY)
WIDE = a_foot(across_mm=300, along_mm=90, holes=four(140, 30))
ROWS = [
    {"across_mm": float(a), "along_mm": float(b), "fastener": "rivet 4.8"}
    for b in (32, 16, 0, -16, -32)
    for a in (-48, -24, 24, 48)
]
DENSE = a_foot(across_mm=130, along_mm=100, holes=ROWS)
FLAT = a_foot(seat="flat", across_mm=80, along_mm=60)


def ring_points(length=190.0, width=120.0, count=400):
    """Return a traced outline: a superellipse, no shape of the program's own."""
    angle = np.linspace(0, 2 * np.pi, count, endpoint=False)
    x = length / 2 * np.sign(np.cos(angle)) * np.abs(np.cos(angle)) ** 0.8
    y = width / 2 * np.sign(np.sin(angle)) * np.abs(np.sin(angle)) ** 0.8
    return tuple((float(a), float(b)) for a, b in zip(x, y, strict=True))


TRACED = FreeOutline(shape="points", points=ring_points())

# name: the mast's own fields, the foot, the fitting's own fields.
CASES = {
    "ahead": ({}, a_foot(), {}),
    "aft, groove": ({}, a_foot(), {"girth": "aft"}),
    "aft, raised track": ({"track": RAISED, "section": BIG}, a_foot(holes=four(44, 18)), {"girth": "aft"}),
    "aft, starboard of a raised track": (
        {"track": RAISED}, a_foot(across_mm=40, holes=four(14, 18)), {"girth": "60 to starboard of aft"},
    ),
    "port": ({"section": BIG}, a_foot(), {"girth": "bearing 270"}),
    "starboard": ({"section": BIG, "track": RAISED}, a_foot(), {"girth": "bearing 90"}),
    "starboard, turned": ({}, a_foot(), {"girth": "bearing 80", "turn_deg": 30.0}),
    "tall": ({}, TALL, {}),
    "wide": ({"section": BIG}, WIDE, {}),
    "dense": ({}, DENSE, {}),
    "flat, off the line": ({}, FLAT, {"girth": "40 to port of ahead"}),
    "small mast": ({"section": SMALL}, a_foot(across_mm=60, holes=four(20, 15)), {}),
    "no track known": ({"track": None}, a_foot(), {}),
    "aft, no track known": ({"track": None}, a_foot(), {"girth": "aft"}),
    "d": ({"section": D}, a_foot(), {"girth": "30 to starboard of ahead"}),
    "traced": ({"section": TRACED}, a_foot(), {"girth": "bearing 300"}),
    "on the taper": (
        {"taper": Taper(from_masthead_mm=2000, length_mm=120, width_mm=80)},
        a_foot(),
        {"from_masthead_mm": 700.0, "girth": "bearing 320"},
    ),
}  # fmt: skip


def report_of(name, **more):
    """Return the checked layout of a case."""
    mast, foot, fitting = CASES[name]
    placed = a_fitting(in_hand=foot, tag=13, **fitting)
    layout = a_layout(mast=a_mast(**mast), kinds=(a_kind(),), fittings=(placed,), **more)
    return check(build(layout))


def plan_for(name, units="metric", **more):
    """Return the rows of a case."""
    return plan_of(report_of(name, **more), units, "2026-11-25")
