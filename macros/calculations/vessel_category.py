"""
Category of a vessel or pipe for hydrogen by the European directive on pressure equipment.

Hydrogen is a gas of group 1. A boundary belongs to the lower class. The regime comes first: cylinders
under transport law are outside, and while nobody has decided, no category is shown as if it were settled.
The lines at 200 and 1000 bar L are from memory: a reviewer checks them against the text.
"""

from __future__ import annotations

from macros.calculations.contract import OutOfRange, above, between, calculation
from macros.quantities import say

OUTSIDE, UNDECIDED, ARTICLE = "outside", "undecided", "article 4(3)"
_REGIMES = ("fixed", "transportable", "undecided")
_ON_THE_LINE = 1.0 + 1e-9


@calculation(
    opaque="category of a vessel", allowable_pressure_pa=between(1e3, 500e6), atmosphere_pa=between(50e3, 110e3),
    volume_m3=above(0.0, 1e4),
)  # fmt: skip
def vessel_category(allowable_pressure_pa: float, atmosphere_pa: float, volume_m3: float, regime: str) -> str:
    """
    Category of one vessel for a gas of group 1.

    Parameters
    ----------
    allowable_pressure_pa : float
        Highest allowable pressure PS, absolute, 1 kPa to 500 MPa. [Pa]
    atmosphere_pa : float
        Pressure of the atmosphere, 50 to 110 kPa; PS counts above it. [Pa]
    volume_m3 : float
        Volume of the whole vessel, above 0. [m3]
    regime : str
        `fixed`, `transportable` or `undecided`. [-]

    Returns
    -------
    str
        "outside", "undecided", "article 4(3)" (sound engineering practice), "I", "II", "III" or "IV". [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, or the regime is none of the three.

    Notes
    -----
    By PS and PS·V [ped-2014-68, article 4(1)(a)(i) and Annex II table 1].
    """
    if regime not in _REGIMES:
        raise OutOfRange("vessel_category", "regime", regime, say("range.either").join(_REGIMES))  # type: ignore[arg-type]
    if regime == "transportable":
        return OUTSIDE
    if regime == "undecided":
        return UNDECIDED
    bar = (allowable_pressure_pa - atmosphere_pa) / 1e5
    litres = volume_m3 * 1e3
    if not _more(bar, 0.5):
        return OUTSIDE
    if not _more(litres, 1.0):
        return _first_within(bar, ((200.0, ARTICLE), (1000.0, "III")), "IV")
    # More than 1000 bar is category IV as well, and beyond 1000 bar L whatever the volume is here.
    return _first_within(bar * litres, ((25.0, ARTICLE), (50.0, "I"), (200.0, "II"), (1000.0, "III")), "IV")


@calculation(
    opaque="category of a pipe", allowable_pressure_pa=between(1e3, 500e6), atmosphere_pa=between(50e3, 110e3),
    nominal_size=between(1.0, 2000.0),
)  # fmt: skip
def pipe_category(allowable_pressure_pa: float, atmosphere_pa: float, nominal_size: float) -> str:
    """
    Category of a pipe for a gas of group 1.

    Parameters
    ----------
    allowable_pressure_pa : float
        Highest allowable pressure PS, absolute, 1 kPa to 500 MPa. [Pa]
    atmosphere_pa : float
        Pressure of the atmosphere, 50 to 110 kPa; PS counts above it. [Pa]
    nominal_size : float
        Nominal size DN, 1 to 2000. [-]

    Returns
    -------
    str
        "outside", "article 4(3)" (sound engineering practice), "I", "II" or "III". [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    By DN and PS·DN; DN 25 and less at any pressure is sound engineering practice
    [ped-2014-68, article 4(1)(c)(i) and Annex II table 6].
    """
    bar = (allowable_pressure_pa - atmosphere_pa) / 1e5
    if not _more(bar, 0.5):
        return OUTSIDE
    if not _more(nominal_size, 25.0):
        return ARTICLE
    if not _more(nominal_size, 100.0) and not _more(bar * nominal_size, 1000.0):
        return "I"
    if not _more(nominal_size, 350.0) and not _more(bar * nominal_size, 3500.0):
        return "II"
    return "III"


def _more(value: float, line: float) -> bool:
    """Strictly more than a line, rounding of the arithmetic aside."""
    return value > line * _ON_THE_LINE


def _first_within(value: float, lines: tuple[tuple[float, str], ...], beyond: str) -> str:
    return next((category for line, category in lines if not _more(value, line)), beyond)
