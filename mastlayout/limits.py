"""Limits: each once in resources/limits.toml, an owner's own set over it."""

from collections.abc import Mapping
from dataclasses import replace
from functools import cache

import tomli

from mastlayout.errors import EditError, UnitError, UnknownNameError
from mastlayout.frozen import dataclass
from mastlayout.model.layout import Layout, LimitOverride
from mastlayout.resources import resources
from mastlayout.words import _


@dataclass(frozen=True)
class Limit:
    """A limit with its source; ``why`` is the owner's reason where the owner set it."""

    key: str
    value: float
    unit: str
    standing: str
    source: str
    title: str
    why: str | None = None

    @property
    def by_owner(self) -> bool:
        """Tell whether the owner set it."""
        return self.why is not None


Limits = Mapping[str, Limit]
# The least and the most that a limit may be, by its unit: what lies beyond is a slipped digit.
_ALLOWED = {"mm": (0.0, 1000.0), "diameters": (0.0, 20.0), "%": (0.0, 100.0), "degrees": (0.0, 180.0),
            "threads": (0.0, 20.0), "V": (0.0, 2.0), "W/m²": (0.1, 100.0), "dB": (0.0, 200.0),
            "µT": (2.0, 50.0)}  # fmt: skip


def allowed(limit: Limit) -> tuple[float, float]:
    """Return the least and the most that an owner may set a limit to, in its unit."""
    low, high = _ALLOWED[limit.unit]
    # Some lengths are of another order than most: a yacht's, a compass far off.
    return low, max(high, 2.0 * built_in()[limit.key].value) if limit.unit == "mm" else high


@cache
def built_in() -> Limits:
    """Return the program's own limits by key, words translated."""
    text = (resources() / "limits.toml").read_text(encoding="utf-8")
    return {
        key: Limit(
            key, float(entry["value"]), entry["unit"], entry["standing"], entry["source"], _(entry["title"])
        )
        for key, entry in tomli.loads(text).items()
    }


def limits_of(layout: Layout) -> Limits:
    """Return the limits that hold for a layout, the owner's own over the built-in.

    Raises UnknownNameError for an override of a limit that is not there, UnitError for one in
    another unit than the limit's, EditError for one beyond what is allowed.
    """
    if not layout.limits:
        return built_in()
    return dict(built_in()) | {own.key: _overridden(own) for own in layout.limits}


def _overridden(own: LimitOverride) -> Limit:
    if own.key not in built_in():
        raise UnknownNameError(_("limit"), own.key, built_in())
    limit = built_in()[own.key]
    if own.unit != limit.unit:
        raise UnitError(
            _("The limit “{key}” is set in “{own}”: its unit is {unit}, write the value in {unit}.").format(
                key=own.key, own=own.unit, unit=limit.unit
            )
        )
    low, high = allowed(limit)
    if not low <= own.value <= high:
        raise EditError(
            _("The limit “{key}” is set to {value:g} {unit}: {low:g} to {high:g} {unit} is allowed.").format(
                key=own.key, value=own.value, unit=own.unit, low=low, high=high
            )
        )
    return replace(limit, value=own.value, source=_("limit set by the owner"), why=own.why)
