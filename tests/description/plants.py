"""A copy of the plant `shed` in which a test may change a word."""

from __future__ import annotations

import shutil
from pathlib import Path

from macros.description.loading import load
from macros.quantities import Faults

ROOT = Path(__file__).resolve().parents[2]
SHED = ROOT / "docs" / "designs" / "shed"


class Copy:
    """The shed in a folder of its own."""

    def __init__(self, folder: Path) -> None:
        self.root = folder
        self.folder = folder / "shed"
        shutil.copytree(SHED, self.folder)

    def change(self, file: str, old: str, new: str) -> Copy:
        """Put a new text in the place of an old one that stands exactly once."""
        path = self.folder / file
        text = path.read_text("utf-8")
        assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times in {file}"
        path.write_text(text.replace(old, new), "utf-8")
        return self

    def line(self, file: str, text: str) -> int:
        """The line where a text stands that stands exactly once."""
        lines = [number for number, line in enumerate(self.text(file).split("\n"), 1) if text in line]
        assert len(lines) == 1, f"{text!r} stands in lines {lines} of {file}"
        return lines[0]

    def text(self, file: str) -> str:
        """What a file holds."""
        return (self.folder / file).read_text("utf-8")

    def faults(self) -> list[str]:
        """Everything that is wrong, as people see it."""
        try:
            load(self.folder, self.root)
        except Faults as error:
            return str(error).split("\n")
        return []
