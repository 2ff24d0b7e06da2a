"""Faraday's law: what a current makes, what it takes, and what the product costs in energy."""

from macros.calculations.constants import (
    FARADAY,
    HIGHER_HEATING_VALUE,
    LOWER_HEATING_VALUE,
    MOLAR_MASS_HYDROGEN,
    MOLAR_MASS_WATER,
)
from macros.calculations.contract import OutOfRange, above, between, calculation, range_said

CURRENT = above(0, 1e4)
CELLS = between(1, 1000)
AMOUNT_FLOW = between(0, 100)


@calculation(current_a=CURRENT, active_area_m2=between(1e-5, 1))
def current_density(current_a: float, active_area_m2: float) -> float:
    """
    Current through each square metre of a cell.

    Parameters
    ----------
    current_a : float
        Current through the stack, above 0, at most 10 000. [A]
    active_area_m2 : float
        Active area of one cell, 0.1 cm² to 1 m². [m2]

    Returns
    -------
    float
        Current density. [A/m2]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Definition [by-definition].
    """
    return current_a / active_area_m2


@calculation(current_a=CURRENT, cells=CELLS, faraday_efficiency=between(0, 1))
def hydrogen_produced(current_a: float, cells: float, faraday_efficiency: float = 1.0) -> float:
    """
    Hydrogen made by cells in series.

    Parameters
    ----------
    current_a : float
        Current through the stack, above 0, at most 10 000. [A]
    cells : float
        Cells in series, 1 to 1000. [-]
    faraday_efficiency : float
        Share of the current that leaves as hydrogen, 0 to 1. [-]

    Returns
    -------
    float
        Amount flow. [mol/s]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Faraday's law of electrolysis, two electrons a molecule [iupac-green-book, Faraday constant].
    """
    return faraday_efficiency * cells * current_a / (2 * FARADAY)


@calculation(hydrogen_gross_mol_per_s=AMOUNT_FLOW, recombined_mol_per_s=AMOUNT_FLOW)
def oxygen_produced(hydrogen_gross_mol_per_s: float, recombined_mol_per_s: float = 0.0) -> float:
    """
    Oxygen that leaves the stack: half of the hydrogen made, less what a catalyst burns.

    Parameters
    ----------
    hydrogen_gross_mol_per_s : float
        Hydrogen by Faraday's law, before any crosses the membrane. [mol/s]
    recombined_mol_per_s : float
        Hydrogen that a catalyst turns back into water, no more than was made. [mol/s]

    Returns
    -------
    float
        Amount flow of oxygen. [mol/s]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, or more recombines than is made.

    Notes
    -----
    Two molecules of water give two of hydrogen and one of oxygen [by-definition].
    """
    _no_more_than_made("oxygen_produced", recombined_mol_per_s, hydrogen_gross_mol_per_s)
    return (hydrogen_gross_mol_per_s - recombined_mol_per_s) / 2


@calculation(hydrogen_gross_mol_per_s=AMOUNT_FLOW, recombined_mol_per_s=AMOUNT_FLOW)
def water_consumed(hydrogen_gross_mol_per_s: float, recombined_mol_per_s: float = 0.0) -> float:
    """
    Water split, less what a catalyst gives back.

    Parameters
    ----------
    hydrogen_gross_mol_per_s : float
        Hydrogen by Faraday's law, before any crosses the membrane. [mol/s]
    recombined_mol_per_s : float
        Hydrogen that a catalyst turns back into water, no more than was made. [mol/s]

    Returns
    -------
    float
        Mass flow of water. [kg/s]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, or more recombines than is made.

    Notes
    -----
    One molecule of water for each of hydrogen [by-definition]. Hydrogen that crosses and leaves with the
    oxygen has cost its water and gives none back.
    """
    _no_more_than_made("water_consumed", recombined_mol_per_s, hydrogen_gross_mol_per_s)
    return MOLAR_MASS_WATER * (hydrogen_gross_mol_per_s - recombined_mol_per_s)


def _no_more_than_made(name: str, recombined: float, gross: float) -> None:
    if recombined > gross:
        raise OutOfRange(name, "recombined_mol_per_s", float(recombined), range_said("most_made", limit=float(gross)))


@calculation(current_a=CURRENT, cells=CELLS, drag_per_proton=between(0, 10))
def water_dragged(current_a: float, cells: float, drag_per_proton: float) -> float:
    """
    Water that the protons pull through the membrane to the hydrogen side.

    Parameters
    ----------
    current_a : float
        Current through the stack, above 0, at most 10 000. [A]
    cells : float
        Cells in series, 1 to 1000. [-]
    drag_per_proton : float
        Molecules of water pulled along by one proton, 0 to 10. [-]

    Returns
    -------
    float
        Mass flow of water. [kg/s]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    One proton for each electron: drag times N·I/F [springer-1991, electro-osmotic drag].
    """
    return MOLAR_MASS_WATER * drag_per_proton * cells * current_a / FARADAY


@calculation(hydrogen_mol_per_s=AMOUNT_FLOW)
def hydrogen_mass_flow(hydrogen_mol_per_s: float) -> float:
    """
    Mass flow of an amount flow of hydrogen.

    Parameters
    ----------
    hydrogen_mol_per_s : float
        Amount flow of hydrogen. [mol/s]

    Returns
    -------
    float
        Mass flow. [kg/s]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Molar mass times amount [by-definition].
    """
    return MOLAR_MASS_HYDROGEN * hydrogen_mol_per_s


@calculation(cell_voltage_v=above(0, 10), faraday_efficiency=between(1e-3, 1))
def specific_energy(cell_voltage_v: float, faraday_efficiency: float) -> float:
    """
    Direct current that one kilogram of hydrogen takes.

    Parameters
    ----------
    cell_voltage_v : float
        Voltage of one cell, above 0, at most 10. [V]
    faraday_efficiency : float
        Share of the current that leaves as hydrogen, 0.1 to 100 %. [-]

    Returns
    -------
    float
        Electric energy for each mass of hydrogen. [J/kg]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Faraday's law: two electrons a molecule at the voltage of the cell [iupac-green-book, Faraday constant].
    """
    return 2 * FARADAY * cell_voltage_v / (MOLAR_MASS_HYDROGEN * faraday_efficiency)


@calculation(specific_energy_j_per_kg=between(1e6, 1e12))
def efficiency_lower(specific_energy_j_per_kg: float) -> float:
    """
    Efficiency against the lower heating value.

    Parameters
    ----------
    specific_energy_j_per_kg : float
        Electric energy for each mass of hydrogen. [J/kg]

    Returns
    -------
    float
        Efficiency. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Heating value over energy spent [by-definition].
    """
    return LOWER_HEATING_VALUE / specific_energy_j_per_kg


@calculation(specific_energy_j_per_kg=between(1e6, 1e12))
def efficiency_higher(specific_energy_j_per_kg: float) -> float:
    """
    Efficiency against the higher heating value.

    Parameters
    ----------
    specific_energy_j_per_kg : float
        Electric energy for each mass of hydrogen. [J/kg]

    Returns
    -------
    float
        Efficiency. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Heating value over energy spent [by-definition].
    """
    return HIGHER_HEATING_VALUE / specific_energy_j_per_kg
