"""
The window for a fuse: it bears the working current, and it opens before the cable overheats.

Whether a fuse is fit for direct current of the voltage is asked apart. Everything here defers to the local wiring code.
"""

from macros.calculations.contract import above, between, calculation
from macros.calculations.faraday import CURRENT
from macros.calculations.formula import Constant, smallest

OVERLOAD_FACTOR = Constant(1.45, "k_2", "", "opening current of the fuse over what the cable bears", "iec-60364-4-43")


@calculation(current_a=CURRENT, continuous_load_factor=between(1, 2))
def fuse_minimum(current_a: float, continuous_load_factor: float = 1.0) -> float:
    """
    Smallest rating of a fuse that bears the working current.

    Parameters
    ----------
    current_a : float
        Working current. [A]
    continuous_load_factor : float
        Margin that a code asks for loads of hours, 1 to 2. [-]

    Returns
    -------
    float
        Rating. [A]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    First condition of protection against overload, Ib ≤ In [iec-60364-4-43, clause 433.1].
    """
    return continuous_load_factor * current_a


@calculation(ampacity_a=above(0, 1e4), fusing_ratio=between(1, 2.5))
def fuse_maximum(ampacity_a: float, fusing_ratio: float = 1.6) -> float:
    """
    Largest rating of a fuse that still protects the cable.

    Parameters
    ----------
    ampacity_a : float
        Current that the cable may carry as laid. [A]
    fusing_ratio : float
        Current that surely opens the fuse over its rating; 1.6 for general-purpose fuses of 16 A and more. [-]

    Returns
    -------
    float
        Rating. [A]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    In ≤ Iz, and the current that surely opens the fuse, I2 = ratio·In, at most 1.45 Iz
    [iec-60364-4-43, clause 433.1].
    """
    return smallest(ampacity_a, OVERLOAD_FACTOR * ampacity_a / fusing_ratio)
