"""What a tape reads, as drawings and lists write it."""

from mastlayout.geometry.frames import Reading, reading_of
from mastlayout.ui.session import Session


def grouped(number: int) -> str:
    """Write a whole number with thin spaces between its thousands, and a real minus."""
    return f"{number:,}".replace(",", "\u2009").replace("-", "\u2212")


def tape_text(read: Reading, number: int) -> str:
    """Write one number of a reading: grouped, or in feet and inches, with a real minus."""
    return grouped(number) if read.units == "metric" else read.text(number).replace("-", "\u2212", number < 0)


def figure(session: Session, z_mm: float | None) -> str:
    """Return the reading from the masthead as the list shows it; a dash where there is none."""
    if z_mm is None:
        return "–"
    length = session.desk.scene.skin.length_mm
    read = reading_of(z_mm, length, session.units)
    return tape_text(read, read.masthead)
