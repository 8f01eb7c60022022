"""The sentence of a finding, made here and nowhere else: what, where, how much, what is needed."""

import math
from collections.abc import Mapping

from mastlayout.checks.alike import Alike
from mastlayout.checks.built import ways_out
from mastlayout.checks.finding import Finding, Unit
from mastlayout.checks.wanted import Wanted
from mastlayout.checks.wordings import HINTS, WORDINGS, hint_words
from mastlayout.geometry.frames import height_mm, reading
from mastlayout.geometry.scene import Scene
from mastlayout.model.layout import NAMED, Layout
from mastlayout.model.measure import instructions
from mastlayout.units import MM_PER_INCH, Units, decimal_inches, feet_inches, write_size
from mastlayout.words import _

# Gaps in inches are read on a steel rule in thirty-seconds.
_PARTS = 32
# What is no length is written alike in all units.
_PLAIN: dict[Unit, str] = {
    "%": "{:.0f} %",
    "deg": "{:.1f}°",
    "V": "{:.2f} V",
    "NM": "{:g} NM",
    "m²": "{:.1f} m²",
    "dB": "{:.3g} dB",
}
# What these measure is a size: the room beside a hole, or how wide a plug is.
_SIZES = ("hole/", "fastener/", "cable/plug", "cable/entry", "cable/slot-short", "align/", "seat/gap")
# What these measure is far enough apart to be read on a tape.
_BY_TAPE = ("hole/near-", "hole/cutouts", "hole/facing")


# The names of the layout that was asked about last: every view asks with every move of a drag.
_LAST: list[tuple[Layout, Mapping[str, str]]] = []


def names_of(layout: Layout) -> Mapping[str, str]:
    """Return what to call each id of a layout."""
    if not _LAST or _LAST[0][0] is not layout:
        _LAST[:] = [(layout, _named(layout))]
    return _LAST[0][1]


def _named(layout: Layout) -> dict[str, str]:
    names = {"mast": layout.mast.name}
    for part in NAMED:
        names |= {item.id: item.name for item in getattr(layout, part)}
    return names | {pipe.id: pipe.name for pipe in layout.mast.conduits or ()}


def name_of(scene: Scene, subject: str, names: Mapping[str, str]) -> str:
    """Call a subject by name: a fitting, or one of its holes by its tag."""
    owner, _slash, hole = subject.partition("/h")
    name = names.get(owner, owner)
    return _("{name}, hole {tag}").format(name=name, tag=hole_tag(scene, subject)) if hole else name


def hole_tag(scene: Scene, subject: str) -> str:
    """Return what is pencilled beside a hole: 13.2, or its number alone where the fitting has no tag."""
    owner, _slash, hole = subject.partition("/h")
    placed = scene.placed.get(owner)
    tag = placed.fitting.tag if placed else None
    return f"{tag}.{hole}" if tag else hole


def short(scene: Scene, said: Finding | Alike, names: Mapping[str, str], units: Units = "metric") -> str:
    """Return one finding, or those alike, in one clause without its full stop."""
    group = said if isinstance(said, tuple) else (said,)
    finding = group[0]
    called = _called(scene, group, names)
    if finding.measure:
        return _unknown(called, finding.measure)
    wording = WORDINGS[finding.code]
    deep = finding.measured is not None and finding.measured < 0 and wording.deep
    text = wording.deep if deep else wording.short
    return text.format(
        a=called[0],
        b=_(" and ").join(called[1:]),
        m=written(abs(finding.measured or 0.0), finding, units, less=not deep),
        r=written(finding.required or 0.0, finding, units, less=False),
        s=finding.state,
    )


def brief(scene: Scene, said: Finding | Alike, names: Mapping[str, str]) -> str:
    """Return what happens, without the thing it happens to and without figures: drill passes Conduit A."""
    finding = said[0] if isinstance(said, tuple) else said
    if finding.measure:
        return _("not known: {what}").format(what=_small(instructions()[finding.measure].title))
    wording = WORDINGS[finding.code]
    deep = finding.measured is not None and finding.measured < 0 and wording.brief_deep
    others = [name_of(scene, other, names) for other in finding.subjects[1:]]
    return (wording.brief_deep if deep else wording.brief).format(b=_(" and ").join(others))


def thing(scene: Scene, said: Finding | Alike, names: Mapping[str, str]) -> str:
    """Return what it happens to, as a clause begins: Hailer and horn, holes 12.1 to 12.4."""
    return _called(scene, said if isinstance(said, tuple) else (said,), names)[0]


def tagged(scene: Scene, said: Finding | Alike, names: Mapping[str, str]) -> str:
    """Return the same by tag where it has one: Holes 12.1 to 12.4; No. 21."""
    group = said if isinstance(said, tuple) else (said,)
    owner, _slash, hole = group[0].subjects[0].partition("/h")
    placed = scene.placed.get(owner)
    if placed is None or not placed.fitting.tag:
        return thing(scene, group, names)
    if not hole:
        return _("No. {tag}").format(tag=placed.fitting.tag)
    words = _("Holes {holes}") if len(group) > 1 else _("Hole {holes}")
    return words.format(holes=tags(scene, group))


def tags(scene: Scene, group: Alike) -> str:
    """Return the tags of the holes that findings alike are about: 12.1 to 12.4."""
    each = [hole_tag(scene, finding.subjects[0]) for finding in group]
    return _(" to ").join((each[0], each[-1])) if len(each) > 2 else _(" and ").join(each)


def _called(scene: Scene, group: Alike, names: Mapping[str, str]) -> list[str]:
    """Call the subjects by name; the holes of findings alike together: holes 21.1 to 21.8."""
    first, *others = group[0].subjects
    own = name_of(scene, first, names)
    if len(group) > 1:
        owner = first.partition("/")[0]
        own = _("{name}, holes {holes}").format(name=names.get(owner, owner), holes=tags(scene, group))
    return [own, *(name_of(scene, other, names) for other in others)]


def _unknown(called: list[str], measure: str) -> str:
    what = _small(instructions()[measure].title)
    return _("{a}: not checked. Not known: {what}").format(a=_(" and ").join(called), what=what)


def sentence(
    scene: Scene,
    said: Finding | Alike,
    names: Mapping[str, str],
    units: Units = "metric",
    *,
    published: bool = True,
) -> str:
    """Return the whole sentence of one finding, or of those alike: what, where, how much, what helps.

    Not ``published``, it leaves out what standards ask beside the program's own limit.
    """
    group = said if isinstance(said, tuple) else (said,)
    finding, at = group[0], _at(scene, group, units)
    if finding.measure:
        called = _called(scene, group, names)
        what = _unknown([*called[:-1], called[-1] + at], finding.measure)
        return f"{what}. {instructions()[finding.measure].how}{_by(finding)}"
    foot = _(", with a typical foot: offer up the part") if finding.typical else ""
    ways = ways_out(scene, finding, units)
    hint = finding.hint if published or finding.hint in HINTS else ""
    hint = f" {hint_words(hint)}" if hint else ""
    helps = f"{WORDINGS[finding.code].helps}{hint}{ways}{_by(finding)}"
    return f"{short(scene, group, names, units)}{at}{foot}. {helps}"


def _by(finding: Finding) -> str:
    """Name the published rule a finding asks by."""
    rule = WORDINGS[finding.code].published
    return _(" By {rule}.").format(rule=rule) if rule else ""


def _at(scene: Scene, group: Alike, units: Units) -> str:
    heights = [finding.z_mm for finding in group if finding.z_mm is not None]
    if not heights:
        return ""
    if min(heights) > scene.skin.length_mm:
        return _(", above the masthead")
    first, last = (_height(scene, z, units) for z in (max(heights), min(heights)))
    if first == last:
        return _(", {height} from the masthead").format(height=first)
    return _(", {first} to {last} from the masthead").format(first=first, last=last)


def asked(one: Wanted) -> tuple[str, ...]:
    """Return what cannot be asked for want of one measure, each once, with its published rule."""
    return tuple(dict.fromkeys(_asks(finding) for finding in one.findings))


def _asks(finding: Finding) -> str:
    wording = WORDINGS[finding.code]
    words = _("{asks} ({rule})").format(asks=wording.asks, rule=wording.published)
    return words if wording.published else wording.asks


def not_checked(one: Wanted, names: Mapping[str, str]) -> str:
    """Return one sentence for all that waits for one measure: what it is, what it blocks, how to take it."""
    blocked = "; ".join(names.get(name, name) for name in one.blocked)
    return _("{title} not known: {things}. It blocks {asks}{of}. {how}").format(
        title=one.instruction.title,
        things="; ".join(names.get(name, name) for name in one.things),
        asks=_(" and ").join(asked(one)),
        of="" if one.blocked == one.things else _(": {blocked}").format(blocked=blocked),
        how=one.instruction.how,
    )


def _height(scene: Scene, z_mm: float, units: Units) -> str:
    length = scene.skin.length_mm
    read = reading(height_mm(length, z_mm), length, units)
    return read.text(read.masthead)


def _small(title: str) -> str:
    """Begin a title small inside a sentence, unless it begins with a letter that stands alone: I, J."""
    return title if title[1:2] in ("", " ") else title[:1].lower() + title[1:]


def measured_text(finding: Finding, units: Units) -> str:
    """Write what was measured, with a real minus where it lies too deep; "" where nothing was.

    For a column or a drawing: a size has its inches alone, the sentence has its millimetres too.
    """
    if finding.measured is None:
        return ""
    deep = finding.measured < 0
    number = written(abs(finding.measured), finding, units, less=not deep, narrow=True)
    return f"\u2212{number}" if deep else number


def needed_text(finding: Finding, units: Units) -> str:
    """Write what is needed, as briefly; "" where nothing was measured."""
    if finding.measured is None:
        return ""
    return written(finding.required or 0.0, finding, units, less=False, narrow=True)


def written(value: float, finding: Finding, units: Units, *, less: bool, narrow: bool = False) -> str:
    """Write a measured or required value; a measured one is rounded towards less room (``less``).

    One digit more is shown where it would otherwise equal its limit; ``narrow`` leaves the
    millimetres beside the inches of a size out.
    """
    if finding.code == "cable/volts":
        return f"{value:.1f} %"
    if finding.unit == "%" and finding.code.startswith("hole/"):
        # What is left is written a digit finer, and down, so that it never shows the limit it misses.
        return f"{_rounded_down(value, 1):g} %"
    if finding.unit in _PLAIN:
        return _PLAIN[finding.unit].format(value)
    if units == "inches" and finding.unit == "mm":
        if finding.code.startswith(_SIZES) and not finding.code.startswith(_BY_TAPE):
            return _size(value, less=less, narrow=narrow)
        return _inches(value, finding.required, less=less)
    digits = (
        1 if value < 10 or (value < 100 and finding.code.startswith(("hole", "fastener", "cable"))) else 0
    )
    if less and finding.required is not None:
        shown = _rounded_down(value, digits)
        if abs(shown - finding.required) < 10**-digits / 2 and abs(value - finding.required) > 1e-6:
            digits += 1
        value = _rounded_down(value, digits)
    text = f"{value:.{digits}f}"
    return text.rstrip("0").rstrip(".") if "." in text and not less else text


def gap_text(gap_mm: float, units: Units) -> str:
    """Write a gap that has no limit, rounded towards less room: to 0.1 mm or 1/32 of an inch."""
    return _inches(gap_mm, None, less=True) if units == "inches" else f"{_rounded_down(gap_mm, 1):.1f}"


def _inches(value_mm: float, required_mm: float | None, *, less: bool) -> str:
    """Write in 1/32 of an inch: what is needed rounded up, what was measured down, finer where they meet."""
    if not less:
        return feet_inches(math.ceil(value_mm / MM_PER_INCH * _PARTS - 1e-6), _PARTS)
    parts = _PARTS
    if required_mm is not None and value_mm < required_mm:
        needed = math.ceil(required_mm / MM_PER_INCH * _PARTS - 1e-6)
        parts = _PARTS if math.floor(value_mm / MM_PER_INCH * _PARTS + 1e-6) < needed else 2 * _PARTS
    return feet_inches(math.floor(value_mm / MM_PER_INCH * parts + 1e-6), parts)


def _size(value_mm: float, *, less: bool, narrow: bool) -> str:
    """Write a size: what is needed rounded up, what was measured down, so that they never meet."""

    def rounding(value: float) -> int:
        """Round to the safe side."""
        return math.floor(value + 1e-6) if less else math.ceil(value - 1e-6)

    if narrow:
        return decimal_inches(value_mm, rounding)
    return write_size(value_mm, units="inches", rounding=rounding)


def _rounded_down(value: float, digits: int) -> float:
    return math.floor(value * 10.0**digits + 1e-6) / 10.0**digits
