"""Evidence for categories; a category counts as its place in the order."""

from macros.calculations.evidence import FromMemory, Printed
from macros.calculations.vessel_category import pipe_category, vessel_category

ORDER = ("undecided", "outside", "article 4(3)", "I", "II", "III", "IV")
ATM = 101325.0


def vessel(bar, litres, regime="fixed"):
    return dict(allowable_pressure_pa=bar * 1e5 + ATM, atmosphere_pa=ATM, volume_m3=litres / 1e3, regime=regime)


def pipe(bar, size):
    return dict(allowable_pressure_pa=bar * 1e5 + ATM, atmosphere_pa=ATM, nominal_size=size)


def place(category):
    return float(ORDER.index(category))


EVIDENCE = [
    Printed(
        vessel_category,
        source="ped-2014-68",
        locator="article 1 (more than 0.5 bar), article 4(1)(a)(i) (more than 25 bar L, or more than 200 bar), Annex II table 1 (50 bar L)",
        abs=0,
        pick=place,
        rows=[
            (vessel(0.5, 100.0), place("outside")),
            (vessel(2.5, 10.0), place("article 4(3)")),
            (vessel(2.51, 10.0), place("I")),
            (vessel(5.0, 10.0), place("I")),
            (vessel(5.01, 10.0), place("II")),
            (vessel(200.0, 1.0), place("article 4(3)")),
        ],
    ),
    FromMemory(
        vessel_category,
        source="ped-2014-68",
        locator="Annex II table 1, lines at 200 and 1000 bar L and at 1000 bar",
        abs=0,
        pick=place,
        rows=[
            (vessel(20.0, 10.0), place("II")),
            (vessel(20.01, 10.0), place("III")),
            (vessel(100.0, 10.0), place("III")),
            (vessel(100.1, 10.0), place("IV")),
            (vessel(201.0, 1.0), place("III")),
            (vessel(1001.0, 1.0), place("IV")),
        ],
    ),
    FromMemory(
        vessel_category,
        source="ped-2014-68",
        locator="article 1(2): equipment covered by the law of transport is left out",
        abs=0,
        pick=place,
        rows=[(vessel(200.0, 50.0, "transportable"), place("outside"))],
    ),
    Printed(
        pipe_category,
        source="ped-2014-68",
        locator="article 4(1)(c)(i): more than DN 25; Annex II table 6: DN 100, PS·DN 1000",
        abs=0,
        pick=place,
        rows=[
            (pipe(400.0, 25.0), place("article 4(3)")),
            (pipe(0.5, 50.0), place("outside")),
            (pipe(0.6, 50.0), place("I")),
            (pipe(10.0, 32.0), place("I")),
            (pipe(10.0, 100.0), place("I")),
            (pipe(10.1, 100.0), place("II")),
            (pipe(5.0, 150.0), place("II")),
        ],
    ),
    FromMemory(
        pipe_category,
        source="ped-2014-68",
        locator="Annex II table 6: DN 350, PS·DN 3500",
        abs=0,
        pick=place,
        rows=[(pipe(10.0, 350.0), place("II")), (pipe(10.1, 350.0), place("III")), (pipe(1.0, 400.0), place("III"))],
    ),
]  # fmt: skip
