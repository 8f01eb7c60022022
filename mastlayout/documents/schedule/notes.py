"""What the findings say of one fitting, as notes of its rows."""

from collections.abc import Iterable, Mapping

from mastlayout.checks.alike import Alike, alike
from mastlayout.checks.cable import entering_at
from mastlayout.checks.finding import Finding
from mastlayout.checks.holes import hole_id
from mastlayout.checks.report import Report
from mastlayout.checks.sentence import names_of, sentence, short
from mastlayout.documents.rows import Note
from mastlayout.documents.schedule.places import tag_of
from mastlayout.frozen import dataclass
from mastlayout.geometry.placed import Placed
from mastlayout.model.fitting import MAST
from mastlayout.model.layout import Accepted
from mastlayout.model.measure import instructions
from mastlayout.units import Units
from mastlayout.words import _, ngettext

# The sheet itself says so, in a sign larger than a note.
_SIGNED = ("hole/foot-typical",)
# Cautions of these do not stop a drill: a screw of few threads is a note beside its box.
_ADVICE = ("fastener/threads",)
# What is said of a fitting's holes together holds each of them; of the mast, whatever was not looked for.
_OF_HOLES = ("hole/", "seat/track", "seat/hollow", "seat/girth", "seat/misses", "seat/unplaced")
_OF_MAST = ("hole/", "seat/", "clearance/")
# Beside the drill stands what is said of these.
_OF_DRILLING = (
    "hole/", "seat/", "fastener/", "cable/entry", "cable/slot", "cable/drip", "cable/fill", "clearance/",
    "metals/refused", "metals/isolate",
)  # fmt: skip
# A plug that goes on after the pull holds nothing back.
_OF_ENTRY = (
    "cable/entry", "cable/slot", "cable/slot-past", "cable/slot-short", "cable/drip", "cable/fill",
)  # fmt: skip


@dataclass(frozen=True)
class Speaker:
    """A report read in one system of units."""

    report: Report
    units: Units
    names: Mapping[str, str]
    alike: Mapping[Finding, Alike]

    def about(self, subject: str) -> list[Finding]:
        """Return the open findings whose subject is exactly this fitting or hole."""
        return [f for f in self.report.open if subject in f.subjects and f.code not in _SIGNED]

    def note(self, placed: Placed, finding: Finding) -> Note:
        """Return a finding as a note; all that is not known of a fitting is one note."""
        if finding.standing == "not checked":
            return Note(
                tag_of(placed), self.missing(dict.fromkeys([*self.all_about(placed), *self.unknown(placed)]))
            )
        # A hole's own sentence names its tag already.
        tag = "" if any("/h" in subject for subject in finding.subjects) else tag_of(placed)
        group = self.alike.get(finding, (finding,))
        words = sentence(self.report.scene, group, self.names, self.units, published=False)
        return Note(tag, words)

    def of_drilling(self, placed: Placed, found: Iterable[Finding]) -> list[Note]:
        """Return a fitting's findings that whoever drills it must read, and how many others there are.

        What a sail or a light says of it stands with the findings: beside the drill it only buries the rest.
        """
        own, others = [], 0
        for finding in found:
            if finding.standing == "not checked" or finding.code.startswith(_OF_DRILLING):
                own.append(self.note(placed, finding))
            elif finding.standing != "note":
                others += 1
        if others:
            words = ngettext(
                "{n} more finding that is not about its holes: see FINDINGS",
                "{n} more findings that are not about its holes: see FINDINGS",
                others,
            )
            own.append(Note(tag_of(placed), words.format(n=others)))
        return own

    def loud_of(self, hole: str) -> list[Finding]:
        """Return what is open about a hole, what the drill would meet inside first; not what is not known.

        What is said of all holes of its fitting at once, and of the cable that enters by it, counts too.
        """
        found = [f for f in self.of_hole(hole) if stops(f)]
        return sorted(found, key=lambda f: (f.standing != "fault", f.code != "hole/inside"))

    def unknown_of(self, hole: str) -> list[Finding]:
        """Return what is not known of a hole: of its fitting's holes, or of the mast they go into."""
        of_mast = [f for f in self.about(MAST) if f.code.startswith(_OF_MAST)]
        return [f for f in (*self.of_hole(hole), *of_mast) if f.standing == "not checked"]

    def unknown(self, placed: Placed) -> list[Finding]:
        """Return all that is not known and holds any hole of a fitting."""
        return [finding for name in hole_ids(placed) for finding in self.unknown_of(name)]

    def of_hole(self, hole: str) -> list[Finding]:
        """Return what is open about a hole itself, about its fitting's holes, or about what enters by it."""
        owner = hole.partition("/")[0]
        found = [*self.about(hole), *(f for f in self.about(owner) if f.code.startswith(_OF_HOLES))]
        placed = self.report.scene.placed[owner]
        openings = placed.holes.openings if placed.holes else ()
        if any(o.use == "entry" and hole_id(placed, o.number) == hole for o in openings):
            entering = {c.id for c in entering_at(self.report.scene, placed)}
            found += [
                f
                for f in self.report.open
                if f.code in _OF_ENTRY and (owner in f.subjects or entering & set(f.subjects))
            ]
        return list(dict.fromkeys(found))

    def more_of_holes(self, placed: Placed) -> list[Note]:
        """Return what is open about the holes beside the one reason that stops each."""
        names = hole_ids(placed)
        more = [finding for name in names for finding in self.loud_of(name)[1:]]
        more += [f for name in names for f in self.about(name) if f.standing == "caution" and not stops(f)]
        return [self.note(placed, finding) for finding in more]

    def typical_holes(self, placed: Placed) -> list[Note]:
        """Return what the typical holes of a foot nobody has in hand would meet, in one note."""
        found = [f for name in hole_ids(placed) for f in self.about(name) if f.standing != "not checked"]
        if not found:
            return []
        first = self.brief(found[0]).text
        if len(found) == 1:
            return [Note("", first)]
        return [
            Note(
                "",
                _("{first}; {more} more about its typical holes: see FINDINGS").format(
                    first=first, more=len(found) - 1
                ),
            )
        ]

    def brief(self, finding: Finding) -> Note:
        """Return a finding in one clause."""
        return Note("", short(self.report.scene, finding, self.names, self.units))

    def all_about(self, placed: Placed) -> list[Finding]:
        """Return the open findings of a fitting and of its holes."""
        return [finding for name in (placed.id, *hole_ids(placed)) for finding in self.about(name)]

    def missing(self, findings: Iterable[Finding]) -> str:
        """Return what is not known, in one sentence that sends to the measure list."""
        titles = (
            instructions()[f.measure].title for f in findings if f.standing == "not checked" and f.measure
        )
        listed = ", ".join(title[:1].lower() + title[1:] for title in dict.fromkeys(titles))
        return _("not known: {what}. Measure first.").format(what=listed)

    def accepted(self, placed: Placed) -> list[Note]:
        """Return what the owner accepted of a fitting or its holes, with day and remark."""
        about = {placed.id, *hole_ids(placed)}
        return [
            Note(tag_of(placed), accepted_words(short(self.report.scene, found, self.names, self.units), own))
            for found, own in self.report.accepted
            if about & set(found.subjects)
        ]


def stops(finding: Finding) -> bool:
    """Tell whether a finding about a hole keeps it from being drilled."""
    return finding.standing == "fault" or (finding.standing == "caution" and finding.code not in _ADVICE)


def speaker(report: Report, units: Units) -> Speaker:
    """Return a report with the names its sentences need."""
    together = {finding: group for group in alike(report.open) for finding in group}
    return Speaker(report, units, names_of(report.scene.layout), together)


def accepted_words(clause: str, own: Accepted) -> str:
    """Return an accepted finding's clause with day and remark."""
    return _("{clause}. Accepted {day}: “{remark}”.").format(clause=clause, day=own.day, remark=own.remark)


def hole_ids(placed: Placed) -> list[str]:
    """Return the ids of a fitting's openings."""
    return [hole_id(placed, opening.number) for opening in placed.holes.openings] if placed.holes else []


def first_fault(findings: Iterable[Finding]) -> Finding | None:
    """Return the first open fault, if any."""
    return next((finding for finding in findings if finding.standing == "fault"), None)
