"""A name is shown as its owner typed it, whatever signs it holds: never as markup, never as a key's mark."""

import io
import itertools
from xml.etree import ElementTree as ET

import pdfplumber
import pytest
from PySide6.QtCore import QEvent, QPoint
from PySide6.QtGui import QFontMetricsF, QHelpEvent
from PySide6.QtWidgets import QApplication, QLabel, QMessageBox, QToolButton, QWidget

from mastlayout.desk import Desk
from mastlayout.documents.papers import papers
from mastlayout.model.layout import NAMED
from mastlayout.resources import demo_masts
from mastlayout.storage.reading import load
from mastlayout.ui.asks import Asks
from mastlayout.ui.keys import keys_dialog
from mastlayout.ui.pictures.picture import picture
from mastlayout.ui.pictures.views import shown
from mastlayout.ui.plainwords import off_button, on_button

MARKS = ("<b>Radar</b> {n}", "a & b <i> {n}", "&amp; {n}", "<img src=x> {n}", "<h1>{n}")


def marked(layout):
    """The layout with marks in the name of the yacht and of all that has one."""
    count = itertools.count()

    def renamed(items):
        return tuple(one.but(name=MARKS[(n := next(count)) % len(MARKS)].format(n=n)) for one in items)

    parts = {part: renamed(getattr(layout, part)) for part in (*NAMED, "kinds") if getattr(layout, part)}
    mast = layout.mast.but(conduits=renamed(layout.mast.conduits or ()))
    return layout.but(boat=layout.boat.but(name="<b>Sea & Sky</b>"), mast=mast, **parts)


@pytest.fixture(scope="module")
def layout():
    """An example whose every name has marks."""
    return marked(load(demo_masts() / "whimbrel.toml"))


@pytest.fixture
def window(dressed, layout):
    """The dressed window on it."""
    made = dressed()
    made.files.open(demo_masts() / "whimbrel.toml")
    made.session.open(Desk(layout))
    QApplication.processEvents()
    return made


def labels():
    """Every label there is, each with the look of the program upon it."""
    found = [one for one in QApplication.allWidgets() if isinstance(one, QLabel)]
    for label in found:
        label.ensurePolished()
    return found


def wide_as_signs(label, words):
    """Tell whether a label has the room that the signs take, and not the words a markup would leave."""
    signs = QFontMetricsF(label.font()).horizontalAdvance(words)
    return label.text() == words and label.sizeHint().width() >= int(signs)


def test_no_label_reads_a_name_as_markup(window, layout):
    """Whatever is in hand; the yacht's name on the toolbar is as wide as its signs."""
    for part in NAMED:
        for item in getattr(layout, part)[:2]:
            window.session.pick(item.id)
            QApplication.processEvents()
            for label in labels():
                assert label.textFormat().name == "PlainText", label.text()
    assert wide_as_signs(window.toolbar.yacht, "<b>Sea & Sky</b>")


@pytest.mark.qt_log_ignore("does not support raise", extend=True)
@pytest.mark.parametrize("trestles", [False, True])
def test_a_tooltip_shows_the_name(window, trestles):
    """The yacht's, asked for as the pointer asks."""
    if trestles:
        window.lay_on_trestles()
    yacht = window.toolbar.yacht
    at = QPoint(3, 3)
    QApplication.sendEvent(yacht, QHelpEvent(QEvent.Type.ToolTip, at, yacht.mapToGlobal(at)))
    tip = next(one for one in labels() if one.metaObject().className() == "QTipLabel")
    assert (tip.text(), tip.textFormat().name) == ("<b>Sea & Sky</b>", "PlainText")


def test_dialogs_show_the_name(window, monkeypatch):
    """The question before closing, and the list of keys, whose words have marks of keys in the menus."""
    monkeypatch.setattr(QMessageBox, "exec", lambda box: box.show() or QMessageBox.StandardButton.Cancel)
    Asks(window).leave("<b>Sea</b> & Sky.toml")
    window.act_on_hand(lambda session: session.pick(session.layout.fittings[1].id))
    dialog = keys_dialog(window)
    dialog.show()
    for box in (window.findChild(QMessageBox), dialog):
        said = [label for label in box.findChildren(QLabel) if label.text()]
        assert said
        assert {label.textFormat().name for label in said} == {"PlainText"}
        box.close()


def test_a_button_keeps_the_ampersand(window, layout):
    """The step an undo takes back is named in full in the menu, on the button and for a screen reader."""
    fitting = next(one for one in layout.fittings if one.name.startswith("a & b"))
    window.session.pick(fitting.id)
    window.acts["turn"].trigger()
    name = f"Undo turn {fitting.name}"
    assert window.acts["undo"].text() == f"&Undo turn {on_button(fitting.name)}"
    button = next(
        one for one in window.toolbar.findChildren(QToolButton) if one.accessibleName().startswith("Undo")
    )
    assert button.accessibleName() == name
    assert "a && b" in button.text()
    assert button.toolTip().startswith(name)
    assert name.startswith(off_button(button.text()).rstrip(" …"))


@pytest.mark.parametrize(
    ("words", "text"), [("a & b", "a && b"), ("&amp;", "&&amp;"), ("a && b", "a &&&& b"), ("<b>", "<b>")]
)
def test_a_button_shows_what_it_is_given(words, text):
    """To the button's spelling and back."""
    assert on_button(words) == text
    assert off_button(text) == words
    assert off_button("&Undo " + text) == "Undo " + words


def test_papers_print_the_name(window, layout):
    """Each fitting of the mounting schedule, and the yacht in every head."""
    mount = next(paper for paper in papers(window.session.desk.report) if paper.name.endswith("mount.pdf"))
    with pdfplumber.open(io.BytesIO(mount.data)) as book:
        text = "\n".join(page.extract_text() for page in book.pages)
    assert "<b>Sea & Sky</b>" in text
    new = [one.name for one in layout.fittings if one.new]
    assert {name[:3] for name in new} > {"<b>", "a &", "&am", "<im"}
    for name in new:
        assert name.split()[0] in text


def test_pictures_write_the_name(window, layout):
    """The list of what is on the mast and the elevation's labels, as text of the SVG."""
    one = shown(window.session, window.arrangement.panels, "elevation")
    root = ET.fromstring(picture(one.widget, one.caption, window.theme.colours, ".svg"))  # noqa: S314 - our own
    texts = "\n".join(element.text or "" for element in root.iter())
    for part in ("<b>Radar</b>", "a & b <i>", "&amp;", "<img src=x>"):
        assert part in texts


def test_other_windows_are_held_too(window):
    """A label made later, with a look of its own, in a window of its own."""
    apart = QWidget()
    label = QLabel("<b>x</b>", apart)
    label.setStyleSheet("QLabel { color: red }")
    apart.show()
    assert wide_as_signs(label, "<b>x</b>")
    apart.close()
