"""What the program shows of published rules for holes, against the publications' own figures.

EN 1993-1-8:2005 Table 3.3: e1, e2 1.2 d0, p1 2.2 d0, p2 2.4 d0. AISC 360-16 J3.3: 2 2/3 d; Table J3.4M
as coded in public: 1.25 d. FAA AC 43.13-1B, riveting, as quoted: edge 2 d, spacing 3 d. All read.
"""

import pytest

from mastlayout.checks.published import beside, published
from mastlayout.limits import built_in

READ = {
    ("spacing", "EN 1993-1-8 Table 3.3"): 2.2,
    ("spacing", "AISC 360-16 J3.3"): 2.0 + 2.0 / 3.0,
    ("spacing", "FAA AC 43.13-1B"): 3.0,
    ("edge", "EN 1993-1-8 Table 3.3"): 1.2,
    ("edge", "AISC 360-16 Table J3.4M"): 1.25,
    ("edge", "FAA AC 43.13-1B"): 2.0,
}


def test_each_figure_is_the_publications():
    """No row more, none less."""
    assert {(rule.kind, rule.name): rule.factor for rule in published()} == pytest.approx(READ, abs=1e-6)
    assert [rule.across for rule in published() if rule.across] == [2.4]


@pytest.mark.parametrize(("kind", "limit"), [("spacing", "hole.spacing"), ("edge", "hole.edge")])
def test_the_programs_own_limit_is_the_strictest_shown(kind, limit):
    """The trade's habit is no weaker than any rule that stands beside it."""
    assert built_in()[limit].value >= max(
        max(r.factor, r.across or 0.0) for r in published() if r.kind == kind
    )
    assert "never instead" in beside(kind)
