"""
The air of a room with a leak in it: how much air it takes, what draws it, and what gathers under the ceiling.

Hydrogen rises in a plume and spreads under the ceiling, so the mean of the room is not the cautious case.
The layer is judged beside it: a plume draws in air as it rises, and what it has become when it meets the
layer (or what the ventilation takes away from the layer, where that is less) decides the fraction there.
"""

import math

from macros.calculations.constants import GAS_CONSTANT, MOLAR_MASS_AIR, MOLAR_MASS_HYDROGEN, PI, STANDARD_GRAVITY
from macros.calculations.contract import OutOfRange, above, between, calculation, range_said
from macros.calculations.formula import Constant, exp, largest, log, number, power, smallest, sqrt

OPENING_COEFFICIENT = Constant(0.61, "C_o", "1", "discharge coefficient of a sharp-edged opening", "bs-5925")
ENTRAINMENT = Constant(
    0.1, "α_e", "1", "speed at which a plume draws in air, over the speed of its rise", "common-practice"
)
LAYER_DEPTH = Constant(
    0.15, "d_l", "m", "depth of a layer under the ceiling where no pocket is described", "common-practice"
)


@calculation(
    mass_flow_kg_per_s=between(0.0, 100.0), temperature_k=between(200.0, 400.0), atmosphere_pa=between(50e3, 110e3)
)
def hydrogen_in_room(mass_flow_kg_per_s: float, temperature_k: float, atmosphere_pa: float) -> float:
    """
    Volume that leaking hydrogen takes in a room.

    Parameters
    ----------
    mass_flow_kg_per_s : float
        Leak, 0 to 100. [kg/s]
    temperature_k : float
        Temperature of the room, 200 to 400; the higher, the larger the volume. [K]
    atmosphere_pa : float
        Pressure of the room, 50 to 110 kPa. [Pa]

    Returns
    -------
    float
        Volume flow. [m3/s]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Ideal gas, within 0.1 % at these pressures [by-definition].
    """
    return mass_flow_kg_per_s / MOLAR_MASS_HYDROGEN * GAS_CONSTANT * temperature_k / atmosphere_pa


@calculation(hydrogen_m3_per_s=between(0.0, 1e3), allowed_fraction=between(1e-5, 0.5))
def dilution_air(hydrogen_m3_per_s: float, allowed_fraction: float) -> float:
    """
    Fresh air that keeps the mean of a room at an allowed fraction of hydrogen.

    Parameters
    ----------
    hydrogen_m3_per_s : float
        Hydrogen let into the room, 0 to 1000. [m3/s]
    allowed_fraction : float
        Fraction of hydrogen allowed, 1e-5 to 0.5; a quarter of the lower flammable limit is the usual one. [-]

    Returns
    -------
    float
        Fresh air. [m3/s]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Balance of the hydrogen in well-mixed air [mass-balance]; a quarter of the limit as the mean [hse-rr993, criterion
    of dilution].
    """
    return hydrogen_m3_per_s * (1 - allowed_fraction) / allowed_fraction


@calculation(hydrogen_m3_per_s=between(0.0, 1e3), air_m3_per_s=above(0.0, 1e6))
def mixed_fraction(hydrogen_m3_per_s: float, air_m3_per_s: float) -> float:
    """
    Fraction of hydrogen in well-mixed air once it has settled.

    Parameters
    ----------
    hydrogen_m3_per_s : float
        Hydrogen let into the room, 0 to 1000. [m3/s]
    air_m3_per_s : float
        Fresh air, above 0. [m3/s]

    Returns
    -------
    float
        Fraction by volume. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Balance of the hydrogen [mass-balance].
    """
    return hydrogen_m3_per_s / (hydrogen_m3_per_s + air_m3_per_s)


@calculation(
    hydrogen_m3_per_s=between(0.0, 1e3),
    air_m3_per_s=between(0.0, 1e6),
    space_m3=above(0.0, 1e6),
    time_s=between(0.0, 1e12),
)
def fraction_after(hydrogen_m3_per_s: float, air_m3_per_s: float, space_m3: float, time_s: float) -> float:
    """
    Fraction of hydrogen in well-mixed air some time after a leak began in fresh air.

    Parameters
    ----------
    hydrogen_m3_per_s : float
        Hydrogen let into the space, 0 to 1000. [m3/s]
    air_m3_per_s : float
        Fresh air, 0 or more. [m3/s]
    space_m3 : float
        Space in which it mixes: the room, or the layer under its ceiling. [m3]
    time_s : float
        Time since the leak began, 0 to 1e12. [s]

    Returns
    -------
    float
        Fraction by volume. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Balance of the hydrogen, as much mixture leaving as gas comes in [mass-balance].
    """
    inflow = hydrogen_m3_per_s + air_m3_per_s
    if inflow == 0:
        return 0.0 * hydrogen_m3_per_s
    return hydrogen_m3_per_s / inflow * (1 - exp(-inflow * time_s / space_m3))


@calculation(hydrogen_m3_per_s=above(0.0, 1e3), space_m3=above(0.0, 1e6), fraction=between(0.0, 0.9))
def time_to_fraction(hydrogen_m3_per_s: float, space_m3: float, fraction: float) -> float:
    """
    Time in which a leak brings a space without fresh air to a fraction of hydrogen.

    Parameters
    ----------
    hydrogen_m3_per_s : float
        Hydrogen let into the space, above 0. [m3/s]
    space_m3 : float
        Space in which it mixes: the layer under the ceiling is the cautious one. [m3]
    fraction : float
        Fraction to be reached, 0 to 0.9. [-]

    Returns
    -------
    float
        Time. [s]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Balance of the hydrogen, as much mixture leaving as hydrogen comes in [mass-balance].
    """
    return -space_m3 / hydrogen_m3_per_s * log(1 - fraction)


@calculation(start_fraction=above(0.0, 1.0), end_fraction=above(0.0, 1.0), air_changes_per_s=above(0.0, 1.0))
def time_to_clear(start_fraction: float, end_fraction: float, air_changes_per_s: float) -> float:
    """
    Time in which ventilation brings a well-mixed room from one fraction to another once the leak has stopped.

    Parameters
    ----------
    start_fraction : float
        Fraction at first, above 0, at most 1. [-]
    end_fraction : float
        Fraction at last, above 0, no more than at first. [-]
    air_changes_per_s : float
        Fresh air over the volume of the room, above 0, at most 1. [1/s]

    Returns
    -------
    float
        Time. [s]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, or the fraction at last is the higher one.

    Notes
    -----
    Balance of the hydrogen [mass-balance].
    """
    if end_fraction > start_fraction:
        raise OutOfRange("time_to_clear", "end_fraction", end_fraction, range_said("most_fraction_first"))
    return log(start_fraction / end_fraction) / air_changes_per_s


@calculation(
    mass_kg=between(0.0, 1e5),
    temperature_k=between(200.0, 400.0),
    atmosphere_pa=between(50e3, 110e3),
    room_m3=above(0.0, 1e6),
)
def release_fraction(mass_kg: float, temperature_k: float, atmosphere_pa: float, room_m3: float) -> float:
    """
    Share of a room that its whole inventory of hydrogen would fill, all of it let out and none carried off.

    Parameters
    ----------
    mass_kg : float
        Inventory that can reach the room, 0 or more. [kg]
    temperature_k : float
        Temperature of the room, 200 to 400. [K]
    atmosphere_pa : float
        Pressure of the room, 50 to 110 kPa. [Pa]
    room_m3 : float
        Volume of the room, above 0. [m3]

    Returns
    -------
    float
        Fraction by volume, at most 1. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Ideal gas; air alone is pushed out, which gives the most [mass-balance].
    """
    return smallest(1.0, mass_kg / MOLAR_MASS_HYDROGEN * GAS_CONSTANT * temperature_k / (atmosphere_pa * room_m3))


@calculation(lower_area_m2=above(0.0, 1e3), upper_area_m2=above(0.0, 1e3))
def openings_in_series(lower_area_m2: float, upper_area_m2: float) -> float:
    """
    Area of the one opening that resists as much as a low and a high one, through which air passes in turn.

    Parameters
    ----------
    lower_area_m2 : float
        Free area of the low opening, above 0. [m2]
    upper_area_m2 : float
        Free area of the high opening, above 0. [m2]

    Returns
    -------
    float
        Area. [m2]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Pressure differences of two openings add [bs-5925, clause 12].
    """
    return 1 / sqrt(1 / power(lower_area_m2, 2) + 1 / power(upper_area_m2, 2))


@calculation(inside_k=between(200.0, 400.0), outside_k=between(200.0, 400.0))
def lightness_of_warmth(inside_k: float, outside_k: float) -> float:
    """
    How much lighter the air of a warm room is, as a share of its density; nothing where it is the colder.

    Parameters
    ----------
    inside_k : float
        Temperature inside, 200 to 400. [K]
    outside_k : float
        Temperature outside, 200 to 400. [K]

    Returns
    -------
    float
        Difference of density over density. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Ideal gas at the mean of both temperatures [bs-5925, clause 12].
    """
    return largest(0.0, inside_k - outside_k) / ((inside_k + outside_k) / 2)


@calculation(fraction=between(0.0, 1.0))
def lightness_of_hydrogen(fraction: float) -> float:
    """
    How much lighter air with hydrogen in it is than air, as a share of the density of air.

    Parameters
    ----------
    fraction : float
        Fraction of hydrogen, 0 to 1. [-]

    Returns
    -------
    float
        Difference of density over density. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Ideal gases of one temperature [by-definition].
    """
    return fraction * (1 - MOLAR_MASS_HYDROGEN / MOLAR_MASS_AIR)


@calculation(
    series_area_m2=above(0.0, 1e3),
    discharge_coefficient=above(0.0, 1.0),
    height_m=between(0.0, 100.0),
    lightness=between(0.0, 1.0),
)
def draught(series_area_m2: float, discharge_coefficient: float, height_m: float, lightness: float) -> float:
    """
    Air that a low and a high opening draw without a fan and without wind.

    Parameters
    ----------
    series_area_m2 : float
        Area of the one opening that resists as much as both, above 0. [m2]
    discharge_coefficient : float
        Of one opening, above 0, at most 1; 0.61 for a sharp-edged one. [-]
    height_m : float
        From the middle of the low opening to that of the high one, 0 to 100. [m]
    lightness : float
        Difference of density between outside and inside over density, 0 to 1. [-]

    Returns
    -------
    float
        Volume flow. [m3/s]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Orifice equation under the weight of a column of air [bs-5925, clause 12].
    """
    return discharge_coefficient * series_area_m2 * sqrt(2 * STANDARD_GRAVITY * height_m * lightness)


@calculation(
    air_m3_per_s=between(0.0, 1e4),
    discharge_coefficient=above(0.0, 1.0),
    height_m=above(0.0, 100.0),
    lightness=above(0.0, 1.0),
)
def opening_needed(air_m3_per_s: float, discharge_coefficient: float, height_m: float, lightness: float) -> float:
    """
    Free area that each of two equal openings, one low and one high, must have to draw air by itself.

    Parameters
    ----------
    air_m3_per_s : float
        Air wanted, 0 or more. [m3/s]
    discharge_coefficient : float
        Of one opening, above 0, at most 1; 0.61 for a sharp-edged one. [-]
    height_m : float
        From the middle of the low opening to that of the high one, above 0, at most 100. [m]
    lightness : float
        Difference of density between outside and inside over density, above 0, at most 1. [-]

    Returns
    -------
    float
        Area of each opening. [m2]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    The orifice equation the other way round, two equal openings in series [bs-5925, clause 12].
    """
    return sqrt(number(2)) * air_m3_per_s / (discharge_coefficient * sqrt(2 * STANDARD_GRAVITY * height_m * lightness))


@calculation(hydrogen_m3_per_s=between(0.0, 1e3), rise_m=between(0.0, 100.0), entrainment=between(0.05, 0.2))
def plume_air(hydrogen_m3_per_s: float, rise_m: float, entrainment: float = ENTRAINMENT) -> float:
    """
    Air that a plume of hydrogen has drawn in by the time it has risen to a height.

    Parameters
    ----------
    hydrogen_m3_per_s : float
        Hydrogen let out, 0 or more. [m3/s]
    rise_m : float
        Height above the leak, 0 to 100. [m]
    entrainment : float
        Speed at which air is drawn in over the speed of rise (the same across the plume), 0.05 to 0.2. The lower, the
        less the hydrogen is thinned. [-]

    Returns
    -------
    float
        Volume flow. [m3/s]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Plume from a point, driven by its lightness alone; a jet draws in more
    [morton-taylor-turner-1956, similarity solution for a plume from a point source].
    """
    buoyancy = STANDARD_GRAVITY * hydrogen_m3_per_s * (1 - MOLAR_MASS_HYDROGEN / MOLAR_MASS_AIR)
    spread = 6 * entrainment / 5 * power(9 * entrainment / 10, number(1) / 3) * power(PI, number(2) / 3)
    return spread * power(buoyancy, number(1) / 3) * power(rise_m, number(5) / 3)


@calculation(
    opaque="air through a room with a layer", hydrogen_m3_per_s=between(0.0, 1e3), series_area_m2=above(0.0, 1e3),
    discharge_coefficient=above(0.0, 1.0), height_m=above(0.0, 100.0), leak_height_m=between(0.0, 100.0),
    entrainment=between(0.05, 0.2),
)  # fmt: skip
def layer_draught(
    hydrogen_m3_per_s: float,
    series_area_m2: float,
    discharge_coefficient: float,
    height_m: float,
    leak_height_m: float,
    entrainment: float = ENTRAINMENT,
) -> float:
    """
    Air that a layer of hydrogen and air under the ceiling draws through a low and a high opening.

    Parameters
    ----------
    hydrogen_m3_per_s : float
        Hydrogen let out, 0 or more. [m3/s]
    series_area_m2 : float
        Area of the one opening that resists as much as both, above 0. [m2]
    discharge_coefficient : float
        Of one opening, above 0, at most 1. [-]
    height_m : float
        From the middle of the low opening to that of the high one, above 0, at most 100. [m]
    leak_height_m : float
        Height of the leak above the middle of the low opening, less than that of the high one. [m]
    entrainment : float
        Of the plume, 0.05 to 0.2. [-]

    Returns
    -------
    float
        Volume flow. [m3/s]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, or the leak is no lower than the high opening.

    Notes
    -----
    The layer is as deep as it must be to draw what the plume brings; its depth does not depend on the leak
    [linden-1990, steady state with a point source].
    """
    if not leak_height_m < height_m:
        raise OutOfRange(
            "layer_draught", "leak_height_m", leak_height_m, range_said("below_high_opening", limit=height_m)
        )
    spread = 6 * entrainment / 5 * (9 * entrainment / 10) ** (1 / 3) * math.pi ** (2 / 3)
    reach = height_m - leak_height_m
    # spread³ rise⁵ = 2 (coefficient × area)² (reach − rise): the left rises, the right falls, so there is one root.
    low, high = 0.0, reach
    for _ in range(200):
        rise = (low + high) / 2
        if spread**3 * rise**5 < 2 * (discharge_coefficient * series_area_m2) ** 2 * (reach - rise):
            low = rise
        else:
            high = rise
    return float(plume_air(hydrogen_m3_per_s, low, entrainment))


@calculation(hydrogen_m3_per_s=above(0.0, 1e3), air_m3_per_s=between(0.0, 1e6), plume_air_m3_per_s=between(0.0, 1e6))
def layer_fraction(hydrogen_m3_per_s: float, air_m3_per_s: float, plume_air_m3_per_s: float) -> float:
    """
    Fraction of hydrogen in the layer under the ceiling once it has settled.

    Parameters
    ----------
    hydrogen_m3_per_s : float
        Hydrogen let out, above 0. [m3/s]
    air_m3_per_s : float
        Air that the ventilation takes from the layer, 0 or more. [m3/s]
    plume_air_m3_per_s : float
        Air that the plume draws in on its way from the leak to the ceiling, 0 or more. [m3/s]

    Returns
    -------
    float
        Fraction by volume; 1 where nothing is taken away. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    What leaves the layer is what the plume brings: where the ventilation takes less than the plume would bring to the
    ceiling, the layer grows downwards until they agree; where it takes more, the plume arrives as it is
    [mass-balance], [linden-1990, balance of the layer].
    """
    return hydrogen_m3_per_s / (hydrogen_m3_per_s + smallest(air_m3_per_s, plume_air_m3_per_s))
