"""The clew or sheet that a chosen finding speaks of, for every view that draws it."""

from mastlayout.checks.clewed import SweptClew, swept_clew
from mastlayout.ui.session import Session


def chosen_clew(session: Session) -> SweptClew | None:
    """Return what the clew or sheet sweeps that a chosen finding speaks of."""
    if not session.chosen:
        return None
    scene, report = session.desk.scene, session.desk.report
    every = (*report.open, *(finding for finding, _own in report.accepted))
    about = (swept_clew(scene, finding) for finding in every if finding.key in session.chosen)
    return next((found for found in about if found is not None), None)
