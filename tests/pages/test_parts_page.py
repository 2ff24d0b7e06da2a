"""The page of a plant's parts: every line with what it costs, sums with their workings, and how the prices are known."""

import pytest

from tests.pages.test_review_page import page_of, text_of
from tests.review.looking import plant_named


@pytest.fixture(scope="module")
def shed():
    return plant_named("shed")


@pytest.fixture(scope="module")
def tree(shed):
    return page_of(shed, "parts")


def rows(tree):
    return {each.get("data-part"): each for each in tree.iter("tr") if each.get("data-part")}


def test_every_part_stands_on_the_page_once(shed, tree):
    parts = shed.description.parts.parts
    found = rows(tree)
    assert list(map(int, found)) == sorted(map(int, found))
    assert len(found) == len(parts) == len([each for each in tree.iter("tr") if each.get("data-part")])
    for number, part in enumerate(parts, 1):
        assert part.item in text_of(found[str(number)])


def test_a_line_shows_how_many_at_what_price_and_what_it_costs(shed, tree):
    """By hand: four cylinders of 285 EUR each are 1140 EUR; what is no item of the network is named without a link."""
    number = next(n for n, part in enumerate(shed.description.parts.parts, 1) if part.item == "Cylinder with valve")
    name, count, price, cost, *_ = [text_of(cell) for cell in rows(tree)[str(number)]]
    assert "50 L" in name.replace("\u00a0", " ")
    assert (count, price.replace("\u00a0", " "), cost.replace("\u00a0", " ")) == ("4", "285 EUR", "1140.00 EUR")


def test_no_reference_is_left_as_typed(tree):
    """Items and figures are resolved; lines, which no row of the drawing's table tells of, stand by their names."""
    assert not [text_of(row) for row in rows(tree).values() if "{" in text_of(row) or "}" in text_of(row)]


def test_made_up_prices_say_so_with_their_day_over_every_table(tree):
    """Where a reader sees prices he sees whence they come."""
    heads = [text_of(row) for row in tree.iter("thead") if "Price of one" in text_of(row)]
    assert len(heads) >= 5
    assert all("made up on 2026-11-25" in head for head in heads)


def test_the_day_of_the_rates_and_every_total_are_told(shed, tree):
    told = text_of(tree)
    assert "European Central Bank of 2026-" in told
    for name in ("cost.total.eur", "cost.total.gbp", "cost.total.usd", "cost.per_stored_kwh"):
        assert " ".join(shed.graph[name].show().split()) in told


def test_every_table_has_heads_with_a_scope(tree):
    for head in tree.iter("th"):
        assert head.get("scope") in ("col", "row")
