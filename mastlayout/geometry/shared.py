"""What many places have in common: what they share is worked out once, then read off for each."""

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, Whole


@dataclass(frozen=True, eq=False)
class Shared:
    """n places in u groups that are alike: ``rows`` (u,) one place of each, ``which`` (n,) its group."""

    rows: Whole
    which: Whole


def shared_by(*keys: Array) -> Shared:
    """Return places in groups that share every one of some values (n,) each."""
    varied = [key for key in keys if len(key) and np.any(key != key[0])]
    which = np.zeros(len(keys[0]), dtype=np.intp)
    rows = which[:1]
    for i, key in enumerate(varied):
        values, rows, own = np.unique(key, return_index=True, return_inverse=True)
        which = which * len(values) + own
        if i:
            _values, rows, which = np.unique(which, return_index=True, return_inverse=True)
    return Shared(rows, which)
