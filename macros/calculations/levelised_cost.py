"""
What a stored kilowatt-hour costs: investment spread over its years as an annuity, and what each year takes.

A simple arithmetic of one currency and constant prices: no tax, no subsidy, no residual value.
"""

from macros.calculations.contract import above, at_least, between, calculation
from macros.calculations.formula import power


@calculation(interest=between(0.0, 1.0), years=above(0.0, 100.0))
def annuity(interest: float, years: float) -> float:
    """
    Share of an investment that each year must bring back.

    Parameters
    ----------
    interest : float
        Yearly interest, 0 to 1. [-]
    years : float
        Years over which it is spread, above 0, at most 100. [-]

    Returns
    -------
    float
        Share for each year. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Equal yearly payments; without interest the years share it alike [annuity, capital recovery factor].
    """
    if interest < 1e-9:
        return 1 / years
    return interest / (1 - power(1 + interest, -years))


@calculation(
    investment=at_least(0.0), interest=between(0.0, 1.0), years=above(0.0, 100.0), yearly_cost=at_least(0.0),
    yearly_j=above(0.0),
)  # fmt: skip
def cost_of_energy(investment: float, interest: float, years: float, yearly_cost: float, yearly_j: float) -> float:
    """
    Cost of a unit of energy that is stored.

    Parameters
    ----------
    investment : float
        What the plant costs, 0 or more. [money]
    interest : float
        Yearly interest, 0 to 1. [-]
    years : float
        Years over which it is spread, above 0, at most 100. [-]
    yearly_cost : float
        Upkeep, electricity, inspections of a year, 0 or more. [money]
    yearly_j : float
        Energy stored in a year, above 0. [J]

    Returns
    -------
    float
        Cost for each joule. [money/J]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Yearly costs over yearly energy [annuity, levelised cost].
    """
    return (investment * annuity(interest, years) + yearly_cost) / yearly_j
