"""What many places have in common: what they share is worked out once, then read off for each."""

from dataclasses import dataclass

import numpy as np

from mastlayout.geometry.frames import Array, Whole


@dataclass(frozen=True, eq=False)
class Shared:
    """n places in u groups that are alike: ``rows`` (u,) one place of each, ``which`` (n,) its group."""

    rows: Whole
    which: Whole


def shared_by(*keys: Array) -> Shared:
    """Return places in groups that share every one of some values (n,) each."""
    varied = [key for key in keys if len(key) and np.any(key != key[0])]
    code = np.zeros(len(keys[0]))
    for i, key in enumerate(varied):
        values, rows, which = np.unique(key, return_index=True, return_inverse=True)
        if len(varied) == 1:
            return Shared(rows, which)
        code = which if i == 0 else code * len(values) + which
    if not varied:
        return Shared(np.zeros(min(len(code), 1), dtype=np.intp), np.zeros(len(code), dtype=np.intp))
    _values, rows, which = np.unique(code, return_index=True, return_inverse=True)
    return Shared(rows, which)
