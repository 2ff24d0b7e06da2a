"""The reference page of the format: nothing of the format is left out."""

from __future__ import annotations

import re

import markdown
import pytest

from macros.description.item_kinds import ITEM_KINDS
from macros.description.loading import FILES
from macros.description.reference import reference_page
from macros.description.shape import parts_in


@pytest.fixture(scope="module")
def page() -> str:
    return reference_page()


@pytest.fixture(scope="module")
def html(page: str) -> str:
    return markdown.markdown(page, extensions=["tables", "attr_list"])


@pytest.mark.parametrize("name", FILES)
def test_every_key_of_every_part_stands_in_a_table(page: str, name: str) -> None:
    for part in parts_in(FILES[name]):
        for key in part.model_fields:
            assert re.search(rf"^\| `{key}` \| {re.escape(part.titled(key))} \|", page, re.MULTILINE), (part, key)


@pytest.mark.parametrize("name", ITEM_KINDS)
def test_every_kind_of_item_stands_in_its_table(page: str, name: str) -> None:
    (row,) = re.findall(rf"^\| `{name}` \|.*$", page[page.index("{: #kinds }") :], re.MULTILINE)
    for word in (*ITEM_KINDS[name].ports, *ITEM_KINDS[name].needs, *ITEM_KINDS[name].positions):
        assert f"`{word}`" in row


def test_bounds_usual_values_and_assumptions_are_told(page: str) -> None:
    (row,) = re.findall(r"^\| `polytropic_index` .*$", page, re.MULTILINE)
    cells = [cell.strip() for cell in row.strip("|").split("|")]
    assert cells[3:] == ["from 1 to 1.41", "from 1.1 to 1.3", "1.2 is assumed (common-practice)"]


def test_the_page_is_made_of_whole_tables(page: str, html: str) -> None:
    rows = [line for line in page.split("\n") if line.startswith("|")]
    assert html.count("<tr>") == sum(1 for row in rows if not set(row) <= set("| -"))
    assert all(len(re.findall(r"(?<!\\)\|", row)) in (6, 7) for row in rows)


def test_every_link_leads_to_a_heading_and_no_heading_stands_twice(page: str, html: str) -> None:
    ids = re.findall(r'id="([^"]+)"', html)
    assert len(ids) == len(set(ids))
    assert set(re.findall(r"\]\(#([^)]+)\)", page)) <= set(ids)
