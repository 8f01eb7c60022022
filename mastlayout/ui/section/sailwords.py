"""What a headsail does at a height, in words: its call-outs, its sentences, and the live distance."""

from collections.abc import Iterator

from mastlayout.checks.sailed import Sailed
from mastlayout.checks.sentence import names_of
from mastlayout.checks.tack import in_words
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.tack.standing import apart
from mastlayout.ui.section.callouts import CallOut
from mastlayout.ui.section.drawing import Drawing
from mastlayout.ui.section.sails import arrow_px, luff_px, stand_line, stand_role
from mastlayout.ui.section.words import touched_words
from mastlayout.units import Units, write_length
from mastlayout.words import _

# What a fitting does among sails stays when room is short; whose luff it is goes before what runs inside.
_STAND, _LUFF = 0, 3
_TOUCHES_MM = 0.01


def sail_name(sailed: Sailed) -> str:
    """Call a sail in its state: "Genoa: full, luff sagged"."""
    return _("{sail}: {state}").format(sail=sailed.cloth.sail.name, state=in_words(sailed.cloth))


def sail_callouts(made: Drawing, scene: Scene, units: Units) -> Iterator[CallOut]:
    """Yield the call-outs of the sail that is drawn: its luff, and how what is in hand stands to it."""
    sailed = made.sailed
    if sailed is None:
        return
    at = luff_px(sailed, made.plan)
    if not made.area.contains(at):
        at = arrow_px(sailed, made.plan, made.area)
    yield CallOut("", luff_words(sailed, units), at, _LUFF)
    line = stand_line(made)
    if line is not None and sailed.stand is not None:
        value = write_length(abs(sailed.stand.clear_mm), units)
        value = f"\u2212{value}" if sailed.stand.clear_mm < 0 else value
        middle = (line[0] + line[1]) / 2
        yield CallOut("", stand_words(sailed, scene), middle, _STAND, stand_role(sailed), value)


def luff_words(sailed: Sailed, units: Units) -> str:
    """Return whose luff it is and how far ahead of the mast's axis."""
    ahead = write_length(float(sailed.swept.luff[0]), units).replace(" ", "\u00a0")
    sail = sailed.cloth.sail.name.replace(" %", "\u00a0%")
    return _("luff of {sail}, {ahead}\u00a0ahead").format(sail=sail, ahead=ahead)


def state_words(sailed: Sailed | None) -> str:
    """Return which state of the sail is drawn; "" where it is the plain one, full on a straight luff."""
    if sailed is None:
        return ""
    cloth = sailed.cloth
    plain = cloth.reef is None and not cloth.hoisting and not cloth.sagged
    return "" if plain else sail_name(sailed)


def stand_words(sailed: Sailed, scene: Scene) -> str:
    """Return in a few words how what is in hand stands to the sail at this height."""
    there, sail = sailed.stand, sailed.cloth.sail.name
    if there is None:
        return ""
    if there.clear_mm < 0:
        words = _("{sail} bears on it") if there.bears else _("{sail} whips it")
        return touched_words(sailed.finding, sail) if sailed.finding else words.format(sail=sail)
    guards = [guard.id for guard in sailed.guards if guard.id in sailed.swept.holders]
    if guards and there.behind:
        name = names_of(scene.layout)[guards[0]]
        return _("behind {guard}").format(guard=name)
    return (_("inside what {sail} reaches") if there.behind else _("short of it {sail} ends")).format(
        sail=sail
    )


def sail_description(sailed: Sailed | None, scene: Scene, units: Units) -> str:
    """Return what the sail does there as sentences, for those who do not see it."""
    if sailed is None:
        return ""
    names = names_of(scene.layout)
    said = [sail_name(sailed), luff_words(sailed, units)]
    if sailed.swept.holders:
        held = ", ".join(names.get(name, name) for name in sailed.swept.holders)
        said.append(_("it is held off by {names}").format(names=held))
    if sailed.stand is not None:
        value = write_length(abs(sailed.stand.clear_mm), units)
        said.append(f"{stand_words(sailed, scene)}, {value}")
    return " ".join(f"{words[:1].upper()}{words[1:]}." for words in said)


def carried_words(sailed: Sailed | None, part: float, units: Units) -> str:
    """Return how far the cloth, carried across by a part of the way, passes from what is in hand."""
    if sailed is None:
        return _("no headsail here")
    swept = sailed.swept
    off = apart(swept.cloth(swept.angle(part)), sailed.outlines)
    if off is None:
        return ""
    return _("touches it") if off < _TOUCHES_MM else _("{m} from it").format(m=write_length(off, units))
