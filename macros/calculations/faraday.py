"""Faraday's law: what a current makes and what it takes."""

from macros.calculations.constants import FARADAY
from macros.calculations.contract import above, at_least, between, calculation


@calculation(current_a=above(0), cells=at_least(1), faraday_efficiency=between(0, 1))
def hydrogen_produced(current_a: float, cells: float, faraday_efficiency: float = 1.0) -> float:
    """
    Hydrogen made by cells in series.

    Parameters
    ----------
    current_a : float
        Current through the stack, above 0. [A]
    cells : float
        Cells in series, at least 1. [-]
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
