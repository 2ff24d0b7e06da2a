"""A booster between two vessels: how long it takes, how many strokes, and whether it gets there at all."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from macros.calculations import hydrogen
from macros.calculations.contract import OutOfRange, above, between, calculation, points, range_said
from macros.calculations.isotherm import isotherm
from macros.calculations.strokes import Piston
from macros.quantities import say
from macros.quantities.languages import with_mark

__all__ = ["TransferPoint", "TransferRun", "transfer_run"]

_PRESSURE = between(1e3, hydrogen.HIGHEST_PRESSURE_PA)
_PANELS = 40

# Gauss and Legendre's four points on a panel from −1 to 1, and their weights; fewer would not follow the
# slowing near the stall.
_GAUSS = (
    (-0.8611363115940526, 0.3478548451374538), (-0.3399810435848563, 0.6521451548625461),
    (0.3399810435848563, 0.6521451548625461), (0.8611363115940526, 0.3478548451374538),
)  # fmt: skip


@dataclass(frozen=True)
class TransferPoint:
    """One moment of a transfer; pressures absolute."""

    time_s: float
    moved_kg: float
    source_pressure_pa: float
    target_pressure_pa: float
    flow_kg_per_s: float


@dataclass(frozen=True)
class TransferRun:
    """
    What a transfer by strokes came to.

    Attributes
    ----------
    time_s, strokes, drive_air_m3 : float
    source_pressure_pa, target_pressure_pa : float
        Absolute, at the end.
    points : tuple of TransferPoint
    """

    time_s: float
    strokes: float
    drive_air_m3: float
    source_pressure_pa: float
    target_pressure_pa: float
    points: tuple[TransferPoint, ...] = field(repr=False)

    def __str__(self) -> str:
        return say("ran.moved", hours=with_mark(f"{self.time_s / 3600:.4g}"))


@calculation(
    opaque="transfer run",
    source_volume_m3=above(0, 1e3), source_pressure_pa=_PRESSURE, target_volume_m3=above(0, 1e3),
    target_pressure_pa=_PRESSURE, mass_kg=between(0, 1e5), temperature_k=between(200.0, 400.0),
    swept_volume_m3=between(1e-9, 0.1), faces=between(1, 2), clearance=between(0, 1.0),
    free_stroke_rate_per_s=above(0, 50.0), area_ratio=above(0, 500.0), assisting_area_ratio=between(0, 10.0),
    drive_pressure_pa=between(1e4, 2e6), atmosphere_pa=between(3e4, 1.2e5), free_air_of_stroke_m3=between(0, 10.0),
    rate_curve=points(),
)  # fmt: skip
def transfer_run(
    source_volume_m3: float,
    source_pressure_pa: float,
    target_volume_m3: float,
    target_pressure_pa: float,
    mass_kg: float,
    temperature_k: float,
    swept_volume_m3: float,
    faces: float,
    clearance: float,
    free_stroke_rate_per_s: float,
    area_ratio: float,
    assisting_area_ratio: float,
    drive_pressure_pa: float,
    atmosphere_pa: float,
    free_air_of_stroke_m3: float,
    rate_curve: Sequence[tuple[float, float]] | None = None,
) -> TransferRun:
    """
    A booster moving a mass from one vessel into another.

    Parameters
    ----------
    source_volume_m3 : float
        Water volume of the vessel it draws from. [m3]
    source_pressure_pa : float
        Absolute pressure there when the strokes begin. [Pa]
    target_volume_m3 : float
        Water volume of the vessel it fills. [m3]
    target_pressure_pa : float
        Absolute pressure there when the strokes begin. [Pa]
    mass_kg : float
        Mass to move by strokes. [kg]
    temperature_k : float
        Temperature of all gas, 200 to 400. [K]
    swept_volume_m3 : float
        Volume that one gas face of the booster sweeps in a stroke. [m3]
    faces : float
        Gas faces, 1 or 2. [-]
    clearance : float
        Clearance volume over swept volume. [-]
    free_stroke_rate_per_s : float
        Strokes against no back pressure. [1/s]
    area_ratio : float
        Area of the air piston over that of the gas piston. [-]
    assisting_area_ratio : float
        Area on which the supply pushes along over that of the gas piston. [-]
    drive_pressure_pa : float
        Absolute pressure of the drive air, above that of the atmosphere. [Pa]
    atmosphere_pa : float
        Atmospheric pressure. [Pa]
    free_air_of_stroke_m3 : float
        Free air of a stroke, the way back counted. [m3]
    rate_curve : sequence of (float, float), optional
        Share of the free stroke rate measured by share of the stall; without, a straight line is assumed. [-]

    Returns
    -------
    TransferRun
        Time, strokes, air, pressures at the end, and the points for plots.

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, the source holds less than the mass, or the booster
        stalls or its clearance takes the whole stroke before the mass is moved.

    Notes
    -----
    Time is the integral of the mass over the booster's flow [clearance-volume, mass drawn in a stroke].
    """
    if not atmosphere_pa < drive_pressure_pa:
        raise OutOfRange(
            "transfer_run", "drive_pressure_pa", drive_pressure_pa, range_said("above", limit=atmosphere_pa)
        )
    source_before = hydrogen.state_density(source_pressure_pa, temperature_k)
    target_before = hydrogen.state_density(target_pressure_pa, temperature_k)
    source_after, target_after = source_before - mass_kg / source_volume_m3, target_before + mass_kg / target_volume_m3
    if not source_after > 0:
        held = source_before * source_volume_m3
        raise OutOfRange("transfer_run", "mass_kg", mass_kg, range_said("less_than_source", limit=held))
    if target_after > hydrogen.HIGHEST_DENSITY:
        raise OutOfRange("transfer_run", "mass_kg", mass_kg, range_said("most_of_target"))
    gas = isotherm(temperature_k, 1.001 * max(source_before, target_after))
    piston = Piston(
        swept_volume_m3, faces, clearance, free_stroke_rate_per_s, area_ratio, assisting_area_ratio, drive_pressure_pa,
        atmosphere_pa, rate_curve,
    )  # fmt: skip

    def at(moved: float) -> tuple[float, float, float, float]:
        """Pressures of source and target, mass of a stroke and strokes in a time, once a mass has moved."""
        source, target = source_before - moved / source_volume_m3, target_before + moved / target_volume_m3
        inlet, outlet = gas.pressure(source), gas.pressure(target)
        drawn, rate = piston.drawn(source, target), piston.rate(inlet, outlet)
        if not drawn * rate > 0:
            raise OutOfRange("transfer_run", "mass_kg", mass_kg, range_said("most_before_stall", limit=moved))
        return inlet, outlet, drawn, rate

    time = strokes = 0.0
    noted = []
    for panel in range(_PANELS + 1):
        moved = mass_kg * panel / _PANELS
        inlet, outlet, drawn, rate = at(moved)
        noted.append(TransferPoint(time, moved, inlet, outlet, drawn * rate))
        if panel < _PANELS:
            half = mass_kg / _PANELS / 2
            for place, weight in _GAUSS:
                _, _, drawn, rate = at(moved + half * (1 + place))
                strokes += weight * half / drawn
                time += weight * half / (drawn * rate)
    return TransferRun(time, strokes, strokes * free_air_of_stroke_m3, inlet, outlet, tuple(noted))
