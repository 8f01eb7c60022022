"""What is done about places: look for them in another thread, bring the fitting to one."""

from PySide6.QtWidgets import QWidget

from mastlayout.checks.finding import Finding
from mastlayout.checks.report import Report
from mastlayout.errors import MastLayoutError
from mastlayout.places.suggest import Guard, Suggestion, Suggestions, one_matter, suggestions
from mastlayout.places.words import step
from mastlayout.storage.catalogue import catalogue
from mastlayout.ui.findings.rows import Row
from mastlayout.ui.session import Session
from mastlayout.ui.waiting import waited
from mastlayout.words import _


def to_mend(report: Report, row: Row | None) -> Finding | None:
    """Return the finding of a row for which places can be looked for; None where there is none."""
    if row is None or row.own is not None:
        return None
    return next((finding for finding in row.findings if one_matter(report, finding)), None)


def look(report: Report, finding: Finding, window: QWidget) -> Suggestions | None:
    """Look for places; after half a second it shows how far it is. None where it was cancelled."""
    kinds = tuple(catalogue().values())
    words = _("Looking for places that are clear …")
    return waited(words, lambda between: suggestions(report, finding, kinds, between), window)


def take(session: Session, one: Suggestion) -> None:
    """Take a suggestion as one undo step; where it can no longer be, say why."""
    before = {fitting.id for fitting in session.layout.fittings}
    try:
        session.edit(one.applied(session.layout), step(session.desk.scene, one))
    except MastLayoutError as error:
        session.said.emit(str(error))
        return
    new = [fitting.id for fitting in session.layout.fittings if fitting.id not in before]
    session.pick(new[0] if new and isinstance(one, Guard) else one.name)
