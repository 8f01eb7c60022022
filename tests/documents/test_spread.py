"""Labels spread by least movement, order kept."""

import itertools

from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import minimize

from mastlayout.documents.spread import spread

PLACES = st.lists(st.floats(0, 100), min_size=1, max_size=7).map(sorted)


def test_labels_with_room_stay_where_they_are():
    """Nothing moves that need not."""
    assert spread([10.0, 30.0, 60.0], 5.0, 0.0, 100.0) == [10.0, 30.0, 60.0]


def test_two_that_touch_share_the_way():
    """20 and 22 at least 6 apart: 18 and 24, by symmetry."""
    assert spread([20.0, 22.0], 6.0, 0.0, 100.0) == [18.0, 24.0]


@given(PLACES)
def test_labels_are_a_pitch_apart_and_inside(wanted):
    """Seven labels of 5.3 fit into 100."""
    places = spread(wanted, 5.3, 0.0, 100.0)
    assert all(b - a >= 5.3 - 1e-9 for a, b in itertools.pairwise(places))
    assert places[0] >= -1e-9
    assert places[-1] <= 100 + 1e-9


@given(st.lists(st.floats(40, 60), min_size=2, max_size=5).map(sorted))
def test_no_other_spreading_moves_them_less(wanted):
    """The sum of squared movements is that of a general optimiser, where the bounds do not bind."""
    places = spread(wanted, 5.0, 0.0, 100.0)
    rules = [{"type": "ineq", "fun": lambda x, i=i: x[i + 1] - x[i] - 5.0} for i in range(len(wanted) - 1)]
    best = minimize(
        lambda x: sum((a - b) ** 2 for a, b in zip(x, wanted, strict=True)),
        [wanted[0] + 5.0 * i for i in range(len(wanted))],
        constraints=rules,
    )
    moved = sum((a - b) ** 2 for a, b in zip(places, wanted, strict=True))
    assert moved <= best.fun + 1e-3
