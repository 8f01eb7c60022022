"""What the keys of the views do, in words, for the list of keys; the steps come from where they are kept."""

from mastlayout.ui.moving.steps import PAGE_MM, step_words
from mastlayout.words import _


def view_keys() -> list[tuple[str, str]]:
    """Return the keys of elevation, section, skin, strip and list, each with what it does."""
    plain, large, small = step_words()
    by = _("by {plain:g}, with Shift by {large:g}, with Alt by {small:g}").format(
        plain=plain, large=large, small=small
    )
    return [
        (
            _("Up, Down"),
            _("Move what is in hand along the mast {by}; with nothing in hand, the height").format(by=by),
        ),
        (_("Left, Right"), _("Move it round, as seen from outside; in the section as seen from above")),
        (_("Page Up, Page Down"), _("Move it off the skin and back, by the same steps")),
        (_("Ctrl+Up, Ctrl+Down"), _("In the list: along the mast; of a stay in hand: its lower end")),
        (_("Enter, double click"), _("Type its height")),
        (_("Delete"), _("Remove it, in a drawing or in the list")),
        (_("Drag"), _("In the elevation along, in the section round, on the skin both ways")),
        (_("Drag with Ctrl, with Shift"), _("Snap to nothing; in the section, off the skin")),
        (_("Escape, right click"), _("During a drag: put it back")),
        (_("Wheel"), _("In the section and on the skin: the height in hand {by}").format(by=by)),
        (_("Plus, Minus, Ctrl+wheel"), _("In the elevation: larger, smaller")),
        (_("Home, End, Page Up, Page Down"), _("On the strip: what the elevation shows")),
        (
            _("Left, Right, Page Up, Page Down, Home, End"),
            _("Below the section: carry the sail across, or ease the main"),
        ),
        (
            _("Up, Down, Page Up, Page Down"),
            _("In the chart of heights: the height in hand {by}; a page key by {page:g}").format(
                by=by, page=PAGE_MM
            ),
        ),
        (_("Home, End"), _("In the chart of heights: to the masthead, to the heel")),
        (_("Ctrl+Up, Ctrl+Down"), _("In the chart of heights: the next fitting up or down")),
        (_("Space"), _("On trestles: tick the next box")),
        (_("Enter"), _("On trestles: go to the next hole")),
        (_("R"), _("On trestles: roll the mast")),
        (_("Tab, Shift+Tab"), _("To the next or the previous control")),
    ]
