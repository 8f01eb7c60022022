"""What must hold of a tack in every slice, over random rigs: longer, mirrored, one more support, shifted."""

import numpy as np
import pytest
from chain import Plate, Slice, nearest
from hypothesis import given
from hypothesis import strategies as st
from random_rigs import a_case, disc
from slice_of import answer

SEEDS = st.integers(0, 2**32 - 1)
BELLIES = st.sampled_from([0.0, 0.1, 0.2])
# The computer's own rounding over lengths of some metres, mm.
ROUNDING = 1e-6


@given(SEEDS, BELLIES, st.floats(0, 2000))
def test_a_longer_sail_never_leaves_more_room(seed, belly, longer):
    """Neither held nor loose."""
    rig, fitting, chord = a_case(seed)
    short, long = (answer(rig, fitting, own, belly) for own in (chord, chord + longer))
    assert long[0] <= short[0]
    assert long[1] <= short[1]


@given(SEEDS, BELLIES)
def test_a_mirrored_rig_gives_the_mirrored_answer(seed, belly):
    """Port and starboard are the same to a cloth that tacks; where a belly ends is known to 0.2 mm."""
    rig, fitting, chord = a_case(seed)
    other = Slice(rig.luff, rig.mast.mirrored(), tuple(body.mirrored() for body in rig.others))
    assert answer(other, fitting.mirrored(), chord, belly) == pytest.approx(
        answer(rig, fitting, chord, belly), abs=0.2 if belly else ROUNDING
    )


@given(SEEDS, st.floats(-800, 400), st.floats(-1600, 1600), st.floats(1, 40))
def test_one_more_support_never_makes_a_sheltered_fitting_touched(seed, x, y, radius):
    """A flat cloth reaches nothing more; 1 mm is left to lines between the 120 directions."""
    rig, fitting, chord = a_case(seed)
    more = disc(x, y, radius)
    if nearest(rig.luff, more) <= 0 or x + radius > rig.luff[0]:
        return
    before = min(answer(rig, fitting, chord))
    after = min(answer(Slice(rig.luff, rig.mast, (*rig.others, more)), fitting, chord))
    assert after > 0 or before < 1


@given(SEEDS, BELLIES, st.floats(0, 300), st.floats(0, 2 * np.pi))
def test_a_shift_changes_the_answer_by_no_more(seed, belly, by, bearing):
    """Moved, unturned, within the slice."""
    rig, fitting, chord = a_case(seed)
    move = by * np.array([np.cos(bearing), np.sin(bearing)])
    moved = (
        Plate(fitting.corner + move)
        if isinstance(fitting, Plate)
        else disc(*(fitting.middle + move), fitting.semi[0])
    )
    before, after = (min(answer(rig, body, chord, belly)) for body in (fitting, moved))
    assert abs(after - before) <= by + ROUNDING


@given(SEEDS)
def test_what_a_slacker_cloth_clears_a_tighter_one_clears(seed):
    """Backed with a belly of a fifth, held with a tenth, flat; 1 mm is left to the arc's few tangents."""
    rig, fitting, chord = a_case(seed)
    flat, held, backed = (min(answer(rig, fitting, chord, belly)) for belly in (0.0, 0.1, 0.2))
    assert held > 0 or backed < 1
    assert flat > 0 or held < 1
