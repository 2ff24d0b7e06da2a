"""The oxygen's own vent: how fast wet oxygen goes through it."""

from macros.calculations.constants import GAS_CONSTANT, PI
from macros.calculations.contract import between, calculation
from macros.calculations.faraday import AMOUNT_FLOW
from macros.calculations.formula import power


@calculation(
    oxygen_mol_per_s=AMOUNT_FLOW,
    water_fraction=between(0, 0.99),
    temperature_k=between(223.15, 423.15),
    pressure_pa=between(1e4, 1e7),
    bore_m=between(1e-4, 1),
)
def vent_velocity(
    oxygen_mol_per_s: float, water_fraction: float, temperature_k: float, pressure_pa: float, bore_m: float
) -> float:
    """
    Speed of wet oxygen in a vent line.

    Parameters
    ----------
    oxygen_mol_per_s : float
        Dry oxygen. [mol/s]
    water_fraction : float
        Share of water vapour in the wet gas, by amount, below 0.99. [-]
    temperature_k : float
        Temperature of the gas. [K]
    pressure_pa : float
        Absolute pressure in the line. [Pa]
    bore_m : float
        Bore of the line. [m]

    Returns
    -------
    float
        Mean speed. [m/s]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Ideal gas near atmospheric pressure over the area of a circle [by-definition].
    """
    wet_mol_per_s = oxygen_mol_per_s / (1 - water_fraction)
    return wet_mol_per_s * GAS_CONSTANT * temperature_k / pressure_pa / (PI * power(bore_m, 2) / 4)
