"""What to measure where a value is not known: the key stands beside the field that lacks it."""

from functools import cache
from typing import Literal

import tomli
from pydantic import BaseModel

from mastlayout.frozen import dataclass
from mastlayout.resources import resources
from mastlayout.words import _

When = Literal["standing", "trestles", "chair"]
# The order in which a mast comes down: what can be measured only aloft comes first.
WHEN: tuple[When, ...] = ("standing", "trestles", "chair")


@dataclass(frozen=True)
class Measure:
    """The mark beside a field that may be unknown; ``key`` names its entry in resources/measures.toml."""

    key: str


@dataclass(frozen=True)
class Instruction:
    """One row of the measure list.

    ``how`` is one sentence a person with the tool in hand can follow, ``serves`` what the number is
    for; ``picture`` names a small
    picture of the measure list; ``boxes`` are the names of the boxes to write in, empty for one
    box for each thing that asks: the ``each`` of what a finding is about.
    """

    key: str
    title: str
    how: str
    serves: str
    when: When
    tool: str
    tolerance: str
    picture: str
    boxes: tuple[str, ...] = ()
    each: Literal["first", "last"] = "first"


def measure_of(model: type[BaseModel], field: str) -> Measure:
    """Return the measure beside ``field``; KeyError where the field has none."""
    for item in model.model_fields[field].metadata:
        if isinstance(item, Measure):
            return item
    raise KeyError(f"{model.__name__}.{field} has no measure beside it")


@cache
def instructions() -> dict[str, Instruction]:
    """Return every instruction by its key, words translated."""
    text = (resources() / "measures.toml").read_text(encoding="utf-8")
    return {key: _instruction(key, entry) for key, entry in tomli.loads(text).items()}


def _instruction(key: str, entry: dict[str, object]) -> Instruction:
    words = {name: _(str(entry[name])) for name in ("title", "how", "serves", "tool")}
    boxes = entry.get("boxes", [])
    return Instruction(
        key=key,
        title=words["title"],
        how=words["how"],
        serves=words["serves"],
        when=entry["when"],  # type: ignore[arg-type] # the tests hold the file to the three words
        tool=words["tool"],
        tolerance=str(entry["tolerance"]),
        picture=str(entry["picture"]),
        boxes=tuple(_(str(box)) for box in boxes) if isinstance(boxes, list) else (),
        each="last" if entry.get("each") == "last" else "first",
    )
