"""What the section's painting needs: what the height holds, where it lies, and shapes made once for both."""

from dataclasses import field

from PySide6.QtCore import QRectF

from mastlayout.checks.clewed import SweptClew
from mastlayout.checks.sailed import Sailed
from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array
from mastlayout.ui.section.cut import Cut
from mastlayout.ui.section.feet import FootAt
from mastlayout.ui.section.plan import Plan


@dataclass(frozen=True)
class Drawing:
    """One section. ``outlines`` are by id the parts (n, k, 2) that hold the height.

    ``sailed`` is what a sail does there, None where none is drawn, ``clew`` what a clew sweeps that is
    looked at; ``area`` is where things are drawn.
    """

    cut: Cut
    plan: Plan
    outlines: dict[str, Array]
    feet: tuple[FootAt, ...]
    sailed: Sailed | None = None
    area: QRectF = field(default_factory=QRectF)
    clew: SweptClew | None = None
