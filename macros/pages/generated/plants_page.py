"""All plants side by side: their main figures in one table that can be sorted, a small drawing of each, its verdict."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from html import escape

from diagrams.thumbnail import thumbnail
from macros.figures.costs import main_currency, rates_of
from macros.figures.plant import Plant
from macros.network.gas_path import gas_path
from macros.pages.context import PageContext
from macros.pages.fragments import resolve_references
from macros.pages.tokens import Fragment, Tokens
from macros.pages.working import assumed_mark, scrolling, value_span
from macros.quantities import say
from macros.review import Review
from macros.review.telling import verdict_of

__all__ = ["COLUMNS", "Told", "main_figures", "plants_page"]

COLUMNS = ("yield", "power", "mass", "energy", "pressure", "electricity", "per_kwh", "cost")
"""What is told of each plant, by the keys of the headings."""


@dataclass(frozen=True)
class Told:
    """A plant with what the pages of a handbook say of it: links and numbers, its review, and whether it is refused."""

    plant: Plant
    page: PageContext
    review: Review | None
    """None in a preview, which does not review."""
    proofs_failed: int = 0

    @property
    def refused(self) -> bool:
        return self.review is not None and bool(self.review.failed or self.proofs_failed)


def plants_page(plants: Iterable[Told], page: PageContext, tokens: Tokens) -> str:
    """The page of all plants: the table, then what each says of itself."""
    told = list(plants)
    label = say("pages.plants.table")
    head = "".join(
        f'<th scope="col"{_first(number)}>{escape(say(f"pages.plants.head.{name}"))}</th>'
        for number, name in enumerate(("plant", "verdict", *COLUMNS))
    )
    rows = "".join(_row(one, page) for one in told)
    table = f'<table data-sortable=""><thead><tr>{head}</tr></thead><tbody>{rows}</tbody></table>'
    # Shown by the script that sorts; without it the table stays in its order.
    hint = f'<p class="gw-sort-hint" hidden>{escape(say("pages.plants.sort"))}</p>'
    lines = [
        f"# {say('pages.plants.title')} {{: #plants }}",
        "",
        say("pages.plants.purpose"),
        "",
        tokens.add(Fragment(label, hint + scrolling(table, label, "gw-plants"), block=True)),
        "",
        say("pages.plants.about", choices=page.source_url("choices.md")),
        "",
    ]
    for one in told:
        lines += _section(one, page, tokens)
    return "\n".join(lines)


def _first(number: int) -> str:
    """Numbers are sorted with the largest first, words by the alphabet."""
    return ' data-first="largest"' if number > 1 else ""


def _section(one: Told, page: PageContext, tokens: Tokens) -> Iterator[str]:
    summary = tokens.add(resolve_references(one.plant.description.plant.summary, one.page, worked=False))
    refused = f"**{say('pages.status.refused')}** " if one.refused else ""
    yield f"## [{tokens.words(one.plant.title)}]({page.source_url(f'{one.plant.name}/index.md')}) {{: #{one.plant.name} }}"
    yield ""
    yield f"{refused}**{say(f'pages.status.{one.plant.status}')}** {summary}"
    yield ""


def main_figures(plant: Plant) -> dict[str, str]:
    """The figure or entry that is told of a plant in each column; columns that it has nothing for are left out."""
    fills = [f"banks.{name}.fill_pressure" for name in plant.description.plant.banks]
    pressures = [path for path in (*fills, "buffer.cut_out") if path in plant.graph]
    wanted = {
        "yield": "stack.hydrogen_normal_flow",
        "power": "stack.supply_power",
        "mass": "plant.stored_inventory",
        "energy": "plant.stored_energy",
        "pressure": max(pressures, key=lambda path: float(plant.graph[path].si), default=""),
        "electricity": "plant.energy_per_kg_stored",
        "per_kwh": "cost.per_stored_kwh",
        "cost": f"cost.total.{main_currency(plant.description).lower()}",
    }
    return {column: path for column, path in wanted.items() if path in plant.graph}


def _row(one: Told, page: PageContext) -> str:
    plant = one.plant
    figures = main_figures(plant)
    link = page.url(f"{plant.name}/index.md")
    name = f'<a href="{link}">{escape(plant.title)}</a>{_thumbnail(plant, page)}'
    cells = "".join(_cell(one, figures.get(column, "")) for column in COLUMNS)
    return (
        f'<tr data-plant="{escape(plant.name)}"><th scope="row" data-sort="{escape(plant.title)}">{name}</th>'
        f'<td data-sort="{_rank(one)}">{_verdict(one, page)}</td>{cells}</tr>'
    )


def _thumbnail(plant: Plant, page: PageContext) -> str:
    path = gas_path(plant.network)
    if not path.ways:
        return ""
    kinds = {tag: plant.network.items[tag].kind.name for column in path.columns for tag in column}
    said = [plant.network.items[tag].title for tag in kinds]
    return thumbnail(
        [[(tag, kinds[tag]) for tag in column] for column in path.columns],
        path.ways,
        title=say("pages.plants.drawing", plant=plant.title),
        description=say("pages.plants.gas_goes", path=", ".join(said)),
        identity=page.identity(f"gas-{plant.name}"),
    )


def _rank(one: Told) -> int:
    """Refused plants first, then those that nobody reviewed, then by what is left to look after."""
    if one.refused:
        return 0
    return 1 if one.review is None else 2


def _verdict(one: Told, page: PageContext) -> str:
    status = say(f"pages.status.{one.plant.status}")
    if one.review is None:
        return f"{escape(status)} {escape(say('pages.plants.unseen'))}"
    verdict = verdict_of(one.review, one.proofs_failed)
    link = page.url(f"{one.plant.name}/review.md")
    words = f'<a href="{link}">{escape(verdict[:1].upper() + verdict[1:])}</a>'
    return f"{escape(status)} {f'<strong>{words}</strong>' if one.refused else words}"


def _cell(one: Told, path: str) -> str:
    """A number as a link to its working, with what it is sorted by."""
    numbers, value = one.page.numbers, one.plant.graph[path] if path else None
    if value is None or numbers is None:
        return f"<td>{escape(say('pages.absent'))}</td>"
    number = f'<a href="{one.page.working_url(path)}">{value_span(numbers.shown(path), path)}</a>'
    mark = assumed_mark() if value.assumed else ""
    return f'<td data-sort="{float(value.si) / _rate(one.plant, path):.9g}">{number}{mark}</td>'


def _rate(plant: Plant, path: str) -> float:
    """What a number is divided by to be sorted: money is held against the base of the rates of its day."""
    rates = rates_of(plant.description) if path.startswith("cost.") else None
    return rates.of(main_currency(plant.description)) if rates is not None else 1.0
