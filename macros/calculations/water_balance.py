"""Water that the plant uses up: split, carried away as vapour, drained and not returned."""

from macros.calculations.contract import above, between, calculation
from macros.calculations.water_quality import WATER_DENSITY

WATER_FLOW = between(0, 10)


@calculation(
    split_kg_per_s=WATER_FLOW,
    with_oxygen_kg_per_s=WATER_FLOW,
    with_hydrogen_kg_per_s=WATER_FLOW,
    drained_kg_per_s=WATER_FLOW,
)
def water_consumption(
    split_kg_per_s: float, with_oxygen_kg_per_s: float, with_hydrogen_kg_per_s: float, drained_kg_per_s: float = 0.0
) -> float:
    """
    Water that must be filled in while the plant runs.

    Parameters
    ----------
    split_kg_per_s : float
        Water split. [kg/s]
    with_oxygen_kg_per_s : float
        Vapour that leaves with the oxygen. [kg/s]
    with_hydrogen_kg_per_s : float
        Water that leaves with the treated hydrogen or stays in its desiccant. [kg/s]
    drained_kg_per_s : float
        Water drained from the gas side and not returned. [kg/s]

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
    Balance of water [by-definition].
    """
    return split_kg_per_s + with_oxygen_kg_per_s + with_hydrogen_kg_per_s + drained_kg_per_s


@calculation(usable_m3=above(0, 100), consumption_kg_per_s=between(1e-9, 10))
def top_up_interval(usable_m3: float, consumption_kg_per_s: float) -> float:
    """
    Running time from full to low level.

    Parameters
    ----------
    usable_m3 : float
        Water between top-up and low level. [m3]
    consumption_kg_per_s : float
        Water used while running. [kg/s]

    Returns
    -------
    float
        Running time. [s]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Volume over flow, water as at 20 °C [by-definition].
    """
    return usable_m3 * WATER_DENSITY / consumption_kg_per_s


@calculation(vapour_at_stack_kg_per_s=WATER_FLOW, vapour_left_kg_per_s=WATER_FLOW, dragged_kg_per_s=WATER_FLOW)
def water_drained(vapour_at_stack_kg_per_s: float, vapour_left_kg_per_s: float, dragged_kg_per_s: float) -> float:
    """
    Water that the separators on the hydrogen side collect.

    Parameters
    ----------
    vapour_at_stack_kg_per_s : float
        Vapour with which the hydrogen leaves the stack. [kg/s]
    vapour_left_kg_per_s : float
        Vapour with which it leaves the last drain, no more. [kg/s]
    dragged_kg_per_s : float
        Liquid dragged through the membrane. [kg/s]

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
    Balance of water [by-definition].
    """
    return dragged_kg_per_s + (vapour_at_stack_kg_per_s - vapour_left_kg_per_s)
