"""Hydrogen dissolved in the water that is drained from the gas side, and what of it a returning drain brings back."""

from macros.calculations.cell_voltage import PRESSURE
from macros.calculations.constants import MOLAR_MASS_WATER
from macros.calculations.contract import between, calculation
from macros.calculations.faraday import AMOUNT_FLOW
from macros.calculations.formula import Constant, exp, power
from macros.calculations.humidity import saturation_pressure

CRITICAL_TEMPERATURE = Constant(647.096, "T_c", "K", "critical temperature of water", "iapws-g7-04")


@calculation(temperature_k=between(273.15, 373.15))
def henry_constant(temperature_k: float) -> float:
    """
    Pressure of hydrogen over water for each share of it dissolved.

    Parameters
    ----------
    temperature_k : float
        Temperature of the water, 0 to 100 °C. [K]

    Returns
    -------
    float
        Henry's constant: partial pressure over dissolved share, by amount. [Pa]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Fit to solubilities [iapws-g7-04, equation 3 and table 2, hydrogen in water]. That the liquid is under the
    pressure of the gas too is left out: at 30 bar it keeps 3 % of the hydrogen from dissolving, the safe side.
    """
    reduced = temperature_k / CRITICAL_TEMPERATURE
    tau = 1 - reduced
    return saturation_pressure(temperature_k) * exp(
        -4.73284 / reduced + 6.08954 * power(tau, 0.355) / reduced + 6.06066 * power(reduced, -0.41) * exp(tau)
    )


@calculation(hydrogen_pressure_pa=PRESSURE, henry_constant_pa=between(1e8, 1e12))
def dissolved_fraction(hydrogen_pressure_pa: float, henry_constant_pa: float) -> float:
    """
    Hydrogen dissolved in water that has stood under it.

    Parameters
    ----------
    hydrogen_pressure_pa : float
        Absolute partial pressure of hydrogen. [Pa]
    henry_constant_pa : float
        Henry's constant at the temperature of the water. [Pa]

    Returns
    -------
    float
        Share of hydrogen in the water, by amount. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Henry's law [iapws-g7-04, definition of Henry's constant].
    """
    return hydrogen_pressure_pa / henry_constant_pa


@calculation(water_kg_per_s=between(0, 10), dissolved_fraction=between(0, 1), degassed_share=between(0, 1))
def hydrogen_returned(water_kg_per_s: float, dissolved_fraction: float, degassed_share: float = 0.0) -> float:
    """
    Hydrogen that drained water brings back to the oxygen side.

    Parameters
    ----------
    water_kg_per_s : float
        Water drained from the gas side and returned. [kg/s]
    dissolved_fraction : float
        Share of hydrogen in the water, by amount. [-]
    degassed_share : float
        Share of it that a degassing pot releases to its own vent, 0 to 1. [-]

    Returns
    -------
    float
        Amount flow of hydrogen. [mol/s]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Amounts in a solution so thin that its water counts alone [by-definition].
    """
    return (1 - degassed_share) * dissolved_fraction * water_kg_per_s / MOLAR_MASS_WATER


@calculation(drag_per_proton=between(0, 10), dissolved_fraction=between(0, 0.1), degassed_share=between(0, 1))
def returned_per_hydrogen(drag_per_proton: float, dissolved_fraction: float, degassed_share: float = 0.0) -> float:
    """
    Hydrogen that the dragged water brings back for each hydrogen made, at any current.

    Parameters
    ----------
    drag_per_proton : float
        Molecules of water pulled along by one proton, 0 to 10. [-]
    dissolved_fraction : float
        Share of hydrogen in the water, by amount. [-]
    degassed_share : float
        Share of it that a degassing pot releases to its own vent, 0 to 1. [-]

    Returns
    -------
    float
        Ratio by amount; twice this is the share of the oxygen flow. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Two protons for each molecule of hydrogen [by-definition].
    """
    return 2 * drag_per_proton * dissolved_fraction * (1 - degassed_share)


@calculation(returned_mol_per_s=AMOUNT_FLOW, oxygen_mol_per_s=between(1e-12, 100))
def share_of_oxygen(returned_mol_per_s: float, oxygen_mol_per_s: float) -> float:
    """
    Hydrogen brought back, against the oxygen that leaves.

    Parameters
    ----------
    returned_mol_per_s : float
        Hydrogen brought back. [mol/s]
    oxygen_mol_per_s : float
        Oxygen that leaves the stack, above 0. [mol/s]

    Returns
    -------
    float
        Ratio by amount. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Ratio [by-definition].
    """
    return returned_mol_per_s / oxygen_mol_per_s
