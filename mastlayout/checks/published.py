"""What published rules ask of holes, shown beside a finding by name: information, and never a grade."""

from functools import cache
from typing import Literal

import tomli

from mastlayout.frozen import dataclass
from mastlayout.resources import resources
from mastlayout.words import _

Kind = Literal["spacing", "edge"]


@dataclass(frozen=True)
class Published:
    """One rule of a publication: ``factor`` diameters of the hole or the fastener; ``across`` the load."""

    kind: Kind
    name: str
    factor: float
    of: Literal["hole", "fastener"]
    across: float | None = None


@cache
def published() -> tuple[Published, ...]:
    """Return the rules of resources/hole_spacing.toml."""
    text = (resources() / "hole_spacing.toml").read_text(encoding="utf-8")
    return tuple(Published(**row) for row in tomli.loads(text)["rules"])


@cache
def beside(kind: str) -> str:
    """Return what the publications ask of one kind of distance, in one sentence."""
    asked = "; ".join(_one(rule) for rule in published() if rule.kind == kind)
    return _("For comparison, never instead: {asked}.").format(asked=asked)


def _one(rule: Published) -> str:
    of = _("of the hole") if rule.of == "hole" else _("of the fastener")
    factor = f"{rule.factor:.2f}".rstrip("0").rstrip(".")
    words = _("{name} asks {factor} diameters {of}").format(name=rule.name, factor=factor, of=of)
    return (
        words
        if rule.across is None
        else _("{words}, {across:g} across the load").format(words=words, across=rule.across)
    )
