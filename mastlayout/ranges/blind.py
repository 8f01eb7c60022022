"""What IMO SN.1/Circ.271 asks ships to keep clear before a radar's antenna: advice for a yacht, row by row.

Sectors are those hidden from the antenna's middle, as a ship's card of them draws them; what covers less
of the antenna than the limit for that is left out, and what it stands on, which is made for it.
"""

from mastlayout.figures import Figure
from mastlayout.geometry.arcs import overlap_deg
from mastlayout.geometry.bearings import sectors
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.limits import limits_of
from mastlayout.ranges.asks import Ask, answered
from mastlayout.ranges.hidden import cast
from mastlayout.ranges.reflector import body_parts
from mastlayout.words import _

# Clear from ahead to 22.5 degrees abaft the beam; abaft that no sector over 5, in all no more than 20.
# Sectors with 3 degrees or less between them count as one.
CLEAR_DEG, SINGLE_DEG, IN_ALL_DEG, APART_DEG = 112.5, 5.0, 20.0, 3.0
SOURCE = _("IMO SN.1/Circ.271, for ships; advice for a yacht")


def asks(scene: Scene, placed: Placed, apart: frozenset[str]) -> tuple[Ask, ...]:
    """Return each thing that is asked of what a radar's horizon loses; ``apart`` is what does not count."""
    dims = limits_of(scene.layout)["radar.dim"].value / 100.0
    seen = cast(scene, placed, placed.solids, body_parts(placed), dims, 0.0, apart)
    found = sectors(seen.found.edge, APART_DEG)
    forward = overlap_deg(found, 360.0 - CLEAR_DEG, CLEAR_DEG)
    abaft = overlap_deg(found, CLEAR_DEG, 360.0 - CLEAR_DEG)
    inputs: dict[str, float] = {}
    for i, (first, last) in enumerate(found % 360.0, 1):
        inputs |= {f"sector_{i}_from_deg": float(first), f"sector_{i}_to_deg": float(last)}
    widest = float(abaft.max(initial=0.0))
    return (
        _ask("ahead", _("hidden forward of 22.5° abaft the beam"), 0.0, float(forward.sum()), inputs),
        _ask("single", _("widest sector hidden abaft that"), SINGLE_DEG, widest, inputs),
        _ask("total", _("hidden abaft that, in all"), IN_ALL_DEG, float(abaft.sum()), inputs),
    )


def _ask(key: str, words: str, required: float, value: float, inputs: dict[str, float]) -> Ask:
    formula = _("sectors as seen from the antenna's middle, closer than 3° counted as one")
    figure = Figure(words, value, "°", formula, _("geometry"), inputs)
    return Ask(key, words, required, figure, answered(value, required, most=True), SOURCE, most=True)
