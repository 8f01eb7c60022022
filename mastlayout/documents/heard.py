"""Antennas and sound signals as the command line prints them."""

from collections.abc import Iterator
from itertools import chain
from typing import Any

from mastlayout.checks.sentence import names_of
from mastlayout.checks.tack import in_words
from mastlayout.documents.aloft import Written, figure_text
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene, masthead_first
from mastlayout.limits import limits_of
from mastlayout.ranges.asked import Asked
from mastlayout.ranges.cable_loss import loss, power
from mastlayout.ranges.compass import may_turn
from mastlayout.ranges.heights import water_height
from mastlayout.ranges.mouth import arc_of, in_all, in_front
from mastlayout.ranges.reach import reaches
from mastlayout.ranges.ring_words import between
from mastlayout.ranges.sails_before import (
    FORMULA,
    SOURCE,
    SailBefore,
    heights_from_masthead,
    sails_before,
    widest,
)
from mastlayout.ranges.sound import (
    EARS,
    at_ear,
    from_compass,
    is_sound,
    mouth,
    plate,
    pointing,
    required,
    required_off_axis,
)
from mastlayout.ranges.spacing import Apart, beside_mast, job, middle_z_mm, pairs, reaches_of
from mastlayout.ranges.voltage import fed, lost
from mastlayout.words import _

_RADIO = ("radio_horizon_nm", "radio_line_of_sight_nm")


def heard_json(scene: Scene, asked: Asked, written: Written) -> dict[str, Any]:
    """Return the sections on antennas, what stands near them, and sound signals."""
    return {
        "antennas": [_antenna(scene, asked, written, one) for one in _sending(scene)],
        "antennas_apart": [
            {
                "ids": [apart.a, apart.b],
                "level_mm": apart.level_mm,
                "plumb_mm": apart.plumb_mm,
                "formula": _("level: from middle to middle, from a mast its skin; plumb: from end to end"),
                "source": _("geometry"),
                "inputs": _ends(scene, apart),
                "rules": [
                    {
                        "rule": rule.name,
                        "required_mm": rule.required_mm,
                        "measured_mm": rule.measured_mm,
                        "met": rule.met,
                        "source": rule.source,
                    }
                    for rule in ruled
                ],
            }
            for apart, ruled in chain(pairs(scene), beside_mast(scene))
        ],
        "lights_fed": [
            {"id": cable.id, "light": cable.fitting, "voltage_lost_percent": written(lost(scene, cable))}
            for cable in fed(scene)
        ],
        "compass": {"may_turn_deg": written(may_turn(scene))},
        "sound": [_sound(scene, written, one) for one in masthead_first(scene) if is_sound(one)],
    }


def _ends(scene: Scene, apart: Apart) -> dict[str, float]:
    """Return where two antennas stand; of a mast nothing, its skin is asked."""
    return {
        f"{which}_{key}": value
        for which, own in (("a", apart.a), ("b", apart.b))
        if own in scene.placed
        for key, value in reaches_of(scene.placed[own]).items()
    }


def _sending(scene: Scene) -> Iterator[Placed]:
    return (one for one in masthead_first(scene) if job(one) == "sends")


def _antenna(scene: Scene, asked: Asked, written: Written, placed: Placed) -> dict[str, Any]:
    water = water_height(scene, middle_z_mm(placed), asked)
    far = reaches(water, asked)
    return {
        "id": placed.id,
        "name": placed.fitting.name,
        "middle_above_water_m": written(water),
        **{key: written(far[key]) for key in _RADIO},
        "cables": [
            {
                "id": cable.id,
                "loss_db": written(loss(scene, cable)),
                "arrives_percent": written(power(scene, cable)[0]),
                "arrives_of_25_w": written(power(scene, cable)[1]),
            }
            for cable in scene.layout.cables
            if cable.fitting == placed.id
        ],
    }


def _sound(scene: Scene, written: Written, placed: Placed) -> dict[str, Any]:
    limits = limits_of(scene.layout)
    before = in_front(scene, placed, limits)
    return {
        "id": placed.id,
        "name": placed.fitting.name,
        "points_to_deg": written(pointing(placed)),
        "level_1m_db": written(plate(placed)),
        "least_level_1m_db": written(required(scene, placed)),
        **{key: written(own) for key, own in required_off_axis(scene, placed).items()},
        "from_compass_mm": written(from_compass(scene, placed)),
        **{f"{ear}_db": written(at_ear(scene, placed, ear)) for ear in EARS},
        "before_its_mouth": [
            {
                "id": thing.id,
                "seen_from_deg": thing.seen[0] % 360.0,
                "seen_to_deg": thing.seen[1] % 360.0,
                "share_percent": 100.0 * thing.share,
                "formula": thing.covered.formula,
                "source": thing.covered.source,
                "inputs": dict(thing.covered.inputs),
                "covered_deg": written(thing.covered),
                "taken_db": written(thing.taken),
            }
            for thing in before
        ],
        "covered_deg": written(in_all(before, placed)),
        "sails_before_its_mouth": [
            sail_json(scene, one) | {"covered_deg": one.covers_deg(*arc_of(placed))}
            for one in sails_before(scene, mouth(placed), limits["sound.band"].value)
        ],
    }


def sail_json(scene: Scene, one: SailBefore) -> dict[str, Any]:
    """Return one state of a sail before a mouth or in a beam: bearings on either tack, and heights."""
    upper, lower = heights_from_masthead(scene, one)
    first, last = one.seen
    return {
        "id": one.state.sail.id,
        "state": in_words(one.state),
        "from_deg": first % 360.0,
        "to_deg": last % 360.0,
        "all_round": one.all_round,
        "from_masthead_mm": [upper, lower],
        "formula": FORMULA,
        "source": SOURCE,
        "inputs": {"luff_deg": one.luff_deg, "port_deg": one.port_deg, "starboard_deg": one.starboard_deg},
    }


def heard_text(scene: Scene) -> str:
    """Return the same in lines for a person."""
    lines = []
    for placed in _sending(scene):
        for cable in (own for own in scene.layout.cables if own.fitting == placed.id):
            percent, watts = power(scene, cable)
            words = _("{name}, {cable}: {loss} lost; {percent} arrives, {watts} of 25 W")
            figures = (loss(scene, cable), percent, watts)
            told = dict(
                zip(("loss", "percent", "watts"), (figure_text(one, 1) for one in figures), strict=True)
            )
            lines.append(words.format(name=placed.fitting.name, cable=cable.name, **told))
    names = names_of(scene.layout)
    for apart, ruled in chain(pairs(scene), beside_mast(scene)):
        for rule in ruled:
            met = _("met") if rule.met else _("not met")
            words = _("{a} and {b}: {m:.0f} mm, {rule}: {r:.0f} mm asked, {met} ({source})")
            lines.append(
                words.format(
                    a=names[apart.a], b=names[apart.b], m=rule.measured_mm, rule=rule.name,
                    r=rule.required_mm, met=met, source=rule.source,
                )
            )  # fmt: skip
    for placed in (one for one in masthead_first(scene) if is_sound(one)):
        ears = ", ".join(
            f"{figure_text(at_ear(scene, placed, ear), 0)} {at_ear(scene, placed, ear).name}" for ear in EARS
        )
        words = _("{name}: {level} at 1 m, {least} asked of a whistle; {ears}")
        told = {"level": figure_text(plate(placed), 0), "least": figure_text(required(scene, placed), 0)}
        lines.append(words.format(name=placed.fitting.name, ears=ears, **told))
        lines += _before_mouth(scene, placed)
    for cable in fed(scene):
        words = _("{cable}: {percent} of the voltage lost on the way")
        lines.append(words.format(cable=cable.name, percent=figure_text(lost(scene, cable), 1)))
    turn = may_turn(scene)
    lines.append(f"{turn.name[:1].upper()}{turn.name[1:]}: {figure_text(turn, 1)}")
    return "".join(f"{line}\n" for line in lines)


def _before_mouth(scene: Scene, placed: Placed) -> Iterator[str]:
    """Yield what stands before a mouth, and the sail that covers most of it."""
    limits, names = limits_of(scene.layout), names_of(scene.layout)
    before = in_front(scene, placed, limits)
    if not before:
        yield _("  nothing stands before its mouth")
    for thing in before:
        words = _("  {thing} before its mouth, {seen}: {covered} of the 90°; {taken}")
        taken = thing.taken.formula if thing.taken.value is None and thing.taken.missing is None else None
        yield words.format(
            thing=names[thing.id],
            seen=between(thing.seen),
            covered=figure_text(thing.covered, 1).replace(" °", "°"),
            taken=taken or _("{db} taken right behind it").format(db=figure_text(thing.taken, 1)),
        )
    one = widest(sails_before(scene, mouth(placed), limits["sound.band"].value), *arc_of(placed))
    if one is not None:
        words = _("  {sail}, {state}: cloth before its mouth on the lee side, {covered:.0f}° of the 90°")
        covered = one.covers_deg(*arc_of(placed))
        yield words.format(sail=one.state.sail.name, state=in_words(one.state), covered=covered)
