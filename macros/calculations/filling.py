"""
How warm a vessel becomes while it is filled.

Two bounds and a model. Without any loss of heat the gas would end above 140 °C, whatever the vessel; if it shares its
heat with the wall and nothing leaves, it ends far lower. The model lets gas, wall and ambient exchange heat while the
gas comes in at a steady rate: a bottle filled over hours stays near ambient, a vehicle tank filled in minutes does not.
"""

import math
from dataclasses import dataclass, field

from macros.calculations import hydrogen
from macros.calculations.constants import PI
from macros.calculations.contract import OutOfRange, between, calculation, range_said
from macros.calculations.formula import Constant, power
from macros.calculations.roots import root_between
from macros.quantities import say
from macros.quantities.languages import with_mark

__all__ = [
    "Filling",
    "FillingPoint",
    "adiabatic_fill_temperature",
    "cylinder_surface",
    "gas_wall_fill",
    "shared_fill_temperature",
    "shortest_fill_time",
]

WARMEST_GAS = Constant(358.15, "T_85", "K", "highest gas temperature in a vehicle tank", "sae-j2601")
_SETTLED_K = 288.15

_VOLUME = between(1e-6, 100.0)
_PRESSURE = between(1e4, hydrogen.HIGHEST_PRESSURE_PA)
_TEMPERATURE = between(230.0, 400.0)
_HEAT_CAPACITY = between(0, 1e8)
_CONDUCTANCE = between(0, 1e6)
_FILL_TIME = between(1.0, 366 * 86400.0)


@dataclass(frozen=True)
class FillingPoint:
    """One moment of a filling."""

    time_s: float
    pressure_pa: float
    gas_temperature_k: float
    wall_temperature_k: float


@dataclass(frozen=True)
class Filling:
    """
    What a filling came to.

    Attributes
    ----------
    peak_temperature_k : float
        Warmest gas on the way.
    end_temperature_k, end_wall_temperature_k, end_pressure_pa : float
        When the flow stops.
    mass_kg : float
        In the vessel when the flow stops.
    settled_pressure_pa : float
        Absolute pressure once the gas has settled at 15 °C.
    time_s : float
        Until the flow stopped.
    heat_to_wall_j, heat_to_ambient_j : float
    points : tuple of FillingPoint
    """

    peak_temperature_k: float
    end_temperature_k: float
    end_wall_temperature_k: float
    end_pressure_pa: float
    mass_kg: float
    settled_pressure_pa: float
    time_s: float
    heat_to_wall_j: float
    heat_to_ambient_j: float
    points: tuple[FillingPoint, ...] = field(repr=False)

    def __str__(self) -> str:
        return say("ran.filled", temperature=with_mark(f"{self.peak_temperature_k - 273.15:.4g}"))


@calculation(volume_m3=_VOLUME, slenderness=between(0.5, 50.0))
def cylinder_surface(volume_m3: float, slenderness: float) -> float:
    """
    Inner surface of a cylinder with flat ends.

    Parameters
    ----------
    volume_m3 : float
        Water volume, 1 mL to 100 m3. [m3]
    slenderness : float
        Inner length over inner diameter, 0.5 to 50. [-]

    Returns
    -------
    float
        Surface, ends included. [m2]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    V = π/4·λ·D³, A = π(λ + 1/2)D²; real ends are rounded, a few parts in a hundred less [by-definition].
    """
    diameter = power(4 * volume_m3 / (PI * slenderness), 1 / 3)
    return PI * (slenderness + 1 / 2) * power(diameter, 2)


@calculation(
    opaque="adiabatic fill", initial_pressure_pa=_PRESSURE, initial_temperature_k=_TEMPERATURE,
    final_pressure_pa=_PRESSURE, supply_pressure_pa=_PRESSURE, supply_temperature_k=_TEMPERATURE,
)  # fmt: skip
def adiabatic_fill_temperature(
    initial_pressure_pa: float,
    initial_temperature_k: float,
    final_pressure_pa: float,
    supply_pressure_pa: float,
    supply_temperature_k: float,
) -> float:
    """
    Temperature of the gas in a vessel that was filled without loss of heat: the upper bound.

    Parameters
    ----------
    initial_pressure_pa : float
        Absolute pressure in the vessel before, 10 kPa to 100 MPa. [Pa]
    initial_temperature_k : float
        Temperature in the vessel before, 230 to 400. [K]
    final_pressure_pa : float
        Absolute pressure in the vessel after, at least that before. [Pa]
    supply_pressure_pa : float
        Absolute pressure of the supply, at least that in the vessel after. [Pa]
    supply_temperature_k : float
        Temperature of the supply, 230 to 400. [K]

    Returns
    -------
    float
        Temperature. [K]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, or the pressures do not rise from vessel to supply.

    Notes
    -----
    m₂u₂ = m₁u₁ + (m₂ − m₁)h of the real gas, whose root is the temperature; the volume falls out
    [uniform-flow, rigid vessel without heat].
    """
    _rising("adiabatic_fill_temperature", initial_pressure_pa, final_pressure_pa, supply_pressure_pa)
    if final_pressure_pa == initial_pressure_pa:
        return initial_temperature_k
    supplied = hydrogen.state_enthalpy(supply_pressure_pa, supply_temperature_k)
    before = hydrogen.state_density(initial_pressure_pa, initial_temperature_k)
    excess = before * (hydrogen.state_internal_energy(initial_pressure_pa, initial_temperature_k) - supplied)

    def unbalanced(temperature: float) -> float:
        after = hydrogen.state_density(final_pressure_pa, temperature)
        return after * (hydrogen.state_internal_energy(final_pressure_pa, temperature) - supplied) - excess

    return root_between(unbalanced, 200.0, 900.0)


@calculation(
    opaque="shared heat", volume_m3=_VOLUME, wall_heat_capacity_j_per_k=_HEAT_CAPACITY, initial_pressure_pa=_PRESSURE,
    initial_temperature_k=_TEMPERATURE, settled_pressure_pa=_PRESSURE, supply_pressure_pa=_PRESSURE,
    supply_temperature_k=_TEMPERATURE,
)  # fmt: skip
def shared_fill_temperature(
    volume_m3: float,
    wall_heat_capacity_j_per_k: float,
    initial_pressure_pa: float,
    initial_temperature_k: float,
    settled_pressure_pa: float,
    supply_pressure_pa: float,
    supply_temperature_k: float,
) -> float:
    """
    Temperature of gas and wall together after a filling at once, nothing lost to the ambient.

    Parameters
    ----------
    volume_m3 : float
        Water volume of the vessel. [m3]
    wall_heat_capacity_j_per_k : float
        Heat capacity of its wall. [J/K]
    initial_pressure_pa : float
        Absolute pressure in the vessel before. [Pa]
    initial_temperature_k : float
        Temperature of gas and wall before. [K]
    settled_pressure_pa : float
        Absolute pressure of the full vessel, settled at 15 °C: it says how much comes in. [Pa]
    supply_pressure_pa : float
        Absolute pressure of the supply. [Pa]
    supply_temperature_k : float
        Temperature of the supply. [K]

    Returns
    -------
    float
        Temperature. [K]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, or the full vessel holds less than before.

    Notes
    -----
    m₂u₂ + CT₂ = m₁u₁ + CT₁ + (m₂ − m₁)h of the real gas, whose root is the temperature
    [uniform-flow, rigid vessel with a wall].
    """
    before = hydrogen.state_density(initial_pressure_pa, initial_temperature_k)
    after = hydrogen.state_density(settled_pressure_pa, _SETTLED_K)
    if after < before:
        raise OutOfRange(
            "shared_fill_temperature", "settled_pressure_pa", settled_pressure_pa, range_said("no_less_gas")
        )
    supplied = hydrogen.state_enthalpy(supply_pressure_pa, supply_temperature_k)
    energy = volume_m3 * before * hydrogen.state_internal_energy(initial_pressure_pa, initial_temperature_k)
    energy += volume_m3 * (after - before) * supplied + wall_heat_capacity_j_per_k * initial_temperature_k

    def unbalanced(temperature: float) -> float:
        gas = volume_m3 * after * hydrogen.state_energy_of_density(after, temperature)
        return gas + wall_heat_capacity_j_per_k * temperature - energy

    return root_between(unbalanced, 200.0, 900.0)


@calculation(
    opaque="gas, wall and ambient", volume_m3=_VOLUME, wall_heat_capacity_j_per_k=_HEAT_CAPACITY,
    inner_conductance_w_per_k=_CONDUCTANCE, outer_conductance_w_per_k=_CONDUCTANCE, initial_pressure_pa=_PRESSURE,
    ambient_temperature_k=_TEMPERATURE, settled_pressure_pa=_PRESSURE, stop_pressure_pa=_PRESSURE,
    supply_pressure_pa=_PRESSURE, supply_temperature_k=_TEMPERATURE, fill_time_s=_FILL_TIME,
)  # fmt: skip
def gas_wall_fill(
    volume_m3: float,
    wall_heat_capacity_j_per_k: float,
    inner_conductance_w_per_k: float,
    outer_conductance_w_per_k: float,
    initial_pressure_pa: float,
    ambient_temperature_k: float,
    settled_pressure_pa: float,
    stop_pressure_pa: float,
    supply_pressure_pa: float,
    supply_temperature_k: float,
    fill_time_s: float,
) -> Filling:
    """
    A vessel filled at a steady rate while its gas warms the wall and the wall the ambient.

    The flow is that which brings the full mass in the fill time. It stops when the mass is there, or before,
    when the gauge reads the pressure to stop at.

    Parameters
    ----------
    volume_m3 : float
        Water volume of the vessel. [m3]
    wall_heat_capacity_j_per_k : float
        Heat capacity of the part of the wall that takes part. [J/K]
    inner_conductance_w_per_k : float
        Heat from gas to wall for each kelvin, whole surface. [W/K]
    outer_conductance_w_per_k : float
        Heat from wall to ambient for each kelvin, whole surface. [W/K]
    initial_pressure_pa : float
        Absolute pressure in the vessel before. [Pa]
    ambient_temperature_k : float
        Of the ambient, and of gas and wall before. [K]
    settled_pressure_pa : float
        Absolute pressure of the full vessel, settled at 15 °C: it says how much comes in. [Pa]
    stop_pressure_pa : float
        Absolute pressure at which the flow is stopped even if the mass is not there yet. [Pa]
    supply_pressure_pa : float
        Absolute pressure of the supply. [Pa]
    supply_temperature_k : float
        Temperature of the supply. [K]
    fill_time_s : float
        Time for the full mass, 1 s to a year. [s]

    Returns
    -------
    Filling
        Temperatures, pressures, masses, and the points for plots.

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, or the vessel is full before.

    Notes
    -----
    Energy balances of gas and of a wall of one temperature [uniform-flow, rigid vessel with a wall], integrated by a
    diagonally implicit method of the second order that stays quiet however fast the gas follows the wall
    [alexander-1977, two stages].
    """
    before = hydrogen.state_density(initial_pressure_pa, ambient_temperature_k)
    after = hydrogen.state_density(settled_pressure_pa, _SETTLED_K)
    if after <= before:
        raise OutOfRange("gas_wall_fill", "settled_pressure_pa", settled_pressure_pa, range_said("more_gas"))
    if stop_pressure_pa <= initial_pressure_pa:
        raise OutOfRange(
            "gas_wall_fill", "stop_pressure_pa", stop_pressure_pa, range_said("above", limit=initial_pressure_pa)
        )
    vessel = _Vessel(
        volume_m3, wall_heat_capacity_j_per_k, inner_conductance_w_per_k, outer_conductance_w_per_k,
        ambient_temperature_k, hydrogen.state_enthalpy(supply_pressure_pa, supply_temperature_k),
        volume_m3 * (after - before) / fill_time_s,
    )  # fmt: skip
    return vessel.fill(before, after, stop_pressure_pa)


_GAMMA = 1 - 1 / math.sqrt(2)
_HEAT_CAPACITY_AT_FIRST = 10300.0  # J/(kg K), hydrogen's at constant volume near 300 K; the steps then find their own


@dataclass
class _Vessel:
    """Gas and wall on the way; energies change as time goes on."""

    volume: float
    wall_capacity: float
    inner: float
    outer: float
    ambient: float
    supplied: float
    flow: float

    def fill(self, before: float, after: float, stop_pressure: float) -> Filling:
        self.mass = self.volume * before
        self.gas = self.wall = self.peak = self.ambient
        self.energy = self.mass * hydrogen.state_energy_of_density(before, self.ambient)
        self.time = self.to_wall = self.to_ambient = 0.0
        full = self.volume * after
        pressure = hydrogen.state_pressure(before, self.ambient)
        self.points = [FillingPoint(0.0, pressure, self.gas, self.wall)]
        longest = (full - self.mass) / 60
        stopped = False
        while self.mass < full * (1 - 1e-12) and not stopped:
            # Small against what is there at first, when a little gas warms a lot.
            added = min(0.08 * self.mass, longest, full - self.mass)
            start = self._state()
            at_start = pressure
            pressure = self._step(added)
            stopped = pressure >= stop_pressure
            if pressure > stop_pressure:
                pressure = self._stop_within(start, added, at_start, stop_pressure)
            self.peak = max(self.peak, self.gas)
            self.points.append(FillingPoint(self.time, pressure, self.gas, self.wall))
        settled = hydrogen.state_pressure(self.mass / self.volume, _SETTLED_K)
        return Filling(
            self.peak, self.gas, self.wall, pressure, self.mass, settled, self.time, self.to_wall, self.to_ambient,
            tuple(self.points),
        )  # fmt: skip

    def _state(self) -> tuple[float, ...]:
        return self.mass, self.gas, self.wall, self.energy, self.time, self.to_wall, self.to_ambient

    def _restore(self, state: tuple[float, ...]) -> None:
        self.mass, self.gas, self.wall, self.energy, self.time, self.to_wall, self.to_ambient = state

    def _stop_within(self, start: tuple[float, ...], added: float, at_start: float, stop_pressure: float) -> float:
        """Take the last step only as far as the pressure to stop at."""

        def beyond(share: float) -> float:
            if share == 0.0:
                return at_start - stop_pressure
            self._restore(start)
            return self._step(share * added) - stop_pressure

        share = root_between(beyond, 0.0, 1.0, 1e-10)
        self._restore(start)
        return self._step(share * added) if share > 0 else at_start

    def _step(self, added: float) -> float:
        """Bring in a little mass in the time that it takes; the pressure after."""
        time = added / self.flow
        weight = _GAMMA * time
        wall_before = self.wall
        first_gas, first_wall = self._balance(self.mass + _GAMMA * added, self.energy, self.wall, weight)
        first_in, first_out = self._heat(first_gas, first_wall)
        rest = (1 - _GAMMA) * time
        energy = self.energy + rest * (self.flow * self.supplied - first_in)
        wall = self._warmed(wall_before, rest * (first_in - first_out))
        self.gas, self.wall = self._balance(self.mass + added, energy, wall, weight)
        last_in, last_out = self._heat(self.gas, self.wall)
        self.mass += added
        self.energy = energy + weight * (self.flow * self.supplied - last_in)
        self.to_wall += rest * first_in + weight * last_in
        self.to_ambient += rest * first_out + weight * last_out
        self.time += time
        return hydrogen.state_pressure(self.mass / self.volume, self.gas)

    def _heat(self, gas: float, wall: float) -> tuple[float, float]:
        """Heat from gas to wall and from wall to ambient. A wall without heat capacity passes on what it gets."""
        to_wall = self.inner * (gas - wall)
        return to_wall, (self.outer * (wall - self.ambient) if self.wall_capacity > 0 else to_wall)

    def _warmed(self, wall: float, heat: float) -> float:
        return wall + heat / self.wall_capacity if self.wall_capacity > 0 else wall

    def _balance(self, mass: float, energy: float, wall: float, weight: float) -> tuple[float, float]:
        """Gas and wall after an implicit stage: Newton on the energy of the gas, the wall following from it."""
        density = mass / self.volume
        brought = energy + weight * self.flow * self.supplied
        through = self.wall_capacity + weight * (self.inner + self.outer)
        coupling = weight * self.inner * (1 - (weight * self.inner / through if through > 0 else 0.0))
        gas, heat_capacity, known = self.gas, _HEAT_CAPACITY_AT_FIRST, (0.0, 0.0)
        for _ in range(30):
            wall_now = self._wall_beside(gas, wall, weight, through)
            energy_now = hydrogen.state_energy_of_density(density, gas)
            if known[0] > 0 and abs(gas - known[0]) > 1e-3:
                heat_capacity = (energy_now - known[1]) / (gas - known[0])
            known = gas, energy_now
            missing = brought - weight * self.inner * (gas - wall_now) - mass * energy_now
            change = missing / (mass * heat_capacity + coupling)
            gas = min(max(gas + change, hydrogen.LOWEST_TEMPERATURE_K), hydrogen.HIGHEST_TEMPERATURE_K)
            if abs(change) < 1e-9 * gas:
                break
        return gas, self._wall_beside(gas, wall, weight, through)

    def _wall_beside(self, gas: float, wall: float, weight: float, through: float) -> float:
        """Temperature of the wall after an implicit stage beside gas of a temperature."""
        if through == 0:
            return wall
        return (self.wall_capacity * wall + weight * (self.inner * gas + self.outer * self.ambient)) / through


@calculation(
    opaque="shortest fill time", volume_m3=_VOLUME, wall_heat_capacity_j_per_k=_HEAT_CAPACITY,
    inner_conductance_w_per_k=_CONDUCTANCE, outer_conductance_w_per_k=_CONDUCTANCE, initial_pressure_pa=_PRESSURE,
    ambient_temperature_k=_TEMPERATURE, settled_pressure_pa=_PRESSURE, supply_pressure_pa=_PRESSURE,
    supply_temperature_k=_TEMPERATURE, limit_temperature_k=_TEMPERATURE,
)  # fmt: skip
def shortest_fill_time(
    volume_m3: float,
    wall_heat_capacity_j_per_k: float,
    inner_conductance_w_per_k: float,
    outer_conductance_w_per_k: float,
    initial_pressure_pa: float,
    ambient_temperature_k: float,
    settled_pressure_pa: float,
    supply_pressure_pa: float,
    supply_temperature_k: float,
    limit_temperature_k: float,
) -> float:
    """
    Shortest time for a filling whose gas stays below a temperature.

    Parameters
    ----------
    volume_m3 : float
        Water volume of the vessel. [m3]
    wall_heat_capacity_j_per_k : float
        Heat capacity of the part of the wall that takes part. [J/K]
    inner_conductance_w_per_k : float
        Heat from gas to wall for each kelvin, whole surface. [W/K]
    outer_conductance_w_per_k : float
        Heat from wall to ambient for each kelvin, whole surface. [W/K]
    initial_pressure_pa : float
        Absolute pressure in the vessel before. [Pa]
    ambient_temperature_k : float
        Of the ambient, and of gas and wall before. [K]
    settled_pressure_pa : float
        Absolute pressure of the full vessel, settled at 15 °C. [Pa]
    supply_pressure_pa : float
        Absolute pressure of the supply. [Pa]
    supply_temperature_k : float
        Temperature of the supply. [K]
    limit_temperature_k : float
        Temperature that the gas is to stay below, above that of the ambient. [K]

    Returns
    -------
    float
        Time, 1 s where even that is long enough. [s]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, or no fill of a month stays below the limit.

    Notes
    -----
    Root over the fill time of the warmest gas in the model of gas, wall and ambient
    [uniform-flow, rigid vessel with a wall].
    """

    def above_limit(logarithm: float) -> float:
        filled = gas_wall_fill(
            volume_m3, wall_heat_capacity_j_per_k, inner_conductance_w_per_k, outer_conductance_w_per_k,
            initial_pressure_pa, ambient_temperature_k, settled_pressure_pa, hydrogen.HIGHEST_PRESSURE_PA,
            supply_pressure_pa, supply_temperature_k, math.exp(logarithm),
        )  # fmt: skip
        return filled.peak_temperature_k - limit_temperature_k

    longest = math.log(30 * 86400.0)
    if above_limit(0.0) <= 0:
        return 1.0
    if above_limit(longest) > 0:
        raise OutOfRange(
            "shortest_fill_time", "limit_temperature_k", limit_temperature_k,
            range_said("fill_of_a_month"),
        )  # fmt: skip
    return math.exp(root_between(above_limit, 0.0, longest, 1e-7))


def _rising(calculation: str, initial: float, final: float, supply: float) -> None:
    if final < initial:
        raise OutOfRange(calculation, "final_pressure_pa", final, range_said("least_before", limit=initial))
    if supply < final:
        raise OutOfRange(calculation, "supply_pressure_pa", supply, range_said("least_after", limit=final))
