"""
The design review: whether a plant may be built, why, and what changed.

Each module named here holds the rules of one family; importing it registers them, in the order of the report.
"""

from macros.review import (
    asking,
    boosting,
    capacity,
    electrical,
    gas_quality,
    line_ups,
    permission,
    place,
    procedures,
    ratings,
    record,
    reliefs,
    thermal,
    trip_actions,
    trips,
)
from macros.review.findings import Finding
from macros.review.reviewing import Review, as_data, review
from macros.review.rules import RULES, Rule

FAMILIES = (
    ratings, reliefs, line_ups, procedures, trips, trip_actions, gas_quality, electrical, thermal, boosting, capacity,
    place, permission, record, asking,
)  # fmt: skip

__all__ = ["FAMILIES", "RULES", "Finding", "Review", "Rule", "as_data", "review"]
