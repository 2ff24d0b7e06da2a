"""
A run: the plant followed through time, from an empty bank to a full one.

The stack fills the buffer. While the bank lies below the buffer, gas flows through the standing booster as through an
open pipe. At cut-out the switch starts the booster; it draws the buffer down, less what the stack brings meanwhile,
and stops at cut-in, or runs on where it finds a balance above it. The bank climbs, the booster slows towards its stall.

The state is two masses, and whatever leaves one enters the other, so mass is kept to the last digit. Between two events
the masses follow a smooth law, integrated with an embedded pair of the third and second order [bogacki-shampine-1989];
events are found on the cubic through the ends of a step.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, field

from macros.calculations import hydrogen
from macros.calculations.contract import OutOfRange, above, between, calculation, points, range_said
from macros.calculations.isotherm import Isotherm, isotherm
from macros.calculations.roots import root_between
from macros.calculations.strokes import Piston
from macros.quantities import say
from macros.quantities.languages import with_mark

__all__ = ["FillRun", "RunPoint", "fill_run"]

_PRESSURE = between(1e3, hydrogen.HIGHEST_PRESSURE_PA)
_LONGEST_S = 10 * 366 * 86400.0
_MOST_STEPS = 200_000
_JOINT_POINTS = 24


@dataclass(frozen=True)
class RunPoint:
    """
    One moment of a run.

    Attributes
    ----------
    time_s : float
        Since the start.
    buffer_pressure_pa, bank_pressure_pa : float
        Absolute.
    booster_flow_kg_per_s, stroke_rate_per_s, drive_air_m3_per_s : float
        What the booster moves and takes; 0 while it stands.
    power_w : float
        Electric power of stack and drive-air compressor, that of the compressor spread over the strokes.
    energy_j : float
        Electricity used since the start.
    discharge_temperature_k : float
        Of the gas that the booster delivers, by the polytropic index.
    """

    time_s: float
    buffer_pressure_pa: float
    bank_pressure_pa: float
    booster_flow_kg_per_s: float
    stroke_rate_per_s: float
    drive_air_m3_per_s: float
    power_w: float
    energy_j: float
    discharge_temperature_k: float


@dataclass(frozen=True)
class FillRun:
    """
    What a run came to.

    Attributes
    ----------
    outcome : str
        `full`; `stalled`: the booster stands before the bank is full; `overrun`: the stack makes more than the
        booster takes, the buffer climbs to its trip; `unfinished`: not full after ten years.
    time_s : float
    starts : float
        How often the switch started the booster.
    free_mass_kg, boosted_mass_kg : float
        What the bank took without a stroke, and with strokes.
    strokes, drive_air_m3 : float
    stack_energy_j, compressor_energy_j : float
    mass_residual : float
        Mass found at the end less mass at the start and mass made, over the mass found.
    points : tuple of RunPoint
    """

    outcome: str
    time_s: float
    starts: float
    free_mass_kg: float
    boosted_mass_kg: float
    strokes: float
    drive_air_m3: float
    stack_energy_j: float
    compressor_energy_j: float
    mass_residual: float
    points: tuple[RunPoint, ...] = field(repr=False)

    @property
    def bank_mass_gained_kg(self) -> float:
        """All that the bank took. [kg]"""
        return self.free_mass_kg + self.boosted_mass_kg

    def __str__(self) -> str:
        return say("ran.ended", outcome=self.outcome, hours=with_mark(f"{self.time_s / 3600:.4g}"))


@calculation(
    opaque="fill run",
    buffer_volume_m3=above(0, 100.0), train_volume_m3=between(0, 100.0), bank_volume_m3=above(0, 1e3),
    buffer_start_pa=_PRESSURE, bank_start_pa=_PRESSURE, bank_full_pa=_PRESSURE, cut_in_pa=_PRESSURE,
    cut_out_pa=_PRESSURE, trip_pa=_PRESSURE, cracking_difference_pa=between(0, 9e4),
    temperature_k=between(200.0, 400.0),
    stack_flow_kg_per_s=between(1e-9, 1.0), stack_power_w=between(0, 1e8), swept_volume_m3=between(1e-9, 0.1),
    faces=between(1, 2), clearance=between(0, 1.0), free_stroke_rate_per_s=above(0, 50.0), area_ratio=above(0, 500.0),
    assisting_area_ratio=between(0, 10.0), drive_pressure_pa=between(1e4, 2e6), atmosphere_pa=between(3e4, 1.2e5),
    free_air_of_stroke_m3=between(0, 10.0), electricity_j_per_m3=between(0, 1e8), polytropic_index=between(1.0, 1.67),
    rate_curve=points(),
)  # fmt: skip
def fill_run(
    buffer_volume_m3: float,
    train_volume_m3: float,
    bank_volume_m3: float,
    buffer_start_pa: float,
    bank_start_pa: float,
    bank_full_pa: float,
    cut_in_pa: float,
    cut_out_pa: float,
    trip_pa: float,
    cracking_difference_pa: float,
    temperature_k: float,
    stack_flow_kg_per_s: float,
    stack_power_w: float,
    swept_volume_m3: float,
    faces: float,
    clearance: float,
    free_stroke_rate_per_s: float,
    area_ratio: float,
    assisting_area_ratio: float,
    drive_pressure_pa: float,
    atmosphere_pa: float,
    free_air_of_stroke_m3: float,
    electricity_j_per_m3: float,
    polytropic_index: float,
    rate_curve: Sequence[tuple[float, float]] | None = None,
) -> FillRun:
    """
    The plant filling a bank, from its start pressure to full.

    Parameters
    ----------
    buffer_volume_m3 : float
        Water volume of the buffer. [m3]
    train_volume_m3 : float
        Volume of the gas train that rides on the buffer; 0 where a non-return valve parts them. [m3]
    bank_volume_m3 : float
        Water volume of the bank. [m3]
    buffer_start_pa : float
        Absolute pressure of the buffer when the bank is opened to it. [Pa]
    bank_start_pa : float
        Absolute pressure of the bank then. [Pa]
    bank_full_pa : float
        Absolute pressure of the full bank, settled at the temperature of the run. [Pa]
    cut_in_pa : float
        Absolute pressure of the buffer at which the booster stops, below cut-out. [Pa]
    cut_out_pa : float
        Absolute pressure of the buffer at which the booster starts, below the trip. [Pa]
    trip_pa : float
        Absolute pressure of the buffer at which the plant trips. [Pa]
    cracking_difference_pa : float
        Differences at which the check valves of the booster open, added up. [Pa]
    temperature_k : float
        Temperature of all gas, 200 to 400. [K]
    stack_flow_kg_per_s : float
        What the stack makes, steadily. [kg/s]
    stack_power_w : float
        Electric power for that. [W]
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
        Absolute pressure of the drive air, at least that of the atmosphere. [Pa]
    atmosphere_pa : float
        Atmospheric pressure. [Pa]
    free_air_of_stroke_m3 : float
        Free air of a stroke, the way back counted. [m3]
    electricity_j_per_m3 : float
        Electricity of the compressor for a cubic metre of free air. [J/m3]
    polytropic_index : float
        Index of the compression, for the discharge temperature. [-]
    rate_curve : sequence of (float, float), optional
        Share of the free stroke rate measured by share of the stall; without, a straight line is assumed. [-]

    Returns
    -------
    FillRun
        Times, masses, energies, and the points for plots.

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, the switch has no swing, the trip lies below cut-out, or
        the bank asks for a back pressure outside a measured table.

    Notes
    -----
    Mass balance of buffer and bank [mass-balance] with the booster's flow by swept volume, clearance and stroke rate
    [clearance-volume, mass drawn in a stroke].
    """
    for name, low, high in (
        ("cut_in_pa", cut_in_pa, cut_out_pa),
        ("cut_out_pa", cut_out_pa, trip_pa),
        ("buffer_start_pa", buffer_start_pa, trip_pa),
        ("atmosphere_pa", atmosphere_pa, drive_pressure_pa),
        ("cracking_difference_pa", cracking_difference_pa, cut_in_pa),
    ):
        if not low < high:
            raise OutOfRange("fill_run", name, low, range_said("below", limit=high))
    piston = Piston(
        swept_volume_m3, faces, clearance, free_stroke_rate_per_s, area_ratio, assisting_area_ratio, drive_pressure_pa,
        atmosphere_pa, rate_curve,
    )  # fmt: skip
    highest = max(trip_pa, bank_full_pa, bank_start_pa)
    densest = hydrogen.state_density(highest, temperature_k)
    plant = _Plant(
        isotherm(temperature_k, 1.001 * densest), piston, buffer_volume_m3 + train_volume_m3, bank_volume_m3,
        cracking_difference_pa, stack_flow_kg_per_s, stack_power_w, free_air_of_stroke_m3, electricity_j_per_m3,
        polytropic_index,
    )  # fmt: skip
    return plant.fill(buffer_start_pa, bank_start_pa, bank_full_pa, cut_in_pa, cut_out_pa, trip_pa)


@dataclass
class _Plant:
    """Buffer, bank, booster and stack in motion; masses and totals change as time goes on."""

    gas: Isotherm
    piston: Piston
    buffer_volume: float
    bank_volume: float
    cracking: float
    stack_flow: float
    stack_power: float
    air_of_stroke: float
    electricity: float
    index: float

    def fill(
        self, buffer_start: float, bank_start: float, full: float, cut_in: float, cut_out: float, trip: float
    ) -> FillRun:
        self.time = self.starts = self.free = self.boosted = self.strokes = 0.0
        self.buffer = at_start_buffer = self.buffer_volume * self.gas.density(buffer_start)
        self.bank = at_start_bank = self.bank_volume * self.gas.density(bank_start)
        self.full_mass = self.bank_volume * self.gas.density(full)
        self.in_mass = self.buffer_volume * self.gas.density(cut_in)
        self.out_mass = self.buffer_volume * self.gas.density(cut_out)
        self.trip_mass = self.buffer_volume * self.gas.density(trip)
        self.points: list[RunPoint] = []
        self._note()
        outcome = ""
        if self.bank >= self.full_mass:
            outcome = "full"
        while not outcome:
            outcome = self._wait(cut_out) or self._boost()
        found = self.buffer + self.bank
        made = at_start_buffer + at_start_bank + self.stack_flow * self.time
        air = self.strokes * self.air_of_stroke
        return FillRun(
            outcome, self.time, self.starts, self.free, self.boosted, self.strokes, air, self.stack_power * self.time,
            air * self.electricity, (found - made) / found, tuple(self.points),
        )  # fmt: skip

    # The booster stands.

    def _wait(self, cut_out: float) -> str:
        """Until the switch starts the booster, or gas that flows by itself has filled the bank."""
        if self._level():
            self._note()
        if self.bank >= self.full_mass * (1 - 1e-12):
            return "full"
        if self.buffer < self.out_mass and self._open_at(self.buffer):
            self._rise_together(cut_out)
        elif self.buffer < self.out_mass:
            opens = self._buffer_that_opens()
            if opens < self.out_mass:
                self._rise_alone(opens)
                self._rise_together(cut_out)
            else:
                self._rise_alone(self.out_mass)
        if self.bank >= self.full_mass * (1 - 1e-12):
            return "full"
        return "unfinished" if self.time >= _LONGEST_S else ""

    def _open_at(self, buffer: float) -> bool:
        """Whether the buffer stands at the pressure at which the check valves pass gas on to the bank."""
        return buffer >= self._buffer_that_opens() * (1 - 1e-9)

    def _buffer_that_opens(self) -> float:
        return self.buffer_volume * self.gas.density(self.gas.pressure(self.bank / self.bank_volume) + self.cracking)

    def _level(self) -> bool:
        """Gas runs over at once where the buffer stands above the bank; whether any did."""
        difference = self._pressure_of_buffer() - self.gas.pressure(self.bank / self.bank_volume) - self.cracking
        if difference <= 1e-9 * self._pressure_of_buffer():
            return False

        def over(mass: float) -> float:
            buffer = self.gas.pressure((self.buffer - mass) / self.buffer_volume)
            return buffer - self.gas.pressure((self.bank + mass) / self.bank_volume) - self.cracking

        moved = min(root_between(over, 0.0, self.buffer), max(self.full_mass - self.bank, 0.0))
        self._move(moved)
        self.free += moved
        return True

    def _rise_alone(self, goal: float) -> None:
        """The stack fills the buffer, nothing leaves it."""
        self._pass((goal - self.buffer) / self.stack_flow, goal, self.bank)
        self._note()

    def _rise_together(self, cut_out: float) -> None:
        """The stack fills buffer and bank, joined by the open pipe, until cut-out or until the bank is full."""
        first = self._pressure_of_buffer()
        last = min(cut_out, self.gas.pressure(self.full_mass / self.bank_volume) + self.cracking)
        for step in range(1, _JOINT_POINTS + 1):
            pressure = first + (last - first) * step / _JOINT_POINTS
            buffer = self.buffer_volume * self.gas.density(pressure)
            bank = self.bank_volume * self.gas.density(pressure - self.cracking)
            self.free += bank - self.bank
            self._pass((buffer + bank - self.buffer - self.bank) / self.stack_flow, buffer, bank)
            self._note()

    # The booster runs.

    def _boost(self) -> str:
        """From the start of the booster to its stop at cut-in, or to the end of the run."""
        self.starts += 1
        longest = 0.25 * (self.out_mass - self.in_mass) / self.stack_flow
        tolerance = 1e-6 * (self.out_mass - self.in_mass)
        step = longest / 16
        bank_share = self.bank_volume / (self.bank_volume + self.buffer_volume)
        flow, rate = self._flow(self.buffer, self.bank)
        self._note((flow, rate))
        while True:
            if flow <= 0.0:
                return "stalled"
            if self.time >= _LONGEST_S or len(self.points) >= _MOST_STEPS:
                return "unfinished"
            if flow < bank_share * self.stack_flow and self._open_at(self.buffer):
                if event := self._rise_stroking(rate):
                    return event
                flow, rate = self._flow(self.buffer, self.bank)
                continue
            taken, moved, error, last_flow, strokes, last_rate = self._try(step, flow, rate)
            if error > tolerance and step > 1e-6 * longest:
                step *= max(0.2, 0.9 * (tolerance / error) ** (1 / 3))
                continue
            share, event = self._first_event(step, moved, flow, last_flow)
            if event:
                moved = _cubic(share, 0.0, moved, flow * step, last_flow * step)
                strokes = _cubic(share, 0.0, strokes, rate * step, last_rate * step)
                taken = share * step
            self._pass(taken, self.buffer + self.stack_flow * taken - moved, self.bank + moved)
            self.boosted += moved
            self.strokes += strokes
            self._level()
            if event:
                self._note()
                return "" if event == "cut-in" else event
            flow, rate = self._flow(self.buffer, self.bank)
            self._note((flow, rate))
            step = min(longest, step * min(4.0, 0.9 * (tolerance / max(error, 1e-30)) ** (1 / 3)))

    def _rise_stroking(self, rate: float) -> str:
        """A little of the way on which the stack brings more than the booster takes, which then is an open pipe."""
        first = self._pressure_of_buffer()
        trip = self.gas.pressure(self.trip_mass / self.buffer_volume)
        full = self.gas.pressure(self.full_mass / self.bank_volume) + self.cracking
        last = min(trip, full, first * (1 + 1 / _JOINT_POINTS))
        buffer = self.buffer_volume * self.gas.density(last)
        bank = self.bank_volume * self.gas.density(last - self.cracking)
        taken = (buffer + bank - self.buffer - self.bank) / self.stack_flow
        self.free += bank - self.bank
        self._pass(taken, buffer, bank)
        running = self._flow(buffer, bank)
        self.strokes += taken * (rate + running[1]) / 2
        self._note(running)
        return "full" if last == full else "overrun" if last == trip else ""

    def _flow(self, buffer: float, bank: float) -> tuple[float, float]:
        """Mass flow and stroke rate of the running booster."""
        inlet, outlet = buffer / self.buffer_volume, bank / self.bank_volume
        rate = self.piston.rate(self.gas.pressure(inlet), self.gas.pressure(outlet))
        return rate * self.piston.drawn(inlet, outlet), rate

    def _try(self, step: float, flow: float, rate: float) -> tuple[float, float, float, float, float, float]:
        """One step of the embedded pair: time, mass moved and its error, last flow, strokes, last rate."""

        def at(time: float, moved: float) -> tuple[float, float]:
            return self._flow(self.buffer + self.stack_flow * time - moved, self.bank + moved)

        second, second_rate = at(step / 2, step * flow / 2)
        third, third_rate = at(3 * step / 4, 3 * step * second / 4)
        moved = step * (2 * flow + 3 * second + 4 * third) / 9
        last, last_rate = at(step, moved)
        lower = step * (7 * flow / 24 + second / 4 + third / 3 + last / 8)
        strokes = step * (2 * rate + 3 * second_rate + 4 * third_rate) / 9
        return step, moved, abs(moved - lower), last, strokes, last_rate

    def _first_event(self, step: float, moved: float, flow: float, last_flow: float) -> tuple[float, str]:
        """The first event within a step, as a share of it, with its name; nothing where there is none."""

        def gone(share: float) -> float:
            return _cubic(share, 0.0, moved, flow * step, last_flow * step)

        def buffer(share: float) -> float:
            return self.buffer + self.stack_flow * share * step - gone(share)

        def below_cut_in(share: float) -> float:
            return self.in_mass - buffer(share)

        def above_trip(share: float) -> float:
            return buffer(share) - self.trip_mass

        def above_full(share: float) -> float:
            return self.bank + gone(share) - self.full_mass

        found = (1.0, "")
        for name, beyond in (("cut-in", below_cut_in), ("overrun", above_trip), ("full", above_full)):
            if beyond(1.0) >= 0:
                share = root_between(beyond, 0.0, 1.0, 1e-14) if beyond(0.0) < 0 else 0.0
                if share <= found[0]:
                    found = (share, name)
        return found

    # Both.

    def _pressure_of_buffer(self) -> float:
        return self.gas.pressure(self.buffer / self.buffer_volume)

    def _pass(self, time: float, buffer: float, bank: float) -> None:
        self.time += time
        self.buffer, self.bank = buffer, bank

    def _move(self, mass: float) -> None:
        self.buffer -= mass
        self.bank += mass

    def _note(self, running: tuple[float, float] | None = None) -> None:
        """A point for the plots; mass flow and stroke rate where the booster runs."""
        inlet, outlet = self._pressure_of_buffer(), self.gas.pressure(self.bank / self.bank_volume)
        flow, rate = running or (0.0, 0.0)
        warmed = math.pow(max(1.0, outlet / inlet), (self.index - 1) / self.index) if running else 1.0
        air = rate * self.air_of_stroke
        energy = self.stack_power * self.time + self.strokes * self.air_of_stroke * self.electricity
        self.points.append(
            RunPoint(
                self.time,
                inlet,
                outlet,
                flow,
                rate,
                air,
                self.stack_power + air * self.electricity,
                energy,
                self.gas.temperature_k * warmed,
            )
        )


def _cubic(share: float, start: float, end: float, start_slope: float, end_slope: float) -> float:
    """Hermite's cubic through the ends of a step, slopes in the measure of the step."""
    rest = 1 - share
    return (
        start * rest * rest * (1 + 2 * share)
        + end * share * share * (3 - 2 * share)
        + start_slope * share * rest * rest
        - end_slope * share * share * rest
    )
