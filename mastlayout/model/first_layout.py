"""The first layout of a mast, from what its owner could say before a tape was laid."""

from collections.abc import Iterator

from pydantic import ValidationError

from mastlayout.errors import NotKnownError
from mastlayout.model.boat import Boat
from mastlayout.model.first_answers import FirstAnswers
from mastlayout.model.layout import Layout
from mastlayout.model.mast import Mast, Section
from mastlayout.words import _


def first_layout(yacht: str, answers: FirstAnswers, section: Section | None) -> Layout:
    """Return a layout that holds what was answered and nothing else.

    What was not answered stays unknown; "no spreaders" and "no headsail" are answers, so those lists
    are empty rather than left out. Answers that have no place yet, since they lack a height, are kept
    as the layout's note. Raises NotKnownError where length or section are not known, or cannot be.
    """
    if answers.mast_length_mm is None or section is None:
        raise NotKnownError(_("a mast to place fittings on needs its length and its section"))
    given = {} if answers.stands is None else {"step": answers.stands}
    lists: dict[str, tuple[()]] = {}
    if answers.spreader_pairs == 0:
        lists["spreaders"] = ()
    if answers.headsail == "none":
        lists["sails"] = ()
    try:
        mast = Mast(length_mm=answers.mast_length_mm, section=section, **given)  # type: ignore[arg-type] # one known key
        return Layout(format=1, boat=Boat(name=yacht or _("Mast")), mast=mast, note=_note(answers), **lists)
    except ValidationError as error:
        raise NotKnownError(
            _("a mast of {length:g} mm cannot be: {why}").format(
                length=answers.mast_length_mm, why=error.errors()[0]["msg"].lower()
            )
        ) from error


def _note(answers: FirstAnswers) -> str:
    return " ".join(_noted(answers))


def _noted(answers: FirstAnswers) -> Iterator[str]:
    if answers.spreader_pairs:
        yield _("Pairs of spreaders: {pairs}, heights not known yet.").format(pairs=answers.spreader_pairs)
    if answers.headsail == "furled":
        yield _("Headsail: on a furler, not measured yet.")
    if answers.headsail == "hanked":
        yield _("Headsail: on hanks, not measured yet.")
    if answers.new_gear:
        yield _("To be mounted: {gear}.").format(gear=", ".join(answers.new_gear))
