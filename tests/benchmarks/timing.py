"""Medians of several runs, ratios to a baseline of the same run, and the table that tells them."""

from __future__ import annotations

import os
import platform
import statistics
import time
from collections.abc import Callable, Iterable
from dataclasses import dataclass

__all__ = ["Row", "median_s", "processor_s", "table"]


@dataclass(frozen=True)
class Row:
    """
    One measurement: what was measured, against what, and how much it may be.

    `limit` bounds the ratio where there is a baseline, else the seconds themselves.
    """

    name: str
    ours_s: float
    baseline_s: float | None
    limit: float | None
    note: str = ""

    @property
    def ratio(self) -> float | None:
        return None if self.baseline_s is None else self.ours_s / self.baseline_s

    @property
    def kept(self) -> bool | None:
        """Whether it keeps its limit; none where none is set."""
        if self.limit is None:
            return None
        return (self.ratio if self.ratio is not None else self.ours_s) <= self.limit


def processor_s(work: Callable[[], object]) -> float:
    """Processor time of one run, so that a busy machine slows nothing."""
    start = time.process_time()
    work()
    return time.process_time() - start


def median_s(work: Callable[[], object], runs: int = 5) -> float:
    """The median of several runs."""
    return statistics.median(processor_s(work) for _ in range(runs))


def table(rows: Iterable[Row]) -> str:
    """The rows as Markdown, below what machine it was."""
    lines = [
        f"{platform.platform()}, {os.cpu_count()} processors, Python {platform.python_version()}; processor time, medians.",
        "",
        "| what | ours | baseline | ratio | limit | kept | |",
        "| --- | ---: | ---: | ---: | ---: | --- | --- |",
    ]
    for row in rows:
        ratio = "" if row.ratio is None else f"{row.ratio:.2f}"
        limit = "" if row.limit is None else (f"{row.limit:g}" if row.ratio is not None else _time(row.limit))
        kept = {None: "", True: "yes", False: "**no**"}[row.kept]
        baseline = "" if row.baseline_s is None else _time(row.baseline_s)
        lines.append(f"| {row.name} | {_time(row.ours_s)} | {baseline} | {ratio} | {limit} | {kept} | {row.note} |")
    return "\n".join(lines) + "\n"


def _time(seconds: float) -> str:
    if seconds >= 1:
        return f"{seconds:.2f} s"
    return f"{seconds * 1e3:.3g} ms" if seconds >= 1e-3 else f"{seconds * 1e6:.3g} µs"
