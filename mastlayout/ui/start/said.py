"""What was answered, in the few words that a step has room for."""

from mastlayout.model.mast import FreeOutline
from mastlayout.ui.start.answers import Answers, Key
from mastlayout.ui.start.steps import not_known
from mastlayout.words import _, ngettext


def answer_in_words(answers: Answers, key: Key) -> str:
    """Return the answer to a question, "not known yet" where there is none."""
    first = answers.first
    words = {
        "length": _length(first.mast_length_mm),
        "section": _section(answers),
        "stands": {"keel": _("on the keel"), "deck": _("on deck")}.get(first.stands or ""),
        "holds": _pairs(first.spreader_pairs),
        "sails": {"furled": _("on a furler"), "hanked": _("on hanks"), "none": _("no headsail")}.get(
            first.headsail or ""
        ),
        "gear": ", ".join(first.new_gear).lower() or None,
    }
    return words[key] or not_known()


def _length(length_mm: float | None) -> str | None:
    return None if length_mm is None else f"{length_mm:,.0f}".replace(",", "\u2009")


def _section(answers: Answers) -> str | None:
    section = answers.section
    if section is None or isinstance(section, FreeOutline):
        return None
    return _("{length:g} by {width:g}").format(length=section.length_mm, width=section.width_mm)


def _pairs(pairs: int | None) -> str | None:
    if pairs is None:
        return None
    return ngettext("{n} pair", "{n} pairs", pairs).format(n=pairs) if pairs else _("no spreaders")
