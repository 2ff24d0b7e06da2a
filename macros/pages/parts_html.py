"""The parts list of a plant as tables: what to buy, how many, what it costs, what for."""

from __future__ import annotations

from html import escape

from macros.description.parts_file import GROUPS
from macros.figures.parts_list import Line, basis_of, lines_of
from macros.figures.plant import Plant
from macros.pages.context import PageContext
from macros.pages.fragments import FragmentError, figure_fragment, resolve_references
from macros.pages.registry import macro
from macros.pages.tokens import Fragment
from macros.pages.working import scrolling, value_span
from macros.quantities import say
from macros.quantities.languages import with_mark

__all__ = ["parts", "parts_fragment"]

HEADS = ("part", "how_many", "price", "cost", "had", "again", "tags")


@macro
def parts(group: str = "", *, page: PageContext) -> Fragment:
    """The parts list of the plant, or one of its groups: `parts("banks")`."""
    if page.plant is None:
        raise FragmentError(say("pages.no_plant"))
    if group and group not in GROUPS:
        raise FragmentError(say("pages.parts.no_group", found=group, known=", ".join(GROUPS)))
    return parts_fragment(page.plant, page, group)


def parts_fragment(plant: Plant, page: PageContext, group: str = "") -> Fragment:
    """The lines of a group, or all, as a table with its sum; a plain sentence where there are none."""
    lines = list(lines_of(plant, group))
    if not lines:
        return Fragment(say("pages.parts.none"), f"<p>{escape(say('pages.parts.none'))}</p>", block=True)
    workings: dict[str, str] = {}
    rows = [_row(plant, line, page, workings) for line in lines]
    heads = {one: say(f"pages.parts.head.{one}") for one in HEADS}
    heads["price"] = say("pages.parts.price", basis=basis_of(plant))
    head = "".join(f'<th scope="col">{escape(each)}</th>' for each in heads.values())
    foot = _foot(plant, page, group, workings)
    table = f"<table><thead><tr>{head}</tr></thead><tbody>{''.join(rows)}</tbody>{foot}</table>"
    label = say(f"pages.parts.group.{group or 'all'}")
    return Fragment(label, scrolling(table, label, "gw-parts"), block=True, workings=workings, printed=False)


def _row(plant: Plant, line: Line, page: PageContext, workings: dict[str, str]) -> str:
    part = plant.description.parts.parts[line.number - 1]
    said = resolve_references(part.specification, page)
    workings.update(said.workings)
    tags = [_tag(tag, page) for tag in line.tags]
    price = f"parts.{line.number}.unit_price"
    listed = _number(page, price) or escape(with_mark(f"{line.unit_price} {line.currency}"))
    return (
        f'<tr data-part="{line.number}"><th scope="row">{escape(line.item)}<br>'
        f'<span class="gw-remark">{said.rich or escape(said.plain)}</span></th>'
        f"<td>{_number(page, line.quantity_path) or line.quantity}</td><td>{listed}</td>"
        f'<td>{_number(page, line.cost_path)}</td><td>{escape(line.region)}, <span data-typed="">{escape(line.lead_time)}</span></td>'
        f'<td data-typed="">{escape(line.life)}</td><td>{" ".join(tags)}</td></tr>'
    )


def _tag(tag: str, page: PageContext) -> str:
    """An item as a link to its row; a line by its name."""
    if tag not in page.tags:
        return escape(tag)
    item = resolve_references(f"{{{tag}}}", page)
    return item.rich or escape(item.plain)


def _number(page: PageContext, path: str) -> str:
    """An entry or figure as a link to where it is told; empty where the plant has it not."""
    if page.numbers is None or page.graph is None or path not in page.graph:
        return ""
    number = value_span(page.numbers.shown(path), path)
    link = page.working_url(path)
    return f'<a href="{link}">{number}</a>' if link else number


def _foot(plant: Plant, page: PageContext, group: str, workings: dict[str, str]) -> str:
    prices = plant.description.parts.prices
    if prices is None:
        return ""
    path = f"cost.group.{group}" if group else f"cost.total.{prices.currencies[0].lower()}"
    total = figure_fragment(page, path)
    workings.update(total.workings)
    title = escape(plant.graph[path].title)
    return (
        f'<tfoot><tr><th scope="row" colspan="3">{title}</th><td>{total.rich or escape(total.plain)}</td>'
        f'<td colspan="3"></td></tr></tfoot>'
    )
