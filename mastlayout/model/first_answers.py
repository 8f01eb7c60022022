"""Six answers about a mast nobody has entered yet, and the list of what to measure first."""

from typing import Literal

from mastlayout.frozen import dataclass
from mastlayout.model.measure import WHEN, Instruction, instructions


@dataclass(frozen=True)
class FirstAnswers:
    """What an owner can say before the first tape is laid; None is "not known yet".

    ``mast_length_mm`` heel to masthead; ``section`` and ``wall`` whether they are known;
    ``stands`` on keel or deck; ``spreader_pairs``; ``headsail`` as it is set; ``new_gear`` the
    names of what is to be mounted.
    """

    mast_length_mm: float | None = None
    section_known: bool = False
    stands: Literal["keel", "deck"] | None = None
    spreader_pairs: int | None = None
    headsail: Literal["furled", "hanked", "none"] | None = None
    new_gear: tuple[str, ...] = ()


def first_measures(answers: FirstAnswers) -> tuple[Instruction, ...]:
    """Return what to measure first, in the order of the measure list."""
    keys = {
        "mast.rake",
        "mast.prebend",
        "boat.water",
        "boat.sheer",
        "mast.gooseneck",
        "mast.track",
        "mast.taper",
        "mast.conduits",
        "mast.stretches",
        "layout.holes",
        "layout.halyards",
        "stay.wire",
        "stay.deck",
        "stay.length",
    }
    if answers.mast_length_mm is None:
        keys.add("mast.length")
    if not answers.section_known:
        keys |= {"mast.section"}
    if answers.stands != "deck":
        keys.add("boat.deck")
    if answers.spreader_pairs != 0:
        keys |= {"spreader.length", "spreader.sweep", "spreader.rise"}
    if answers.headsail != "none":
        keys |= {
            "boat.i",
            "boat.j",
            "sail.lp",
            "sail.luff",
            "sail.tack",
            "sail.clew",
            "sail.head",
            "sail.widths",
        }
    if answers.headsail in ("furled", None):
        keys |= {"halyard.swivel", "stay.furler"}
    if answers.new_gear:
        keys |= {
            "mast.wall",
            "fitting.foot",
            "cable.plug",
            "cable.outside",
            "kind.mass",
            "conduit.slots",
            "halyard.inside",
        }
    found = (instruction for key, instruction in instructions().items() if key in keys)
    return tuple(sorted(found, key=lambda instruction: WHEN.index(instruction.when)))
