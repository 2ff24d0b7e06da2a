"""
Hydrogen along one temperature, cheap enough for the inner loops of a run.

The ratio of pressure to density is smooth, so a polynomial through a few values of the reference equation follows it
within parts in a thousand million; pressure from density is then a handful of multiplications.
Densities come back from the same polynomial, so going there and back loses nothing.
"""

import functools
import math

from macros.calculations import hydrogen

__all__ = ["Isotherm", "isotherm"]

_NODES = 11


class Isotherm:
    """
    Pressure and density of hydrogen at one temperature.

    Parameters
    ----------
    temperature_k : float
    highest_density : float
        Up to which density it is asked. [kg/m3]
    """

    def __init__(self, temperature_k: float, highest_density: float) -> None:
        self.temperature_k, self.highest_density = temperature_k, highest_density
        half = highest_density / 2
        nodes = [half * (1 + math.cos(math.pi * (2 * i + 1) / (2 * _NODES))) for i in range(_NODES)]
        ratios = [hydrogen.state_pressure(node, temperature_k) / node for node in nodes]
        for order in range(1, _NODES):
            for i in range(_NODES - 1, order - 1, -1):
                ratios[i] = (ratios[i] - ratios[i - 1]) / (nodes[i] - nodes[i - order])
        # Newton's divided differences, evaluated from the innermost bracket outwards.
        self._steps = tuple(zip(reversed(ratios[:-1]), reversed(nodes[:-1]), strict=True))
        self._innermost = ratios[-1]

    def pressure(self, density: float) -> float:
        """Pressure [Pa] at a density [kg/m3]."""
        ratio = self._innermost
        for coefficient, node in self._steps:
            ratio = ratio * (density - node) + coefficient
        return density * ratio

    def density(self, pressure: float) -> float:
        """Density [kg/m3] at a pressure [Pa]; the inverse of `pressure`, by secants from the ideal gas upwards."""
        if pressure <= 0:
            return 0.0
        density = hydrogen.state_density(pressure, self.temperature_k)
        for _ in range(20):
            value = self.pressure(density)
            slope = (self.pressure(density * 1.000001) - value) / (density * 0.000001)
            step = (pressure - value) / slope
            density += step
            if abs(step) <= 1e-14 * density:
                break
        return density


@functools.lru_cache(maxsize=64)
def isotherm(temperature_k: float, highest_density: float) -> Isotherm:
    """The isotherm of a temperature, made once."""
    return Isotherm(temperature_k, highest_density)
