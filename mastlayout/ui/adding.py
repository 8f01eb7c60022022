"""The form that adds to the mast: each thing with the few measures that must be known of it."""

from collections.abc import Callable, Mapping
from functools import partial
from typing import Any

from PySide6.QtWidgets import QWidget

from mastlayout.geometry.frames import height_mm
from mastlayout.model import adding
from mastlayout.model.fitting import Fitting
from mastlayout.model.layout import Layout
from mastlayout.ui.forms.asked import Asked, around_tip
from mastlayout.ui.forms.form import FormDialog, Variant
from mastlayout.ui.hand.of_mast import stretch_kinds
from mastlayout.ui.hand.things import item_in_hand
from mastlayout.ui.session import Session
from mastlayout.words import _

Answers = Mapping[str, Any]


def adding_form(session: Session, instead: Mapping[str, Callable[[], None]], parent: QWidget) -> FormDialog:
    """Return the form. ``instead`` holds what is done elsewhere: "fitting", "mast" and "yacht"."""
    makers = (_rig, _inside, _holes)
    variants = [variant for make in makers for variant in make(session)]
    elsewhere = (
        ("fitting", _("Sheave, exit or any other fitting"), _("From the catalogue, at the height in hand.")),
        ("mast", _("The mast: section, taper, track, rake"), _("Opens what is known of the mast.")),
        ("yacht", _("The yacht: waterline, deck, I and J"), _("Opens what is known of the yacht.")),
    )
    variants += [
        Variant(key, name, about, "", _nothing, instead=instead[key]) for key, name, about in elsewhere
    ]
    return FormDialog(session, _("Add to the mast"), _("Add it"), variants, parent)


def _nothing(_answers: Answers) -> tuple[Layout, str]:
    raise NotImplementedError


def _variant(
    session: Session, key: str, name: str, about: str, make: Callable[[Layout, Answers], adding.Added],
    *fields: Asked, **known: Any,
) -> Variant:  # fmt: skip
    step = _("Add {name}").format(name=name[:1].lower() + name[1:])
    return Variant(key, name, about, step, lambda answers: make(session.layout, answers), fields, known)


def _height(session: Session) -> tuple[Asked, float]:
    """Return what is asked of a height, and the height in hand."""
    asked = Asked("from_masthead_mm", _("From the masthead"), may_lack=False)
    at = height_mm(session.layout.mast.length_mm, session.z_mm)
    return asked, float(round(at))


def _girth(label: str = "") -> Asked:
    return Asked("girth", label or _("Round the mast"), "around", may_lack=False, tip=around_tip())


# -- spreaders, stays, sails, poles


def _rig(session: Session) -> list[Variant]:
    height, here = _height(session)
    known = {"from_masthead_mm": here}
    root = _("At their roots. Length, sweep and rise are typed when they are measured.")
    bars = [
        _variant(session, "spreaders", _("Spreaders, a pair"), root,
                 lambda b, a: adding.add_spreaders(b, a["from_masthead_mm"]), height, **known),
        _variant(session, "strut", _("Jumper strut"), _("On the fore face, where it is fastened."),
                 lambda b, a: adding.add_strut(b, a["from_masthead_mm"]), height, **known),
    ]  # fmt: skip
    return [*bars, *_stays(session), *_sails(session), _pole(session)]


def _stays(session: Session) -> list[Variant]:
    height, here = _height(session)
    found = []
    for role, name in adding.names_of_stays().items():
        pair = adding.comes_in_pairs(role)
        about = _("Its upper pin; lower end and wire are typed when they are measured.")
        if pair:
            about = _("Upper pin of the one to starboard; the other is its mirror.")
        known = {"from_masthead_mm": here, "girth": adding.pin_of(role)}
        called = _("{name}s, a pair").format(name=name) if pair else name
        make = partial(_add_stays, role)
        found.append(_variant(session, role, called, about, make, height, _girth(), **known))
    return found


def _add_stays(role: adding.StayRole, layout: Layout, answers: Answers) -> adding.Added:
    return adding.add_stays(layout, role, answers["from_masthead_mm"], answers["girth"])


def _sails(session: Session) -> list[Variant]:
    about = _("Its measures are typed as they are known.")
    return [
        _variant(session, f"sail {role}", name, about, partial(_add_sail, role))
        for role, name in adding.names_of_sails().items()
    ]


def _add_sail(role: adding.SailRole, layout: Layout, _answers: Answers) -> adding.Added:
    return adding.add_sail(layout, role)


def _pole(session: Session) -> Variant:
    fields = (
        Asked("length_mm", _("Length"), above_low=True, may_lack=False),
        Asked("ring_from_mm", _("Ring, highest, from masthead"), may_lack=False),
        Asked("ring_to_mm", _("Ring, lowest, from masthead"), may_lack=False),
    )
    about = _("Spinnaker or whisker pole, and how far its ring runs on the mast.")
    return _variant(session, "pole", _("Pole"), about, lambda b, a: adding.add_pole(b, **a), *fields)


# -- halyards, cables, conduits


def _inside(session: Session) -> list[Variant]:
    name = Asked("called", _("Name"), "words")
    rope = Asked("rope_mm", _("Rope, diameter"), "size", above_low=True, may_lack=False)
    fittings = tuple((fitting.id, fitting.name) for fitting in session.layout.fittings)
    of = (Asked("fitting", _("Of"), "choice", choices=fittings),) if fittings else ()
    hand = item_in_hand(session)
    known = {"fitting": hand.id} if isinstance(hand, Fitting) else {}
    return [
        _variant(session, "halyard", _("Halyard, lift or other line"),
                 _("Its way is typed when somebody looked."),
                 lambda b, a: adding.add_halyard(b, a["called"] or _("Halyard"), a["rope_mm"]), name, rope),
        _variant(session, "cable", _("Cable"), _("Size, plug and conduit are typed as they are known."),
                 lambda b, a: adding.add_cable(b, a.get("fitting")), *of, **known),
        _variant(session, "conduit", _("Conduit"),
                 _("It may lie anywhere until somebody looked: no hole is clear of it before."),
                 lambda b, _a: adding.add_conduit(b)),
    ]  # fmt: skip


# -- what is found on the mast


def _holes(session: Session) -> list[Variant]:
    height, here = _height(session)
    known = {"from_masthead_mm": here}
    across = Asked("diameter_mm", _("Diameter"), "size", above_low=True)
    thick = Asked("thickness_mm", _("Thickness"), "size", above_low=True, may_lack=False)
    what = Asked("kind", _("What"), "choice", may_lack=False, choices=stretch_kinds())
    to = Asked("to_mm", _("To, from masthead"), may_lack=False)
    return [
        _variant(session, "hole", _("Old hole"), _("A hole that is there and belongs to nothing here."),
                 lambda b, a: adding.add_old_hole(b, a["from_masthead_mm"], a["girth"], a["diameter_mm"]),
                 height, _girth(), across, **known),
        _variant(session, "wall", _("Wall reading"), _("The wall's thickness, measured in a hole."),
                 lambda b, a: adding.add_wall(b, a["from_masthead_mm"], a["thickness_mm"]),
                 height, thick, **known),
        _variant(session, "stretch", _("Sleeve, weld or pitted zone"), _("From its upper end to its lower."),
                 lambda b, a: adding.add_stretch(b, a["kind"], a["from_masthead_mm"], a["to_mm"]),
                 what, height, to, **known),
    ]  # fmt: skip
