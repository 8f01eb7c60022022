"""What every value of the model shares: frozen, strict, and units named once.

A field's last word is its unit (``height_mm``, ``rake_deg``, ``mass_kg``); the key in a file is
the same name without it, since text in a file carries its own unit.
"""

from collections.abc import Callable
from typing import Annotated, Any, Self

from pydantic import BaseModel, ConfigDict, Field
from pydantic_core import core_schema

from mastlayout.units import read_angle, read_length, read_mass

UNIT_ENDINGS = ("_mm", "_deg", "_kg")


def file_key(name: str) -> str:
    """Return the key a field has in a file: ``from_masthead`` for ``from_masthead_mm``."""
    for ending in UNIT_ENDINGS:
        if name.endswith(ending):
            return name.removesuffix(ending)
    return name


class Value(BaseModel):
    """A frozen value; equal values are equal, and an edit builds a new one through validation."""

    model_config = ConfigDict(
        frozen=True,
        strict=True,
        extra="forbid",
        allow_inf_nan=False,
        alias_generator=file_key,
        validate_by_name=True,
        validate_by_alias=True,
        serialize_by_alias=True,
        defer_build=True,
    )

    def but(self, **changes: Any) -> Self:
        """Return this value with ``changes``, validated anew; parts left alone stay the same objects.

        A field set to None becomes not known. Raises pydantic's ValidationError.
        """
        given = {name: getattr(self, name) for name in self.model_fields_set}
        return type(self).model_validate(given | changes)


class _Typed:
    """Marks a float as typed by a person: text is read with its unit, the number then held to its bounds.

    One ready schema for each mark: pydantic would else put it together anew for each of 150 fields.
    """

    def __init__(self, read: Callable[[object], float], **bounds: float) -> None:
        self.bounds = bounds
        number = core_schema.float_schema(strict=True, allow_inf_nan=False, **bounds)  # type: ignore[arg-type] # ge, gt, le are floats
        self._schema = core_schema.no_info_before_validator_function(read, number)

    def __get_pydantic_core_schema__(self, _source: Any, _handler: Any) -> core_schema.CoreSchema:
        return self._schema


# A size may be anything a tape reads; it is bounded so that no sum can overflow.
MOST_MM = 200_000.0
Mm = Annotated[float, _Typed(read_length, ge=-MOST_MM, le=MOST_MM)]
PositiveMm = Annotated[float, _Typed(read_length, gt=0.0, le=MOST_MM)]
NotNegativeMm = Annotated[float, _Typed(read_length, ge=0.0, le=MOST_MM)]
Deg = Annotated[float, _Typed(read_angle, ge=-360.0, le=360.0)]
Kg = Annotated[float, _Typed(read_mass, ge=0.0, le=1_000_000.0)]

# A tuple takes a TOML array, which strict mode alone would refuse.
Loose = Field(strict=False)
Point3 = Annotated[tuple[Mm, Mm, Mm], Loose]
Point2 = Annotated[tuple[Mm, Mm], Loose]

Id = Annotated[str, Field(pattern=r"^[a-z0-9][a-z0-9-]{0,59}$")]
Name = Annotated[str, Field(min_length=1, max_length=200)]
Remark = Annotated[str, Field(max_length=2000)]
