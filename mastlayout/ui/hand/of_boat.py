"""The properties of the yacht, as far as heights and rules need her."""

from collections.abc import Iterator

from mastlayout.model.boat import LONGEST_MM, SHORTEST_MM, Boat
from mastlayout.model.edits import BOAT, plan_note
from mastlayout.model.measure import measure_of
from mastlayout.ui.forms.asked import Asked
from mastlayout.ui.hand.asking import name_of_it, value, values
from mastlayout.ui.hand.deck import on_deck
from mastlayout.ui.hand.making import Making
from mastlayout.ui.hand.property import Property
from mastlayout.ui.session import Session
from mastlayout.words import _


def properties_of_boat(session: Session) -> Iterator[Property]:
    """Yield the yacht's name and figures."""
    boat = session.layout.boat
    make = Making(session, BOAT, boat.name)
    hulls = (("monohull", _("monohull")), ("multihull", _("multihull")))
    yield name_of_it(make)
    passes = _("Above the water; empty where she passes under none")
    asked = (
        Asked("heel_above_water_mm", _("Heel above water"), low=None),
        Asked("flotation_abaft_mast_mm", _("Mast to mid waterline"), low=None),
        Asked("light_rise_mm", _("Floats higher light")),
        Asked("bridge_above_water_mm", _("Lowest bridge"), above_low=True, tip=passes),
        Asked("gravity_above_water_mm", _("Gravity above water"), low=None),
        Asked("deck_above_heel_mm", _("Deck above heel"), low=None),
        Asked("sheer_above_heel_mm", _("Sheer above heel"), low=None),
        Asked("sidelights_above_heel_mm", _("Sidelights above heel"), low=None),
        Asked("foretriangle_height_mm", _("I"), above_low=True),
        Asked("foretriangle_base_mm", _("J"), above_low=True),
        Asked("foretriangle_top_mm", _("I ends, from masthead"), tip=_("At the headsail halyard's bearing")),
        Asked("hull", _("Hull"), "choice", may_lack=False, choices=hulls),
        Asked("length_overall_mm", _("Length overall"), low=SHORTEST_MM, high=LONGEST_MM),
        Asked("sailing_heel_deg", _("Heel under sail"), "angle", high=60.0),
        Asked("displacement_kg", _("Displacement"), "mass"),
        Asked("supply_v", _("Volts on board"), "count", low=6, high=60),
    )
    yield from values(make, boat, asked)
    for key, label in (
        ("compass_at", _("Steering compass")),
        ("helm_at", _("Ears at the helm")),
        ("foredeck_at", _("Ears on the foredeck")),
    ):
        yield on_deck(make, key, label, getattr(boat, key), measure_of(Boat, key))
    yield make.words("note", _("Note"), boat.note)
    of_plan = Asked(
        "plan note", _("Note on the plan"), "words", tip=_("What else is to be known of the plan")
    )
    yield value(make, of_plan, session.layout.note, take=lambda words: plan_note(session.layout, words))
