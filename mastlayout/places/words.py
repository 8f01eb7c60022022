"""What is suggested, in words: where it clears, how far from where it stands, what is left open there."""

from collections.abc import Iterator

from mastlayout.geometry.frames import reading
from mastlayout.geometry.scene import Scene
from mastlayout.model.around import Around
from mastlayout.model.fitting import Fitting
from mastlayout.model.measure import instructions
from mastlayout.places.suggest import Guard, Move, Suggestion, Suggestions
from mastlayout.units import Units, write_length
from mastlayout.words import _

# So many titles of what is left open are named; the report names all.
_MOST_NAMED = 2


def sentence(scene: Scene, one: Suggestions, units: Units = "metric") -> str:
    """Say all that was found for one finding, and what is left open there."""
    return " ".join(part for part in (clears(scene, one, units), left_open(one)) if part)


def clears(scene: Scene, one: Suggestions, units: Units = "metric") -> str:
    """Say where it clears: "Clears at 9420 from the masthead (60 lower) or …"."""
    if not one.found:
        return _("Nowhere along or round what it stands on is it clear with nothing else at fault.")
    ways = _(" or ").join(where(scene, each, units) for each in one.found)
    sure = not any(finding.measure for each in one.found for finding in each.left)
    words = _("Clears {ways}.") if sure else _("Clears, as far as it was checked, {ways}.")
    return words.format(ways=ways)


def where(scene: Scene, one: Suggestion, units: Units = "metric") -> str:
    """Say one place in a clause: "at 9420 from the masthead (60 lower)"."""
    if isinstance(one, Guard):
        words = _("with a guard before it ({kind}, at {height}; patch the sail there)")
        return words.format(
            kind=one.kind.name, height=height_words(scene, one.place.from_masthead_mm or 0.0, units)
        )
    return _(", ").join(_moved(scene, one, _fitting(scene, one.name), units))


def deed(scene: Scene, one: Suggestion, units: Units = "metric") -> str:
    """Say what a button does: "Move to 9420", "Set a guard before it"."""
    if isinstance(one, Guard):
        return _("Set a guard before it")
    target = [_target(scene, field, value, units) for field, value in one.fields.items()]
    words = _("Stand off {place}") if "stand_off_mm" in one.fields else _("Move to {place}")
    return words.format(place=_(", ").join(target))


def step(scene: Scene, one: Suggestion) -> str:
    """Return the name of the undo step."""
    if isinstance(one, Guard):
        return _("Place {name}").format(name=one.kind.name)
    return _("Move {name}").format(name=_fitting(scene, one.name).name)


def _moved(scene: Scene, one: Move, fitting: Fitting, units: Units) -> Iterator[str]:
    for field, value in one.fields.items():
        place = _target(scene, field, value, units)
        if field == "from_masthead_mm" and isinstance(value, float):
            by = value - (fitting.from_masthead_mm or 0.0)
            words = _("at {place} from the masthead ({by} {way})")
            way = _("lower") if by > 0 else _("higher")
            yield words.format(place=place, by=_length(abs(by), units), way=way)
        elif field == "girth":
            yield _("at {place} (now {now})").format(place=place, now=round_words(fitting.girth, units))
        elif field == "along_mm":
            yield _("at {place} from its inner or lower end (now {now})").format(
                place=place, now=_length(fitting.along_mm or 0.0, units)
            )
        else:
            yield _("standing off {place} (now {now})").format(
                place=place, now=_length(fitting.stand_off_mm, units)
            )


def _target(scene: Scene, field: str, value: float | Around, units: Units) -> str:
    if isinstance(value, Around):
        return round_words(value, units)
    return height_words(scene, value, units) if field == "from_masthead_mm" else _length(value, units)


def round_words(around: Around | None, units: Units) -> str:
    """Say where round the skin a place is: bearing 30; 40 to port of ahead."""
    if around is None or around.origin == "bearing" or not around.offset:
        return str(around)
    side = _("starboard") if around.offset > 0 else _("port")
    origin = _("ahead") if around.origin == "ahead" else _("aft")
    words = _("{size} to {side} of {origin}")
    return words.format(size=_length(abs(around.offset), units), side=side, origin=origin)


def height_words(scene: Scene, from_masthead_mm: float, units: Units) -> str:
    """Write how far a place is from the masthead."""
    read = reading(from_masthead_mm, scene.skin.length_mm, units)
    return read.text(read.masthead)


def _length(size_mm: float, units: Units) -> str:
    return f"{size_mm:.10g}" if units == "metric" else write_length(size_mm, units)


def _fitting(scene: Scene, name: str) -> Fitting:
    return next(fitting for fitting in scene.layout.fittings if fitting.id == name)


def left_open(one: Suggestions) -> str:
    """Say what nobody can tell of these places either; "" where all was checked."""
    left = [finding for each in one.found for finding in each.left]
    titles = dict.fromkeys(instructions()[own.measure].title for own in left if own.measure)
    said = list(titles)[:_MOST_NAMED]
    if len(titles) > _MOST_NAMED:
        said.append(_("and {n} more").format(n=len(titles) - _MOST_NAMED))
    parts = [_("Not checked there either: {titles}.").format(titles="; ".join(said))] if said else []
    if any(own.typical and not own.measure for own in left):
        parts.append(_("Its holes are typical: offer up the part."))
    return " ".join(parts)
