"""The rows of the findings sheet: open, accepted, and what the owner's own limits changed."""

from mastlayout.checks.alike import Alike, alike
from mastlayout.checks.report import Report
from mastlayout.checks.sentence import hole_tag, measured_text, needed_text, not_checked, sentence
from mastlayout.checks.wanted import Wanted, wanted
from mastlayout.documents.rows import FindingRow, LimitRow
from mastlayout.documents.schedule.notes import Speaker, speaker
from mastlayout.limits import built_in
from mastlayout.model.layout import Accepted
from mastlayout.units import Units
from mastlayout.words import _


def finding_rows(report: Report, units: Units) -> tuple[FindingRow, ...]:
    """Return every finding, the accepted ones last; a rule that broke is a fault of the program."""
    speaks = speaker(report, units)
    broken = [
        FindingRow(
            "fault",
            item.code,
            item.subject or _("the layout"),
            _("The rule broke: {what}. This is a fault of the program; the other rules ran.").format(
                what=item.what
            ),
        )
        for item in report.broken
    ]
    known = [finding for finding in report.open if finding.measure is None]
    groups = alike(known)
    loud = [_row(group, speaks, None) for group in groups if group[0].standing != "note"]
    quiet = [_row(group, speaks, None) for group in groups if group[0].standing == "note"]
    unknown = [_unknown(one, speaks) for one in wanted(report)]
    return (
        *broken,
        *loud,
        *unknown,
        *quiet,
        *(_row((finding,), speaks, own) for finding, own in report.accepted),
    )


def _unknown(one: Wanted, speaks: Speaker) -> FindingRow:
    """Return one row for all that waits for one measure."""
    return FindingRow(
        standing="not checked",
        code=", ".join(dict.fromkeys(finding.code for finding in one.findings)),
        subjects="; ".join(_called(name, speaks) for name in one.things),
        sentence=not_checked(one, speaks.names),
    )


def _row(group: Alike, speaks: Speaker, own: Accepted | None) -> FindingRow:
    report, finding = speaks.report, group[0]
    limit = report.limits.get(finding.limit or "")
    return FindingRow(
        standing="accepted" if own else finding.standing,
        code=finding.code,
        subjects="; ".join(_subjects(group, speaks)),
        sentence=sentence(report.scene, group, speaks.names, speaks.units),
        measured=measured_text(finding, speaks.units),
        needed=needed_text(finding, speaks.units),
        limit=f"{limit.title}: {limit.value:g} {limit.unit}" if limit else "",
        source=limit.source if limit else "",
        remark=_("Accepted {day}: “{remark}”.").format(day=own.day, remark=own.remark) if own else "",
    )


def _subjects(group: Alike, speaks: Speaker) -> list[str]:
    """Call the subjects of findings alike: the holes of one fitting together by their tags."""
    first, *others = group[0].subjects
    own = _called(first, speaks)
    if len(group) > 1:
        last = hole_tag(speaks.report.scene, group[-1].subjects[0])
        tag, _space, name = own.partition(" ")
        own = _("{first} to {last} {name}").format(first=tag, last=last, name=name)
    return [own, *(_called(other, speaks) for other in others)]


def _called(subject: str, speaks: Speaker) -> str:
    """Return a subject's tag and name; a hole by its own tag."""
    owner, _slash, hole = subject.partition("/h")
    name = speaks.names.get(owner, owner)
    placed = speaks.report.scene.placed.get(owner)
    tag = placed.fitting.tag if placed else None
    if tag is None:
        return name
    return f"{tag}.{hole} {name}" if hole else f"{tag} {name}"


def limit_rows(report: Report) -> tuple[LimitRow, ...]:
    """Return every limit that the owner set, beside the program's own."""
    rows = []
    for own in report.scene.layout.limits:
        limit = report.limits[own.key]
        was = built_in()[own.key]
        rows.append(LimitRow(limit.title, f"{was.value:g} {was.unit}", f"{own.value:g} {own.unit}", own.why))
    return tuple(rows)
