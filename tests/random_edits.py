"""Random edits of any layout: what an owner may change, add and take away, drawn by hypothesis.

An edit is drawn as plain numbers and names and made from the layout as it stands, so that a failing
run shrinks to few and small ones. ``edited`` returns None where the layout has nothing of the sort.
"""

import math
from functools import partial

from hypothesis import strategies as st

from mastlayout.errors import EditError
from mastlayout.model import adding
from mastlayout.model.around import Around, read_around
from mastlayout.model.copying import copied
from mastlayout.model.crosscheck import crosscheck
from mastlayout.model.edits import (
    accept,
    add,
    change,
    confirm_foot,
    cut_heel,
    forget_hole,
    found_at,
    hole_built,
    looked,
    move,
    next_id,
    open_again,
    remove,
    tick,
)
from mastlayout.model.fitting import MAST, STEPS, AsBuilt, Cable, Fitting, HoleBuilt, OldHole
from mastlayout.model.hosting import Place, hung, offers, placed_new
from mastlayout.model.kind import Fastener
from mastlayout.model.layout import NAMED, Accepted, LimitOverride
from mastlayout.model.mast import Run, Slot, Wall
from mastlayout.model.mirror import mirrored
from mastlayout.model.moving import at_girth, end_at_height, turned
from mastlayout.model.rig import DeckEnd, Spreader, Stay
from mastlayout.model.sails import Halyard, LinePoint, Pole, Sail
from mastlayout.model.wrong import enlarge_hole, fill_hole, leave_out, move_off
from mastlayout.storage.catalogue import catalogue


def hundredths(low, high):
    """Lengths as an edit rounds them."""
    return st.integers(low * 100, high * 100).map(lambda n: n / 100)


def made(kind, **fields):
    """Values of a kind; st.builds would draw what its fields are called in a file besides."""
    return st.fixed_dictionaries(fields).map(lambda drawn: kind(**drawn))


WHICH = st.integers(0, 59)
HEIGHTS = hundredths(0, 18000)
GIRTHS = st.one_of(
    st.sampled_from(["ahead", "aft"]),
    hundredths(0, 360).map(lambda turn: f"bearing {turn}"),
    st.tuples(hundredths(1, 250), st.sampled_from(["port", "starboard"])).map(
        lambda place: f"{place[0]} to {place[1]} of ahead"
    ),
)
NAMES = st.sampled_from(["Hailer", "Horn “B”", 'Déjà vu 3/8"', "# not a comment", "Steaming light"])
# A line's way over places of its own; "add" leads one over a fitting.
POINTS = made(
    LinePoint,
    at=st.sampled_from(
        ["sheave", "inside", "outside", "exit", "block", "restrainer", "winch", "cleat", "end"]
    ),
    from_masthead_mm=HEIGHTS,
    girth=st.none() | GIRTHS.map(read_around),
)
DECK_ENDS = st.none() | made(
    DeckEnd, ahead_mm=hundredths(-5000, 5000), off_mm=hundredths(0, 2000), above_mm=hundredths(0, 9000)
)
DAY = "2026-11-25"
CHOCKS = made(
    DeckEnd, ahead_mm=hundredths(-3000, 3000), off_mm=hundredths(0, 2000), above_mm=hundredths(-500, 2000)
)
# Fields of each list that an edit may set, with the values that are drawn for them.
FIELDS = {
    "fittings": {
        "name": NAMES,
        "note": NAMES,
        "from_masthead_mm": HEIGHTS,
        "girth": GIRTHS.map(read_around),
        "along_mm": hundredths(0, 900),
        "round_deg": hundredths(0, 359),
        "stand_off_mm": hundredths(0, 80),
        "turn_deg": hundredths(-180, 180),
        "new": st.booleans(),
        "mass_kg": st.none() | hundredths(0, 20),
        "in_hand": st.none(),
        "fitted": st.sampled_from([None, "at the dock"]),
        "as_built": st.none()
        | made(
            AsBuilt,
            from_masthead_mm=st.none() | HEIGHTS,
            girth=st.none() | GIRTHS.map(read_around),
            by=st.just("Ann"),
            day=st.just(DAY),
        ),
    },
    "spreaders": {
        "name": NAMES,
        "from_masthead_mm": HEIGHTS,
        "length_mm": st.none() | hundredths(200, 2000),
        "sweep_deg": st.none() | hundredths(0, 30),
        "rise_deg": st.none() | hundredths(0, 20),
    },
    "stays": {
        "name": NAMES,
        "wire_mm": st.none() | hundredths(4, 16),
        "length_mm": st.none() | hundredths(5000, 20000),
        "deck": st.none(),
        "removable": st.booleans(),
        "stowed_at": DECK_ENDS,
        "swivel_least_deg": st.none() | hundredths(0, 20),
        "swivel_most_deg": st.none() | hundredths(0, 20),
    },
    "sails": {"name": NAMES, "lp_mm": st.none() | hundredths(2000, 6000), "clew_mm": st.none() | HEIGHTS},
    "halyards": {"name": NAMES, "inside": st.sampled_from([None, "straight", "outside"]),
                 "rope_mm": hundredths(6, 16), "purchase": st.sampled_from(["1:1", "2:1"]),
                 "swivel_angle_deg": st.none() | hundredths(0, 30),
                 "hoisted_at": DECK_ENDS, "tied_at": DECK_ENDS, "slack_mm": st.none() | hundredths(0, 900),
                 "points": st.lists(POINTS, max_size=3).map(tuple)},
    "holes": {
        "name": NAMES,
        "from_masthead_mm": HEIGHTS,
        "girth": GIRTHS.map(read_around),
        "diameter_mm": st.none() | hundredths(2, 40),
        "state": st.sampled_from(["open", "filled", "riveted", "tapped"]),
        "note": NAMES,
    },
    "cables": {
        "name": NAMES,
        "outside_mm": st.none() | hundredths(3, 20),
        "plug_mm": st.none() | hundredths(0, 30),
        "new": st.booleans(),
        "conduit": st.sampled_from([None, "loose"]),
        "exit": st.none(),
        "exit_from_masthead_mm": st.none() | HEIGHTS,
    },
    "poles": {
        "name": NAMES,
        "stowed": NAMES,
        "length_mm": hundredths(1000, 6000),
        "ring_from_mm": HEIGHTS,
        "ring_to_mm": HEIGHTS,
        "diameter_mm": st.none() | hundredths(20, 150),
        "ring_ahead_mm": st.none() | hundredths(0, 150),
        "tilt_deg": st.none() | hundredths(0, 80),
        "squared_deg": st.none() | hundredths(0, 120),
        "stowed_on": st.sampled_from([None, "mast", "track", "deck"]),
        "stowed_top_mm": st.none() | HEIGHTS,
        "stowed_ahead_mm": st.none() | hundredths(0, 500),
        "chock_fore": st.none() | CHOCKS,
        "chock_aft": st.none() | CHOCKS,
    },
    "conduits": {
        "name": NAMES,
        "bore_mm": st.none() | hundredths(15, 60),
        "outside_mm": st.none() | hundredths(15, 60),
        "runs": st.lists(
            made(Run, from_masthead_mm=HEIGHTS, to_mm=HEIGHTS, bearing_deg=hundredths(0, 359)),
            min_size=1, max_size=2,
        ).map(tuple),
        "slots": st.none() | st.lists(
            made(Slot, from_masthead_mm=HEIGHTS, length_mm=hundredths(10, 200), new=st.booleans()),
            max_size=2,
        ).map(tuple),
    },
}  # fmt: skip


def _nth(items, which):
    return items[which % len(items)] if items else None


def _changes():
    """Draw a list, which of its items, and one or two of its fields with new values."""

    def fields(part):
        named = FIELDS[part]
        one = st.sampled_from(sorted(named)).flatmap(lambda f: st.tuples(st.just(f), named[f]))
        return st.tuples(st.just("change"), st.just(part), WHICH, st.lists(one, min_size=1, max_size=2))

    return st.sampled_from(sorted(FIELDS)).flatmap(fields)


_MOVABLE = st.sampled_from(["fittings", "spreaders", "stays", "holes"])
_ENDS = st.sampled_from(["upper", "lower"])
EDITS = st.one_of(
    st.tuples(st.just("move"), WHICH, HEIGHTS, GIRTHS),
    st.tuples(st.just("nudge"), WHICH, st.sampled_from([-100.0, -10.0, -1.0, 1.0, 10.0, 100.0])),
    _changes(),
    st.tuples(st.just("place"), st.integers(0, 199), WHICH, HEIGHTS, GIRTHS),
    st.tuples(st.just("copy"), _MOVABLE, WHICH),
    st.tuples(st.just("mirror"), _MOVABLE, WHICH),
    st.tuples(st.just("turn"), WHICH, hundredths(-180, 180)),
    st.tuples(st.just("rehang"), WHICH, WHICH, HEIGHTS, GIRTHS),
    st.tuples(st.just("tick"), WHICH, st.integers(1, 8), st.sampled_from(STEPS), st.booleans()),
    st.tuples(st.just("found"), WHICH, HEIGHTS, st.none() | GIRTHS),
    st.tuples(st.just("drilled"), WHICH, st.integers(1, 6), hundredths(-9, 9), hundredths(-9, 9),
              st.none() | hundredths(2, 12)),
    st.tuples(st.just("way out"), WHICH, st.integers(1, 6), st.sampled_from(
        ["forget", "fill", "fill and leave out", "leave out", "enlarge", "move off"])),
    st.tuples(st.just("hang"), WHICH, WHICH, hundredths(0, 900)),
    st.tuples(st.just("add"), st.sampled_from(sorted(set(NAMED) - {"fittings"})), WHICH, HEIGHTS, GIRTHS),
    st.tuples(st.just("begin"), st.integers(0, 99), HEIGHTS, GIRTHS),
    st.tuples(st.just("round"), _MOVABLE, WHICH, GIRTHS, _ENDS),
    st.tuples(st.just("end"), WHICH, HEIGHTS, _ENDS),
    st.tuples(st.just("remove"), st.sampled_from([*NAMED, "conduits"]), WHICH),
    st.tuples(st.just("foot"), WHICH, hundredths(30, 120), hundredths(30, 120)),
    st.tuples(st.just("accept"), WHICH),
    st.tuples(st.just("reopen"), WHICH),
    st.tuples(st.just("cut heel"), hundredths(-50, 50)),
    st.tuples(st.just("boat"), st.sampled_from(["heel_above_water_mm", "deck_above_heel_mm",
                                                "foretriangle_base_mm"]), st.none() | hundredths(100, 5000)),
    st.tuples(st.just("mast"), st.sampled_from(["rake_deg", "gooseneck_mm", "taper", "track", "conduits",
                                                "stretches"]), st.none() | hundredths(0, 5)),
    st.tuples(st.just("wall"), WHICH, hundredths(1, 9)),
    st.tuples(st.just("limit"), hundredths(1, 90)),
    st.tuples(st.just("looked"), st.sampled_from(["spreaders", "stays", "halyards", "holes", "conduits",
                                                  "stretches"]), st.booleans()),
)  # fmt: skip


def edited(desk, edit):
    """Return the desk's layout after an edit; None where it has nothing to edit."""
    layout = _EDITS[edit[0]](desk, *edit[1:])
    mistakes = crosscheck(layout) if layout else []
    if mistakes:
        raise EditError(mistakes[0].sentence)
    return layout


def _move(desk, which, height, girth):
    on_mast = [f for f in desk.layout.fittings if f.on == MAST]
    one = _nth(on_mast, which)
    return one and move(desk.layout, one.id, height, read_around(girth))


def _nudge(desk, which, by):
    on_mast = [f for f in desk.layout.fittings if f.on == MAST]
    one = _nth(on_mast, which)
    return one and change(desk.layout, one.id, from_masthead_mm=max(one.from_masthead_mm + by, 0.0))


def _change(desk, part, which, fields):
    one = _nth(_items(desk.layout, part), which)
    return one and change(desk.layout, one.id, **dict(fields))


def _items(layout, part):
    return layout.mast.conduits if part == "conduits" else getattr(layout, part)


def _place(desk, which, host, height, girth):
    """Place a kind of the catalogue on any host."""
    layout, _name = placed_new(
        desk.layout, _nth(list(catalogue().values()), which), _host(desk.layout, host, height, girth)
    )
    return layout


def _host(layout, which, height, girth):
    """A place on the mast half of the times, else on a spreader, a stay or a mount."""
    others = [offer for offer in offers(layout) if offer.on != MAST]
    offer = _nth(others, which // 2) if which % 2 else None
    if offer is None:
        return Place(from_masthead_mm=height, girth=read_around(girth))
    if offer.mount:
        return Place(on=offer.on, mount=offer.mount)
    return Place(on=offer.on, along_mm=round(height / 20.0, 2))


def _copy(desk, part, which):
    one = _nth(getattr(desk.layout, part), which)
    return one and copied(desk.layout, one.id)[0]


def _mirror(desk, part, which):
    one = _nth(getattr(desk.layout, part), which)
    return one and mirrored(desk.layout, one.id)


def _turn(desk, which, by):
    one = _nth(desk.layout.fittings, which)
    return one and turned(desk.layout, one.id, by)


def _rehang(desk, which, host, height, girth):
    """Hang a fitting that is there on another host."""
    one = _nth(desk.layout.fittings, which)
    return one and hung(desk.layout, one.id, _host(desk.layout, host, height, girth))


def _tick(desk, which, hole, step, ticked):
    one = _nth(desk.layout.fittings, which)
    return one and tick(desk.layout, one.id, hole, step, ticked=ticked)


def _found(desk, which, height, girth):
    one = _nth([f for f in desk.layout.fittings if f.on == MAST], which)
    around = girth and read_around(girth)
    built = AsBuilt(from_masthead_mm=height, girth=around, by="Ann", day=DAY)
    return one and found_at(desk.layout, one.id, built)


def _holed(desk, which):
    """A fitting with openings on the mast, as it is placed."""
    return _nth(
        [one for one in desk.scene.placed.values() if one.holes is not None and len(one.holes)], which
    )


def _drilled(desk, which, hole, along, around, diameter):
    """Record a hole as it was drilled, so far beside where it stands now."""
    placed = _holed(desk, which)
    if placed is None:
        return None
    i = (hole - 1) % len(placed.holes)
    girth, z = float(placed.holes.girth_mm[0, i]), float(placed.holes.z_mm[0, i])
    if math.isnan(girth):  # its drill passes beside the mast
        return None
    built = HoleBuilt(
        number=placed.holes.openings[i].number,
        from_masthead_mm=round(max(desk.scene.skin.length_mm - z + along, 0.0), 2),
        girth=Around(origin="aft", offset=round(girth + around, 2)), diameter_mm=diameter, by="Ann", day=DAY,
    )  # fmt: skip
    return hole_built(desk.layout, placed.id, built)


def _way_out(desk, which, hole, how):
    """Take one of the ways out of a hole that was drilled wrong, or take back that it was drilled."""
    placed = _nth([one for one in desk.scene.placed.values() if one.fitting.holes_built], which) or _holed(
        desk, which
    )
    if placed is None:
        return None
    layout, name = desk.layout, placed.id
    number = placed.fitting.holes_built[0].number if placed.fitting.holes_built else hole
    old = OldHole(
        id="hole", name="Wrong", from_masthead_mm=9000.0, girth="ahead", diameter_mm=5.0, state="filled"
    )
    return {
        "forget": lambda: forget_hole(layout, name, number),
        "fill": lambda: fill_hole(layout, name, number, old, again=True),
        "fill and leave out": lambda: fill_hole(layout, name, number, old, again=False),
        "leave out": lambda: leave_out(layout, name, hole),
        "enlarge": lambda: enlarge_hole(layout, name, number, Fastener(how="tapped", thread="M8")),
        "move off": lambda: move_off(layout, name, 15.0, [number], [old]),
    }[how]()


def _hang(desk, which, host, along):
    """Hang a fitting on a spreader or a stay, or on another's mount."""
    layout = desk.layout
    mounts = {kind.id: kind.mounts[0].name for kind in layout.kinds if kind.mounts}
    holders = [f for f in layout.fittings if f.kind in mounts]
    hosts = [*layout.spreaders, *layout.stays, *holders]
    on, kind = _nth(hosts, host), _nth(layout.kinds, which)
    if on is None or kind is None:
        return None
    where = {"mount": mounts[on.kind]} if isinstance(on, Fitting) else {"along_mm": along}
    item = Fitting(id=next_id(layout, "hung"), name="Hung", kind=kind.id, on=on.id, new=True, **where)
    return add(layout, "fittings", item)


def _add(desk, part, which, height, girth):
    layout = desk.layout
    name, around = next_id(layout, part), read_around(girth)
    side = _nth(["port", "starboard", "centre"], which)
    makers = {
        "holes": lambda: OldHole(id=name, name="Old", from_masthead_mm=height, girth=around),
        "spreaders": lambda: Spreader(id=name, name="Spreader", side=side, from_masthead_mm=height),
        "stays": lambda: Stay(
            id=name, name="Stay", role="lower", side=side,
            upper={"from_masthead_mm": height, "girth": around}, deck={"ahead_mm": 900.0, "above_mm": 0.0},
        ),
        "sails": lambda: Sail(id=name, name="Jib", role="headsail"),
        "poles": lambda: Pole(id=name, name="Pole", length_mm=4e3, ring_from_mm=9e3, ring_to_mm=15e3),
        "cables": lambda: Cable(id=name, name="Cable", new=True,
                                fitting=(f := _nth(layout.fittings, which)) and f.id),
        "halyards": lambda: Halyard(
            id=name, name="Line", rope_mm=10.0, inside="straight",
            points=[{"at": "sheave", "fitting": f.id} if (f := _nth(layout.fittings, which)) else
                    {"at": "sheave", "from_masthead_mm": 100.0},
                    {"at": "exit", "from_masthead_mm": height, "girth": around}],
        ),
    }  # fmt: skip
    return add(layout, part, makers[part]())


def _begin(desk, which, height, girth):
    """Add a thing as the window does: in pairs, with only what must be known of it."""
    layout, around = desk.layout, read_around(girth)
    ways = [
        lambda: adding.add_spreaders(layout, height),
        lambda: adding.add_strut(layout, height),
        lambda: adding.add_cable(layout),
        lambda: adding.add_conduit(layout),
        lambda: adding.add_old_hole(layout, height, around, None),
        lambda: adding.add_wall(layout, height, 4.0),
        lambda: adding.add_stretch(layout, "sleeve", height, height + 400.0),
        lambda: adding.add_halyard(layout, "Line", 10.0),
        lambda: adding.add_pole(layout, 4e3, 9e3, 15e3),
        *(partial(adding.add_stays, layout, role, height, around) for role in adding.names_of_stays()),
        *(partial(adding.add_sail, layout, role) for role in adding.names_of_sails()),
    ]
    return _nth(ways, which)()[0]


def _round(desk, part, which, girth, end):
    one = _nth(getattr(desk.layout, part), which)
    return one and at_girth(desk.layout, one.id, read_around(girth), end)


def _end(desk, which, height, end):
    one = _nth(desk.layout.stays, which)
    return one and end_at_height(desk.layout, one.id, height, end)


def _remove(desk, part, which):
    one = _nth(_items(desk.layout, part), which)
    return one and remove(desk.layout, one.id)


def _foot(desk, which, across, along):
    """Take the foot of the part in hand as the kind has it, of another size."""
    feet = {kind.id: kind.foot for kind in desk.layout.kinds if kind.foot}
    one = _nth([f for f in desk.layout.fittings if f.kind in feet], which)
    return one and confirm_foot(desk.layout, one.id, feet[one.kind].but(across_mm=across, along_mm=along))


def _accept(desk, which):
    found = _nth([f for f in desk.report.open if f.measure is None], which)
    return found and accept(
        desk.layout,
        Accepted(code=found.code, subjects=found.subjects, remark="Seen", day=DAY, measured=found.measured),
    )


def _reopen(desk, which):
    own = _nth(desk.layout.accepted, which)
    return own and open_again(desk.layout, own)


def _boat(desk, field, value):
    return desk.layout.but(boat=desk.layout.boat.but(**{field: value}))


def _mast(desk, field, value):
    """Change the rake, or the gooseneck, or forget what was known of the rest."""
    known = {"rake_deg": value, "gooseneck_mm": value and 10000.0 + value}
    layout = desk.layout
    if field == "conduits" and any(cable.conduit not in (None, "loose") for cable in layout.cables):
        return None
    return layout.but(mast=layout.mast.but(**{field: known.get(field)}))


def _wall(desk, which, thickness):
    mast = desk.layout.mast
    reading = Wall(from_masthead_mm=which * 300.0, thickness_mm=thickness)
    return desk.layout.but(mast=mast.but(walls=(*mast.walls, reading)))


def _limit(desk, value):
    own = LimitOverride(key="clearance.fitting", value=value, unit="mm", why="Measured so")
    others = tuple(o for o in desk.layout.limits if o.key != own.key)
    return desk.layout.but(limits=(*others, own))


_EDITS = {
    "move": _move,
    "nudge": _nudge,
    "change": _change,
    "place": _place,
    "copy": _copy,
    "mirror": _mirror,
    "turn": _turn,
    "rehang": _rehang,
    "tick": _tick,
    "found": _found,
    "drilled": _drilled,
    "way out": _way_out,
    "hang": _hang,
    "add": _add,
    "begin": _begin,
    "round": _round,
    "end": _end,
    "remove": _remove,
    "foot": _foot,
    "accept": _accept,
    "reopen": _reopen,
    "cut heel": lambda desk, by: cut_heel(desk.layout, by),
    "boat": _boat,
    "mast": _mast,
    "wall": _wall,
    "limit": _limit,
    "looked": lambda desk, part, none: looked(desk.layout, part, found_none=none),
}
