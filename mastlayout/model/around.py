"""Where something stands round the skin, as a person says it."""

import re
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field, PlainSerializer

from mastlayout.errors import UnitError
from mastlayout.model.value import Value
from mastlayout.units import read_angle, read_length
from mastlayout.words import _

Origin = Literal["ahead", "aft", "bearing"]
# Digits kept of what was typed, so that what is written reads back as the same place.
_KEPT = 6
_FROM = re.compile(r"^(?P<size>.+?)\s+to\s+(?P<side>port|starboard)(?:\s+of\s+(?P<origin>ahead|aft))?$")
_ALLOWED = _(
    "“ahead”, “aft”, “bearing 285”, “44 to port of ahead”, “30 to starboard of aft” or a girth from "
    "the middle of the track, starboard positive"
)


class Around(Value):
    """A place round the skin: an origin and how far from it.

    ``offset`` is in mm along the skin, positive to starboard, for the origins ``ahead`` (the
    forward centreline) and ``aft`` (the middle of the track); for ``bearing`` it is degrees
    clockwise from ahead seen from above, and the place is where that ray meets the skin.
    """

    origin: Origin
    offset: Annotated[float, Field(ge=-5000, le=5000)] = 0.0

    def __str__(self) -> str:
        if self.origin == "bearing":
            return f"bearing {self.offset:.10g}"
        if not self.offset:
            return self.origin
        side = "starboard" if self.offset > 0 else "port"
        return f"{abs(self.offset):.10g} to {side} of {self.origin}"


AHEAD = Around(origin="ahead")
AFT = Around(origin="aft")


def read_around(typed: Any) -> Any:
    """Return an Around from a girth in mm or one of the phrases of its ``str``; UnitError otherwise."""
    if isinstance(typed, Around):
        return typed
    if not isinstance(typed, str):
        return Around(origin="aft", offset=round(read_length(typed), _KEPT))
    text = " ".join(typed.split())
    if text in ("ahead", "aft"):
        return AHEAD if text == "ahead" else AFT
    if text.startswith("bearing "):
        return Around(
            origin="bearing", offset=round(read_angle(_number(text.removeprefix("bearing "))), _KEPT)
        )
    found = _FROM.match(text)
    if not found:
        raise UnitError(
            _("“{text}” is no place round the skin: {allowed} is wanted").format(
                text=text[:40], allowed=_ALLOWED
            )
        )
    sign = 1.0 if found["side"] == "starboard" else -1.0
    origin: Origin = "aft" if found["origin"] == "aft" else "ahead"
    return Around(origin=origin, offset=round(sign * read_length(_number(found["size"])), _KEPT))


def _number(text: str) -> object:
    try:
        return float(text)
    except ValueError:
        return text


Round = Annotated[Around, BeforeValidator(read_around), PlainSerializer(str, return_type=str)]
