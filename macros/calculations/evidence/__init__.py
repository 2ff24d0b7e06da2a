"""
Evidence: how we know that a calculation is right, as data.

Each module beside this one is named after the subject whose calculations it vouches for and lists
`EVIDENCE`. The tests run every row; the Verification page prints the same rows.

A row is `(arguments, expected)`; `arguments` is a dict of SI values, `expected` a float in SI units.
"""

from __future__ import annotations

import importlib
import pkgutil
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from typing import Any, ClassVar

__all__ = ["AsToday", "ByHand", "CommonPractice", "Evidence", "FromMemory", "OtherRoute", "Printed", "all_evidence"]

Row = tuple[dict[str, Any], float]


@dataclass(frozen=True, kw_only=True)
class Evidence:
    """
    Rows that vouch for one calculation.

    Exactly one of `rel` and `abs` says how close we must come. `pick` selects a number from
    a calculation that returns more than one.
    """

    calculation: Callable[..., Any] = field(kw_only=False)
    rows: Sequence[Row]
    source: str = ""
    locator: str = ""
    rel: float | None = None
    abs: float | None = None
    pick: Callable[[Any], float] | None = None
    kind: ClassVar[str] = ""
    independent: ClassVar[bool] = True

    def __post_init__(self) -> None:
        if (self.rel is None) == (self.abs is None):
            raise ValueError(f"evidence for {self.calculation.__name__} needs exactly one of rel and abs")
        if not self.rows:
            raise ValueError(f"evidence for {self.calculation.__name__} has no rows")

    def ours(self, arguments: dict[str, Any]) -> float:
        """What our calculation gives for the arguments of a row."""
        result = self.calculation(**arguments)
        return float(self.pick(result) if self.pick else result)

    def holds(self, ours: float, expected: float) -> bool:
        """Whether our value lies within the tolerance; NaN never does."""
        allowed = self.abs if self.abs is not None else abs(expected) * (self.rel or 0.0)
        return bool(abs(ours - expected) <= allowed)


@dataclass(frozen=True, kw_only=True)
class Printed(Evidence):
    """A printed table or worked example that was read; inputs and result copied exactly."""

    kind: ClassVar[str] = "printed"

    def __post_init__(self) -> None:
        super().__post_init__()
        if not (self.source and self.locator):
            raise ValueError(f"printed evidence for {self.calculation.__name__} needs a source and a locator")


@dataclass(frozen=True, kw_only=True)
class ByHand(Evidence):
    """Arithmetic written out in `arithmetic`, that a reader can redo with a pocket calculator."""

    arithmetic: str
    kind: ClassVar[str] = "by hand"


@dataclass(frozen=True, kw_only=True)
class OtherRoute(Evidence):
    """
    Another library or equation that shares nothing with our route.

    `call` is the Python expression that gives the expected value, with `{argument}` for the
    arguments of the row; a test evaluates it again with the library named in `library`.
    """

    library: str
    call: str
    kind: ClassVar[str] = "other route"


@dataclass(frozen=True, kw_only=True)
class CommonPractice(Evidence):
    """A fact of the trade, no source."""

    kind: ClassVar[str] = "common practice"


@dataclass(frozen=True, kw_only=True)
class FromMemory(Evidence):
    """Printed somewhere, not read again."""

    kind: ClassVar[str] = "from memory"
    independent: ClassVar[bool] = False


@dataclass(frozen=True, kw_only=True)
class AsToday(Evidence):
    """The value of today, so that a change is noticed; vouches for nothing else."""

    kind: ClassVar[str] = "as today"
    independent: ClassVar[bool] = False


def all_evidence() -> Iterator[tuple[str, Evidence]]:
    """Every piece of evidence with the subject it stands in, in the order of the file names."""
    for module in sorted(pkgutil.iter_modules(__path__), key=lambda entry: entry.name):
        for piece in importlib.import_module(f"{__name__}.{module.name}").EVIDENCE:
            yield module.name, piece
