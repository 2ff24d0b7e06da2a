"""The rules of the boosters, each at its limit and without the value that it needs."""

import pytest

from tests.review.looking import Limit, plant_named

FARM = plant_named("farm").graph

LIMITS = (
    Limit("stall-within-discharge-rating", "farm", "BO1", "boosters.1.stall_pressure_highest",
          FARM["boosters.1.discharge_rating"].si),
    Limit("stall-share", "farm", "BO2", "boosters.2.stall_share", 0.8),
)  # fmt: skip


@pytest.mark.parametrize("case", ["inside", "on it", "outside", "no number", "not known"])
@pytest.mark.parametrize("limit", LIMITS, ids=lambda limit: limit.rule)
def test_the_rule_turns_at_its_limit(limit: Limit, case: str) -> None:
    value, verdict = limit.cases[case]
    assert limit.verdict(value) == verdict
