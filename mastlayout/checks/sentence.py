"""The sentence of a finding, made here and nowhere else: what, where, how much, what is needed."""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from mastlayout.checks.alike import Alike
from mastlayout.checks.finding import Finding
from mastlayout.checks.wanted import Wanted
from mastlayout.geometry.frames import height_mm, reading
from mastlayout.geometry.scene import Scene
from mastlayout.model.layout import NAMED, Layout
from mastlayout.model.measure import instructions
from mastlayout.units import Units, write_length
from mastlayout.words import _


@dataclass(frozen=True, eq=False)
class Wording:
    """What a rule asks, what its findings say in short, and what helps.

    ``a`` and ``b`` are the subjects, ``m`` the measured value, ``r`` the required one.
    """

    asks: str
    short: str
    deep: str
    helps: str


@cache
def wordings() -> Mapping[str, Wording]:
    """Return the wording of each code; ``deep`` is used where the measured value is negative."""
    w = Wording
    return {
        "clearance/stay": w(
            _("clearance to stays"),
            _("{a}: {m} from {b}, {r} is needed"),
            _("{a}: stands {m} into {b}"),
            _("Move it along or round the mast, or choose a slimmer part."),
        ),
        "clearance/spreader": w(
            _("clearance to spreaders and struts"),
            _("{a}: {m} from {b}, {r} is needed"),
            _("{a}: stands {m} into {b}"),
            _("Move it along or round the mast."),
        ),
        "clearance/fitting": w(
            _("clearance to fittings"),
            _("{a}: {m} from {b}, {r} is needed"),
            _("{a}: stands {m} into {b}"),
            _("Move one of the two."),
        ),
        "clearance/room": w(
            _("room for a hand or a tool"),
            _("{a}: in the room that {b} needs for a hand or a tool"),
            _("{a}: {m} into the room that {b} needs for a hand or a tool"),
            _("Move one of the two."),
        ),
        "seat/track": w(
            _("the foot against the track"),
            _("{a}: its foot lies over the track"),
            _("{a}: its foot lies {m} over the track"),
            _("Move it round the mast."),
        ),
        "seat/hollow": w(
            _("the foot on the metal"),
            "",
            _("{a}: stands where the tape bridges a hollow of the section"),
            _("Its girth is no place on the metal: move it round the mast."),
        ),
        "seat/girth": w(
            _("the foot against the girth"),
            "",
            _("{a}: its foot is {m} wider than the girth there"),
            _("Choose a narrower foot."),
        ),
        "seat/misses": w(
            _("holes that meet the mast"),
            "",
            _("{a}: drilled square to its foot it passes beside the mast"),
            _("Choose a narrower foot, or one shaped to the skin."),
        ),
        "hole/spacing": w(
            _("hole to hole"),
            _("{a}: {m} from {b}, {r} is needed, centre to centre"),
            "",
            _("Move the foot, turn it, or leave the hole out of the pattern."),
        ),
        "hole/foot-edge": w(
            _("hole to the edge of its foot"),
            _("{a}: {m} from the edge of its foot, {r} is needed"),
            _("{a}: {m} outside its foot"),
            _("Drill the foot anew, or choose a smaller fastener."),
        ),
        "hole/foot-typical": w(_("hole rows"), "", "", ""),
        "hole/inside": w(
            _("holes against what runs inside"),
            _("{a}: the drill passes {m} from {b}, {r} is wanted"),
            _("{a}: the drill meets {b}, {m} deep"),
            _("Turn or move the foot, or give it another hole."),
        ),
        "hole/wall": w(_("thread, grip and depth of holes"), "", "", ""),
        "cable/slot": w(
            _("cable entry against the conduit's slot"),
            _("{a}: its cable enters {m} past the nearest slot of {b}"),
            "",
            _("Move the entry level with a slot, or cut a slot before the conduit goes in."),
        ),
        "cable/plug": w(
            _("plug against its entry"),
            _("{a}: the plug of {b} is {r} wide, the entry {m}"),
            "",
            _("Fit the plug after the cable is pulled."),
        ),
        "cable/fill": w(
            _("conduit fill"),
            _("{a}: filled to {m}, at most {r} is wanted"),
            "",
            _("Lead a cable another way, or fit a wider conduit."),
        ),
        "rig/length": w(
            _("the stay's length against its pins"),
            _("{a}: its measured length and its pins differ by {m}, {r} is allowed"),
            "",
            _("Tape the stay and both pins again."),
        ),
        "rig/bisector": w(
            _("spreader against its bisector"),
            _("{a}: {m} off the bisector of {b}, {r} is allowed"),
            "",
            _("Set the spreader to halve the angle of its wire, both sides alike."),
        ),
        "rig/pair-length": w(
            _("port against starboard"),
            _("{a} and {b}: lengths differ by {m}, {r} is allowed"),
            "",
            _("Measure both again."),
        ),
        "rig/pair-from-masthead": w(
            _("port against starboard"),
            _("{a} and {b}: heights differ by {m}, {r} is allowed"),
            "",
            _("Measure both again."),
        ),
        "rig/pair-rise": w(
            _("port against starboard"),
            _("{a} and {b}: rise differs by {m}, {r} is allowed"),
            "",
            _("Set both alike."),
        ),
        "rig/pair-sweep": w(
            _("port against starboard"),
            _("{a} and {b}: sweep differs by {m}, {r} is allowed"),
            "",
            _("Measure both again."),
        ),
        "rig/pair-stay": w(
            _("port against starboard"),
            _("{a} and {b}: lengths differ by {m}, {r} is allowed"),
            "",
            _("Measure both again: one may have been cut to a wrong mark."),
        ),
        "rig/i": w(
            _("I against the rig"),
            _("I and the headsail halyard's bearing differ by {m}, {r} is allowed"),
            "",
            _("Measure I, the sheer and the bearing again."),
        ),
        "rig/j": w(
            _("J against the rig"),
            _("J and {a} differ by {m}, {r} is allowed"),
            "",
            _("Measure J and the forestay's pin again."),
        ),
        "rig/p": w(
            _("P against its marks"),
            _("{a}: P and its two marks differ by {m}, {r} is allowed"),
            "",
            _("Measure P and both marks again."),
        ),
        "sail/measured": w(_("sail clearance"), "", "", ""),
        "halyard/swivel": w(
            _("the halyard's angle at the swivel"),
            _("{a}: {m} to its stay at the swivel, {r} is wanted"),
            "",
            _("Fit a diverter, or a strop that brings the swivel to the foil's top."),
        ),
    }


def names_of(layout: Layout) -> dict[str, str]:
    """Return what to call each id of a layout."""
    names = {"mast": _("Mast")}
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
    wording = wordings()[finding.code]
    deep = finding.measured is not None and finding.measured < 0 and wording.deep
    text = wording.deep if deep else wording.short
    return text.format(
        a=called[0],
        b=_(" and ").join(called[1:]),
        m=written(abs(finding.measured or 0.0), finding, units, less=not deep),
        r=written(finding.required or 0.0, finding, units, less=False),
    )


def _called(scene: Scene, group: Alike, names: Mapping[str, str]) -> list[str]:
    """Call the subjects by name; the holes of findings alike together: holes 21.1 to 21.8."""
    first, *others = group[0].subjects
    own = name_of(scene, first, names)
    if len(group) > 1:
        owner = first.partition("/")[0]
        tags = [hole_tag(scene, finding.subjects[0]) for finding in group]
        holes = _(" to ").join((tags[0], tags[-1])) if len(tags) > 2 else _(" and ").join(tags)
        own = _("{name}, holes {holes}").format(name=names.get(owner, owner), holes=holes)
    return [own, *(name_of(scene, other, names) for other in others)]


def _unknown(called: list[str], measure: str) -> str:
    what = _small(instructions()[measure].title)
    return _("{a}: not checked. Not known: {what}").format(a=_(" and ").join(called), what=what)


def sentence(scene: Scene, said: Finding | Alike, names: Mapping[str, str], units: Units = "metric") -> str:
    """Return the whole sentence of one finding, or of those alike: what, where, how much, what helps."""
    group = said if isinstance(said, tuple) else (said,)
    finding, at = group[0], _at(scene, group, units)
    if finding.measure:
        called = _called(scene, group, names)
        what = _unknown([*called[:-1], called[-1] + at], finding.measure)
        return f"{what}. {instructions()[finding.measure].how}"
    foot = _(", with a typical foot: offer up the part") if finding.typical else ""
    return f"{short(scene, group, names, units)}{at}{foot}. {wordings()[finding.code].helps}"


def _at(scene: Scene, group: Alike, units: Units) -> str:
    heights = [finding.z_mm for finding in group if finding.z_mm is not None]
    if not heights:
        return ""
    first, last = (_height(scene, z, units) for z in (max(heights), min(heights)))
    if first == last:
        return _(", {height} from the masthead").format(height=first)
    return _(", {first} to {last} from the masthead").format(first=first, last=last)


def asked(one: Wanted) -> tuple[str, ...]:
    """Return what cannot be asked for want of one measure, each once."""
    return tuple(dict.fromkeys(wordings()[finding.code].asks for finding in one.findings))


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


def written(value: float, finding: Finding, units: Units, *, less: bool) -> str:
    """Write a measured or required value; a measured one is rounded towards less room (``less``).

    One digit more is shown where it would otherwise equal its limit.
    """
    if finding.unit == "%":
        return f"{value:.0f} %"
    if finding.unit == "deg":
        return f"{value:.1f}°"
    if units == "inches":
        return write_length(value, units)
    digits = 1 if value < 10 or (value < 100 and finding.code.startswith(("hole", "cable"))) else 0
    if less and finding.required is not None:
        shown = _rounded_down(value, digits)
        if abs(shown - finding.required) < 10**-digits / 2 and value < finding.required:
            digits += 1
        value = _rounded_down(value, digits)
    text = f"{value:.{digits}f}"
    return text.rstrip("0").rstrip(".") if "." in text and not less else text


def _rounded_down(value: float, digits: int) -> float:
    return math.floor(value * 10.0**digits + 1e-6) / 10.0**digits
