"""Air draught, weight, windage and balance point as the command line prints them."""

from collections.abc import Callable
from typing import Any

from mastlayout.figures import Figure
from mastlayout.geometry.scene import Scene
from mastlayout.limits import limits_of
from mastlayout.ranges.air_draught import CASES, air_draught, top
from mastlayout.ranges.balance import balance, under_strop
from mastlayout.ranges.drag import areas_m2, drag_figures
from mastlayout.ranges.weight import WHEN, Share, shares, unweighed, weight_figures
from mastlayout.words import _

# How one figure is written, working and all.
Written = Callable[[Figure], dict[str, Any]]


def aloft_json(scene: Scene, written: Written) -> dict[str, Any]:
    """Return the sections on air draught, weight aloft and balance point."""
    limits = limits_of(scene.layout)
    return {
        "air_draught": {
            f"{gear}_{load}_m": written(air_draught(scene, limits, gear, load))
            | {
                "highest": top(scene, limits, gear).id,
                "before": written(air_draught(scene, limits, gear, load, old_only=True)),
            }
            for gear, load in CASES
        },
        "weight": {
            when: {
                key: written(figure)
                for key, figure in (weight_figures(scene, when) | drag_figures(scene, when)).items()
            }
            for when in WHEN
        }
        | {"unweighed": unweighed(scene), "each": [_share(scene, one) for one in shares(scene)]},
        "balance": {
            "from_heel_mm": written(balance(scene)),
            "under_a_strop": [one.id for one, _off in under_strop(scene, limits)],
        },
    }


def _share(scene: Scene, one: Share) -> dict[str, Any]:
    """Return what one fitting adds to the sums of weight and windage."""
    placed = scene.placed[one.id]
    return {
        "id": one.id,
        "new": placed.fitting.new,
        **{f"{when}_kg": kg for when, kg in one.kg.items()},
        "height_m": one.height_m,
        "off_m": one.off_m,
        **areas_m2(placed),
    }


def aloft_text(scene: Scene) -> str:
    """Return the same in lines for a person."""
    limits, names = limits_of(scene.layout), {one.id: one.name for one in scene.layout.fittings}
    lines = []
    for gear, load in CASES:
        figure = air_draught(scene, limits, gear, load)
        highest = top(scene, limits, gear).id
        lines.append(
            _("Air draught {case}: {value}, {highest}").format(
                case=figure.name, value=figure_text(figure, 2), highest=names.get(highest, _("masthead"))
            )
        )
    every = {when: weight_figures(scene, when) | drag_figures(scene, when) for when in WHEN}
    for key, changed in every["change"].items():
        told = [figure_text(every[when][key], 1) for when in WHEN if key in every[when]]
        words = _("{name}: {change} more") if len(told) == 1 else _("{name}: {before} before, {after} after")
        lines.append(
            words.format(
                name=f"{changed.name}{_wind(key)}", before=told[0], after=told[-2:][0], change=told[0]
            )
        )
    at = balance(scene)
    crushed = ", ".join(one.fitting.name for one, _off in under_strop(scene, limits)) or _(
        "nothing that breaks"
    )
    lines.append(
        _("{name}: {value}; a strop there lies on {what}").format(
            name=at.name, value=figure_text(at, 0), what=crushed
        )
    )
    return "\n".join(line[:1].upper() + line[1:] for line in lines) + "\n"


def _wind(key: str) -> str:
    return "".join(_(", {kn} kn").format(kn=kn) for kn in ("20", "40") if f"_{kn}kn" in key)


def figure_text(figure: Figure, digits: int) -> str:
    """Write a figure's value with its unit, or that it is not known."""
    if figure.value is None:
        return _("not known")
    return f"{figure.value:.{digits}f} {figure.unit}".replace(" °", "°")
