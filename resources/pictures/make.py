"""Make the README's pictures anew from the real program: ``python resources/pictures/make.py``.

Needs pdftoppm (poppler-utils) and, from the test extra, Pillow. The day is fixed, so that only a
change of the program changes a picture.
"""

import subprocess
import sys
import tempfile
from io import BytesIO
from pathlib import Path

from kinds import contact_sheet
from PIL import Image
from windows import shown_window

from mastlayout.desk import Desk
from mastlayout.documents.papers import papers
from mastlayout.resources import demo_masts, resources

DAY = "2026-11-25"
# Which page of which paper of which example, and what the picture is called.
SHEETS = (("whimbrel", "drill", 2, "drill-whimbrel"),)


def main() -> int:
    """Write every picture; return 0."""
    for yacht, kind, page, name in SHEETS:
        report = Desk.open(demo_masts() / f"{yacht}.toml").report
        made = {paper.name: paper.data for paper in papers(report, day=DAY)}
        picture(made[f"{yacht}-{kind}.pdf"], page, resources() / "pictures" / name)
    for name, draw in (("window-sanderling", shown_window), ("kinds", contact_sheet)):
        small(draw(), resources() / "pictures" / f"{name}.png")
    return 0


def small(png: bytes, to: Path) -> None:
    """Write a PNG with 256 colours, those of every state among them: a third of its size."""
    with Image.open(BytesIO(png)) as full:
        cover, none = Image.Quantize.MAXCOVERAGE, Image.Dither.NONE
        # Covered alone, the colours are those between the shades there are; moved to their means, the shades.
        few = full.convert("RGB").quantize(256, cover, kmeans=8, dither=none)
        few.save(to, optimize=True)
    sys.stdout.write(f"{to}\n")


def picture(pdf: bytes, page: int, to: Path) -> None:
    """Write one page of a PDF as a PNG of 100 dots to the inch."""
    with tempfile.NamedTemporaryFile(suffix=".pdf") as file:
        file.write(pdf)
        file.flush()
        command = ["pdftoppm", "-r", "100", "-f", str(page), "-l", str(page), "-singlefile", "-png"]
        subprocess.run([*command, file.name, str(to)], check=True)  # noqa: S603 - our own file, a fixed command
    sys.stdout.write(f"{to}.png\n")


if __name__ == "__main__":
    sys.exit(main())
