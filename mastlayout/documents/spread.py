"""Labels in a row that never overlap: least movement, order kept."""

from collections.abc import Sequence


def spread(wanted: Sequence[float], pitch: float, low: float, high: float) -> list[float]:
    """Return places at least ``pitch`` apart, as near to the wanted ones (rising) as can be.

    The sum of squared movements is least (pool adjacent violators: labels that push each other
    share their mean), then all are kept within ``low`` to ``high``; what does not fit there runs
    over ``high``.
    """
    pools: list[tuple[float, int]] = []
    for count, place in enumerate(wanted):
        # Less its own share of the pitches, a label may stand level with the one before it.
        total, size = place - count * pitch, 1
        while pools and pools[-1][0] / pools[-1][1] > total / size:
            before, members = pools.pop()
            total, size = total + before, size + members
        pools.append((total, size))
    last = high - (len(wanted) - 1) * pitch
    level = [max(min(total / size, last), low) for total, size in pools for _member in range(size)]
    return [place + count * pitch for count, place in enumerate(level)]
