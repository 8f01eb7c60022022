"""The rows of the view "Aloft": air draught, weight, windage, balance, radar, antennas and sound signals."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from itertools import chain

from mastlayout.checks.tack import in_words
from mastlayout.figures import Figure
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene, masthead_first
from mastlayout.limits import limits_of
from mastlayout.ranges.air_draught import CASES, air_draught, top
from mastlayout.ranges.asks import Ask
from mastlayout.ranges.balance import balance, under_strop
from mastlayout.ranges.cable_loss import loss, power
from mastlayout.ranges.compass import may_turn
from mastlayout.ranges.drag import drag_figures
from mastlayout.ranges.mouth import arc_of, in_all, in_front
from mastlayout.ranges.own_radar import radar_table
from mastlayout.ranges.ring_words import sail_seen
from mastlayout.ranges.sails_before import beam_figure, sail_figure, sails_before, widest, widest_of_each
from mastlayout.ranges.sound import (
    EARS,
    at_ear,
    from_compass,
    is_sound,
    mouth,
    plate,
    required,
    required_off_axis,
)
from mastlayout.ranges.spacing import Ruled, beside_mast, job, pairs
from mastlayout.ranges.voltage import fed, lost
from mastlayout.ranges.weight import WHEN, weight_figures
from mastlayout.ui.heights.radar_rows import reflector_rows, shadow_rows
from mastlayout.ui.heights.row import Row
from mastlayout.words import _

# What a section tells of a scene whose things are called by names.
Section = Callable[[Scene, Mapping[str, str]], Iterable[Row]]


def sections() -> tuple[Section, ...]:
    """Return every section of the view, in its order."""
    return (
        _air,
        lambda scene, _names: _weight(scene),
        lambda scene, _names: _balance(scene),
        _antennas,
        lambda scene, _names: _fed(scene),
        lambda scene, _names: reflector_rows(scene),
        _radars,
        _sound,
    )


def _air(scene: Scene, names: Mapping[str, str]) -> Iterator[Row]:
    limits = limits_of(scene.layout)
    yield Row(_("Air draught"))
    for gear, load in CASES:
        after = air_draught(scene, limits, gear, load)
        highest = top(scene, limits, gear).id
        before = air_draught(scene, limits, gear, load, old_only=True)
        yield Row(_capital(after.name), before, after, None, names.get(highest, ""))


def _weight(scene: Scene) -> Iterator[Row]:
    yield Row(_("Weight and windage of what is mounted on the mast"))
    every = {when: weight_figures(scene, when) | drag_figures(scene, when) for when in WHEN}
    for key, change in every["change"].items():
        wind = "".join(_(", {knots} kn").format(knots=kn) for kn in ("20", "40") if f"_{kn}kn" in key)
        yield Row(_capital(change.name) + wind, every["before"].get(key), every["after"].get(key), change)


def _balance(scene: Scene) -> Iterator[Row]:
    yield Row(_("Lifting"))
    at = balance(scene)
    yield Row(_capital(at.name), None, at)
    for one, off in under_strop(scene, limits_of(scene.layout)):
        lies = Figure(_("from the balance point"), off, "mm", _("nearest of it"), _("geometry"))
        yield Row(_("A strop there would crush: {name}").format(name=one.fitting.name), None, lies)


def _antennas(scene: Scene, names: Mapping[str, str]) -> Iterator[Row]:
    yield Row(_("Antennas: power, and rules of spacing, which differ"))
    sends = {one.id for one in scene.placed.values() if job(one) == "sends"}
    for cable in scene.layout.cables:
        if cable.fitting in sends:
            percent, watts = power(scene, cable)
            for figure in (loss(scene, cable), percent, watts):
                yield Row(f"{cable.name}: {figure.name}", None, figure)
    for apart, ruled in chain(pairs(scene), beside_mast(scene)):
        for rule in ruled:
            both = _("{a} and {b}").format(a=names[apart.a], b=names[apart.b])
            met = _("met") if rule.met else _("not met")
            yield Row(f"{both}: {rule.name}", None, _of_rule(rule), None, met, rule.required_mm)


def _fed(scene: Scene) -> Iterator[Row]:
    """Yield what is lost of the voltage of each light; no heading where there is none."""
    cables = fed(scene)
    if cables:
        yield Row(_("Voltage at the lights"))
    for cable in cables:
        figure = lost(scene, cable)
        yield Row(f"{cable.name}: {figure.name}", None, figure)


def _of_rule(rule: Ruled) -> Figure:
    asked = {"required_mm": rule.required_mm}
    return Figure(rule.name, rule.measured_mm, "mm", _("at least what is asked"), rule.source, asked)


def _radars(scene: Scene, names: Mapping[str, str]) -> Iterator[Row]:
    """Yield what each radar sees, heeled too, what shadows it, and which sails its beam meets."""
    for row in radar_table(scene):
        yield Row(_("Own radar: {name}. Off when someone is aloft").format(name=row.name))
        for figure in row.figures.values():
            yield Row(_capital(figure.name), None, figure)
        for ask in row.asked:
            yield Row(_capital(ask.words), None, ask.figure, None, _of_ships(ask))
        yield from shadow_rows(scene, scene.placed[row.id], names)
        for one in widest_of_each(row.met):
            what = _("{sail}, {state}: in its beam").format(
                sail=one.state.sail.name, state=in_words(one.state)
            )
            yield Row(what, None, beam_figure(one), None, sail_seen(one))


def _of_ships(ask: Ask) -> str:
    """Say what is asked of ships' radars there, and whether it is met."""
    met = _("met") if ask.answer == "yes" else _("not met")
    return _("{met}: ships {asked:g}°").format(met=met, asked=ask.required)


def _sound(scene: Scene, names: Mapping[str, str]) -> Iterator[Row]:
    yield Row(_("Horn and hailer"))
    for one in (placed for placed in masthead_first(scene) if is_sound(placed)):
        ears = (at_ear(scene, one, ear) for ear in EARS)
        least = (required(scene, one), *required_off_axis(scene, one).values())
        for figure in (plate(one), *least, *ears, from_compass(scene, one)):
            yield Row(f"{one.fitting.name}: {figure.name}", None, figure)
        yield from _before_mouth(scene, one, names)
    turn = may_turn(scene)
    yield Row(_capital(turn.name), None, turn)


def _before_mouth(scene: Scene, placed: Placed, names: Mapping[str, str]) -> Iterator[Row]:
    """Yield what stands before a mouth: all together, each thing with what it takes, and the widest sail."""
    limits = limits_of(scene.layout)
    found = in_front(scene, placed, limits)
    total = in_all(found, placed)
    yield Row(f"{placed.fitting.name}: {total.name}", None, total, None, "" if found else _("nothing there"))
    for thing in found:
        yield Row(f"{names[thing.id]}: {thing.covered.name}", None, thing.covered)
        yield Row(f"{names[thing.id]}: {thing.taken.name}", None, thing.taken, None, _reason(thing.taken))
    sail = widest(sails_before(scene, mouth(placed), limits["sound.band"].value), *arc_of(placed))
    if sail is not None:
        covered = sail_figure(sail, *arc_of(placed))
        what = _("{horn}: {covered}").format(horn=placed.fitting.name, covered=covered.name)
        yield Row(
            what,
            None,
            covered,
            None,
            _("{sail}, {state}").format(sail=sail.state.sail.name, state=in_words(sail.state)),
        )


def _reason(figure: Figure) -> str:
    """Return why there is no figure, where nothing is missing."""
    none = figure.value is None and figure.missing is None
    return figure.formula.removeprefix(_("none: ")) if none else ""


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]
