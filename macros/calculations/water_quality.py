"""
Ions in the feed water and how long the deioniser lasts.

Conductivity counts ions; carbon dioxide hides from it and loads the resin all the same; and resin ages unloaded.
"""

from macros.calculations.contract import above, between, calculation
from macros.calculations.formula import Constant, largest, smallest

WATER_OWN_CONDUCTIVITY = Constant(5.5e-6, "κ_0", "S/m", "conductivity of pure water at 25 °C", "iapws-conductivity")
SALT_CONDUCTIVITY = Constant(
    94.6e-4, "Λ", "S m2/mol", "molar conductivity of thin sodium bicarbonate", "ionic-conductivity"
)
WATER_DENSITY = Constant(998.2, "ρ_w", "kg/m3", "density of water at 20 °C", "iapws-if97-heat")
YEAR = Constant(8760 * 3600.0, "a", "s", "year of 8760 hours", "by-definition")


@calculation(conductivity_s_per_m=between(0, 1))
def ionic_load(conductivity_s_per_m: float) -> float:
    """
    Charge that the ions of a water carry, at most, by its conductivity.

    Parameters
    ----------
    conductivity_s_per_m : float
        Conductivity at 25 °C, 0 to 10 000 µS/cm. [S/m]

    Returns
    -------
    float
        Equivalents for each cubic metre. [mol/m3]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Water's own conductivity taken off [iapws-conductivity, pure water at 25 °C]; all salt taken as sodium
    bicarbonate, of the usual salts the one of which a conductivity stands for most
    [ionic-conductivity, table of limiting ionic conductivities].
    """
    return largest(0.0, (conductivity_s_per_m - WATER_OWN_CONDUCTIVITY) / SALT_CONDUCTIVITY)


@calculation(
    exchange_capacity_mol_per_m3=above(0, 1e4),
    resin_m3=above(0, 10),
    ionic_load_mol_per_m3=between(0, 1e3),
    carbon_dioxide_mol_per_m3=between(0, 1e3),
    feed_kg_per_s=between(1e-9, 10),
    running_time_s=between(1, 8760 * 3600),
)
def exhaustion_time(
    exchange_capacity_mol_per_m3: float,
    resin_m3: float,
    ionic_load_mol_per_m3: float,
    carbon_dioxide_mol_per_m3: float,
    feed_kg_per_s: float,
    running_time_s: float,
) -> float:
    """
    Time until the ions of the feed have filled the resin.

    Parameters
    ----------
    exchange_capacity_mol_per_m3 : float
        Exchange capacity of the mixed bed. [mol/m3]
    resin_m3 : float
        Resin. [m3]
    ionic_load_mol_per_m3 : float
        Equivalents in each cubic metre of feed. [mol/m3]
    carbon_dioxide_mol_per_m3 : float
        Carbon dioxide in each cubic metre of feed; the loads together above 0. [mol/m3]
    feed_kg_per_s : float
        Water filled in while running. [kg/s]
    running_time_s : float
        Running time in a year of 8760 hours, at least 1 s. [s]

    Returns
    -------
    float
        Time on the calendar. [s]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Balance of charge; each carbon dioxide takes one place of the anion resin [mixed-bed-note, capacity as
    equivalents of a litre].
    """
    load_mol_per_s = (
        (largest(ionic_load_mol_per_m3 + carbon_dioxide_mol_per_m3, 1e-9))
        * feed_kg_per_s
        / WATER_DENSITY
        * running_time_s
        / YEAR
    )
    return exchange_capacity_mol_per_m3 * resin_m3 / load_mol_per_s


@calculation(exhaustion_time_s=above(0), age_limit_s=above(0, 1e10))
def deioniser_life(exhaustion_time_s: float, age_limit_s: float) -> float:
    """
    Time until the resin must be changed, whichever cause comes first.

    Parameters
    ----------
    exhaustion_time_s : float
        Time until the ions of the feed have filled it. [s]
    age_limit_s : float
        Age at which it is changed in any case. [s]

    Returns
    -------
    float
        Time on the calendar. [s]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    The sooner of two [common-practice].
    """
    return smallest(exhaustion_time_s, age_limit_s)
