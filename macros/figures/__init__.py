"""
Figures: the only place that joins description, network and calculations.

`graph` is the engine; each other module holds the figures of one part of the plant and offers
`figures(description)`, an iterator of what that plant has. `MODULES` lists them.
"""

from macros.figures import (
    banks,
    boosters,
    buffer,
    drying,
    flush,
    lines,
    plant_totals,
    power,
    purging,
    relief,
    runs,
    safety,
    season,
    stack,
    surroundings,
    transfers,
    uses,
    water,
)

MODULES = (
    surroundings, stack, power, water, drying, buffer, boosters, banks, transfers, runs, safety, relief, lines, purging,
    flush, uses, season, plant_totals,
)  # fmt: skip
