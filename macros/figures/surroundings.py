"""The surroundings of a plant: the atmosphere that every gauge pressure reads."""

from __future__ import annotations

from collections.abc import Iterator

from macros.calculations.atmosphere import pressure_at_altitude
from macros.description.loading import Description
from macros.figures.graph import ATMOSPHERE, Figure, figure


def figures(description: Description) -> Iterator[Figure]:
    """Atmospheric pressure from the altitude, unless the description gives it."""
    if description.plant.site.atmosphere is None:
        yield figure(
            ATMOSPHERE, pressure_at_altitude, unit="kPa(a)", digits=4, symbol="p_atm", altitude_m="site.altitude"
        )
