"""
Figures of what a plant costs, from its parts list: each line, each group, all of it, and a stored kilowatt-hour.

Sums are in the first currency of the list; a price in another is turned by the rate of its day. A part that wears out
is paid back over its own life, everything else over that of the plant. Prices that are made up stay marked as assumed
wherever they reach.
"""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Set
from typing import Any

from macros.calculations.formula import smallest
from macros.calculations.levelised_cost import annuity, cost_of_energy
from macros.calculations.storage import energy_lower
from macros.description.fields import measure_of
from macros.description.loading import Description
from macros.description.parts_file import GROUPS, BoughtPart, Prices
from macros.description.references import referred
from macros.figures.buffer import YEAR
from macros.figures.exchange_rates import BASE, SOURCE, OldestError, Rates, rates_on
from macros.figures.graph import Entry, Figure, figure
from macros.quantities import Fault, Faults, Quantity, say

__all__ = ["COSTS", "entries", "figures", "main_currency", "rates_of"]

COSTS = "cost."
"""How the names of these figures begin."""

FILE = "parts.yml"

RECKONED_WITH = ("interest", "years", "electricity")
"""What the cost of stored energy takes beside the parts."""


def main_currency(description: Description) -> str:
    """The currency of every sum but the totals in others; empty where the plant says nothing of prices."""
    prices = description.parts.prices
    return prices.currencies[0] if prices is not None else ""


def rates_of(description: Description) -> Rates | None:
    """
    The rates by which a plant's prices are turned; none where it says nothing of prices.

    Raises
    ------
    Faults
        If its prices are older than any rate.
    """
    prices = description.parts.prices
    if prices is None:
        return None
    try:
        return rates_on(datetime.date.fromisoformat(prices.date))
    except OldestError as error:
        raise _fault(description, ("prices", "date"), say("figures.cost.too_old", first=error.first)) from error


def entries(description: Description) -> Iterator[Entry]:
    """What the parts list gives: how its prices are known, rates, and of each line quantity, price and life."""
    prices = description.parts.prices
    if prices is None or not description.parts.parts:
        return
    basis = say(f"figures.cost.basis.{prices.basis}", date=prices.date)
    made_up = "made-up-price" if prices.basis == "invented" else ""
    yield Entry(
        "prices.basis", basis, say("figures.cost.basis_title"), "", made_up, "either", _at(description, "basis")
    )
    for name in RECKONED_WITH:
        demand, place = measure_of(Prices, name), _at(description, name)
        assert demand is not None and demand.default is not None
        assumed, safe = ("", "") if place else (demand.default.source, demand.default.safe)
        title = Prices.titled(name)
        yield Entry(f"prices.{name}", getattr(prices, name), title, demand.symbol, assumed, safe, place)
    rates = rates_of(description)
    assert rates is not None
    for code in sorted(_foreign(description)):
        value = rates.of(code)
        rate = Quantity("ratio", value, "", f"{value:.6g}")
        title = say("figures.cost.rate", currency=code, base=BASE, day=rates.day)
        yield Entry(f"prices.rates.{code.lower()}", rate, title, f"r_{code}", SOURCE, "either")
    for number, part in enumerate(description.parts.parts, 1):
        yield from _of_part(description, number, part)


def _of_part(description: Description, number: int, part: BoughtPart) -> Iterator[Entry]:
    def entry(name: str, value: Any, symbol: str) -> Entry:
        place = description.place(FILE, ("parts", number, name))
        reads = ("prices.basis",) if name == "unit_price" else ()
        title = say(f"figures.cost.part.{name}", item=part.item)
        return Entry(f"parts.{number}.{name}", value, title, symbol, place=place, reads=reads)

    if isinstance(part.quantity, Quantity):
        yield entry("quantity", part.quantity, "n")
    text = f"{part.unit_price} {part.currency}"
    price = Quantity(f"money_{part.currency.lower()}", float(part.unit_price), part.currency, text)
    yield entry("unit_price", price, "p")
    if part.life is not None:
        yield entry("life", part.life, "t_u")


def figures(description: Description, known: Set[str], counts: Set[str]) -> Iterator[Figure]:
    """
    What the parts cost, by line, by group and in all, and what a stored kilowatt-hour costs.

    Parameters
    ----------
    description : Description
    known : set of str
        Every other path of the graph.
    counts : set of str
        Those that are counts: what a quantity may follow.

    Raises
    ------
    Faults
        If a quantity follows what is no count of this plant.
    """
    parts = description.parts.parts
    if description.parts.prices is None or not parts:
        return
    main = main_currency(description)
    held: dict[str, list[str]] = {}
    for number, part in enumerate(parts, 1):
        yield figure(
            f"cost.part.{number}", _cost, unit=main, decimals=2, symbol=f"C_{number}", source="by-definition",
            quantity=_quantity(description, number, part, counts), price=f"parts.{number}.unit_price",
            **_rates(part.currency, main),
        )  # fmt: skip
        held.setdefault(part.group, []).append(f"cost.part.{number}")
    groups = [group for group in GROUPS if group in held]
    for group in groups:
        yield _sum(f"cost.group.{group}", main, f"C_{group}", held[group])
    yield _sum(f"cost.total.{main.lower()}", main, "C", [f"cost.group.{group}" for group in groups])
    for code in description.parts.prices.currencies[1:]:
        yield figure(
            f"cost.total.{code.lower()}", _turned, unit=code, decimals=0, rounding="up", symbol=f"C_{code}",
            source="by-definition", total=f"cost.total.{main.lower()}", **_rates(main, code),
        )  # fmt: skip
    yield from _yearly(description, known, main)


def _yearly(description: Description, known: Set[str], main: str) -> Iterator[Figure]:
    """What each year must bring back, and what that makes for a stored kilowatt-hour."""
    yearly: dict[str, Any] = {}
    lasting = [number for number, part in enumerate(description.parts.parts, 1) if part.life is None]
    worn = [number for number, part in enumerate(description.parts.parts, 1) if part.life is not None]
    for number in worn:
        yield figure(
            f"cost.yearly_part.{number}", _worn, unit=main, decimals=2, rounding="up", symbol=f"c_{number}", source="annuity",
            cost=f"cost.part.{number}", interest="prices.interest", life=f"parts.{number}.life", years="prices.years",
        )  # fmt: skip
    if worn:
        yield _sum("cost.worn", main, "C_worn", [f"cost.part.{number}" for number in worn])
        yield _sum("cost.yearly_worn", main, "c_worn", [f"cost.yearly_part.{number}" for number in worn])
        yearly["worn"] = "cost.yearly_worn"
    if lasting:
        yield _sum("cost.lasting", main, "C_last", [f"cost.part.{number}" for number in lasting])
        yearly |= {"lasting": "cost.lasting", "interest": "prices.interest", "years": "prices.years"}
    if not {"plant.energy_per_kg_stored", "plant.yearly_mass"} <= known:
        return
    prices = description.parts.prices
    assert prices is not None
    yield figure(
        "cost.yearly_electricity", _electricity, unit=main, decimals=0, rounding="up", symbol="c_el", source="by-definition",
        energy="plant.energy_per_kg_stored", mass="plant.yearly_mass", price="prices.electricity",
        **_rates(prices.electricity.unit.partition("/")[0], main),
    )  # fmt: skip
    yield figure(
        "cost.yearly_energy_stored", energy_lower, unit="kWh(lower)", symbol="E_y", digits=3, rounding="down",
        mass_kg="plant.yearly_mass",
    )  # fmt: skip
    yield figure(
        "cost.per_stored_kwh", _per_energy, unit=f"{main}/kWh", digits=3, rounding="up", symbol="c_kWh", source="annuity",
        electricity="cost.yearly_electricity", stored="cost.yearly_energy_stored", **yearly,
    )  # fmt: skip


def _quantity(description: Description, number: int, part: BoughtPart, counts: Set[str]) -> str:
    """Where the quantity of a line stands: in the line itself, or where it refers to."""
    if isinstance(part.quantity, Quantity):
        return f"parts.{number}.quantity"
    path = referred(part.quantity)
    if path is None or path not in counts:
        raise _fault(description, ("parts", number, "quantity"), say("figures.cost.no_count", found=part.quantity))
    return path


def _foreign(description: Description) -> set[str]:
    """The currencies that need a rate."""
    prices = description.parts.prices
    assert prices is not None
    used = {*prices.currencies, *(part.currency for part in description.parts.parts)}
    used.add(prices.electricity.unit.partition("/")[0])
    return used - {BASE} if len(used) > 1 else set()


def _rates(listed: str, wanted: str) -> dict[str, Any]:
    """The rates that turn one currency into another, both against that of the source."""
    if listed == wanted:
        return {}
    sides = {"listed": listed, "wanted": wanted}
    return {side: f"prices.rates.{code.lower()}" for side, code in sides.items() if code != BASE}


def _sum(name: str, unit: str, symbol: str, paths: list[str]) -> Figure:
    inputs = dict[str, Any]((f"part_{number}", path) for number, path in enumerate(paths, 1))
    return figure(name, _summed, unit=unit, decimals=0, rounding="up", symbol=symbol, source="by-definition", **inputs)


def _at(description: Description, name: str) -> str:
    return description.place(FILE, ("prices", name))


def _fault(description: Description, path: tuple[str | int, ...], message: str) -> Faults:
    file, _, line = description.place(FILE, path).rpartition(":")
    return Faults([Fault(file, int(line), ".".join(map(str, path)), message)])


def _cost(quantity: float, price: float, listed: float | None = None, wanted: float | None = None) -> float:
    if quantity != round(quantity):
        raise ArithmeticError(say("figures.cost.not_whole", found=float(quantity)))
    return _turned(quantity * price, listed, wanted)


def _turned(total: float, listed: float | None = None, wanted: float | None = None) -> float:
    if listed is not None:
        total = total / listed
    return total * wanted if wanted is not None else total


def _summed(**parts: float) -> float:
    total, *others = parts.values()
    for each in others:
        total = total + each
    return total


def _worn(cost: float, interest: float, life: float, years: float) -> float:
    return cost * annuity(interest, smallest(life, years) / YEAR)


def _electricity(
    energy: float, mass: float, price: float, listed: float | None = None, wanted: float | None = None
) -> float:
    return _turned(energy * mass * price, listed, wanted)


def _per_energy(
    electricity: float,
    stored: float,
    worn: float | None = None,
    lasting: float | None = None,
    interest: float = 0.0,
    years: float = 1.0,
) -> float:
    yearly = electricity if worn is None else worn + electricity
    if lasting is None:
        return yearly / stored
    return cost_of_energy(lasting, interest, years / YEAR, yearly, stored)
