"""What every page gets after Markdown: names for boxes and tables, levels as words, ids for rows; and nothing twice."""

from __future__ import annotations

import html5lib
import markdown
import pytest

from macros.pages.dialect import EXTENSIONS
from macros.pages.finishing import finished, plain_text

HTML = "{http://www.w3.org/1999/xhtml}"

PAGE = """# Faults

## Stack

| You see | Do |
| --- | --- |
| All cells high | Warm up |
| Hot & wet | Clean |

| Further | Table |
| --- | --- |
| a | b |

!!! danger "Gas"

    It burns.

!!! warning "Wait"

    An hour.

- [ ] Zero proved *twice*
- [x] Vent open

Dew point
:   Where water falls out.
"""


@pytest.fixture(scope="module")
def page():
    made = markdown.markdown(PAGE, extensions=list(EXTENSIONS), extension_configs=dict(EXTENSIONS))
    return html5lib.parse(finished(made))


def of(page, name, **attributes):
    return [one for one in page.iter(f"{HTML}{name}") if all(one.get(key) == said for key, said in attributes.items())]


def text(element):
    return " ".join("".join(element.itertext()).split())


def test_a_box_to_tick_is_named_by_its_text_and_can_be_ticked(page) -> None:
    named = {one.get("id"): text(one) for one in page.iter() if one.get("id")}
    boxes = of(page, "input", type="checkbox")
    assert [named[box.get("aria-labelledby")] for box in boxes] == ["Zero proved twice", "Vent open"]
    assert [box.get("checked") is not None for box in boxes] == [False, True]
    assert all(box.get("disabled") is None for box in boxes)


def test_a_box_of_a_list_with_paragraphs_is_named_too() -> None:
    """As Markdown gives it where a blank line stands in the list."""
    html = '<ul>\n<li class="task-list-item">\n<p><input type="checkbox" disabled/> Zero proved</p>\n</li>\n</ul>'
    assert '<p><input type="checkbox" aria-labelledby="task-1"><span id="task-1">Zero proved</span></p>' in finished(
        html
    )


def test_a_table_scrolls_by_keyboard_and_is_named_after_its_heading(page) -> None:
    regions = of(page, "div", role="region", tabindex="0")
    assert [region.get("aria-label") for region in regions] == ["Stack", "Stack, table 2"]
    assert [head.get("scope") for head in of(page, "th")] == ["col"] * 4


def test_each_row_can_be_led_to(page) -> None:
    assert [row.get("id") for row in of(page, "tr") if row.get("id")] == ["stack-row-1", "stack-row-2", "stack-row-3"]


def test_a_caution_says_its_level_first(page) -> None:
    titles = [text(one) for one in of(page, "p", **{"class": "admonition-title"})]
    assert titles == ["Danger Gas", "Warning Wait"]


def test_every_kind_of_caution_that_a_page_may_hold_has_its_word() -> None:
    from macros.pages.markup import ADMONITIONS

    for kind in ADMONITIONS:
        made = finished(f'<div class="admonition {kind}">\n<p class="admonition-title">Title</p>')
        assert plain_text(made) == f"{kind.capitalize()} Title"


def test_a_term_can_be_led_to(page) -> None:
    assert [one.get("id") for one in of(page, "dt")] == ["t-dew-point"]


def test_the_sign_beside_a_heading_is_for_the_mouse_only(page) -> None:
    signs = of(page, "a", **{"class": "headerlink"})
    assert signs
    assert all(sign.get("tabindex") == "-1" and sign.get("aria-hidden") == "true" for sign in signs)


def test_a_header_that_has_its_scope_keeps_it() -> None:
    made = finished('<h2 id="x">X</h2>\n<table>\n<tr><th scope="row">a</th><td>b</td></tr></table>')
    assert made.count("scope=") == 1


def test_no_two_tables_of_a_page_have_one_name() -> None:
    region = '<div class="gw-scroll" tabindex="0" role="region" aria-label="Numbers &amp; more"><table></table></div>'
    made = finished(f"<h2>One</h2>{region}<h2>Two</h2>{region}{region}")
    labels = [one.get("aria-label") for one in of(html5lib.parse(made), "div", role="region")]
    assert labels == ["Numbers & more", "Numbers & more: Two", "Numbers & more: Two, table 2"]


def test_a_cell_without_words_heads_no_column() -> None:
    made = finished("<table><thead><tr><th>Day</th><th scope='col'></th></tr></thead></table>")
    assert [text(one) for one in of(html5lib.parse(made), "th")] == ["Day"]


def test_a_step_is_heard_with_its_number() -> None:
    made = finished('<li class="gw-step" id="l-3" data-step="3"><p class="gw-do">Shut V1.</p></li>')
    assert plain_text(made) == "Step 3: Shut V1."
