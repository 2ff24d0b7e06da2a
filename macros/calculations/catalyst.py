"""
Hydrogen in the oxygen, with and without a catalyst that burns what crosses, and the least current for a limit.

The catalyst takes its oxygen from the stack, gives water back and heats the stack. It can die unseen: with an
efficiency of zero the same equations say what then leaves.
"""

from macros.calculations.constants import FARADAY
from macros.calculations.contract import OutOfRange, between, calculation, range_said
from macros.calculations.faraday import AMOUNT_FLOW, CELLS

EFFICIENCY = between(0, 1)


@calculation(crossover_mol_per_s=AMOUNT_FLOW, catalyst_efficiency=EFFICIENCY)
def recombined(crossover_mol_per_s: float, catalyst_efficiency: float) -> float:
    """
    Hydrogen that the catalyst turns back into water.

    Parameters
    ----------
    crossover_mol_per_s : float
        Hydrogen that crosses. [mol/s]
    catalyst_efficiency : float
        Share of it that the catalyst burns, 0 to 1. [-]

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
    Definition of the catalyst's efficiency [by-definition].
    """
    return catalyst_efficiency * crossover_mol_per_s


@calculation(
    crossover_mol_per_s=AMOUNT_FLOW,
    hydrogen_gross_mol_per_s=between(1e-9, 100),
    catalyst_efficiency=EFFICIENCY,
    returned_mol_per_s=AMOUNT_FLOW,
)
def hydrogen_in_oxygen(
    crossover_mol_per_s: float,
    hydrogen_gross_mol_per_s: float,
    catalyst_efficiency: float = 0.0,
    returned_mol_per_s: float = 0.0,
) -> float:
    """
    Hydrogen in the dry oxygen that leaves the stack.

    Parameters
    ----------
    crossover_mol_per_s : float
        Hydrogen that crosses. [mol/s]
    hydrogen_gross_mol_per_s : float
        Hydrogen by Faraday's law, at least 1 nmol/s. [mol/s]
    catalyst_efficiency : float
        Share of the crossing hydrogen that a catalyst burns, 0 to 1. [-]
    returned_mol_per_s : float
        Dissolved hydrogen that drains bring back to the oxygen side; no catalyst meets it. [mol/s]

    Returns
    -------
    float
        Share of hydrogen in the dry gas, by amount. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, or the catalyst would burn all oxygen.

    Notes
    -----
    Balance of hydrogen and oxygen: (1 − η)c over itself and what oxygen is left, G/2 − ηc/2 [by-definition].
    """
    if not catalyst_efficiency * crossover_mol_per_s < hydrogen_gross_mol_per_s:
        raise OutOfRange(
            "hydrogen_in_oxygen",
            "hydrogen_gross_mol_per_s",
            hydrogen_gross_mol_per_s,
            range_said("above_burnt", limit=catalyst_efficiency * crossover_mol_per_s),
        )
    hydrogen = (1 - catalyst_efficiency) * crossover_mol_per_s + returned_mol_per_s
    oxygen = hydrogen_gross_mol_per_s / 2 - catalyst_efficiency * crossover_mol_per_s / 2
    return hydrogen / (hydrogen + oxygen)


@calculation(
    crossover_mol_per_s=AMOUNT_FLOW,
    hydrogen_limit=between(1e-4, 0.5),
    catalyst_efficiency=EFFICIENCY,
    cells=CELLS,
    returned_per_hydrogen=between(0, 1),
)
def minimum_current(
    crossover_mol_per_s: float,
    hydrogen_limit: float,
    catalyst_efficiency: float,
    cells: float,
    returned_per_hydrogen: float = 0.0,
) -> float:
    """
    Current below which hydrogen in the oxygen passes a limit.

    Parameters
    ----------
    crossover_mol_per_s : float
        Hydrogen that crosses at the pressure that counts. [mol/s]
    hydrogen_limit : float
        Limit for hydrogen in the dry oxygen, 0.01 to 50 %. [-]
    catalyst_efficiency : float
        Share of the crossing hydrogen that a catalyst burns, 0 to 1. [-]
    cells : float
        Cells in series, 1 to 1000. [-]
    returned_per_hydrogen : float
        Dissolved hydrogen that drains bring back for each hydrogen made. [-]

    Returns
    -------
    float
        Current through the stack. [A]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, or what the drains bring back alone passes the limit.

    Notes
    -----
    The balance of hydrogen in oxygen solved for the current [by-definition]. Crossing does
    not fall with the current, the oxygen that thins it does.
    """
    dilution = (1 - hydrogen_limit) / hydrogen_limit
    if not returned_per_hydrogen * dilution < 0.5:
        raise OutOfRange(
            "minimum_current",
            "returned_per_hydrogen",
            returned_per_hydrogen,
            range_said("below_drains", limit=0.5 / dilution),
        )
    hydrogen_gross = (
        ((1 - catalyst_efficiency) * dilution + catalyst_efficiency / 2)
        * crossover_mol_per_s
        / (0.5 - returned_per_hydrogen * dilution)
    )
    return 2 * FARADAY * hydrogen_gross / cells


@calculation(recombined_mol_per_s=AMOUNT_FLOW, thermoneutral_voltage_v=between(1, 2))
def catalyst_heat(recombined_mol_per_s: float, thermoneutral_voltage_v: float) -> float:
    """
    Heat that the catalyst sets free, water staying liquid.

    Parameters
    ----------
    recombined_mol_per_s : float
        Hydrogen that it turns back into water. [mol/s]
    thermoneutral_voltage_v : float
        Thermoneutral voltage at the stack's temperature: 2F times it is the heat of a mole. [V]

    Returns
    -------
    float
        Heat flow. [W]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Enthalpy of the reaction, the same as that of splitting [by-definition].
    """
    return 2 * FARADAY * thermoneutral_voltage_v * recombined_mol_per_s
