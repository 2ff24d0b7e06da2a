"""
Whether a plant is refused: a proof of its line-ups or a rule of its review fails.

Whatever publishes a plant asks here: pages put a refusal across their top, a refused plant gets no sheet and no
printable line-ups, and a build fails where it is published or built.
"""

from __future__ import annotations

import datetime
import os
from dataclasses import dataclass

from macros.figures.lineups import proofs_failed
from macros.figures.plant import Plant
from macros.network.proofs import Failed
from macros.quantities import Shown, store
from macros.review.reviewing import review
from macros.review.rules import RULES

__all__ = ["BINDING", "Reason", "day_of_review", "failed_proofs", "refusal", "refused", "untold_proofs"]

BINDING = ("published", "built")
"""Status of plants that somebody builds by, so that their refusal fails a build."""


@dataclass(frozen=True)
class Reason:
    """One reason why a plant is refused: the rule or proof, its place, and what was found."""

    name: str
    where: str
    message: Shown


def day_of_review() -> datetime.date:
    """The day that dates are held against: that of SOURCE_DATE_EPOCH where a build is to be made again, else today."""
    epoch = os.environ.get("SOURCE_DATE_EPOCH", "")
    now = datetime.datetime.now(datetime.UTC)
    return (datetime.datetime.fromtimestamp(int(epoch), datetime.UTC) if epoch.isdigit() else now).date()


def refused(plant: Plant, today: datetime.date | None = None, *, as_read: bool = False) -> bool:
    """Whether a plant must not be built as it is described; arguments as below."""
    return bool(refusal(plant, today, as_read=as_read))


def refusal(plant: Plant, today: datetime.date | None = None, *, as_read: bool = False) -> tuple[Reason, ...]:
    """
    Why a plant must not be built as it is described, failed rules first; empty where it may.

    Parameters
    ----------
    plant : Plant
    today : date, optional
        The day of the review; that of `day_of_review` without.
    as_read : bool
        Whether the plant stands as it was read from its folder: then it is known by its digest, and is not reviewed
        again where it was not refused that day. One that was changed in memory is not known by it.
    """
    day = today or day_of_review()
    if not as_read:
        return _reasons(plant, day)
    key = store.key_of("not refused", *plant.identity, day.isoformat())
    if store.read(key) is not None:
        return ()
    if not (found := _reasons(plant, day)):
        store.write(key, True)
    return found


def _reasons(plant: Plant, day: datetime.date) -> tuple[Reason, ...]:
    found = [Reason(each.rule, each.where, each.message) for each in review(plant, day).failed]
    told = [reason.message.workshop for reason in found]
    for place, failed in failed_proofs(plant):
        if not any(failed.message.rstrip(".") in each for each in told):
            found.append(Reason(failed.proof, place, Shown(failed.message, failed.message, failed.message)))
    return tuple(found)


def untold_proofs(plant: Plant, today: datetime.date | None = None) -> list[Reason]:
    """The failed proofs that no failed rule tells of already."""
    return [reason for reason in refusal(plant, today) if reason.name not in RULES]


def failed_proofs(plant: Plant) -> tuple[tuple[str, Failed], ...]:
    """Every failed proof of a plant with its place, each message once at its first place."""
    return tuple((fault.key, failed) for fault, failed in proofs_failed(plant) if failed is not None)
