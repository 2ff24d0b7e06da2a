"""A printed sheet as a reader and a printer see it: pages, runs of type, words with their boxes, and the ink."""

import re
import shutil
import subprocess
from dataclasses import dataclass
from functools import cached_property
from html import unescape

import numpy as np
import pypdf

POINTS_PER_MM = 72 / 25.4
assert shutil.which("pdftoppm"), "poppler-utils are needed: apt-get install poppler-utils"


@dataclass(frozen=True)
class Word:
    """A word and the box of its letters, from baseline to capitals. [pt from the top left corner]"""

    text: str
    left: float
    top: float
    right: float
    bottom: float


@dataclass(frozen=True)
class Run:
    """Letters that one command sets."""

    text: str
    size: float
    font: str


class Sheet:
    def __init__(self, file):
        self.file = file

    @cached_property
    def reader(self):
        return pypdf.PdfReader(self.file)

    @cached_property
    def sizes_mm(self):
        """Width and height of each page."""
        boxes = [page.mediabox for page in self.reader.pages]
        return [(float(box.width) / POINTS_PER_MM, float(box.height) / POINTS_PER_MM) for box in boxes]

    @cached_property
    def runs(self):
        found = []

        def take(text, page_matrix, text_matrix, font, size):
            if text.strip():
                scale = abs(text_matrix[3] * page_matrix[3])
                found.append(Run(text, size * scale, str((font or {}).get("/BaseFont", ""))))

        for page in self.reader.pages:
            page.extract_text(visitor_text=take)
        return found

    @cached_property
    def text(self):
        """All text, every space alike."""
        return " ".join(" ".join(page.extract_text() for page in self.reader.pages).split())

    def words(self, page=1):
        listed = subprocess.run(
            ["pdftotext", "-bbox", "-f", str(page), "-l", str(page), str(self.file), "-"],
            check=True, capture_output=True, text=True,
        ).stdout  # fmt: skip
        number = r"([\d.]+)"
        pattern = rf'<word xMin="{number}" yMin="{number}" xMax="{number}" yMax="{number}">(.*?)</word>'
        for left, top, right, bottom, text in re.findall(pattern, listed):
            high = float(bottom) - float(top)
            # Poppler's box runs from the font's ascent, 0.935 em, to its descent, 0.265 em.
            yield Word(
                unescape(text), float(left), float(top) + 0.205 * high, float(right), float(bottom) - 0.225 * high
            )

    def ink(self, page=1, dpi=150):
        """The page as a greyscale printer makes it: 0 black, 255 white."""
        return _pixels(self.file, page, dpi, "-gray")[:, :, 0]

    def colours(self, page=1, dpi=60):
        """The page in colour."""
        return _pixels(self.file, page, dpi)


def _pixels(file, page, dpi, *more):
    made = subprocess.run(
        ["pdftoppm", "-r", str(dpi), "-f", str(page), "-l", str(page), *more, str(file)],
        check=True,
        capture_output=True,
    ).stdout
    kind, width, height, rest = re.match(rb"(P[56])\s+(\d+)\s+(\d+)\s+255\s(.*)", made, re.DOTALL).groups()
    return np.frombuffer(rest, np.uint8).reshape(int(height), int(width), 3 if kind == b"P6" else 1)
