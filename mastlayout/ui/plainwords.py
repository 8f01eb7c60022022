"""Names as their owner typed them: Qt reads < as markup and & as the mark of a key."""

import re

# Of every label, the tooltips too, and of those in Qt's own dialogs.
NO_MARKUP = "QLabel, QToolTip { qproperty-textFormat: PlainText; }"


def on_button(words: str) -> str:
    """Return words as a button or a menu shows them, each & as an &."""
    return words.replace("&", "&&")


def off_button(text: str) -> str:
    """Return the words that a button or a menu shows, without the mark of its key."""
    return re.sub(r"&(.)", r"\1", text)
