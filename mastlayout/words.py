"""The one door to translation: every sentence of every room passes through here."""

import gettext
from pathlib import Path

_TRANSLATION = gettext.translation("mastlayout", Path(__file__).parent / "locale", fallback=True)


def _(text: str) -> str:
    """Return ``text`` in the user's language, or unchanged where there is no translation."""
    return _TRANSLATION.gettext(text)


def ngettext(one: str, many: str, count: int) -> str:
    """Return the form of a sentence that fits ``count`` things."""
    return _TRANSLATION.ngettext(one, many, count)
