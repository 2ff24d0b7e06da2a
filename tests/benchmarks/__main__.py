"""
Runs the benchmarks and writes their table: `make bench`, or `python -m tests.benchmarks properties runs`.

They are no tests: what is fast on one machine is slow on another. Each tells a ratio to a baseline of the same run, or
seconds of processor time beside the limit that we set ourselves.
"""

from __future__ import annotations

import os
import sys
from pathlib import Path

from tests.benchmarks import computing, handbooks
from tests.benchmarks.timing import Row, table

BENCHMARKS = {
    "whole": handbooks.whole, "growth": handbooks.growth, "preview": handbooks.preview,
    "properties": computing.properties, "runs": computing.runs, "line_ups": computing.line_ups,
    "sheets": computing.sheets, "many": handbooks.many, "start": computing.start,
}  # fmt: skip
WRITTEN = Path("build/benchmarks.md")


def main(names: list[str]) -> int:
    """Run those that are named, or all; 1 where one misses its limit."""
    os.environ["SOURCE_DATE_EPOCH"] = "1795608000"
    rows: list[Row] = []
    for name in names or BENCHMARKS:
        for row in BENCHMARKS[name]():
            rows.append(row)
            print(row.name, f"{row.ours_s:.4g} s", "" if row.ratio is None else f"{row.ratio:.2f}", flush=True)  # noqa: T201
    WRITTEN.parent.mkdir(exist_ok=True)
    WRITTEN.write_text(table(rows), encoding="utf-8")
    print(table(rows))  # noqa: T201
    return int(any(row.kept is False for row in rows))


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
