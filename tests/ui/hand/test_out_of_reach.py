"""What the layout file may hold and the window edits: every field of the model, or why not."""

import typing
from collections.abc import Iterator

from builders import a_fitting, a_kind
from pydantic import BaseModel
from test_everything_in_hand import hand  # noqa: F401 - a fixture

from mastlayout.desk import Desk
from mastlayout.model.edits import BOAT, add
from mastlayout.model.fitting import MAST
from mastlayout.model.layout import NAMED, Layout
from mastlayout.model.sails import Pole
from mastlayout.ui.forms.form import FormDialog
from mastlayout.ui.forms.table import TableDialog
from mastlayout.ui.hand.properties import properties
from mastlayout.ui.hand.things import has_height, item_in_hand

# Typed elsewhere in the window than among the properties, each held by a test of its own.
ELSEWHERE = {
    "AsBuilt": "Not as planned …",
    "HoleBuilt": "Not as planned …, a hole",
    "Fitting.holes_built": "Not as planned …, a hole",
    "LimitOverride": "Check, Limits …",
    "Accepted": "Accept with a remark … of a finding",
    "Fitting.in_hand": "Confirm the foot …",
    "Fitting.mount": "with what it is mounted on",
    "Fitting.done": "the boxes on the trestles",
    "Foot.across_mm": "Confirm the foot …",
    "Foot.along_mm": "Confirm the foot …",
    "Foot.thickness_mm": "Confirm the foot …",
    "Foot.liner_mm": "Confirm the foot …",
    "Foot.backing_mm": "Confirm the foot …",
    "Foot.seat": "Confirm the foot …",
    "Foot.radius_mm": "Confirm the foot …",
    "Cutout.corner_radius_mm": "Confirm the foot …",
    "Foot.holes": "Confirm the foot …",
    "Foot.entry": "Confirm the foot …",
    "Hole": "Confirm the foot …",
    "Entry": "Confirm the foot …",
    "Fastener": "Confirm the foot …, in words",
    "Around": "in words, wherever a place round the mast is typed",
    "Stay.upper": "its height, and Upper pin, …",
    **{f"Layout.{part}": "placed, added and removed" for part in (*NAMED, "kinds")},
    "Layout.boat": "in hand as the yacht",
    "Layout.mast": "in hand as the mast",
    "Mast.conduits": "Add …",
    "Layout.note": "Note on the plan, of the yacht",
    "Layout.limits": "Check, Limits …",
    "Layout.accepted": "Accept with a remark … of a finding",
}
# Not to be typed, and why.
NEVER = {
    "id": "given once, never shown",
    "shape": "chosen with the form",
    "Track.kind": "chosen with the form",
    "Layout.format": "the program's own",
    "Layout.retired": "the program's own: ids and tags are never given again",
    "Fitting.tag": "given once: it is pencilled on the mast",
    "Fitting.kind": "another kind is another fitting, placed from the catalogue",
    "Mast.rotating": "a rotating mast is refused",
    "FreeOutline.dxf": "the drawing's name: what is taken from a drawing is kept as points",
    **{
        f"Foot.{key}": "as its kind has it"
        for key in ("corner_radius_mm", "centre_across_mm", "centre_along_mm", "cutouts")
    },
    "Cutout": "as its kind has it",
    "Kind": "a kind is chosen from the catalogue; the owner's own are written in the file",
}
NEVER |= dict.fromkeys(("Ball", "Tube", "Can", "Box", "Mount", "Sector", "Corner"), NEVER["Kind"])
# A property whose key is not that of the fields it edits.
NAMED_OTHERWISE = {"stretches table": ("stretches",), "lower end": ("deck", "lower")}


def models(of: type) -> Iterator[type[BaseModel]]:
    """Every model within an annotation."""
    if isinstance(of, type) and issubclass(of, BaseModel):
        yield of
    for part in typing.get_args(of):
        yield from models(part)


def inside(model: type[BaseModel], field: str) -> list[type[BaseModel]]:
    """The models that a field holds."""
    known = model.model_fields.get(field)
    return list(models(known.annotation)) if known else []


def all_models() -> set[type[BaseModel]]:
    """Every model of a layout."""
    found, left = set(), [Layout]
    while left:
        one = left.pop()
        if one not in found:
            found.add(one)
            left += [other for field in one.model_fields for other in inside(one, field)]
    return found


def asked_in(dialog) -> set[str]:
    """The keys that a table or a form asks for."""
    if isinstance(dialog, TableDialog):
        return {column.key for column in dialog.columns}
    variants = dialog.variants if isinstance(dialog, FormDialog) else ()
    return {asked.key for variant in variants for asked in variant.fields}


def reached(session, qtbot) -> set[str]:
    """What the properties of everything can edit, as Model.field; forms and tables are opened for it."""
    on_bar = a_fitting("box-2", on="spreader-p", from_masthead_mm=None, girth=None, along_mm=300.0)
    layout, found = add(session.layout, "fittings", on_bar), set()
    for on in ("mast", "deck"):
        pole = Pole(id=f"on-{on}", name=on, length_mm=3e3, ring_from_mm=9e3, ring_to_mm=9e3, stowed_on=on)
        layout = add(layout, "poles", pole)
    shows = {"what": "light", "from_deg": 247.5, "to_deg": 112.5, "name": "steaming light"}
    lamp = a_kind("lamp", group="light", sectors=[shows])
    layout = layout.but(kinds=(*layout.kinds, lamp))
    layout = add(layout, "fittings", a_fitting("lamp-1", kind="lamp"))
    session.open(Desk(layout))
    ids = [MAST, BOAT, *(item.id for part in NAMED for item in getattr(layout, part))]
    for name in (*ids, *(pipe.id for pipe in layout.mast.conduits or ())):
        session.pick(name)
        model = type(item_in_hand(session))
        if has_height(session):
            found |= {f"{model.__name__}.from_masthead_mm", "MastEnd.from_masthead_mm"}
        for one in properties(session):
            if one.take is None and one.opens is None:
                continue
            fields = NAMED_OTHERWISE.get(one.key, (one.key,))
            found |= {f"{model.__name__}.{field}" for field in fields}
            if one.opens is not None:
                dialog = one.opens(None)
                qtbot.addWidget(dialog)
                within = [each for field in fields for each in inside(model, field)]
                found |= {f"{each.__name__}.{key}" for each in within for key in asked_in(dialog)}
            if one.key == "outline" and asked_in(dialog) == {"ahead_mm", "port_mm"}:
                found.add("FreeOutline.points")
    return found


def test_the_window_reaches_every_field_of_the_model(hand, session, qtbot):  # noqa: F811 - a fixture
    """A field of the model is among the properties, or stands above with where it is typed or why not."""
    can, spoken = reached(session, qtbot), {**ELSEWHERE, **NEVER}
    lost = {
        f"{model.__name__}.{field}"
        for model in all_models()
        for field in model.model_fields
        if not {model.__name__, field, f"{model.__name__}.{field}"} & spoken.keys()
    }
    assert sorted(lost - can) == []


def test_no_exception_is_kept_that_is_none(hand, session, qtbot):  # noqa: F811 - a fixture
    """What stands above as out of reach is a field of the model, and is not among the properties."""
    can = reached(session, qtbot)
    fields = {f"{model.__name__}.{field}" for model in all_models() for field in model.model_fields}
    for name in (name for name in (*ELSEWHERE, *NEVER) if "." in name):
        assert name in fields
        assert name not in can
