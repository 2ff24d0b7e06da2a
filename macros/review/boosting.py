"""Rules of the boosters and their drive air."""

from __future__ import annotations

from collections.abc import Iterator

from macros.review.reviewed import Look, Reviewed
from macros.review.rules import rule


@rule("stall-within-discharge-rating", "common-practice", waivable=False)
def stall_within_discharge_rating(plant: Reviewed) -> Iterator[Look]:
    """A booster that stalls on the highest credible drive air stays within the rating of its discharge side."""
    for number, booster in enumerate(plant.described.boosters, start=1):
        at = f"boosters.{number}"
        yield plant.at_most(booster.tag, f"{at}.stall_pressure_highest", f"{at}.discharge_rating", tag=booster.tag)


@rule("stall-share", "common-practice", severity="warn")
def stall_share(plant: Reviewed) -> Iterator[Look]:
    """A bank is filled at no more than the share of stall at which a booster still fills well."""
    for number, booster in enumerate(plant.described.boosters, start=1):
        yield plant.at_most(booster.tag, f"boosters.{number}.stall_share", "fact:stall_share_highest", tag=booster.tag)
