"""The rules, one file for each family, in the order they run; and what no rule of this version asks."""

from mastlayout.checks import (
    aloft,
    cable,
    chafe,
    clearance,
    clew,
    cloth,
    hole_inside,
    holes,
    inside,
    known,
    lines,
    main,
    rig,
    sails,
    seat,
    swivel,
    tack,
)  # fmt: skip
from mastlayout.checks.rule import Rule, WholeRule

FITTING_RULES: tuple[Rule, ...] = (
    clearance.STAY,
    clearance.SPREADER,
    clearance.FITTING,
    clearance.ROOM,
    seat.OVER_TRACK,
    seat.OVER_HOLLOW,
    seat.WIDER,
    seat.MISSES,
    holes.SPACING,
    holes.FOOT_EDGE,
    holes.FOOT_IN_HAND,
    hole_inside.INSIDE,
    hole_inside.WALL,
    tack.TACK,
    clew.CLEW,
    main.CLOTH,
    main.CARRIED,
    lines.LINES,
    chafe.SCREWS,
)
WHOLE_RULES: tuple[WholeRule, ...] = (
    known.IN_SPACE,
    known.BEGUN,
    *rig.RULES,
    cable.ENTRIES,
    cable.FILL,
    sails.MEASURED,
    swivel.SWIVEL,
    *cloth.RULES,
    clew.KNOWN,
    *main.WHOLE,
    lines.KNOWN,
    *aloft.RULES,
    *inside.RULES,
    chafe.BOLTS,
)

__all__ = ["FITTING_RULES", "WHOLE_RULES", "Rule", "WholeRule"]
