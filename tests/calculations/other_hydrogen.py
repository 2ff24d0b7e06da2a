"""
Hydrogen by another equation, for checks that share nothing with our route.

Lemmon, Huber, Leachman, J. Res. NIST 113 (2008) 341, equation 3 with the coefficients of its table 1.
"""

from scipy.constants import R
from scipy.optimize import brentq

MOLAR_MASS = 2.01588e-3
TERMS = tuple(
    zip(
        (0.05888460, -0.06136111, -0.002650473, 0.002731125, 0.001802374, -0.001150707, 0.9588528e-4, -0.1109040e-6,
         0.1264403e-9),
        (1.325, 1.87, 2.5, 2.8, 2.938, 3.14, 3.37, 3.75, 4.0),
        (1, 1, 2, 2, 2.42, 2.63, 3, 4, 5),
        strict=True,
    )
)  # fmt: skip


def density(pressure_pa: float, temperature_k: float) -> float:
    factor = 1 + sum(a * (100 / temperature_k) ** b * (pressure_pa / 1e6) ** c for a, b, c in TERMS)
    return pressure_pa * MOLAR_MASS / (R * temperature_k * factor)


def pressure(density_kg_per_m3: float, temperature_k: float) -> float:
    return brentq(lambda p: density(p, temperature_k) - density_kg_per_m3, 1.0, 3e8, xtol=1e-6, rtol=1e-14)
