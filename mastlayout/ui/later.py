"""Which rules a gesture asks with every move, and which of the others in one turn."""

from collections.abc import Callable
from functools import cache
from time import perf_counter

from mastlayout.checks.report import Leave

# So long the rules of one turn may take together: with a view repainted beside it, a frame still has room.
TURN_S = 0.003


def waits(code: str) -> bool:
    """Tell whether a rule is left for later with every move."""
    from mastlayout.checks.rules import AT_ONCE  # noqa: PLC0415 - no first picture waits for the rules

    return code not in AT_ONCE


@cache
def _order() -> dict[str, int]:
    from mastlayout.checks.rules import FITTING_RULES, WHOLE_RULES  # noqa: PLC0415 - as above

    codes = (*(rule.code for rule in FITTING_RULES), *(rule.code for rule in WHOLE_RULES))
    return {code: i for i, code in enumerate(codes)}


class Later:
    """Turns of the rules: each goes on where the one before stopped, and asks one rule at least.

    A rule that took long when it was last asked begins a turn rather than end one.
    """

    def __init__(self, clock: Callable[[], float] = perf_counter) -> None:
        self._clock, self._next = clock, 0
        self._took: dict[str, float] = {}

    def turn(self) -> Leave:
        """Return what the next turn leaves for later."""
        first, self._next, order = self._next, 0, _order()
        ends, asked, since = self._clock() + TURN_S, "", 0.0

        def leave(code: str) -> bool:
            """Leave what an earlier turn asked, and what there is no time for."""
            nonlocal asked, since
            if code == asked:  # it has its turn, however long what it is asked of took to find
                return False
            if order[code] < first or self._next:
                return True
            now = self._clock()
            if asked:
                self._took[asked] = now - since
                if now + self._took.get(code, 0.0) >= ends:
                    self._next = order[code]
                    return True
            asked, since = code, now
            return False

        return leave
