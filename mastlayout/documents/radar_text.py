"""What a person reads of reflectors and the own radar on the command line."""

from collections.abc import Iterable, Iterator

from mastlayout.checks.tack import in_words
from mastlayout.figures import Figure
from mastlayout.ranges.asks import Ask
from mastlayout.ranges.own_radar import RadarRow
from mastlayout.ranges.reflector import ForShip, ReflectorRow
from mastlayout.ranges.ring_words import sail_seen
from mastlayout.ranges.sails_before import widest_of_each
from mastlayout.words import _


def radar_text(reflectors: Iterable[ReflectorRow], radars: Iterable[RadarRow]) -> str:
    """Return a block for each reflector and radar: what is asked and met, what ships see, what it sees."""
    blocks = [*map(_reflector, reflectors), *map(_radar, radars)]
    return "".join("\n" + "\n".join(block) + "\n" for block in blocks)


def _reflector(row: ReflectorRow) -> list[str]:
    lines = [_("{name}: what MSC.164(78) and ISO 8729 ask").format(name=row.name)]
    lines += [f"  {ask.answer:<8} {_asked(ask)}" for ask in row.asked]
    lines += [f"  {line}" for line in map(_ship, row.ships)]
    return [*lines, _("  No reflector is a promise of being seen.")]


def _asked(ask: Ask) -> str:
    bound = _("at most") if ask.most else _("at least")
    # Its papers may say nothing where its corners alone show that it cannot.
    unsaid = _("by its corners not") if ask.answer == "no" else _("not known")
    found = unsaid if ask.figure.value is None else _written(ask.figure)
    words = _("{what}: {bound} {required:g} {unit}, here {found}")
    said = {"what": ask.words, "bound": bound, "required": ask.required}
    return words.format(unit=ask.figure.unit, found=found, **said).replace(" °", "°")


def _ship(ship: ForShip) -> str:
    words = _(
        "A ship's radar at {antenna:g} m: horizon {horizon}, "
        "first seen {first}, in S band {slow} (estimate), "
        "fades {fades}"
    )
    many = [f"{fade.from_nm:.1f}–{fade.to_nm:.1f}" for fade in ship.fades or () if not fade.horizon]
    fades = ", ".join(many[-3:]) + " NM" if many else _("none")
    if ship.fades is None:
        fades = _("not known")
    elif len(many) > len(many[-3:]):
        fades = _("… {fades}").format(fades=fades)
    return words.format(
        antenna=ship.antenna_m, horizon=_written(ship.horizon), first=_written(ship.first_seen),
        slow=_written(ship.first_seen_s), fades=fades,
    )  # fmt: skip


def _radar(row: RadarRow) -> Iterator[str]:
    yield _("{name}: what it sees").format(name=row.name)
    for figure in row.figures.values():
        # A figure that is none for a reason has it as its formula.
        none = figure.value is None and figure.missing is None
        yield f"  {figure.name}: {figure.formula if none else _written(figure)}".replace(" °", "°")
    for one in widest_of_each(row.met):
        words = _("  {sail}, {state}: in its beam {seen}")
        yield words.format(sail=one.state.sail.name, state=in_words(one.state), seen=sail_seen(one))
    yield _("  What IMO SN.1/Circ.271 asks of ships' radars, advice for a yacht:")
    for ask in row.asked:
        yield f"  {ask.answer:<8} {_asked(ask)}"
    yield _("  Off when someone is aloft.")


def _written(figure: Figure) -> str:
    return _("not known") if figure.value is None else f"{figure.value:.1f} {figure.unit}".replace(" °", "°")
