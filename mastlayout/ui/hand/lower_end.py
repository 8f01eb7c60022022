"""Where a stay's lower end is: on deck, on the mast, or not known; each with what fixes it."""

from collections.abc import Mapping
from typing import Any

from mastlayout.model.edits import change
from mastlayout.model.layout import Layout
from mastlayout.model.measure import measure_of
from mastlayout.model.rig import DeckEnd, MastEnd, Stay
from mastlayout.ui.forms.asked import Asked, around_tip
from mastlayout.ui.forms.form import Variant
from mastlayout.ui.hand.asking import form
from mastlayout.ui.hand.making import Making
from mastlayout.ui.hand.property import Property
from mastlayout.words import _


def lower_end(make: Making, item: Stay) -> Property:
    """Make the form of a lower end; what is taken there replaces an end of the other sort."""

    def variant(key: str, name: str, about: str, fields: tuple[Asked, ...], known: object) -> Variant:
        def made(answers: Mapping[str, Any]) -> tuple[Layout, str]:
            ends = {
                "deck": DeckEnd.model_validate(dict(answers)) if key == "deck" else None,
                "lower": MastEnd.model_validate(dict(answers)) if key == "lower" else None,
            }
            return change(make.session.layout, make.of, **ends), ""

        values = {one.key: getattr(known, one.key, None) for one in fields}
        return Variant(key, name, about, make.change, made, fields, values)

    deck, mast = (make.tip(measure_of(Stay, key)) for key in ("deck", "lower"))
    variants = (
        variant("deck", _("On deck"), deck, _on_deck(), item.deck),
        variant("lower", _("On the mast"), mast, _on_mast(), item.lower),
        variant("", _("Not known yet"), deck, (), None),
    )
    chosen = "deck" if item.deck else "lower" if item.lower else ""
    words = next(one.name.lower() for one in variants if one.key == chosen) if chosen else ""
    return form(make, "lower end", _("Lower end"), words, variants, deck, chosen=chosen)


def _on_deck() -> tuple[Asked, ...]:
    return (
        Asked("ahead_mm", _("Ahead of the mast"), low=None, may_lack=False, tip=_("Minus is abaft it")),
        Asked("off_mm", _("Off to its own side"), low=None, may_lack=False),
        Asked("above_mm", _("Above the heel"), low=None, may_lack=False, tip=_("Minus is below it")),
    )


def _on_mast() -> tuple[Asked, ...]:
    return (
        Asked("from_masthead_mm", _("Pin, from the masthead"), may_lack=False),
        Asked("girth", _("Pin, round"), "around", may_lack=False, tip=around_tip()),
        Asked("stand_off_mm", _("Pin, off the skin"), "size", low=None, may_lack=False),
    )
