"""The properties of the mast: length, section, taper, track, walls, stretches, and what was looked for."""

from collections.abc import Iterator, Mapping
from typing import Any

from mastlayout.errors import EditError
from mastlayout.model.edits import change, looked
from mastlayout.model.fitting import MAST
from mastlayout.model.layout import Layout
from mastlayout.model.mast import DShape, Ellipse, FreeOutline, Mast, RoundedBox, Stretch, Taper, Track, Wall
from mastlayout.model.measure import measure_of
from mastlayout.model.value import Value
from mastlayout.ui.forms.asked import Asked, around_tip
from mastlayout.ui.forms.form import Variant
from mastlayout.ui.hand.asking import Listed, form, given, items_table, value, values
from mastlayout.ui.hand.making import Making
from mastlayout.ui.hand.outline import drawing, traced
from mastlayout.ui.hand.property import Property
from mastlayout.ui.session import Session
from mastlayout.ui.typed import written_size
from mastlayout.words import _

_STEEP_DEG = 45.0


def properties_of_mast(session: Session) -> Iterator[Property]:
    """Yield all that is known of the mast, and what of it nobody has looked for."""
    mast = session.layout.mast
    make = Making(session, MAST, mast.name)
    yield from values(make, mast, (Asked("length_mm", _("Length"), above_low=True, may_lack=False),))
    yield _section(make, mast)
    yield traced(make, mast)
    yield drawing(make, mast)
    yield _taper(make, mast)
    yield _track(make, mast)
    yield _walls(make, mast)
    yield _stretches(make, mast)
    yield from values(make, mast, _figures())
    for part, label in (
        ("conduits", _("Conduits")), ("stretches", _("Sleeves, welds")), ("spreaders", _("Spreaders")),
        ("stays", _("Stays, shrouds")), ("halyards", _("Halyards")), ("holes", _("Old holes")),
    ):  # fmt: skip
        yield _looked_for(make, part, label)


def _figures() -> tuple[Asked, ...]:
    stands = (("keel", _("on the keel")), ("deck", _("on deck")))
    metals = (("aluminium", _("aluminium")), ("carbon", _("carbon")), ("wood", _("wood")))
    return (
        Asked("rake_deg", _("Rake, aft"), "angle", low=-_STEEP_DEG, high=_STEEP_DEG),
        Asked("prebend_mm", _("Prebend")),
        Asked("gooseneck_mm", _("Gooseneck, from masthead")),
        Asked("step", _("Stands"), "choice", choices=stands),
        Asked("material", _("Material"), "choice", may_lack=False, choices=metals),
        Asked("mass_per_metre_kg", _("Mass of a metre"), "mass"),
    )


def sections() -> tuple[tuple[str, str, tuple[Asked, ...]], ...]:
    """Return each shape a section may have: its key, its words, and the sizes it asks for."""
    size = (
        Asked("length_mm", _("Fore and aft"), above_low=True, may_lack=False),
        Asked("width_mm", _("Athwart"), above_low=True, may_lack=False),
    )
    corner = Asked("corner_radius_mm", _("Corner radius"), "size", may_lack=False)
    straight = Asked("side_mm", _("Straight side"), may_lack=False)
    return (
        ("ellipse", _("Ellipse"), size),
        ("rounded box", _("Rounded box"), (*size, corner)),
        ("d", _("D: half ellipse ahead, flat aft"), (*size, straight, corner)),
    )


def _section(make: Making, mast: Mast) -> Property:
    models: dict[str, type[Value]] = {"ellipse": Ellipse, "rounded box": RoundedBox, "d": DShape}
    known = mast.section

    def variant(shape: str, words: str, fields: tuple[Asked, ...]) -> Variant:
        def made(answers: Mapping[str, Any]) -> tuple[Layout, str]:
            _refuse_corner(answers)
            section = models[shape].model_validate({"shape": shape, **answers})
            return change(make.session.layout, MAST, section=section), ""

        about = _("Measure with callipers, away from track and fittings.")
        return Variant(shape, words, about, make.change, made, fields, _known(fields, known))

    variants = [variant(*one) for one in sections()]
    words = next((words for shape, words, _fields in sections() if shape == known.shape), _("traced"))
    if not isinstance(known, FreeOutline):
        size = f"{make.written(known.length_mm, 1)} × {make.written(known.width_mm, 1)}"
        words = f"{size}, {words.split(':')[0].lower()}"
    tip = make.tip(measure_of(Mast, "section"))
    return form(make, "section", _("Section"), words, variants, tip, chosen=known.shape)


def _refuse_corner(answers: Mapping[str, Any]) -> None:
    """Refuse a corner that is rounder than its section is wide."""
    most = min(answers["length_mm"], answers["width_mm"]) / 2
    radius = answers.get("corner_radius_mm", 0.0)
    if radius > most:
        words = _(
            "A corner radius of {radius:g} is too large: 0 to {most:g} is allowed, half the smaller side."
        )
        raise EditError(words.format(radius=radius, most=most))


def _known(fields: tuple[Asked, ...], item: object) -> dict[str, Any]:
    return {one.key: getattr(item, one.key, None) for one in fields}


def _taper(make: Making, mast: Mast) -> Property:
    fields = (
        Asked("from_masthead_mm", _("Begins, from masthead"), above_low=True, may_lack=False),
        Asked("length_mm", _("At the masthead, fore and aft"), above_low=True, may_lack=False),
        Asked("width_mm", _("At the masthead, athwart"), above_low=True, may_lack=False),
    )
    known = mast.taper

    def taken(answers: Mapping[str, Any]) -> tuple[Layout, str]:
        return change(make.session.layout, MAST, taper=Taper.model_validate(dict(answers))), ""

    tip = make.tip(measure_of(Mast, "taper"))
    variants = (
        Variant("taper", _("Tapered"), tip, make.change, taken, fields, _known(fields, known)),
        _fixed(make, "none", _("No taper"), _("The girth is the same up to the masthead."), taper="none"),
        _fixed(make, "", _("Not known yet"), tip, taper=None),
    )
    words = _("none") if known == "none" else ""
    if isinstance(known, Taper):
        words = _("from {height} up").format(height=make.written(known.from_masthead_mm))
    chosen = known if isinstance(known, str) else ("taper" if known else "")
    return form(make, "taper", _("Taper"), words, variants, tip, chosen=chosen)


def _fixed(make: Making, key: str, name: str, about: str, **known: object) -> Variant:
    """Return a variant that asks for nothing and sets a field of the mast."""
    return Variant(
        key, name, about, make.change, lambda _answers: (change(make.session.layout, MAST, **known), "")
    )


def _track(make: Making, mast: Mast) -> Property:
    slot = Asked("width_mm", _("Slot or width"), "size", above_low=True, may_lack=False)
    more = (
        Asked("depth_mm", _("Depth or height"), "size"),
        Asked("lower_end_mm", _("Lower end, from masthead")),
        Asked("gate_mm", _("Gate, from masthead"), tip=_("Middle of the opening where slides are fed in")),
        Asked("gate_length_mm", _("Gate, length"), above_low=True),
        Asked("gate_closes", _("Gate closes"), "truth"),
        Asked("stop_mm", _("Stop, from masthead"), tip=_("What dropped slides or cars stand on")),
    )
    groove = (slot, more[0], Asked("chamber_mm", _("Chamber, across"), "size"), *more[1:])
    raised = (slot, more[0], Asked("screw_pitch_mm", _("Screws, apart"), above_low=True), *more[1:])
    known, tip = mast.track, make.tip(measure_of(Mast, "track"))

    def variant(kind: str, words: str, fields: tuple[Asked, ...]) -> Variant:
        def taken(answers: Mapping[str, Any]) -> tuple[Layout, str]:
            track = Track.model_validate({"kind": kind, **given(answers)})
            return change(make.session.layout, MAST, track=track), ""

        return Variant(kind, words, tip, make.change, taken, fields, _known(fields, known))

    variants = (
        variant("groove", _("Groove"), groove),
        variant("track", _("Raised track"), raised),
        _fixed(make, "", _("Not known yet"), tip, track=None),
    )
    words = (
        f"{variants[known.kind == 'track'].name.lower()}, {written_size(known.width_mm, make.session.units)}"
        if known
        else ""
    )
    return form(make, "track", _("Track"), words, variants, tip, chosen=known.kind if known else "groove")


def _walls(make: Making, mast: Mast) -> Property:
    states = (("sound", _("sound")), ("pitted", _("pitted")), ("sleeved", _("sleeved")))
    columns = (
        Asked("from_masthead_mm", _("From the masthead"), may_lack=False),
        Asked("thickness_mm", _("Thickness"), "size", above_low=True, may_lack=False),
        Asked("girth", _("Round"), "around", tip=around_tip()),
        Asked("state", _("State"), "choice", may_lack=False, choices=states),
        Asked("note", _("Note"), "words"),
    )

    how = make.tip(measure_of(Mast, "walls"))
    listed = Listed("walls", Wall, _("Readings of the wall"), how, columns)
    counted = _readings(len(mast.walls))
    return items_table(make, listed, _("Wall"), mast.walls, unknown=True, counted=counted)


def _readings(count: int) -> str:
    return _("{n} measured").format(n=count) if count else ""


def stretch_kinds() -> tuple[tuple[str, str], ...]:
    """Return the sorts of stretch and their words."""
    return (
        ("sleeve", _("sleeve")), ("weld", _("weld")), ("pitted", _("pitted")), ("partners", _("partners")),
        ("foam", _("foam")),
    )  # fmt: skip


def _stretches(make: Making, mast: Mast) -> Property:
    columns = (
        Asked("kind", _("What"), "choice", may_lack=False, choices=stretch_kinds()),
        Asked("from_masthead_mm", _("From the masthead"), may_lack=False),
        Asked("to_mm", _("To"), may_lack=False),
        Asked("girth", _("Round"), "around", tip=around_tip()),
        Asked("note", _("Note"), "words"),
    )

    how = make.tip(measure_of(Mast, "stretches"))
    listed = Listed("stretches", Stretch, _("Sleeves, welds, pitted zones"), how, columns)
    unknown = mast.stretches is None
    return items_table(
        make, listed, _("Stretches"), mast.stretches, unknown=unknown, shown_as="stretches table"
    )


def _looked_for(make: Making, part: str, label: str) -> Property:
    """Make the choice whether an empty list was looked for; of one that holds something, its number."""
    layout = make.session.layout
    holder: Any = layout.mast if part in Mast.model_fields else layout
    items = getattr(holder, part)
    if items:
        return make.read(f"looked {part}", label, _("{n} entered").format(n=len(items)))
    none = part in layout.model_fields_set if holder is layout else items is not None
    asked = Asked(
        f"looked {part}", label, "choice", choices=(("none", _("looked, there is none")),),
        tip=_("What nobody looked for is not taken for nothing: what waits for it is not checked."),
    )  # fmt: skip

    def take(answer: str | None) -> Layout:
        return looked(layout, part, found_none=answer == "none")

    return value(make, asked, "none" if none else None, take=take)
