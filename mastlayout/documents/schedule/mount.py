"""The rows of the mounting schedule from the scene and its findings."""

from collections.abc import Iterable, Iterator, Sequence

from mastlayout.checks.finding import Finding, loud_first
from mastlayout.checks.report import Report
from mastlayout.documents.rows import MountRow, Note
from mastlayout.documents.schedule.built import built_words
from mastlayout.documents.schedule.foot import fasteners_words
from mastlayout.documents.schedule.hole import cable_words
from mastlayout.documents.schedule.notes import Speaker, first_fault, hole_ids, speaker
from mastlayout.documents.schedule.places import face_and_place, height_of, is_on_top, tag_of
from mastlayout.fastening.metals import NO_METAL, USUAL
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.rig import SpreaderInSpace
from mastlayout.geometry.scene import masthead_first
from mastlayout.geometry.skin import Skin
from mastlayout.units import Units, write_length
from mastlayout.words import _, ngettext

# What is fitted before the mast is stepped comes first; then the mast, its spreaders, its stays.
_WHEN = {None: 0, "before stepping": 0, "after stepping": 1, "at the dock": 2}
# What is said of these is work to do, not a place to think over.
_MOUNTING = ("cable/slot-new", "cable/plug")
# Metals that need paste only on a mast of aluminium; all others want something between.
_LIKE = ("aluminium", "plastic")


def mount_rows(report: Report, units: Units, *, holes_checked: bool) -> tuple[MountRow, ...]:
    """Return one row for each new fitting, in the order of work."""
    skin = report.scene.skin
    new = [placed for placed in masthead_first(report.scene) if placed.fitting.new]
    new.sort(key=lambda placed: _order(placed, skin))
    return rows_of(new, report, units, holes_checked=holes_checked)


def rows_of(
    fittings: Iterable[Placed], report: Report, units: Units, *, holes_checked: bool
) -> tuple[MountRow, ...]:
    """Return one row for each of some fittings, in their order."""
    speaks, skin = speaker(report, units), report.scene.skin
    return tuple(_row(placed, skin, speaks, holes_checked=holes_checked) for placed in fittings)


def _order(placed: Placed, skin: Skin) -> tuple[int, int, float]:
    if is_on_top(placed, skin):
        host = 3
    else:
        host = 0 if placed.skin else 1 if isinstance(placed.host, SpreaderInSpace) else 2
    return _WHEN[placed.fitting.fitted], host, -placed.z_mm


def _row(placed: Placed, skin: Skin, speaks: Speaker, *, holes_checked: bool) -> MountRow:
    units, fitting = speaks.units, placed.fitting
    found = [f for name in (placed.id, *hole_ids(placed)) for f in speaks.about(name)]
    face, place = face_and_place(placed, skin, units)
    stopped = any(speaks.loud_of(name) or speaks.unknown_of(name) for name in hole_ids(placed))
    remark, hold = _state(placed, found, stopped=stopped, holes_checked=holes_checked)
    mass = fitting.mass_kg if fitting.mass_kg is not None else placed.kind.mass_kg
    return MountRow(
        tag=tag_of(placed),
        name=fitting.name,
        height=height_of(placed, skin, units),
        top=is_on_top(placed, skin),
        face=face,
        place=place,
        mass_kg=mass,
        holes=fasteners_words(placed, placed.foot) if placed.foot else _("no foot of its own"),
        foot=_foot_words(placed, units),
        isolation=_isolation(placed, skin),
        cable=cable_words(placed, speaks.report.scene, units),
        remark=remark,
        hold=hold,
        notes=tuple(
            dict.fromkeys(
                [*_notes(placed, found, speaks), *speaks.accepted(placed), *_built(placed, skin, units)]
            )
        ),
    )


def _built(placed: Placed, skin: Skin, units: Units) -> Iterator[Note]:
    """Yield a note for a fitting that was found elsewhere than planned, and one for all its holes."""
    yield from (Note(tag_of(placed), words) for words in built_words(placed, skin, units))
    count = len(placed.fitting.holes_built)
    if count:
        words = ngettext("{n} hole measured as drilled", "{n} holes measured as drilled", count)
        yield Note(tag_of(placed), _("{words}: see DRILL").format(words=words.format(n=count)))


def _notes(placed: Placed, found: Sequence[Finding], speaks: Speaker) -> Iterator[Note]:
    """Yield one note: the loudest finding with the count of the others, what is not known, what is to do.

    The findings sheet says all of them; beside the work stands what stops it, in type that is read.
    """
    said = list(_said(placed, found, speaks))
    if said:
        yield Note(tag_of(placed), " · ".join(said))


def _said(placed: Placed, found: Sequence[Finding], speaks: Speaker) -> Iterator[str]:
    known = [f for f in found if f.standing != "not checked"]
    loud = [f for f in known if f.standing in ("fault", "caution") and f.code not in _MOUNTING]
    own = f"{placed.fitting.name}: "
    if loud:
        yield speaks.brief(min(loud, key=loud_first)).text.removeprefix(own)
    if len(loud) > 1:
        count = len(loud) - 1
        yield ngettext("{n} more: see FINDINGS", "{n} more: see FINDINGS", count).format(n=count)
    yield from (speaks.brief(f).text.removeprefix(own) for f in known if f.code in _MOUNTING)
    if len(known) < len(found):
        yield speaks.missing(found)


def _state(
    placed: Placed, found: Sequence[Finding], *, stopped: bool, holes_checked: bool
) -> tuple[str, bool]:
    drills = placed.foot is not None and bool(placed.foot.holes) and not _is_bolted_on(placed)
    if first_fault(found):
        return _("open fault"), True
    if drills and not placed.foot_known:
        return _("offer up the part"), True
    if stopped:
        return _("a hole is stopped"), True
    if drills and not holes_checked:
        return _("hole rules not checked"), True
    return "", False


def _is_bolted_on(placed: Placed) -> bool:
    """Tell whether the fitting stands on another one, so that neither mast nor spreader is drilled."""
    return isinstance(placed.host, Placed)


def _foot_words(placed: Placed, units: Units) -> str:
    if placed.foot is None:
        return ""
    across, along = write_length(placed.foot.across_mm, units), write_length(placed.foot.along_mm, units)
    words = _("foot {across} × {along}").format(across=across, along=along)
    return words if placed.foot_known else _("{foot}, typical").format(foot=words)


def _isolation(placed: Placed, skin: Skin) -> str:
    """Return what goes between the part and its host (common practice, no source)."""
    metal = placed.kind.metal
    if metal is None:
        return _("metal not known")
    if metal not in NO_METAL | USUAL and metal not in _LIKE:
        return _("liner, sleeve, paste")
    if placed.foot and placed.foot.liner_mm:
        return _("liner, paste")
    if skin.mast.material == "aluminium" and metal in _LIKE:
        return _("paste")
    return _("paste, washer")
