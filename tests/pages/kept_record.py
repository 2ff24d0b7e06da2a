"""The bench with a record: it was built, measured, waived and signed for; made up for the tests."""

from __future__ import annotations

import shutil
from pathlib import Path

from macros.figures.plant import Plant

__all__ = ["RECALL", "refused_bench", "run_bench", "withdrawn_bench"]

BENCH = Path(__file__).parents[2] / "docs" / "designs" / "bench"

RECALL = "Its let-down valve was drawn the wrong way round"

READINGS = """
readings:
  - {date: 2026-03-02, figure: stack.cell_voltage, value: 1.98 V, tolerance: 5 %, role: builder, at: ST1}
  - {date: 2026-06-02, figure: stack.cell_voltage, value: 2.00 V, tolerance: 5 %, role: builder}
  - {date: 2026-09-02, figure: stack.cell_voltage, value: 2.31 V, tolerance: 5 %, role: builder, note: One cell runs warm}
  - {date: 2026-03-02, figure: drying.frost_point, value: -20 °C, tolerance: 60 K, role: builder}
  - {date: 2026-03-03, figure: stack.let_down_time, value: 40 mL, tolerance: 25 %, role: builder}
"""


def _copy(target: Path) -> Path:
    folder = target / "docs" / "designs" / "bench"
    shutil.copytree(BENCH, folder)
    return folder


def run_bench(target: Path) -> Plant:
    """The bench with readings, a waiver and two signatures, one for another design."""
    folder = _copy(target)
    digest = Plant.load(folder, target).design_digest
    record = folder / "record.yml"
    text = record.read_text("utf-8")
    for key, written in {
        "readings: []\n": READINGS,
        "waivers: []\n": (
            f"waivers:\n  - {{rule: a-rule, reason: Nobody is in the room while it runs, role: owner, "
            f"expiry: 2099-01-01, digest: {digest}}}\n"
        ),
        "sign_offs: []\n": (
            f"sign_offs:\n  - {{date: 2026-03-01, role: reviewer, statement: May be run, digest: {digest}}}\n"
            "  - {date: 2025-03-01, role: reviewer, statement: May be run, digest: 0123456789ab}\n"
        ),
    }.items():
        assert key in text
        text = text.replace(key, written)
    record.write_text(text, "utf-8")
    return Plant.load(folder, target)


def refused_bench(target: Path, status: str = "draft") -> Plant:
    """The bench with its trip for hydrogen in oxygen set too high, and a let-down valve that falls shut."""
    folder = _copy(target)
    plant, network = folder / "plant.yml", folder / "network.yml"
    text = plant.read_text("utf-8")
    assert "\nstack:\n" in text
    text = text.replace("\nstack:\n", "\nstack:\n  hydrogen_in_oxygen_trip: 3 %\n")
    now = next(line for line in text.splitlines() if line.startswith("status:"))
    plant.write_text(text.replace(now, f"status: {status}", 1), "utf-8")
    text = network.read_text("utf-8")
    assert "fail_position: open" in text
    network.write_text(text.replace("fail_position: open", "fail_position: closed"), "utf-8")
    return Plant.load(folder, target)


def withdrawn_bench(target: Path) -> Plant:
    """The bench, recalled."""
    plant = _copy(target) / "plant.yml"
    text = plant.read_text("utf-8")
    status = next(line for line in text.splitlines() if line.startswith("status:"))
    plant.write_text(text.replace(status, f"status: withdrawn\nrecall: {RECALL}", 1), "utf-8")
    return Plant.load(plant.parent, target)
