"""What a crosscheck looks at and what it tells."""

from typing import NamedTuple

from mastlayout.frozen import dataclass
from mastlayout.model.fitting import Cable, Fitting, OldHole
from mastlayout.model.kind import Kind
from mastlayout.model.layout import LimitOverride
from mastlayout.model.mast import Mast
from mastlayout.model.rig import Spreader, Stay
from mastlayout.model.sails import Halyard, Pole, Sail

Path = tuple[str | int, ...]


class PathMistake(NamedTuple):
    """A mistake and the path of its key as a file spells it, such as ("fittings", 3, "girth")."""

    path: Path
    sentence: str


@dataclass(frozen=True)
class Parts:
    """The parts of a layout that could be read, where others could not; lists are the layout's own."""

    mast: Mast | None = None
    retired: tuple[str, ...] = ()
    spreaders: tuple[Spreader, ...] = ()
    stays: tuple[Stay, ...] = ()
    sails: tuple[Sail, ...] = ()
    poles: tuple[Pole, ...] = ()
    halyards: tuple[Halyard, ...] = ()
    fittings: tuple[Fitting, ...] = ()
    holes: tuple[OldHole, ...] = ()
    cables: tuple[Cable, ...] = ()
    kinds: tuple[Kind, ...] = ()
    limits: tuple[LimitOverride, ...] = ()
