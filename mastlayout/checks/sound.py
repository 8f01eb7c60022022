"""Horn and hailer: the whistle by length, where it points, how loud it is, its magnet and the compass."""

from collections.abc import Iterator

from mastlayout.checks.finding import Finding, Standing
from mastlayout.checks.rule import TOLERANCE_MM, Depends, WholeRule
from mastlayout.figures import Figure
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.limits import Limits
from mastlayout.model.fitting import Fitting
from mastlayout.model.measure import measure_of
from mastlayout.ranges.sound import (
    EARS,
    WHISTLE_FROM_M,
    at_ear,
    axis_deg,
    compass_height_mm,
    from_compass,
    is_sound,
    plate,
    points_ahead,
    required,
)  # fmt: skip

# A steering compass stands less than this above the deck beside the mast: common practice, no source.
_COMPASS_HIGH_MM = 1500.0
# Nor is the deck farther above the heel than this: a bound, used only where nobody measured it.
_DECK_HIGH_MM = 3500.0


def whistle(scene: Scene, _limits: Limits) -> Iterator[Finding]:
    """Say where no sound signal aloft is the whistle her length asks for; one that is serves.

    What points aft is for talking, and no whistle. Under 12 m none is asked, only some efficient sound.
    """
    length = scene.layout.boat.length_overall_mm
    every = [one for one in scene.placed.values() if is_sound(one) and points_ahead(one)]
    if length is not None and length < 1000.0 * WHISTLE_FROM_M:
        return
    asked = [(one, plate(one), required(scene, one)) for one in every]
    if any(_meets(own, need) for _one, own, need in asked):
        return
    for one, own, need in asked:
        missing = need.missing or own.missing
        if missing is not None and one.fitting.new:
            yield Finding("sound/level", "not checked", (one.id,), measure=missing, z_mm=one.z_mm)
        elif missing is None:
            yield Finding("sound/level", "caution", (one.id,), own.value, need.value, "dB", z_mm=one.z_mm)


def _meets(own: Figure, need: Figure) -> bool:
    return own.value is not None and need.value is not None and own.value >= need.value


def points(scene: Scene, limits: Limits) -> Iterator[Finding]:
    """Say where the only sound signal of a yacht of 12 m or more does not point straight ahead."""
    length, wanted = scene.layout.boat.length_overall_mm, limits["sound.axis"].value
    every = [one for one in scene.placed.values() if is_sound(one) and points_ahead(one)]
    if length is None or length < 1000.0 * WHISTLE_FROM_M or len(every) != 1:
        return
    bearing = axis_deg(every[0])
    off = min(bearing, 360.0 - bearing)
    if off > wanted:
        yield Finding(
            "sound/axis", "caution", (every[0].id,), off, wanted, "deg", "sound.axis", z_mm=every[0].z_mm
        )


def ears(scene: Scene, limits: Limits) -> Iterator[Finding]:
    """Say where it is too loud for the ears of those who stand there."""
    for one in scene.placed.values():
        heard = [at_ear(scene, one, ear) for ear in EARS if is_sound(one)]
        known = [(ear.value, ear.name) for ear in heard if ear.value is not None]
        if known:
            yield from _heard(one, *max(known), limits)


def _heard(one: Placed, decibel: float, where: str, limits: Limits) -> Iterator[Finding]:
    """Say how loud it is where it is loudest: too loud, or louder than it should be."""
    grades: tuple[tuple[str, Standing, str], ...] = (
        ("sound/ears", "caution", "sound.most"),
        ("sound/loud", "note", "sound.wanted"),
    )
    for code, standing, key in grades:
        if decibel > limits[key].value:
            yield Finding(
                code, standing, (one.id,), decibel, limits[key].value, "dB", key, z_mm=one.z_mm, state=where
            )
            return


def compass(scene: Scene, limits: Limits) -> Iterator[Finding]:
    """Say whose magnet stands nearer the steering compass than its plate allows.

    The plate is asked first; where it is not known nobody is asked for it while the compass is farther
    off than the largest figure in print.
    """
    height_mm, far_mm = compass_height_mm(scene), limits["compass.far"].value
    if height_mm is None:
        deck = scene.layout.boat.deck_above_heel_mm
        height_mm = (_DECK_HIGH_MM if deck is None else deck) + _COMPASS_HIGH_MM
    for one in scene.placed.values():
        if one.kind.group not in ("sound", "radar"):
            continue
        safe = one.fitting.compass_safe_mm
        # What is as far above the compass is farther off still: most of it is, and need not be measured.
        if one.span_z_mm[0] - height_mm < (far_mm if safe is None else safe):
            yield from _compass(scene, one, far_mm)


def _compass(scene: Scene, one: Placed, far_mm: float) -> Iterator[Finding]:
    safe, off = one.fitting.compass_safe_mm, from_compass(scene, one)
    if off.value is None:
        yield Finding("sound/compass", "not checked", (one.id,), measure=off.missing, z_mm=one.z_mm)
    elif safe is None:
        if off.value < far_mm:
            measure = measure_of(Fitting, "compass_safe_mm").key
            yield Finding("sound/compass", "not checked", (one.id,), measure=measure, z_mm=one.z_mm)
    elif off.value < safe - TOLERANCE_MM:
        yield Finding("sound/compass", "fault", (one.id,), off.value, safe, z_mm=one.z_mm)


_READS: frozenset[Depends] = frozenset({"mast", "boat", "fittings", "limits"})
WHISTLE = WholeRule("sound/level", _READS, whistle)
AXIS = WholeRule("sound/axis", _READS, points)
AT_EARS = WholeRule("sound/ears", _READS, ears)
COMPASS = WholeRule("sound/compass", _READS, compass)
RULES = (WHISTLE, AXIS, AT_EARS, COMPASS)
