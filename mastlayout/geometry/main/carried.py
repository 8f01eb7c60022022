"""What a mainsail carries along its track over the whole hoist: its headboard, and its batten receptacles."""

from collections.abc import Iterator, Sequence
from typing import Literal

from mastlayout.frozen import dataclass
from mastlayout.geometry.main.cloth import Swung
from mastlayout.model.measure import Measure, measure_of
from mastlayout.model.sails import Sail


@dataclass(frozen=True, eq=False)
class Carried:
    """A board on the track that swings with the cloth: its length abaft it, half its thickness, and ahead.

    It is carried from ``low_mm`` to ``high_mm``, and swings up to ``angle``, radians from straight aft.
    """

    sail: Sail
    what: Literal["headboard", "receptacle", "car", "folds"]
    length_mm: float
    half_mm: float
    ahead_mm: float
    low_mm: float
    high_mm: float
    angle: float

    @property
    def reach_mm(self) -> float:
        """How far from the track any of it comes."""
        return max(self.length_mm + self.half_mm, self.ahead_mm)


def carried(sail: Sail, states: Sequence[Swung], thick_mm: float) -> Iterator[Carried]:
    """Yield what of a mainsail is carried along the track, as far as it was measured."""
    for state in states:
        if not state.state.hoisting:
            continue
        way = (state.low_mm, state.head_mm, state.boom + state.twist)
        if sail.head_width_mm is not None and sail.headboard_ahead_mm is not None:
            yield Carried(sail, "headboard", sail.head_width_mm, thick_mm / 2, sail.headboard_ahead_mm, *way)
        if sail.battens_full and sail.receptacle is not None:
            # How wide it is across nobody measures: it is taken as wide as high.
            aft, high = sail.receptacle
            yield Carried(sail, "receptacle", aft, high / 2, 0.0, *way)
        if sail.car_across_mm is not None:
            # However it turns on its track, it stays within half its width of the luff.
            half = sail.car_across_mm / 2
            yield Carried(sail, "car", 0.0, half, half, *way)


def missing_of_carried(sail: Sail) -> tuple[Measure, ...]:
    """Return the measures without which nobody knows what is carried along the track."""
    lacks = {
        "headboard_ahead_mm": sail.head_width_mm is None or sail.headboard_ahead_mm is None,
        "receptacle": bool(sail.battens_full) and sail.receptacle is None,
        "car_across_mm": sail.car_across_mm is None,
    }
    return tuple(measure_of(Sail, name) for name, lacking in lacks.items() if lacking)
