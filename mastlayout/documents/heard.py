"""Antennas and sound signals as the command line prints them."""

from collections.abc import Iterator
from itertools import chain
from typing import Any

from mastlayout.checks.sentence import names_of
from mastlayout.documents.aloft import Written, figure_text
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene, masthead_first
from mastlayout.ranges.asked import Asked
from mastlayout.ranges.cable_loss import loss, power
from mastlayout.ranges.compass import may_turn
from mastlayout.ranges.heights import water_height
from mastlayout.ranges.reach import reaches
from mastlayout.ranges.sound import EARS, at_ear, from_compass, is_sound, plate, pointing, required
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
    return {
        "id": placed.id,
        "name": placed.fitting.name,
        "points_to_deg": written(pointing(placed)),
        "level_1m_db": written(plate(placed)),
        "least_level_1m_db": written(required(scene, placed)),
        "from_compass_mm": written(from_compass(scene, placed)),
        **{f"{ear}_db": written(at_ear(scene, placed, ear)) for ear in EARS},
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
    for cable in fed(scene):
        words = _("{cable}: {percent} of the voltage lost on the way")
        lines.append(words.format(cable=cable.name, percent=figure_text(lost(scene, cable), 1)))
    turn = may_turn(scene)
    lines.append(f"{turn.name[:1].upper()}{turn.name[1:]}: {figure_text(turn, 1)}")
    return "".join(f"{line}\n" for line in lines)
