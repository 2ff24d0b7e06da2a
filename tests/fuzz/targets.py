"""
What is fuzzed: the readers of everything that strangers send. Each either takes an input or refuses it by an error of ours.

Used by `python -m tests.fuzz` with coverage as its guide, and by the tests with the cases that were once found.
"""

from __future__ import annotations

import functools
import re
import shutil
import tempfile
from collections.abc import Callable
from pathlib import Path

from macros.description import strict_yaml
from macros.description.hourly import read_hours
from macros.description.loading import FILES, load
from macros.figures.lineups import proofs_failed
from macros.figures.plant import Plant
from macros.pages.front_matter import split_source
from macros.pages.hand_drawing import drawing_faults
from macros.pages.macros import MACROS
from macros.pages.page_text import read_page
from macros.pages.plain_html import strange_html
from macros.pages.typed_numbers import typed_numbers
from macros.pages.vocabulary import Vocabulary
from macros.quantities import KINDS, Faults, QuantityError, numbers_with_units, parse_shown, read

__all__ = ["TARGETS", "one_input"]

ROOT = Path(__file__).parents[2]
STARTER = ROOT / "macros/command/starter_plant"
KNOWN = Vocabulary(["stack.voltage", "boosters", "banks.*.mass"])
KINDS_BY_NUMBER = (None, *sorted(KINDS))
TOKEN = re.compile(r"[A-Za-z0-9_.°%/()]+|[^\sA-Za-z0-9]")


def quantities(content: bytes) -> None:
    """Quantities as authors type them, as pages show them, and where they stand in prose."""
    text = content[1:].decode("utf-8", "surrogateescape").encode("utf-8", "replace").decode("utf-8")
    kind = KINDS_BY_NUMBER[content[0] % len(KINDS_BY_NUMBER)] if content else None
    for reader in (read, parse_shown):
        try:
            reader(text, kind)
        except QuantityError as error:
            assert error.message
    list(numbers_with_units(text))


def yaml(content: bytes) -> None:
    """The strict subset of YAML, with the table of hours."""
    for reader in (lambda: strict_yaml.parse(content, "x.yml"), lambda: read_hours(content, "x.csv", "x.csv")):
        try:
            reader()
        except Faults as faults:
            assert all(one.message for one in faults)


def page(content: bytes) -> None:
    """A page, from its bytes to what Markdown may make of it."""
    source = split_source(content, "x.md", ("title",), KNOWN)
    text = read_page(source.body, "x.md", source.first_line, MACROS)
    list(typed_numbers(source.body, "x.md", source.first_line, []))
    list(strange_html(source.body))
    drawing_faults(content, "x.svg")
    lines = content.count(b"\n") + content.count(b"\r") + 1
    assert all(0 <= one.line <= lines for one in (*source.faults, *text.faults, *text.markup))


@functools.cache
def _starter() -> tuple[dict[str, str], list[str]]:
    texts = {name: (STARTER / name).read_text("utf-8") for name in FILES}
    return texts, sorted({token for text in texts.values() for token in TOKEN.findall(text)})


def network(content: bytes) -> None:
    """A whole plant in which a few words were put for others; where it still is one, its line-ups are worked out."""
    texts, words = _starter()
    texts = dict(texts)
    numbers = [int.from_bytes(content[place : place + 2], "big") for place in range(0, min(len(content), 24), 2)]
    for name, where, word in zip(numbers[::3], numbers[1::3], numbers[2::3], strict=False):
        file = list(FILES)[name % 3]
        found = list(TOKEN.finditer(texts[file]))
        taken = found[where % len(found)]
        texts[file] = texts[file][: taken.start()] + words[word % len(words)] + texts[file][taken.end() :]
    folder = Path(tempfile.mkdtemp(prefix="fuzz_")) / "starter"
    try:
        folder.mkdir()
        for name, text in texts.items():
            (folder / name).write_text(text, encoding="utf-8")
        try:
            load(folder, folder.parent)
            proofs_failed(Plant.load(folder, folder.parent))
        except Faults as faults:
            assert all(one.message for one in faults)
    finally:
        shutil.rmtree(folder.parent)


TARGETS: dict[str, Callable[[bytes], None]] = {
    "quantities": quantities, "yaml": yaml, "page": page, "network": network,
}  # fmt: skip


def one_input(target: str, content: bytes) -> None:
    """Try one input."""
    TARGETS[target](content)
