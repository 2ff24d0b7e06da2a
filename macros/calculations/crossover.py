"""
Hydrogen that crosses the membrane to the oxygen side.

Diffusion is a lower bound: gas made at the electrode crosses supersaturated, most so below 10 bar. A factor of
excess stands for it until crossing has been measured.
"""

from macros.calculations.cell_voltage import PRESSURE, TEMPERATURE
from macros.calculations.constants import GAS_CONSTANT
from macros.calculations.contract import OutOfRange, between, calculation, range_said
from macros.calculations.faraday import AMOUNT_FLOW, CELLS
from macros.calculations.formula import Constant, exp

PERMEABILITY_WARM = Constant(
    5.31e-14, "P_80", "mol/(m s Pa)", "permeability of a wet membrane for hydrogen at 80 °C", "scheepers-2020"
)
PERMEABILITY_TEMPERATURE = Constant(
    353.15, "T_80", "K", "80 °C, at which the permeability was measured", "scheepers-2020"
)
PERMEATION_ENERGY = Constant(18.93e3, "E_P", "J/mol", "activation energy of hydrogen's permeation", "goshtasbi-2020")
SWELLING = Constant(1.15, "δ_m", "", "thickness of the membrane in hot water over its dry thickness", "scheepers-2020")
PERMEABILITY = between(1e-16, 1e-12)
THICKNESS = between(5e-6, 1e-3)


@calculation(temperature_k=TEMPERATURE)
def membrane_permeability(temperature_k: float) -> float:
    """
    Permeability for hydrogen of a wet membrane of which nothing was measured.

    Parameters
    ----------
    temperature_k : float
        Temperature of the stack, 0 to 100 °C. [K]

    Returns
    -------
    float
        Permeability, for the thickness that the membrane has in water. [mol/(m s Pa)]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Measured at 80 °C [scheepers-2020, table 1, hydrogen permeability], carried to temperature by Arrhenius' law.
    In liquid water most hydrogen passes through the water in the membrane, for which 18.93 kJ/mol is given
    [goshtasbi-2020, hydrogen permeability of the ionomer, wet term]; others give up to 27 kJ/mol. From 80 °C
    down, the low end leaves more hydrogen crossing, the safe side. Membranes differ by a fifth: measure.
    """
    return PERMEABILITY_WARM * exp(
        PERMEATION_ENERGY / GAS_CONSTANT * (1 / PERMEABILITY_TEMPERATURE - 1 / temperature_k)
    )


@calculation(dry_thickness_m=THICKNESS)
def wet_thickness(dry_thickness_m: float) -> float:
    """
    Thickness of a membrane once it has swollen in hot water.

    Parameters
    ----------
    dry_thickness_m : float
        Thickness measured dry, 5 µm to 1 mm. [m]

    Returns
    -------
    float
        Thickness in water. [m]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Swelling of a sulphonated fluoropolymer membrane [scheepers-2020, table 1, membrane swelling].
    """
    return SWELLING * dry_thickness_m


@calculation(
    permeability_mol_per_m_s_pa=PERMEABILITY,
    hydrogen_pressure_pa=PRESSURE,
    oxygen_side_pressure_pa=between(0, 100e6),
    membrane_thickness_m=between(5e-6, 1.15e-3),
    excess=between(0.5, 20),
)
def crossover_flux(
    permeability_mol_per_m_s_pa: float,
    hydrogen_pressure_pa: float,
    oxygen_side_pressure_pa: float,
    membrane_thickness_m: float,
    excess: float = 1.0,
) -> float:
    """
    Hydrogen that crosses each square metre of membrane.

    Parameters
    ----------
    permeability_mol_per_m_s_pa : float
        Permeability at the stack's temperature. [mol/(m s Pa)]
    hydrogen_pressure_pa : float
        Absolute partial pressure of hydrogen on its own side, vapour taken off. [Pa]
    oxygen_side_pressure_pa : float
        Absolute partial pressure of hydrogen on the oxygen side, no more than on its own. [Pa]
    membrane_thickness_m : float
        Thickness of the membrane in water, 5 µm to 1.15 mm. [m]
    excess : float
        Crossing over what diffusion alone would give, 0.5 to 20. [-]

    Returns
    -------
    float
        Flux of hydrogen. [mol/(m2 s)]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, or the pressures stand the other way round.

    Notes
    -----
    Fick's and Henry's laws joined in a permeability [scheepers-2020, equation 16, term of diffusion]. Gas made at
    the electrode crosses supersaturated: at 60 °C, 1 A/cm² and 1 bar that is 98 % of what crosses
    [trinke-2018, abstract]. The excess stands for it; what is measured replaces the excess.
    """
    if oxygen_side_pressure_pa > hydrogen_pressure_pa:
        raise OutOfRange(
            "crossover_flux",
            "oxygen_side_pressure_pa",
            oxygen_side_pressure_pa,
            range_said("most", limit=hydrogen_pressure_pa),
        )
    return (
        permeability_mol_per_m_s_pa * (hydrogen_pressure_pa - oxygen_side_pressure_pa) / membrane_thickness_m * excess
    )


@calculation(flux_mol_per_m2_s=between(0, 10), active_area_m2=between(1e-5, 1), cells=CELLS)
def crossover_flow(flux_mol_per_m2_s: float, active_area_m2: float, cells: float) -> float:
    """
    Hydrogen that crosses all membranes of a stack.

    Parameters
    ----------
    flux_mol_per_m2_s : float
        Flux through the membrane. [mol/(m2 s)]
    active_area_m2 : float
        Active area of one cell. [m2]
    cells : float
        Cells of the stack, 1 to 1000. [-]

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
    Flux times area [by-definition].
    """
    return flux_mol_per_m2_s * active_area_m2 * cells


@calculation(crossover_mol_per_s=AMOUNT_FLOW, hydrogen_gross_mol_per_s=between(1e-9, 100))
def faraday_efficiency(crossover_mol_per_s: float, hydrogen_gross_mol_per_s: float) -> float:
    """
    Share of the hydrogen made that does not cross to the oxygen side.

    Parameters
    ----------
    crossover_mol_per_s : float
        Hydrogen that crosses. [mol/s]
    hydrogen_gross_mol_per_s : float
        Hydrogen by Faraday's law, more than crosses. [mol/s]

    Returns
    -------
    float
        Faraday efficiency. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, or all that is made crosses.

    Notes
    -----
    Loss by crossing over what is made [by-definition]. Oxygen that crosses the other way and burns at the
    hydrogen electrode is left out: at near atmospheric oxygen it is below a thousandth.
    """
    if not crossover_mol_per_s < hydrogen_gross_mol_per_s:
        raise OutOfRange(
            "faraday_efficiency",
            "crossover_mol_per_s",
            crossover_mol_per_s,
            range_said("below_made", limit=hydrogen_gross_mol_per_s),
        )
    return 1 - crossover_mol_per_s / hydrogen_gross_mol_per_s
