"""What the start page asks, and what has been answered so far."""

from dataclasses import field, replace
from typing import Literal

from mastlayout.frozen import dataclass
from mastlayout.model.first_answers import FirstAnswers
from mastlayout.model.mast import Section
from mastlayout.words import _

Key = Literal["length", "section", "stands", "holds", "sails", "gear"]
KEYS: tuple[Key, ...] = ("length", "section", "stands", "holds", "sails", "gear")


@dataclass(frozen=True)
class Answers:
    """The answers so far; ``asked`` names the questions that were answered, if only "not known"."""

    first: FirstAnswers = field(default_factory=FirstAnswers)
    section: Section | None = None
    asked: frozenset[Key] = frozenset()

    def having(self, key: Key, first: FirstAnswers, section: Section | None) -> "Answers":
        """Return these answers with one question answered."""
        known = replace(first, section_known=section is not None)
        return Answers(known, section, self.asked | {key})


@dataclass(frozen=True)
class Question:
    """The words of one question: in the list of steps, over its page, and below its field."""

    key: Key
    step: str
    about: str
    question: str
    lead: str
    hint: str


def questions() -> tuple[Question, ...]:
    """Return the six questions in their order."""
    return (
        Question(
            "length",
            _("Mast length"),
            _("heel to masthead"),
            _("How long is the mast?"),
            _("Every height is counted from the masthead: this one number ties both ends of the tape."),
            _("Type it as your tape reads: 17 400, 17.4 m or 57 ft 1 in. Crane, cap and step stay out."),
        ),
        Question(
            "section",
            _("Section"),
            _("outline, fore and aft, athwart"),
            _("What is the mast's section?"),
            _("A foot sits on this outline, and a tape laid round it must read what the program reads."),
            _("Measure with callipers, away from track and fittings. The wall is asked for where you drill."),
        ),
        Question(
            "stands",
            _("Where it stands"),
            _("on the keel or on deck"),
            _("Where does the mast stand?"),
            _("It decides how long a cable must be, and which part of the mast lies below the deck."),
            _("A tabernacle or a plate on the coachroof counts as on deck."),
        ),
        Question(
            "holds",
            _("What holds it"),
            _("pairs of spreaders"),
            _("How many pairs of spreaders has it?"),
            _("Spreaders and shrouds are the first things that new gear fouls."),
            _("Count what stands athwart; a strut that points forward is entered later."),
        ),
        Question(
            "sails",
            _("Sails"),
            _("how the headsail is set"),
            _("How is the headsail set?"),
            _("Its cloth and its leech sweep the forward face of the mast on each tack."),
            _("Where there are several, name the one that is set most."),
        ),
        Question(
            "gear",
            _("New gear"),
            _("what is to be mounted"),
            _("What is to be mounted?"),
            _("The measure list then asks for what this gear needs: wall, foot, cable and plug."),
            _("Tick as many as you like. What is on the mast already is entered in the window."),
        ),
    )


def gear() -> tuple[str, ...]:
    """Return the names of new gear to tick."""
    return (
        _("Radar"), _("Horn or hailer"), _("Camera"), _("Lights"), _("Aerial"), _("Wind sensor"),
        _("Radar reflector"), _("Halyard exit"), _("Pole gear"),
    )  # fmt: skip
