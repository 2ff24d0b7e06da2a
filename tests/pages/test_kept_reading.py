"""A page in which nothing was wrong is not gone through again, and what could make something wrong in it is noticed."""

import shutil
from pathlib import Path

import pytest

from macros.pages import page_text
from macros.pages.handbook import Handbook

ROOT = Path(__file__).parents[2]
GUIDE = """---
title: Buffer of {{ plant.title }}
purpose: What it holds.
group: run
order: 1
---
# Buffer

The stack has {{ plant.stack.cells }} cells at {{ plant.stack.current }}.
"""


@pytest.fixture
def docs(tmp_path, monkeypatch):
    monkeypatch.setenv("GASWRIGHT_CACHE", str(tmp_path / "kept"))
    docs = tmp_path / "handbook/docs"
    (docs / "guides").mkdir(parents=True)
    shutil.copytree(ROOT / "macros/command/starter_plant", docs / "designs/own")
    (docs / "guides/buffer.md").write_text(GUIDE, encoding="utf-8")
    return docs


@pytest.fixture
def read(monkeypatch):
    """The pages, titles and purposes that were gone through, by file."""
    seen = []
    true = page_text.read_page

    def noted(text, file, *rest):
        seen.append(file)
        return true(text, file, *rest)

    monkeypatch.setattr("macros.pages.page_text.read_page", noted)
    monkeypatch.setattr("macros.pages.handbook.read_page", noted)
    return seen


def _faults(docs):
    return [fault for fault in Handbook.load(docs).faults if fault.file.endswith(".md")]


def test_a_page_without_fault_is_gone_through_once_and_still_written_the_same(docs, read):
    first = Handbook.load(docs)
    assert read.count("docs/guides/buffer.md") == 3, "its text, title and purpose"
    second = Handbook.load(docs)
    assert read.count("docs/guides/buffer.md") == 3
    assert not first.faults
    assert not second.faults
    written = [[book.render(page) for page in book.pages() if page.kind == "guide"] for book in (first, second)]
    assert [one.markdown for one in written[0]] == [one.markdown for one in written[1]]
    assert [one.title for one in written[0]] == [one.title for one in written[1]]


def test_a_fault_is_told_every_time(docs):
    (docs / "guides/buffer.md").write_text(GUIDE.replace("cells at", "cells, 5 kg, at"), encoding="utf-8")
    told = _faults(docs)
    assert told
    assert _faults(docs) == told


@pytest.mark.parametrize(
    ("before", "after", "said"),
    [
        ("The stack", "The 5 kg stack", "5 kg"),
        ("plant.stack.cells", "plant.stack.sells", "plant.stack.sells"),
        ("{{ plant.stack.current }}", "{{ plant.stack.current", "{{"),
        ("What it holds.", "It holds 5 kg.", "5 kg"),
        ("group: run", "group: fun", "fun"),
    ],
)  # fmt: skip
def test_an_edit_of_a_page_that_was_kept_is_noticed(docs, before, after, said):
    assert not _faults(docs)
    page = docs / "guides/buffer.md"
    page.write_text(page.read_text(encoding="utf-8").replace(before, after), encoding="utf-8")
    assert any(said in str(fault) for fault in _faults(docs))


def test_beside_another_plant_it_is_gone_through_again(docs, read):
    Handbook.load(docs)
    plant = docs / "designs/own/plant.yml"
    plant.write_text(plant.read_text(encoding="utf-8") + "\n", encoding="utf-8")
    Handbook.load(docs)
    assert read.count("docs/guides/buffer.md") == 6
