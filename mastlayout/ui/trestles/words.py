"""The words of the trestles: hands, ends, faces, and one hole's place as the person reads it."""

from mastlayout.documents.drillcells import from_track_edge
from mastlayout.documents.faces import face_words
from mastlayout.documents.rows import DrillBlock, HoleRow
from mastlayout.geometry.frames import End, Face, Hand, Reading
from mastlayout.ui.tapewords import grouped
from mastlayout.ui.trestles.lie import Lie
from mastlayout.ui.trestles.walk import Walk, WalkHole
from mastlayout.units import Units, write_drill
from mastlayout.words import _, ngettext


def end_words(end: End) -> str:
    """Return an end in capitals."""
    return _("HEEL") if end == "heel" else _("MASTHEAD")


def hand_words(hand: Hand) -> str:
    """Return a hand in capitals."""
    return _("LEFT") if hand == "left" else _("RIGHT")


def side_words(side: Face) -> str:
    """Return a side of the mast in capitals."""
    return face_words(side).side


def hand_head(lie: Lie, hand: Hand) -> str:
    """Return what stands on a hand over the whole mast: LEFT HAND: STARBOARD."""
    words = _("LEFT HAND:  {side}") if hand == "left" else _("RIGHT HAND:  {side}")
    return words.format(side=side_words(lie.side(hand)))


def edge_words(lie: Lie, hand: Hand) -> str:
    """Return what stands on an edge of the face: STARBOARD, your left hand."""
    words = _("{side}, your left hand") if hand == "left" else _("{side}, your right hand")
    return words.format(side=side_words(lie.side(hand)))


def stand_words(end: End) -> str:
    """Return where one stands, in two lines."""
    if end == "heel":
        return _("you stand at the heel,\nlooking to the masthead")
    return _("you stand at the masthead,\nlooking to the heel")


def line_words(lie: Lie) -> str:
    """Return the name of the line that is up, "" where none is."""
    return {"forward": _("forward centreline"), "aft": _("middle of the track")}.get(lie.face, "")


def number(reading: Reading, value: int) -> str:
    """Write one of a reading's numbers."""
    return grouped(value) if reading.units == "metric" else reading.text(value)


def together_words(reading: Reading) -> str:
    """Return the sum of the two readings: a wrong tape shows at once."""
    return _("together {total}").format(total=number(reading, reading.total))


def place_words(hole: WalkHole) -> str:
    """Return where in its foot a hole is."""
    row = hole.row
    words = []
    if row.fastener == _("cable entry"):
        words.append(_("cable entry"))
    if row.round.side:
        words.append(_("starboard") if row.round.side == "starboard" else _("port"))
    if abs(row.at[1]) >= 0.5:
        words.append(_("masthead side") if row.at[1] > 0 else _("heel side"))
    return ", ".join(words) or _("middle of the foot")


def girth_number(block: DrillBlock, row: HoleRow) -> str:
    """Return how far round a hole is from the line it is marked from; "" on that line."""
    if row.round.side is None:
        return ""
    value = row.round.track_edge if from_track_edge(block) else row.round.forward
    return row.round.text(value).removesuffix(".0")


def girth_side(lie: Lie, block: DrillBlock, row: HoleRow) -> str:
    """Return to which side of its line a hole lies, in the hand's word too."""
    side = row.round.side
    if side is None:
        return _("on the track's middle") if block.face == "aft" else _("ON THE FORWARD CENTRELINE")
    hand = lie.hand(side)
    if hand is None:  # the side is up, or down: one measures away from the edge that the forward line is
        forward = lie.hand("forward")
        other: Hand = "right" if forward == "left" else "left"
        words = _("to {side}: towards your {hand} hand")
        return words.format(
            side=side_words(side), hand=hand_words(other if side == lie.face else forward or other)
        )
    return _("to {side}: your {hand} hand").format(side=side_words(side), hand=hand_words(hand))


def girth_from(block: DrillBlock, row: HoleRow) -> tuple[str, str]:
    """Return from where the girth counts, and the second reading from the other line."""
    track = block.half_track is not None
    if row.round.side is None:
        second = _("{edge} from either edge of the track").format(edge=_edge(row)) if track else ""
        return "", second
    if from_track_edge(block):
        line = row.round.text(row.round.forward).removesuffix(".0")
        return (
            _("from the edge of the track, along the skin"),
            _("or {line} from the forward centreline").format(line=line),
        )
    second = _("or {edge} from the edge of the track").format(edge=_edge(row)) if track else ""
    return _("from the forward centreline, along the skin"), second or _("track not measured")


def _edge(row: HoleRow) -> str:
    return row.round.text(row.round.track_edge).removesuffix(".0")


def drill_head(row: HoleRow, units: Units) -> str:
    """Return the drill in large type."""
    if row.wall_missing:
        return _("No drill: wall first")
    if row.drill_mm is None:
        return _("No drill")
    return _("Drill {size}").format(size=write_drill(row.drill_mm, units))


def roll_words(lie: Lie, walk: Walk) -> str:
    """Return which way the mast is rolled after this face."""
    face, others = walk.next_face, [own for own in walk.faces if own != walk.face]
    if not others:
        return _("No other face has holes.")
    title = face_words(face).title
    hand = lie.hand(face)
    if hand is None:
        return _("Then half a turn: {face}.").format(face=title.lower())
    words = _("Then a quarter turn: what is on your {hand} hand comes up ({face}).")
    return words.format(hand=hand_words(hand), face=title.lower())


def counts_words(walk: Walk) -> str:
    """Return how many holes are done, to drill and held back."""
    return _("{done} done, {todo} to drill, {held} held back").format(
        done=walk.count("done"), todo=walk.count("to drill"), held=walk.count("held")
    )


def title_words(walk: Walk) -> str:
    """Return the head of the list: the face and its holes."""
    many = len(walk.holes)
    holes = ngettext("{n} hole", "{n} holes", many).format(n=many)
    return _("{face}: {holes}").format(face=face_words(walk.face).title, holes=holes)
