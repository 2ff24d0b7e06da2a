"""`plant.yml`: what the plant is, part by part."""

from __future__ import annotations

from typing import Literal

from macros.description.fields import MONTH, NAME, TABLE, TAG, Default, Part, Points, curve, field, measure, measures
from macros.quantities import Quantity

Status = Literal["draft", "published", "built", "withdrawn"]
Regime = Literal["transportable", "fixed", "undecided"]
Drive = Literal["current", "holding_current", "booster_air", "compressor", "pump", "heater", "fan", "detectors"]
"""What may run or stand still: what procedures start and stop, and trips stop."""


class Site(Part):
    """Where the plant stands, and the weather that it must bear."""

    place: str = field()
    country: str = field(pattern=r"^[A-Z]{2}$")
    altitude: Quantity = measure("length", symbol="h", low="-430 m", high="5000 m")
    atmosphere: Quantity | None = measure(
        "absolute_pressure",
        symbol="p_atm",
        low="50 kPa(a)",
        high="110 kPa(a)",
        optional=True,
    )
    coldest: Quantity = measure("temperature", symbol="T_cold", low="-60 °C", high="40 °C")
    usual: Quantity = measure("temperature", symbol="T_amb", low="-30 °C", high="45 °C")
    hottest: Quantity = measure("temperature", symbol="T_hot", low="0 °C", high="65 °C")


class Opening(Part):
    """A ventilation opening of a room."""

    area: Quantity = measure("area", symbol="A_o", low="1 cm2", high="10 m2")
    height: Quantity = measure("length", symbol="z", low="0 m", high="10 m")


class Room(Part):
    """A room, or a place outdoors, where parts of the plant stand."""

    title: str = field()
    outdoors: bool = field(False)
    floor_area: Quantity | None = measure("area", symbol="A_f", low="0.5 m2", high="500 m2", optional=True)
    height: Quantity | None = measure("length", symbol="h_r", low="1 m", high="10 m", optional=True)
    openings: list[Opening] = field([])
    fan_flow: Quantity | None = measure(
        "volume_flow",
        symbol="Q_fan",
        low="0 m3/h",
        high="20000 m3/h",
        optional=True,
    )
    pocket_height: Quantity | None = measure(
        "length",
        symbol="h_p",
        low="0 m",
        high="2 m",
        optional=True,
    )


class Cable(Part):
    """The cable between rectifier and stack, both conductors alike."""

    length: Quantity = measure("length", symbol="l", low="0.1 m", high="100 m")
    area: Quantity = measure("area", symbol="A_w", low="0.5 mm2", high="300 mm2")
    ampacity: Quantity = measure("current", symbol="I_z", low="1 A", high="1000 A")
    temperature: Quantity = measure(
        "temperature",
        symbol="T_w",
        low="0 °C",
        high="120 °C",
        default=Default("70 °C", "common-practice", "high"),
    )


class Power(Part):
    """Supply, rectifier, fuse, isolator, cable."""

    supply_voltage: Quantity = measure("voltage", symbol="U_s", low="12 V", high="690 V")
    power_factor: Quantity = measure(
        "ratio",
        symbol="λ",
        low="0.3",
        high="1",
        default=Default("0.95", "common-practice", "low"),
    )
    rectifier_efficiency: Quantity = measure("fraction", symbol="η_r", low="30 %", high="100 %", usual=("80 %", "97 %"))
    rectifier_voltage: Quantity = measure("voltage", symbol="U_r", low="1 V", high="600 V")
    rectifier_current: Quantity = measure("current", symbol="I_r", low="1 A", high="2000 A")
    fuse: Quantity = measure("current", symbol="I_n", low="1 A", high="2000 A")
    fuse_direct_current_voltage: Quantity = measure("voltage", symbol="U_f", low="12 V", high="1500 V")
    isolator: Quantity = measure("current", symbol="I_i", low="1 A", high="2000 A")
    isolator_voltage: Quantity = measure("voltage", symbol="U_i", low="12 V", high="1500 V")
    cable: Cable = field()
    drop_allowed: Quantity = measure(
        "fraction",
        symbol="δ",
        low="0.1 %",
        high="20 %",
        default=Default("3 %", "common-practice", "low"),
    )
    surplus: list[Quantity] | None = measures(
        "energy",
        symbol="E_s",
        low="0 kWh",
        high="10000 kWh",
        optional=True,
    )


class Stack(Part):
    """The electrolyser stack, a proton-exchange membrane between two sides."""

    technology: Literal["pem"] = field()
    cells: Quantity = measure("count", symbol="N", low="1", high="300")
    active_area: Quantity = measure("area", symbol="A_c", low="1 cm2", high="2000 cm2", usual=("5 cm2", "500 cm2"))
    membrane_thickness: Quantity = measure("length", symbol="d_m", low="5 µm", high="500 µm", usual=("50 µm", "200 µm"))
    thickness_state: Literal["dry", "wet"] = field()
    current: Quantity = measure("current", symbol="I", low="0.1 A", high="2000 A")
    temperature: Quantity = measure("temperature", symbol="T", low="5 °C", high="90 °C", usual=("20 °C", "80 °C"))
    temperature_trip: Quantity = measure("temperature", symbol="T_trip", low="20 °C", high="95 °C")
    polarisation: Points | None = curve(
        "current_density",
        "voltage",
        symbol="U(j)",
        optional=True,
    )
    cold_voltage_rise: Quantity = measure(
        "voltage",
        symbol="ΔU_cold",
        low="0 V",
        high="1 V",
        default=Default("0.25 V", "common-practice", "high"),
    )
    cell_voltage_trip: Quantity = measure("voltage", symbol="U_max", low="1.5 V", high="3 V")
    catalyst_efficiency: Quantity = measure(
        "fraction",
        symbol="η_c",
        low="0 %",
        high="99.9 %",
    )
    excess_factor: Quantity = measure(
        "ratio",
        symbol="f_x",
        low="0.5",
        high="20",
        default=Default("1.3", "common-practice", "high"),
    )
    permeability: Quantity | None = measure(
        "permeability",
        symbol="P_m",
        low="1e-16 mol/(m s Pa)",
        high="1e-12 mol/(m s Pa)",
        optional=True,
    )
    drag: Quantity = measure(
        "ratio",
        symbol="n_d",
        low="0",
        high="10",
        default=Default("3", "common-practice", "high"),
    )
    anode_pressure: Quantity = measure("pressure", symbol="p_an", low="0 bar(g)", high="50 bar(g)")
    pressure_rating: Quantity = measure("pressure", symbol="p_rated", low="0.1 bar(g)", high="200 bar(g)")
    anode_rating: Quantity = measure("pressure", symbol="p_rated_an", low="0.05 bar(g)", high="200 bar(g)")
    differential_allowed: Quantity = measure("pressure_difference", symbol="Δp_m", low="0 bar", high="200 bar")
    higher_side: Literal["cathode", "anode", "either"] = field()
    oxygen_volume: Quantity = measure(
        "volume",
        symbol="V_O2",
        low="10 mL",
        high="1000 L",
    )
    cathode_volume: Quantity = measure("volume", symbol="V_H2", low="1 mL", high="100 L")
    let_down_rate: Quantity = measure(
        "pressure_rate",
        symbol="r_p",
        low="0.01 bar/min",
        high="100 bar/min",
    )
    rest_pressure: Quantity = measure(
        "pressure",
        symbol="p_rest",
        low="0 bar(g)",
        high="5 bar(g)",
        usual=("0 bar(g)", "2 bar(g)"),
        default=Default("0.5 bar(g)", "common-practice", "low"),
    )
    hydrogen_in_oxygen_alarm: Quantity = measure(
        "fraction",
        symbol="x_alarm",
        low="0.1 %",
        high="4 %",
        usual=("0.4 %", "1 %"),
        default=Default("1 %", "common-practice", "low"),
    )
    hydrogen_in_oxygen_trip: Quantity = measure(
        "fraction",
        symbol="x_trip",
        low="0.1 %",
        high="4 %",
        usual=("0.8 %", "2 %"),
        default=Default("2 %", "common-practice", "low"),
    )
    heat_capacity: Quantity = measure("heat_capacity", symbol="C_s", low="0.1 kJ/K", high="10000 kJ/K")
    heat_loss: Quantity = measure("thermal_conductance", symbol="K_s", low="0 W/K", high="1000 W/K")
    heater: Quantity = measure("power", symbol="P_h", low="0 W", high="100 kW")
    replacement_life: Quantity | None = measure("time", symbol="t_s", low="100 h", high="200000 h", optional=True)


class Cooler(Part):
    """The water cooler, against ambient air."""

    conductance: Quantity = measure("thermal_conductance", symbol="UA", low="1 W/K", high="10000 W/K")
    air_flow: Quantity = measure("volume_flow", symbol="Q_air", low="1 m3/h", high="50000 m3/h")


class Deioniser(Part):
    """The mixed-bed deioniser."""

    resin: Quantity = measure("volume", symbol="V_r", low="10 mL", high="200 L")
    capacity: Quantity = measure(
        "exchange_capacity",
        symbol="q_r",
        low="0.05 eq/L",
        high="2 eq/L",
        default=Default("0.41 eq/L", "mixed-bed-note", "low"),
    )
    age_limit: Quantity = measure(
        "time",
        symbol="t_r",
        low="10 d",
        high="5 a",
        default=Default("1 a", "common-practice", "low"),
    )
    temperature_limit: Quantity = measure(
        "temperature",
        symbol="T_r",
        low="20 °C",
        high="100 °C",
        default=Default("60 °C", "common-practice", "low"),
    )


class Water(Part):
    """The water circuit."""

    flow: Quantity = measure("volume_flow", symbol="Q_w", low="1 mL/min", high="1000 L/min")
    pump_power: Quantity = measure("power", symbol="P_p", low="0.1 W", high="10 kW")
    cooler: Cooler = field()
    deioniser: Deioniser = field()
    reservoir: Quantity = measure("volume", symbol="V_w", low="0.1 L", high="5000 L")
    usable: Quantity = measure("volume", symbol="V_u", low="0.05 L", high="5000 L")
    feed_conductivity: Quantity = measure(
        "conductivity",
        symbol="κ",
        low="0.05 µS/cm",
        high="1000 µS/cm",
        usual=("0.05 µS/cm", "5 µS/cm"),
    )
    loop_conductivity_alarm: Quantity = measure("conductivity", symbol="κ_alarm", low="0.06 µS/cm", high="100 µS/cm")
    carbon_dioxide: Quantity = measure(
        "concentration",
        symbol="c_CO2",
        low="0 mol/m3",
        high="5 mol/m3",
        default=Default("0.014 mol/m3", "common-practice", "high"),
    )
    oxygen_outlet: Quantity = measure("temperature", symbol="T_O2", low="1 °C", high="90 °C")
    drains_return: Literal["degassing_pot", "waste"] = field()
    degassed_share: Quantity = measure(
        "fraction",
        symbol="η_d",
        low="0 %",
        high="100 %",
        default=Default("70 %", "common-practice", "low"),
    )
    drain_orifice: Quantity = measure("length", symbol="d_o", low="0.05 mm", high="20 mm")
    vent_bore: Quantity = measure("length", symbol="d_v", low="2 mm", high="200 mm")


class Stage(Part):
    """One stage of gas treatment, in the order of flow."""

    tag: str = field(pattern=f"^{TAG}$")
    kind: Literal["separator", "coalescer", "desiccant", "cold_coil"] = field()
    temperature: Quantity = measure("temperature", symbol="T_g", low="-60 °C", high="90 °C")
    carry_over: Quantity = measure(
        "fraction",
        symbol="x_c",
        low="0 %",
        high="50 %",
        usual=("0 %", "5 %"),
        default=Default("0.1 %", "common-practice", "high"),
    )
    bed_mass: Quantity | None = measure("mass", symbol="m_d", low="10 g", high="200 kg", optional=True)
    bed_diameter: Quantity | None = measure("length", symbol="D_d", low="10 mm", high="600 mm", optional=True)
    transfer_zone: Quantity | None = measure("fraction", symbol="z_m", low="0 %", high="90 %", optional=True)
    regeneration_temperature: Quantity | None = measure(
        "temperature",
        symbol="T_reg",
        low="60 °C",
        high="250 °C",
        usual=("110 °C", "150 °C"),
        optional=True,
    )
    regeneration_dew_point: Quantity | None = measure(
        "temperature",
        symbol="T_dp_reg",
        low="-60 °C",
        high="40 °C",
        optional=True,
    )
    column_heat_capacity: Quantity | None = measure(
        "heat_capacity", symbol="C_d", low="0 kJ/K", high="500 kJ/K", optional=True
    )
    regeneration_efficiency: Quantity | None = measure(
        "fraction",
        symbol="η_reg",
        low="5 %",
        high="100 %",
        optional=True,
    )
    coolant_temperature: Quantity | None = measure(
        "temperature", symbol="T_cool", low="-60 °C", high="30 °C", optional=True
    )
    coil_coefficient: Quantity | None = measure("ratio", symbol="U_c", low="1", high="5000", optional=True)


class Buffer(Part):
    """The buffer vessel and its pressure switch."""

    tag: str = field(pattern=f"^{TAG}$")
    volume: Quantity = measure("volume", symbol="V_b", low="0.1 L", high="5000 L")
    train_volume: Quantity = measure("volume", symbol="V_t", low="0 L", high="500 L")
    cut_in: Quantity = measure(
        "pressure",
        symbol="p_in",
        low="0.05 bar(g)",
        high="200 bar(g)",
    )
    cut_out: Quantity = measure(
        "pressure",
        symbol="p_out",
        low="0.1 bar(g)",
        high="200 bar(g)",
    )
    high_trip: Quantity = measure("pressure", symbol="p_trip", low="0.1 bar(g)", high="200 bar(g)")
    relief: str = field(pattern=f"^{TAG}$")
    temperature: Quantity = measure("temperature", symbol="T_b", low="-30 °C", high="65 °C")
    regime: Regime = field()
    allowable_pressure: Quantity = measure("pressure", symbol="PS_b", low="0.5 bar(g)", high="1000 bar(g)")
    cycle_life: Quantity | None = measure(
        "count",
        symbol="n_life",
        low="100",
        high="10000000",
        optional=True,
    )


class Booster(Part):
    """An air-driven piston booster."""

    tag: str = field(pattern=f"^{TAG}$")
    supply: str = field(pattern=f"^{NAME}$")
    target: str = field(pattern=f"^{NAME}$")
    ratio: Quantity = measure("ratio", symbol="r_a", low="1", high="400")
    assist_ratio: Quantity = measure("ratio", symbol="r_s", low="0", high="1.5")
    swept_volume: Quantity = measure("volume", symbol="V_s", low="1 mL", high="10 L")
    faces: Quantity = measure(
        "count", symbol="n_f",
        low="1", high="2",
    )  # fmt: skip
    return_share: Quantity = measure(
        "fraction", symbol="s_b", low="0 %", high="100 %",
        default=Default("100 %", "common-practice", "high"),
    )  # fmt: skip
    cracking: Quantity = measure(
        "pressure_difference", symbol="Δp_c", low="0 bar",
        high="0.9 bar", default=Default("0.2 bar", "common-practice", "high"),
    )  # fmt: skip
    clearance: Quantity = measure("fraction", symbol="c", low="0.5 %", high="50 %", usual=("3 %", "15 %"))
    stroke_rate: Quantity = measure("frequency", symbol="f_0", low="0.5 1/min", high="300 1/min")
    rate_curve: Points | None = curve(
        "fraction",
        "fraction",
        symbol="f(s)",
        optional=True,
    )
    drive_pressure: Quantity = measure("pressure", symbol="p_d", low="0.5 bar(g)", high="16 bar(g)")
    drive_pressure_highest: Quantity = measure(
        "pressure",
        symbol="p_d_max",
        low="0.5 bar(g)",
        high="20 bar(g)",
    )
    drive_rating: Quantity = measure("pressure", symbol="p_r_d_air", low="0.5 bar(g)", high="40 bar(g)")
    discharge_rating: Quantity = measure("pressure", symbol="p_r_d", low="1 bar(g)", high="2000 bar(g)")
    inlet_highest: Quantity = measure("pressure", symbol="p_r_i", low="0.5 bar(g)", high="1000 bar(g)")
    ratio_allowed: Quantity = measure("ratio", symbol="π_max", low="1.1", high="200")
    polytropic_index: Quantity = measure(
        "ratio",
        symbol="n_p",
        low="1",
        high="1.41",
        usual=("1.1", "1.3"),
        default=Default("1.2", "common-practice", "high"),
    )
    seal_temperature: Quantity = measure("temperature", symbol="T_seal", low="40 °C", high="250 °C")
    seal_life: Quantity | None = measure("count", symbol="n_seal", low="1000", high="1000000000", optional=True)


class Compressor(Part):
    """The compressor that makes the drive air."""

    free_air: Quantity = measure("normal_flow", symbol="Q_fad", low="1 NL/min", high="20000 NL/min")
    power: Quantity = measure("power", symbol="P_k", low="10 W", high="200 kW")
    duty_allowed: Quantity = measure("fraction", symbol="d_max", low="5 %", high="100 %")
    cut_in: Quantity = measure("pressure", symbol="p_k", low="1 bar(g)", high="20 bar(g)")
    dew_point: Quantity = measure("temperature", symbol="T_dp_air", low="-80 °C", high="40 °C")


class Bank(Part):
    """A bank of cylinders."""

    tag: str = field(pattern=f"^{TAG}$")
    room: str = field(pattern=f"^{NAME}$")
    cylinders: Quantity = measure("count", symbol="n", low="1", high="200")
    water_volume: Quantity = measure("volume", symbol="V_cyl", low="0.1 L", high="3000 L")
    fill_pressure: Quantity = measure(
        "pressure",
        symbol="p_fill",
        low="1 bar(g)",
        high="1000 bar(g)",
    )
    working_pressure: Quantity = measure("pressure", symbol="p_w", low="1 bar(g)", high="1000 bar(g)")
    test_pressure: Quantity = measure("pressure", symbol="p_t", low="1 bar(g)", high="1500 bar(g)")
    regime: Regime = field()
    approved_gas: str = field()
    cylinder_mass: Quantity = measure("mass", symbol="m_cyl", low="0.1 kg", high="5000 kg")
    cylinder_heat: Quantity = measure(
        "specific_heat",
        symbol="c_w",
        low="0.2 kJ/(kg K)",
        high="2 kJ/(kg K)",
        default=Default("0.47 kJ/(kg K)", "common-practice", "low"),
    )
    slenderness: Quantity = measure(
        "ratio", symbol="λ_c", low="1", high="30",
        usual=("3", "8"), default=Default("6", "common-practice", "either"),
    )  # fmt: skip
    inner_film: Quantity = measure(
        "heat_transfer_coefficient", symbol="α_i", low="1 W/(m2 K)",
        high="1000 W/(m2 K)", default=Default("30 W/(m2 K)", "common-practice", "low"),
    )  # fmt: skip
    outer_film: Quantity = measure(
        "heat_transfer_coefficient", symbol="α_o", low="1 W/(m2 K)",
        high="1000 W/(m2 K)", default=Default("6 W/(m2 K)", "common-practice", "low"),
    )  # fmt: skip
    material: Literal["steel", "aluminium", "composite"] = field()
    inspection_due: str = field(pattern=MONTH)


class Transfer(Part):
    """Gas passed from one bank into another, freely and then by a booster."""

    source: str = field(pattern=f"^{NAME}$")
    target: str = field(pattern=f"^{NAME}$")
    booster: Quantity | None = measure("count", symbol="i", low="1", high="20", optional=True)
    source_lowest: Quantity | None = measure(
        "pressure",
        symbol="p_low",
        low="0.5 bar(g)",
        high="1000 bar(g)",
        optional=True,
    )


class Use(Part):
    """A use of the gas."""

    kind: Literal["burner", "fuel_cell", "vehicle"] = field()
    title: str = field()
    tag: str = field(pattern=f"^{TAG}$")
    supply: list[str] = field()
    heat: Quantity | None = measure("power", symbol="P_b", low="10 W", high="1000 kW", optional=True)
    electric_power: Quantity | None = measure("power", symbol="P_fc", low="1 W", high="1000 kW", optional=True)
    efficiency: Quantity | None = measure(
        "fraction",
        symbol="η_fc",
        low="10 %",
        high="75 %",
        optional=True,
    )
    lowest_pressure: Quantity | None = measure(
        "pressure",
        symbol="p_min",
        low="0 bar(g)",
        high="100 bar(g)",
        optional=True,
    )
    tank_volume: Quantity | None = measure("volume", symbol="V_v", low="1 L", high="2000 L", optional=True)
    nominal_pressure: Quantity | None = measure(
        "pressure",
        symbol="NWP",
        low="10 bar(g)",
        high="1000 bar(g)",
        optional=True,
    )
    start_pressure: Quantity | None = measure(
        "pressure",
        symbol="p_start",
        low="0 bar(g)",
        high="1000 bar(g)",
        optional=True,
    )
    tank_mass: Quantity | None = measure("mass", symbol="m_v", low="1 kg", high="2000 kg", optional=True)
    tank_heat: Quantity = measure(
        "specific_heat",
        symbol="c_v",
        low="0.2 kJ/(kg K)",
        high="2 kJ/(kg K)",
        default=Default("0.5 kJ/(kg K)", "common-practice", "low"),
    )
    tank_conductance: Quantity = measure(
        "thermal_conductance",
        symbol="K_v",
        low="0.1 W/K",
        high="5000 W/K",
        default=Default("50 W/K", "common-practice", "low"),
    )
    tank_loss: Quantity = measure(
        "thermal_conductance",
        symbol="K_a",
        low="0 W/K",
        high="500 W/K",
        default=Default("5 W/K", "common-practice", "low"),
    )
    approved_gas: str | None = field(None)


class Demand(Part):
    """What is wanted of the plant in a usual year."""

    running_hours: Quantity = measure("time", symbol="t_y", low="1 h", high="8760 h")
    starts: Quantity = measure("count", symbol="n_y", low="1", high="20000")
    daily_energy: Quantity | None = measure(
        "energy_lower",
        symbol="E_d",
        low="0 kWh(lower)",
        high="10000 kWh(lower)",
        optional=True,
    )
    hourly: str | None = field(None, pattern=TABLE)


class Safety(Part):
    """How the plant is isolated, purged and tested."""

    isolation_pressure: Quantity = measure(
        "pressure",
        symbol="p_iso",
        low="0.5 bar(g)",
        high="100 bar(g)",
        usual=("1 bar(g)", "10 bar(g)"),
        default=Default("10 bar(g)", "common-practice", "low"),
    )
    purge_pressure: Quantity = measure(
        "pressure",
        symbol="p_sw",
        low="0.5 bar(g)",
        high="20 bar(g)",
    )
    oxygen_left: Quantity = measure(
        "fraction",
        symbol="x_O2",
        low="0.01 %",
        high="4 %",
        usual=("0.1 %", "1 %"),
        default=Default("1 %", "common-practice", "low"),
    )
    hydrogen_left: Quantity = measure(
        "fraction",
        symbol="x_H2",
        low="0.01 %",
        high="2 %",
        usual=("0.1 %", "1 %"),
        default=Default("1 %", "common-practice", "low"),
    )
    leak_test_pressure: Quantity = measure("pressure", symbol="p_lt", low="0.5 bar(g)", high="300 bar(g)")
    leak_test_time: Quantity = measure("time", symbol="t_lt", low="5 min", high="48 h", usual=("15 min", "24 h"))
    leak_allowed: Quantity = measure(
        "normal_flow",
        symbol="Q_a",
        low="0.01 NmL/min",
        high="1 NL/min",
        usual=("0.1 NmL/min", "20 NmL/min"),
        default=Default("5 NmL/min", "common-practice", "low"),
    )
    tube_stress: Quantity = measure(
        "pressure_difference",
        symbol="σ",
        low="1 MPa",
        high="400 MPa",
        usual=("80 MPa", "140 MPa"),
        default=Default("115 MPa", "asme-b31-3", "low"),
    )
    membrane_hole: Quantity = measure(
        "length",
        symbol="d_m",
        low="0.1 mm",
        high="20 mm",
        usual=("0.5 mm", "5 mm"),
        default=Default("1 mm", "common-practice", "high"),
    )


class Flush(Part):
    """The nitrogen that flushes the oxygen side of the stack once its current is lost."""

    tag: str = field(pattern=f"^{TAG}$")
    bottles: Quantity = measure("count", symbol="n_b", low="1", high="100")
    content: Quantity = measure(
        "normal_volume",
        symbol="V_N2",
        low="0.1 Nm3",
        high="1000 Nm3",
    )


class Trip(Part):
    """A cause, the limits at which it alarms and trips, and what then happens."""

    cause: Literal[
        "hydrogen_in_oxygen",
        "oxygen_in_hydrogen",
        "cell_voltage_spread",
        "pressure_high",
        "temperature_high",
        "level_low",
        "level_high",
        "water_flow_low",
        "gas_in_room",
        "fan_lost",
        "emergency_stop",
        "power_lost",
        "drive_air_lost",
    ] = field()
    sensor: str | None = field(None, pattern=f"^{TAG}$")
    alarm: str | None = field(None)
    trip: str | None = field(None)
    stops: list[Drive] = field([])
    shuts: list[str] = field([])
    opens: list[str] = field([])
    reset: Literal["by_hand", "by_itself"] = field()
    safe_state: str = field()


class PlantFile(Part):
    """A plant, part by part. A part that the plant lacks is left out, and its figures do not exist."""

    format: Literal[1] = field()
    title: str = field()
    status: Status = field()
    recall: str | None = field(None)
    summary: str = field()
    site: Site = field()
    rooms: dict[str, Room] = field(json_schema_extra={"keys": NAME})
    power: Power = field()
    stack: Stack = field()
    water: Water = field()
    drying: list[Stage] = field()
    buffer: Buffer | None = field(None)
    boosters: list[Booster] = field([])
    compressor: Compressor | None = field(None)
    banks: dict[str, Bank] = field({}, json_schema_extra={"keys": NAME})
    transfers: list[Transfer] = field([])
    uses: list[Use] = field([])
    demand: Demand = field()
    safety: Safety = field()
    flush: Flush | None = field(None)
    trips: list[Trip] = field([])
