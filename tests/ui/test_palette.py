"""The palettes: every pair of colours that stands together can be told apart, also without red or green."""

import re
from itertools import combinations

import numpy as np
import pytest
from PySide6.QtWidgets import QWidget
from window_builder import a_window, whimbrel

from mastlayout.ui.app import dress
from mastlayout.ui.keys import keys_dialog
from mastlayout.ui.look import THEMES, contrast

# Web Content Accessibility Guidelines 2.2, level AA: 1.4.3 for words, 1.4.11 for what has a meaning.
WORDS, MEANING = 4.5, 3.0
# The least distance in CIE 1976 L*a*b* at which two states are told apart side by side.
APART = 20.0
_STATES = ("fault", "caution", "unknown", "clear", "note")
# Which words stand on which grounds.
_ON = {
    "ink": ("ground", "window", "field", "chosen", "mast", "cloth", "foot", "body"),
    "second": ("ground", "window", "field", "chosen"),
    "accent": ("ground", "field", "chosen"),
    "on_accent": ("accent",),
    "tape_ink": ("tape",),
    "tape": ("tape_ink",),
    **dict.fromkeys(_STATES, ("ground", "chosen")),
    "cable": ("ground",),
}
# Lines and marks with a meaning, on what they lie on.
_LINES = {
    "edge": ("ground", "window", "field"),
    "cloth_edge": ("ground", "cloth"),
    "cable": ("ground", "mast"),
    "accent": ("ground", "window", "mast", "tape"),
    "fault": ("ground", "mast"),
    "unknown": ("ground", "mast"),
}
# Machado, Oliveira and Fernandes, A physiologically-based model for simulation of color vision
# deficiency (2009), severity 1.0, on linear RGB.
_SIMULATED = {
    "without red": [
        [0.152286, 1.052583, -0.204868], [0.114503, 0.786281, 0.099216], [-0.003882, -0.048116, 1.051998],
    ],
    "without green": [
        [0.367322, 0.860646, -0.227968], [0.280085, 0.672501, 0.047413], [-0.011820, 0.042940, 0.968881],
    ],
}  # fmt: skip
# IEC 61966-2-1: linear sRGB to CIE XYZ, white D65.
_XYZ = np.array([[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]])
_RULE = re.compile(r"([^{}]+)\{([^{}]*)\}")
_HEX = re.compile(r"#([0-9a-fA-F]{6})\b")


def test_contrast_is_that_of_the_guidelines():
    """Black on white is 21; #777777 on white is known to miss 4.5 by a hair, at 4.48."""
    assert contrast("000000", "FFFFFF") == pytest.approx(21.0)
    assert contrast("777777", "FFFFFF") == pytest.approx(4.48, abs=0.005)


@pytest.mark.parametrize("theme", THEMES)
def test_words_can_be_read_on_every_ground(theme):
    """4.5 : 1 for every ink on every ground that it stands on."""
    assert _below(THEMES[theme], _ON, WORDS) == []


@pytest.mark.parametrize("theme", THEMES)
def test_lines_with_a_meaning_can_be_seen(theme):
    """3 : 1 for every line on what it lies on."""
    assert _below(THEMES[theme], _LINES, MEANING) == []


def _below(colours, pairs, least):
    ratios = {
        (top, under): contrast(getattr(colours, top), getattr(colours, under))
        for top, grounds in pairs.items()
        for under in grounds
    }
    return [f"{top} on {under}: {ratio:.2f}" for (top, under), ratio in ratios.items() if ratio < least]


@pytest.mark.parametrize("theme", THEMES)
@pytest.mark.parametrize("eye", _SIMULATED)
def test_fault_and_caution_are_apart_without_red_or_green(theme, eye):
    """The two that decide are told apart by colour alone; the others by shape and word too."""
    colours = THEMES[theme]
    fault, caution = (_lab(_seen(getattr(colours, role), eye)) for role in ("fault", "caution"))
    assert float(np.linalg.norm(fault - caution)) >= APART


@pytest.mark.parametrize("theme", THEMES)
def test_states_are_apart_to_a_full_eye(theme):
    """Every two states, where shape and word could be overlooked; a note is meant to be quiet as ink."""
    colours = THEMES[theme]
    labs = {role: _lab(_linear(getattr(colours, role))) for role in _STATES}
    near = [(a, b) for a, b in combinations(_STATES, 2) if np.linalg.norm(labs[a] - labs[b]) < APART]
    assert near == []


@pytest.fixture
def undressed(qapp):
    """Take the sheet and palette off the application after a test that put them on."""
    sheet, palette, face = qapp.styleSheet(), qapp.palette(), qapp.font()
    yield
    qapp.setStyleSheet(sheet)
    qapp.setPalette(palette)
    qapp.setFont(face)


@pytest.mark.usefixtures("undressed")
@pytest.mark.parametrize("theme", THEMES)
def test_style_sheets_use_pairs_that_can_be_read(qapp, qtbot, tmp_path, theme):
    """Every rule of every sheet in force in the window and a dialog; what cannot be used now is exempt."""
    window = a_window(qtbot, tmp_path)
    window.theme.choose(theme)
    dress(qapp, window.theme)
    window.files.open(whimbrel(tmp_path))
    qtbot.waitUntil(lambda: window.arrangement is not None)
    sheets = {qapp.styleSheet(), *_sheets(window), *_sheets(window.start), *_sheets(keys_dialog(window))}
    rules = [rule for sheet in sheets for rule in _RULE.findall(sheet) if ":disabled" not in rule[0]]
    colours = THEMES[theme]
    assert len(rules) > 30
    assert [wrong for rule in rules for wrong in _unread(*rule, colours)] == []


def _sheets(root: QWidget) -> list[str]:
    return [widget.styleSheet() for widget in (root, *root.findChildren(QWidget)) if widget.styleSheet()]


def _unread(selector, body, colours):
    said = dict(part.split(":", 1) for part in body.split(";") if ":" in part)
    said = {key.strip(): _HEX.search(value) for key, value in said.items()}
    word, ground = said.get("color"), said.get("background") or said.get("background-color")
    if word is None:
        return
    grounds = [ground[1]] if ground else [colours.ground, colours.window]
    for under in grounds:
        ratio = contrast(word[1], under)
        if ratio < WORDS:
            yield f"{selector.strip()}: {word[1]} on {under} is {ratio:.2f}"


def _linear(colour):
    parts = np.array([int(colour[i : i + 2], 16) / 255 for i in (0, 2, 4)])
    return np.where(parts <= 0.04045, parts / 12.92, ((parts + 0.055) / 1.055) ** 2.4)


def _seen(colour, eye):
    return np.clip(np.array(_SIMULATED[eye]) @ _linear(colour), 0.0, 1.0)


def _lab(linear):
    """CIE 1976 L*a*b* of linear sRGB."""
    xyz = _XYZ @ linear / (_XYZ @ np.ones(3))
    root = np.where(xyz > (6 / 29) ** 3, np.cbrt(xyz), xyz / (3 * (6 / 29) ** 2) + 4 / 29)
    return np.array([116 * root[1] - 16, 500 * (root[0] - root[1]), 200 * (root[1] - root[2])])
