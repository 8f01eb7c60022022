"""The yacht the mast stands in, as far as heights and rules need her."""

from typing import Annotated, Literal

from pydantic import Field

from mastlayout.model.measure import Measure
from mastlayout.model.rig import DeckEnd
from mastlayout.model.value import Deg, Kg, Mm, Name, NotNegativeMm, PositiveMm, Value

# No yacht with a mast to plan is shorter or longer: a slipped digit, and another length class.
SHORTEST_MM, LONGEST_MM = 2000.0, 150_000.0


class Boat(Value):
    """The yacht. Heights are in the boat frame: upright on her marks, Z up from the heel datum.

    ``light_rise_mm`` is how much higher she floats when nothing is loaded; ``bridge_above_water_mm`` the
    least height she has to pass under, where there is one. ``compass_at``, ``helm_at`` and ``foredeck_at``
    are where the steering compass is and where ears are, off to port.
    """

    name: Name
    hull: Literal["monohull", "multihull"] = "monohull"
    length_overall_mm: Annotated[
        PositiveMm | None, Measure("boat.length"), Field(ge=SHORTEST_MM, le=LONGEST_MM)
    ] = None
    displacement_kg: Annotated[Kg | None, Measure("boat.displacement")] = None
    heel_above_water_mm: Annotated[Mm | None, Measure("boat.water")] = None
    deck_above_heel_mm: Annotated[Mm | None, Measure("boat.deck")] = None
    sheer_above_heel_mm: Annotated[Mm | None, Measure("boat.sheer")] = None
    sidelights_above_heel_mm: Annotated[Mm | None, Measure("boat.sidelights")] = None
    foretriangle_height_mm: Annotated[PositiveMm | None, Measure("boat.i")] = None
    foretriangle_top_mm: Annotated[
        NotNegativeMm | None, Field(description="headsail halyard's bearing, from the masthead")
    ] = None
    foretriangle_base_mm: Annotated[PositiveMm | None, Measure("boat.j")] = None
    light_rise_mm: Annotated[NotNegativeMm | None, Measure("boat.light")] = None
    gravity_above_water_mm: Annotated[Mm | None, Measure("boat.gravity")] = None
    bridge_above_water_mm: PositiveMm | None = None
    flotation_abaft_mast_mm: Annotated[Mm | None, Measure("boat.flotation")] = None
    sailing_heel_deg: Annotated[Deg | None, Measure("boat.sailing_heel"), Field(ge=0.0, le=60.0)] = None
    supply_v: Annotated[int | None, Measure("boat.supply"), Field(ge=6, le=60)] = None
    compass_at: Annotated[DeckEnd | None, Measure("boat.compass")] = None
    helm_at: Annotated[DeckEnd | None, Measure("boat.helm")] = None
    foredeck_at: Annotated[DeckEnd | None, Measure("boat.foredeck")] = None
    note: Annotated[str, Field(max_length=2000)] = ""
