"""A cable's entry against the slots of its conduit: those that are there, and those still to be cut."""

from collections.abc import Iterator

import numpy as np

from mastlayout.checks.finding import Finding
from mastlayout.checks.rule import TOLERANCE_MM
from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, height_mm
from mastlayout.geometry.lines import leg_distance
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.limits import Limits
from mastlayout.model.fitting import IN_HAND, Cable
from mastlayout.model.mast import Conduit, Slot
from mastlayout.model.measure import measure_of

# How far an entry's drill is followed for the conduit it may open: no pipe lies deeper behind the wall.
_THROUGH_MM = 60.0


@dataclass(frozen=True)
class Entering:
    """A cable's entry, how high it is, and the conduit the cable goes into."""

    cable: Cable
    placed: Placed
    pipe: Conduit
    z_mm: float

    @property
    def ids(self) -> tuple[str, str]:
        """Fitting and conduit, as findings name them."""
        return self.placed.id, self.pipe.id


def of_slot(scene: Scene, cable: Cable, placed: Placed, limits: Limits) -> Iterator[Finding]:
    """Ask whether a cable's entry is level with a slot of its conduit, and whether that lets it through."""
    if cable.conduit is None:
        missing = measure_of(Cable, "conduit").key
        yield Finding("cable/slot", "not checked", (placed.id, cable.id), measure=missing, z_mm=placed.z_mm)
    pipe = next((pipe for pipe in scene.layout.mast.conduits or () if pipe.id == cable.conduit), None)
    if pipe is None:
        return
    heights = entry_heights(placed)
    one = Entering(cable, placed, pipe, (heights or [placed.z_mm])[0])
    past, slot = _nearest(scene, one)
    if slot is not None and slot.new and heights and placed.foot_known and past <= limits["cable.slot"].value:
        yield from _planned(scene, one, slot)
        yield from _length(one, slot, limits)
    elif not _looked_for(pipe):
        missing = measure_of(Conduit, "slots").key
        yield Finding("cable/slot", "not checked", one.ids, measure=missing, z_mm=one.z_mm)
    elif not heights:
        # It enters from a spreader or from the masthead: where, the layout does not say.
        return
    elif not placed.foot_known:
        yield Finding("cable/slot", "not checked", one.ids, measure=IN_HAND.key, z_mm=one.z_mm)
    elif past > limits["cable.slot"].value:
        measured = past if pipe.slots else None
        yield Finding("cable/slot", "caution", one.ids, measured, 0.0, limit="cable.slot", z_mm=one.z_mm)
    elif slot is not None:
        yield from _length(one, slot, limits)


def _looked_for(pipe: Conduit) -> bool:
    """Tell whether somebody looked for slots: a plan for new ones alone says nothing of those there are."""
    return pipe.slots is not None and (not pipe.slots or not all(slot.new for slot in pipe.slots))


def _nearest(scene: Scene, one: Entering) -> tuple[float, Slot | None]:
    """Return the slot nearest along the mast to an entry, and how far past its ends that is."""
    length = scene.skin.length_mm
    found = [
        (abs(one.z_mm - height_mm(length, slot.from_masthead_mm)) - slot.length_mm / 2, slot)
        for slot in one.pipe.slots or ()
    ]
    return min(found, key=lambda other: other[0], default=(float("inf"), None))


def _planned(scene: Scene, one: Entering, slot: Slot) -> Iterator[Finding]:
    """A slot still to be cut: a note how it is cut, a fault where its conduit does not run."""
    runs = [(run.from_masthead_mm, run.to_mm) for run in one.pipe.runs]
    half = slot.length_mm / 2
    beyond = min(
        (
            max(low - (slot.from_masthead_mm - half), slot.from_masthead_mm + half - high)
            for low, high in runs
        ),
        default=np.inf,
    )
    if beyond > TOLERANCE_MM:
        yield Finding("cable/slot-past", "fault", one.ids, -float(beyond), 0.0, z_mm=one.z_mm)
        return
    hint = "slot-through" if _opens(scene, one) else "slot-outside"
    yield Finding("cable/slot-new", "note", one.ids, z_mm=one.z_mm, hint=hint)


def _opens(scene: Scene, one: Entering) -> bool:
    """Tell whether the entry's own drill, gone on, opens the conduit in the middle of its near side."""
    holes = one.placed.holes
    if holes is None:
        return False
    (i,) = [i for i, opening in enumerate(holes.openings) if opening.use == "entry"][:1]
    start: Array = holes.point[:, i]
    end = start + _THROUGH_MM * holes.direction[:, i]
    for thing in scene.conduits:
        if thing.id == one.pipe.id and thing.z_low_mm <= one.z_mm <= thing.z_high_mm and len(thing.start):
            apart, _where = leg_distance(start[:, None], end[:, None], thing.start, thing.end)
            return bool(np.nanmin(apart) < thing.radius_mm / 2)
    return False


def _length(one: Entering, slot: Slot, limits: Limits) -> Iterator[Finding]:
    """A slot shorter than its cable is wide lets it through at no slant: a caution."""
    wide = one.cable.outside_mm
    if wide is None:
        return
    wanted = wide + limits["cable.entry"].value
    if slot.length_mm < wanted - TOLERANCE_MM:
        yield Finding(
            "cable/slot-short", "caution", one.ids, slot.length_mm, wanted, limit="cable.entry", z_mm=one.z_mm
        )


def entry_heights(placed: Placed) -> list[float]:
    """Return how high above the heel a fitting's cable entries are; none for what has none on the mast."""
    if placed.holes is None:
        return []
    return [
        float(placed.holes.z_mm[0, i])
        for i, opening in enumerate(placed.holes.openings)
        if opening.use == "entry"
    ]
