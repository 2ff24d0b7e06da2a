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

    place: str = field("Name of the place")
    country: str = field("Country, two letters of ISO 3166-1", pattern=r"^[A-Z]{2}$")
    altitude: Quantity = measure("length", "Altitude above the sea", symbol="h", low="-430 m", high="5000 m")
    atmosphere: Quantity | None = measure(
        "absolute_pressure",
        "Atmospheric pressure, where it is measured",
        symbol="p_atm",
        low="50 kPa(a)",
        high="110 kPa(a)",
        optional=True,
    )
    coldest: Quantity = measure("temperature", "Coldest ambient", symbol="T_cold", low="-60 °C", high="40 °C")
    usual: Quantity = measure("temperature", "Usual ambient", symbol="T_amb", low="-30 °C", high="45 °C")
    hottest: Quantity = measure("temperature", "Hottest ambient", symbol="T_hot", low="0 °C", high="65 °C")


class Opening(Part):
    """A ventilation opening of a room."""

    area: Quantity = measure("area", "Free area of the opening", symbol="A_o", low="1 cm2", high="10 m2")
    height: Quantity = measure("length", "Height of its middle above the floor", symbol="z", low="0 m", high="10 m")


class Room(Part):
    """A room, or a place outdoors, where parts of the plant stand."""

    title: str = field("What it is called")
    outdoors: bool = field("Whether it lies in the open", False)
    floor_area: Quantity | None = measure(
        "area", "Floor area", symbol="A_f", low="0.5 m2", high="500 m2", optional=True
    )
    height: Quantity | None = measure(
        "length", "Height of the ceiling", symbol="h_r", low="1 m", high="10 m", optional=True
    )
    openings: list[Opening] = field("Ventilation openings, low and high", [])
    fan_flow: Quantity | None = measure(
        "volume_flow",
        "Flow of the fan that runs with the plant",
        symbol="Q_fan",
        low="0 m3/h",
        high="20000 m3/h",
        optional=True,
    )
    pocket_height: Quantity | None = measure(
        "length",
        "Depth of the highest pocket under the ceiling that the air does not sweep",
        symbol="h_p",
        low="0 m",
        high="2 m",
        optional=True,
    )


class Cable(Part):
    """The cable between rectifier and stack, both conductors alike."""

    length: Quantity = measure("length", "Length one way", symbol="l", low="0.1 m", high="100 m")
    area: Quantity = measure("area", "Conductor area", symbol="A_w", low="0.5 mm2", high="300 mm2")
    ampacity: Quantity = measure(
        "current", "Current it may carry as laid, from the local code", symbol="I_z", low="1 A", high="1000 A"
    )
    temperature: Quantity = measure(
        "temperature",
        "Conductor temperature in service",
        symbol="T_w",
        low="0 °C",
        high="120 °C",
        default=Default("70 °C", "common-practice", "high"),
    )


class Power(Part):
    """Supply, rectifier, fuse, isolator, cable."""

    supply_voltage: Quantity = measure(
        "voltage", "Supply voltage (alternating)", symbol="U_s", low="12 V", high="690 V"
    )
    power_factor: Quantity = measure(
        "ratio",
        "Power factor of the rectifier",
        symbol="λ",
        low="0.3",
        high="1",
        default=Default("0.95", "common-practice", "low"),
    )
    rectifier_efficiency: Quantity = measure(
        "fraction", "Efficiency of the rectifier", symbol="η_r", low="30 %", high="100 %", usual=("80 %", "97 %")
    )
    rectifier_voltage: Quantity = measure(
        "voltage", "Highest voltage of the rectifier", symbol="U_r", low="1 V", high="600 V"
    )
    rectifier_current: Quantity = measure(
        "current", "Highest current of the rectifier", symbol="I_r", low="1 A", high="2000 A"
    )
    fuse: Quantity = measure("current", "Rating of the fuse", symbol="I_n", low="1 A", high="2000 A")
    fuse_direct_current_voltage: Quantity = measure(
        "voltage", "Direct-current voltage rating of the fuse", symbol="U_f", low="12 V", high="1500 V"
    )
    isolator: Quantity = measure(
        "current", "Direct-current rating of the isolator", symbol="I_i", low="1 A", high="2000 A"
    )
    isolator_voltage: Quantity = measure(
        "voltage", "Direct-current voltage rating of the isolator", symbol="U_i", low="12 V", high="1500 V"
    )
    cable: Cable = field("Cable between rectifier and stack")
    drop_allowed: Quantity = measure(
        "fraction",
        "Voltage drop allowed over the cable",
        symbol="δ",
        low="0.1 %",
        high="20 %",
        default=Default("3 %", "common-practice", "low"),
    )
    surplus: list[Quantity] | None = measures(
        "energy",
        "Surplus solar energy of an average day, month by month from January",
        symbol="E_s",
        low="0 kWh",
        high="10000 kWh",
        optional=True,
    )


class Stack(Part):
    """The electrolyser stack, a proton-exchange membrane between two sides."""

    technology: Literal["pem"] = field("Kind of stack")
    cells: Quantity = measure("count", "Cells in series", symbol="N", low="1", high="300")
    active_area: Quantity = measure(
        "area", "Active area of one cell", symbol="A_c", low="1 cm2", high="2000 cm2", usual=("5 cm2", "500 cm2")
    )
    membrane_thickness: Quantity = measure(
        "length", "Membrane thickness", symbol="d_m", low="5 µm", high="500 µm", usual=("50 µm", "200 µm")
    )
    thickness_state: Literal["dry", "wet"] = field("State in which the thickness was measured")
    current: Quantity = measure("current", "Operating current", symbol="I", low="0.1 A", high="2000 A")
    temperature: Quantity = measure(
        "temperature", "Operating temperature", symbol="T", low="5 °C", high="90 °C", usual=("20 °C", "80 °C")
    )
    temperature_trip: Quantity = measure(
        "temperature", "Temperature at which it trips", symbol="T_trip", low="20 °C", high="95 °C"
    )
    polarisation: Points | None = curve(
        "current_density",
        "voltage",
        "Measured polarisation points at operating temperature",
        symbol="U(j)",
        optional=True,
    )
    cold_voltage_rise: Quantity = measure(
        "voltage",
        "Rise of cell voltage from operating temperature to a cold start",
        symbol="ΔU_cold",
        low="0 V",
        high="1 V",
        default=Default("0.25 V", "common-practice", "high"),
    )
    cell_voltage_trip: Quantity = measure(
        "voltage", "Cell voltage at which it trips", symbol="U_max", low="1.5 V", high="3 V"
    )
    catalyst_efficiency: Quantity = measure(
        "fraction",
        "Share of the crossing hydrogen that the recombination catalyst takes",
        symbol="η_c",
        low="0 %",
        high="99.9 %",
    )
    excess_factor: Quantity = measure(
        "ratio",
        "Measured crossover over pure diffusion",
        symbol="f_x",
        low="0.5",
        high="20",
        default=Default("1.3", "common-practice", "high"),
    )
    permeability: Quantity | None = measure(
        "permeability",
        "Hydrogen permeability of the membrane, where it is measured, at operating temperature",
        symbol="P_m",
        low="1e-16 mol/(m s Pa)",
        high="1e-12 mol/(m s Pa)",
        optional=True,
    )
    drag: Quantity = measure(
        "ratio",
        "Water molecules dragged by each proton",
        symbol="n_d",
        low="0",
        high="10",
        default=Default("3", "common-practice", "high"),
    )
    anode_pressure: Quantity = measure(
        "pressure", "Pressure of the oxygen side", symbol="p_an", low="0 bar(g)", high="50 bar(g)"
    )
    pressure_rating: Quantity = measure(
        "pressure", "Highest pressure allowed at the cathode", symbol="p_rated", low="0.1 bar(g)", high="200 bar(g)"
    )
    anode_rating: Quantity = measure(
        "pressure", "Highest pressure allowed at the anode", symbol="p_rated_an", low="0.05 bar(g)", high="200 bar(g)"
    )
    differential_allowed: Quantity = measure(
        "pressure_difference", "Highest difference across the membrane", symbol="Δp_m", low="0 bar", high="200 bar"
    )
    higher_side: Literal["cathode", "anode", "either"] = field("Side that may stand at the higher pressure")
    oxygen_volume: Quantity = measure(
        "volume",
        "Free gas volume of the oxygen side that is not swept when the current stops",
        symbol="V_O2",
        low="10 mL",
        high="1000 L",
    )
    cathode_volume: Quantity = measure(
        "volume", "Free gas volume of the hydrogen side of the stack", symbol="V_H2", low="1 mL", high="100 L"
    )
    let_down_rate: Quantity = measure(
        "pressure_rate",
        "Rate at which the cathode is let down after a stop",
        symbol="r_p",
        low="0.01 bar/min",
        high="100 bar/min",
    )
    rest_pressure: Quantity = measure(
        "pressure",
        "Pressure of the hydrogen side that is safe to rest at",
        symbol="p_rest",
        low="0 bar(g)",
        high="5 bar(g)",
        usual=("0 bar(g)", "2 bar(g)"),
        default=Default("0.5 bar(g)", "common-practice", "low"),
    )
    hydrogen_in_oxygen_alarm: Quantity = measure(
        "fraction",
        "Hydrogen in the oxygen at which it alarms",
        symbol="x_alarm",
        low="0.1 %",
        high="4 %",
        usual=("0.4 %", "1 %"),
        default=Default("1 %", "common-practice", "low"),
    )
    hydrogen_in_oxygen_trip: Quantity = measure(
        "fraction",
        "Hydrogen in the oxygen at which it trips",
        symbol="x_trip",
        low="0.1 %",
        high="4 %",
        usual=("0.8 %", "2 %"),
        default=Default("2 %", "common-practice", "low"),
    )
    heat_capacity: Quantity = measure(
        "heat_capacity", "Heat capacity of stack and water loop", symbol="C_s", low="0.1 kJ/K", high="10000 kJ/K"
    )
    heat_loss: Quantity = measure(
        "thermal_conductance", "Heat lost by stack and loop to the room", symbol="K_s", low="0 W/K", high="1000 W/K"
    )
    heater: Quantity = measure("power", "Power of the preheater", symbol="P_h", low="0 W", high="100 kW")
    replacement_life: Quantity | None = measure(
        "time", "Running time expected of the stack", symbol="t_s", low="100 h", high="200000 h", optional=True
    )


class Cooler(Part):
    """The water cooler, against ambient air."""

    conductance: Quantity = measure(
        "thermal_conductance", "Heat conductance (UA)", symbol="UA", low="1 W/K", high="10000 W/K"
    )
    air_flow: Quantity = measure("volume_flow", "Air through it", symbol="Q_air", low="1 m3/h", high="50000 m3/h")


class Deioniser(Part):
    """The mixed-bed deioniser."""

    resin: Quantity = measure("volume", "Resin", symbol="V_r", low="10 mL", high="200 L")
    capacity: Quantity = measure(
        "exchange_capacity",
        "Exchange capacity of the mixed bed",
        symbol="q_r",
        low="0.05 eq/L",
        high="2 eq/L",
        default=Default("0.41 eq/L", "mixed-bed-note", "low"),
    )
    age_limit: Quantity = measure(
        "time",
        "Age at which the resin is changed in any case",
        symbol="t_r",
        low="10 d",
        high="5 a",
        default=Default("1 a", "common-practice", "low"),
    )
    temperature_limit: Quantity = measure(
        "temperature",
        "Highest water temperature at the resin",
        symbol="T_r",
        low="20 °C",
        high="100 °C",
        default=Default("60 °C", "common-practice", "low"),
    )


class Water(Part):
    """The water circuit."""

    flow: Quantity = measure("volume_flow", "Flow of the pump", symbol="Q_w", low="1 mL/min", high="1000 L/min")
    pump_power: Quantity = measure("power", "Power of the pump", symbol="P_p", low="0.1 W", high="10 kW")
    cooler: Cooler = field("Cooler")
    deioniser: Deioniser = field("Deioniser")
    reservoir: Quantity = measure("volume", "Reservoir, brim to outlet", symbol="V_w", low="0.1 L", high="5000 L")
    usable: Quantity = measure(
        "volume", "Usable between top-up and low level", symbol="V_u", low="0.05 L", high="5000 L"
    )
    feed_conductivity: Quantity = measure(
        "conductivity",
        "Conductivity of the water filled in",
        symbol="κ",
        low="0.05 µS/cm",
        high="1000 µS/cm",
        usual=("0.05 µS/cm", "5 µS/cm"),
    )
    loop_conductivity_alarm: Quantity = measure(
        "conductivity", "Conductivity at which the loop alarms", symbol="κ_alarm", low="0.06 µS/cm", high="100 µS/cm"
    )
    carbon_dioxide: Quantity = measure(
        "concentration",
        "Carbon dioxide taken up by the feed",
        symbol="c_CO2",
        low="0 mol/m3",
        high="5 mol/m3",
        default=Default("0.014 mol/m3", "common-practice", "high"),
    )
    oxygen_outlet: Quantity = measure(
        "temperature", "Temperature at which the oxygen leaves", symbol="T_O2", low="1 °C", high="90 °C"
    )
    drains_return: Literal["degassing_pot", "waste"] = field("Where drains of the gas side go")
    degassed_share: Quantity = measure(
        "fraction",
        "Share of the dissolved hydrogen that the degassing pot releases to its vent",
        symbol="η_d",
        low="0 %",
        high="100 %",
        default=Default("70 %", "common-practice", "low"),
    )
    drain_orifice: Quantity = measure("length", "Bore of the drain orifice", symbol="d_o", low="0.05 mm", high="20 mm")
    vent_bore: Quantity = measure("length", "Bore of the oxygen vent line", symbol="d_v", low="2 mm", high="200 mm")


class Stage(Part):
    """One stage of gas treatment, in the order of flow."""

    tag: str = field("Tag of the item in network.yml", pattern=f"^{TAG}$")
    kind: Literal["separator", "coalescer", "desiccant", "cold_coil"] = field("Kind of stage")
    temperature: Quantity = measure(
        "temperature", "Temperature of the gas in it", symbol="T_g", low="-60 °C", high="90 °C"
    )
    carry_over: Quantity = measure(
        "fraction",
        "Liquid water that leaves with the gas, as a share of the liquid in it",
        symbol="x_c",
        low="0 %",
        high="50 %",
        usual=("0 %", "5 %"),
        default=Default("0.1 %", "common-practice", "high"),
    )
    bed_mass: Quantity | None = measure(
        "mass", "Mass of dry desiccant", symbol="m_d", low="10 g", high="200 kg", optional=True
    )
    bed_diameter: Quantity | None = measure(
        "length", "Inner diameter of the column", symbol="D_d", low="10 mm", high="600 mm", optional=True
    )
    transfer_zone: Quantity | None = measure(
        "fraction", "Share of the bed that the transfer zone takes", symbol="z_m", low="0 %", high="90 %", optional=True
    )
    regeneration_temperature: Quantity | None = measure(
        "temperature",
        "Temperature at which it is regenerated",
        symbol="T_reg",
        low="60 °C",
        high="250 °C",
        usual=("110 °C", "150 °C"),
        optional=True,
    )
    regeneration_dew_point: Quantity | None = measure(
        "temperature",
        "Dew point of the air or gas that regenerates it, at atmospheric pressure",
        symbol="T_dp_reg",
        low="-60 °C",
        high="40 °C",
        optional=True,
    )
    column_heat_capacity: Quantity | None = measure(
        "heat_capacity", "Heat capacity of the empty column", symbol="C_d", low="0 kJ/K", high="500 kJ/K", optional=True
    )
    regeneration_efficiency: Quantity | None = measure(
        "fraction",
        "Share of the regeneration heat that reaches the bed",
        symbol="η_reg",
        low="5 %",
        high="100 %",
        optional=True,
    )
    coolant_temperature: Quantity | None = measure(
        "temperature", "Temperature of the coil's coolant", symbol="T_cool", low="-60 °C", high="30 °C", optional=True
    )
    coil_coefficient: Quantity | None = measure(
        "ratio", "Heat transfer coefficient of the coil, in W/(m² K)", symbol="U_c", low="1", high="5000", optional=True
    )


class Buffer(Part):
    """The buffer vessel and its pressure switch."""

    tag: str = field("Tag of the vessel in network.yml", pattern=f"^{TAG}$")
    volume: Quantity = measure("volume", "Volume of the buffer", symbol="V_b", low="0.1 L", high="5000 L")
    train_volume: Quantity = measure(
        "volume", "Volume of the gas train that rides with it", symbol="V_t", low="0 L", high="500 L"
    )
    cut_in: Quantity = measure(
        "pressure",
        "Pressure at which the switch stops the booster",
        symbol="p_in",
        low="0.05 bar(g)",
        high="200 bar(g)",
    )
    cut_out: Quantity = measure(
        "pressure",
        "Pressure at which the switch starts the booster",
        symbol="p_out",
        low="0.1 bar(g)",
        high="200 bar(g)",
    )
    high_trip: Quantity = measure(
        "pressure", "Separate high-pressure trip of the stack", symbol="p_trip", low="0.1 bar(g)", high="200 bar(g)"
    )
    relief: str = field("Tag of the relief valve that protects it", pattern=f"^{TAG}$")
    temperature: Quantity = measure(
        "temperature", "Usual temperature of the gas in it", symbol="T_b", low="-30 °C", high="65 °C"
    )
    regime: Regime = field("Legal regime of the vessel")
    allowable_pressure: Quantity = measure(
        "pressure", "Highest allowable pressure of the vessel", symbol="PS_b", low="0.5 bar(g)", high="1000 bar(g)"
    )
    cycle_life: Quantity | None = measure(
        "count",
        "Pressure cycles that the vessel is made for",
        symbol="n_life",
        low="100",
        high="10000000",
        optional=True,
    )


class Booster(Part):
    """An air-driven piston booster."""

    tag: str = field("Tag of the booster in network.yml", pattern=f"^{TAG}$")
    supply: str = field("Where it draws from: `buffer` or the name of a bank", pattern=f"^{NAME}$")
    target: str = field("The bank that it fills", pattern=f"^{NAME}$")
    ratio: Quantity = measure("ratio", "Drive piston area over gas piston area", symbol="r_a", low="1", high="400")
    assist_ratio: Quantity = measure(
        "ratio", "Area on which the supply assists over the discharge area", symbol="r_s", low="0", high="1.5"
    )
    swept_volume: Quantity = measure("volume", "Swept volume of one gas stroke", symbol="V_s", low="1 mL", high="10 L")
    faces: Quantity = measure(
        "count", "Gas faces that deliver in a stroke forth and back: 1 single-acting, 2 double-acting", symbol="n_f",
        low="1", high="2",
    )  # fmt: skip
    return_share: Quantity = measure(
        "fraction", "Drive air of the way back over that of the way forth", symbol="s_b", low="0 %", high="100 %",
        default=Default("100 %", "common-practice", "high"),
    )  # fmt: skip
    cracking: Quantity = measure(
        "pressure_difference", "Differences at which its check valves open, added up", symbol="Δp_c", low="0 bar",
        high="0.9 bar", default=Default("0.2 bar", "common-practice", "high"),
    )  # fmt: skip
    clearance: Quantity = measure(
        "fraction", "Clearance volume over swept volume", symbol="c", low="0.5 %", high="50 %", usual=("3 %", "15 %")
    )
    stroke_rate: Quantity = measure(
        "frequency", "Stroke rate with no back pressure", symbol="f_0", low="0.5 1/min", high="300 1/min"
    )
    rate_curve: Points | None = curve(
        "fraction",
        "fraction",
        "Measured stroke rate over that with no back pressure, by share of stall",
        symbol="f(s)",
        optional=True,
    )
    drive_pressure: Quantity = measure(
        "pressure", "Drive air pressure, lowest in service", symbol="p_d", low="0.5 bar(g)", high="16 bar(g)"
    )
    drive_pressure_highest: Quantity = measure(
        "pressure",
        "Highest drive air pressure that a failed air regulator lets through",
        symbol="p_d_max",
        low="0.5 bar(g)",
        high="20 bar(g)",
    )
    drive_rating: Quantity = measure(
        "pressure", "Rating of the drive side", symbol="p_r_d_air", low="0.5 bar(g)", high="40 bar(g)"
    )
    discharge_rating: Quantity = measure(
        "pressure", "Rating of the discharge side", symbol="p_r_d", low="1 bar(g)", high="2000 bar(g)"
    )
    inlet_highest: Quantity = measure(
        "pressure", "Highest inlet pressure allowed", symbol="p_r_i", low="0.5 bar(g)", high="1000 bar(g)"
    )
    ratio_allowed: Quantity = measure(
        "ratio", "Highest pressure ratio allowed by the maker (absolute)", symbol="π_max", low="1.1", high="200"
    )
    polytropic_index: Quantity = measure(
        "ratio",
        "Polytropic index of the discharge, stated or measured",
        symbol="n_p",
        low="1",
        high="1.41",
        usual=("1.1", "1.3"),
        default=Default("1.2", "common-practice", "high"),
    )
    seal_temperature: Quantity = measure(
        "temperature", "Highest discharge temperature that the seals bear", symbol="T_seal", low="40 °C", high="250 °C"
    )
    seal_life: Quantity | None = measure(
        "count", "Strokes between seal changes", symbol="n_seal", low="1000", high="1000000000", optional=True
    )


class Compressor(Part):
    """The compressor that makes the drive air."""

    free_air: Quantity = measure(
        "normal_flow", "Free-air delivery, as dry normal flow", symbol="Q_fad", low="1 NL/min", high="20000 NL/min"
    )
    power: Quantity = measure("power", "Electric power while it runs", symbol="P_k", low="10 W", high="200 kW")
    duty_allowed: Quantity = measure("fraction", "Share of time it may run", symbol="d_max", low="5 %", high="100 %")
    cut_in: Quantity = measure(
        "pressure", "Pressure at which it starts", symbol="p_k", low="1 bar(g)", high="20 bar(g)"
    )
    dew_point: Quantity = measure(
        "temperature", "Dew point of the drive air at line pressure", symbol="T_dp_air", low="-80 °C", high="40 °C"
    )


class Bank(Part):
    """A bank of cylinders."""

    tag: str = field("Tag of the bank in network.yml", pattern=f"^{TAG}$")
    room: str = field("Where it stands", pattern=f"^{NAME}$")
    cylinders: Quantity = measure("count", "Cylinders", symbol="n", low="1", high="200")
    water_volume: Quantity = measure(
        "volume", "Water volume of one cylinder", symbol="V_cyl", low="0.1 L", high="3000 L"
    )
    fill_pressure: Quantity = measure(
        "pressure",
        "Fill pressure, settled at the reference temperature",
        symbol="p_fill",
        low="1 bar(g)",
        high="1000 bar(g)",
    )
    working_pressure: Quantity = measure(
        "pressure", "Working pressure stamped on the cylinders", symbol="p_w", low="1 bar(g)", high="1000 bar(g)"
    )
    test_pressure: Quantity = measure(
        "pressure", "Test pressure stamped on the cylinders", symbol="p_t", low="1 bar(g)", high="1500 bar(g)"
    )
    regime: Regime = field("Legal regime of the cylinders")
    approved_gas: str = field("Gas for which the cylinders are approved")
    cylinder_mass: Quantity = measure(
        "mass", "Mass of one empty cylinder", symbol="m_cyl", low="0.1 kg", high="5000 kg"
    )
    cylinder_heat: Quantity = measure(
        "specific_heat",
        "Specific heat of the cylinder wall",
        symbol="c_w",
        low="0.2 kJ/(kg K)",
        high="2 kJ/(kg K)",
        default=Default("0.47 kJ/(kg K)", "common-practice", "low"),
    )
    slenderness: Quantity = measure(
        "ratio", "Inner length of a cylinder over its inner diameter", symbol="λ_c", low="1", high="30",
        usual=("3", "8"), default=Default("6", "common-practice", "either"),
    )  # fmt: skip
    inner_film: Quantity = measure(
        "heat_transfer_coefficient", "Heat transfer from the gas to the wall", symbol="α_i", low="1 W/(m2 K)",
        high="1000 W/(m2 K)", default=Default("30 W/(m2 K)", "common-practice", "low"),
    )  # fmt: skip
    outer_film: Quantity = measure(
        "heat_transfer_coefficient", "Heat transfer from the wall to still air", symbol="α_o", low="1 W/(m2 K)",
        high="1000 W/(m2 K)", default=Default("6 W/(m2 K)", "common-practice", "low"),
    )  # fmt: skip
    material: Literal["steel", "aluminium", "composite"] = field("Material of the wall")
    inspection_due: str = field("Month in which the periodic inspection falls due", pattern=MONTH)


class Transfer(Part):
    """Gas passed from one bank into another, freely and then by a booster."""

    source: str = field("Bank it comes from", pattern=f"^{NAME}$")
    target: str = field("Bank it goes to", pattern=f"^{NAME}$")
    booster: Quantity | None = measure(
        "count", "Number of the booster in the list of boosters", symbol="i", low="1", high="20", optional=True
    )
    source_lowest: Quantity | None = measure(
        "pressure",
        "Pressure below which the source is not drawn",
        symbol="p_low",
        low="0.5 bar(g)",
        high="1000 bar(g)",
        optional=True,
    )


class Use(Part):
    """A use of the gas."""

    kind: Literal["burner", "fuel_cell", "vehicle"] = field("Kind of use")
    title: str = field("What it is called")
    tag: str = field("Tag of the item in network.yml", pattern=f"^{TAG}$")
    supply: list[str] = field("Where it draws from, in turn: `buffer` or names of banks")
    heat: Quantity | None = measure(
        "power", "Heat of the burner (lower heating value)", symbol="P_b", low="10 W", high="1000 kW", optional=True
    )
    electric_power: Quantity | None = measure(
        "power", "Electric power of the fuel cell", symbol="P_fc", low="1 W", high="1000 kW", optional=True
    )
    efficiency: Quantity | None = measure(
        "fraction",
        "Efficiency of the fuel cell (lower heating value)",
        symbol="η_fc",
        low="10 %",
        high="75 %",
        optional=True,
    )
    lowest_pressure: Quantity | None = measure(
        "pressure",
        "Lowest pressure at which it still draws",
        symbol="p_min",
        low="0 bar(g)",
        high="100 bar(g)",
        optional=True,
    )
    tank_volume: Quantity | None = measure(
        "volume", "Tank volume of the vehicle", symbol="V_v", low="1 L", high="2000 L", optional=True
    )
    nominal_pressure: Quantity | None = measure(
        "pressure",
        "Nominal working pressure of the tank, settled at the reference temperature",
        symbol="NWP",
        low="10 bar(g)",
        high="1000 bar(g)",
        optional=True,
    )
    start_pressure: Quantity | None = measure(
        "pressure",
        "Pressure in the tank before filling",
        symbol="p_start",
        low="0 bar(g)",
        high="1000 bar(g)",
        optional=True,
    )
    tank_mass: Quantity | None = measure(
        "mass", "Mass of the empty tank", symbol="m_v", low="1 kg", high="2000 kg", optional=True
    )
    tank_heat: Quantity = measure(
        "specific_heat",
        "Specific heat of the tank wall",
        symbol="c_v",
        low="0.2 kJ/(kg K)",
        high="2 kJ/(kg K)",
        default=Default("0.5 kJ/(kg K)", "common-practice", "low"),
    )
    tank_conductance: Quantity = measure(
        "thermal_conductance",
        "Heat from the gas to the tank wall for each kelvin while it is filled",
        symbol="K_v",
        low="0.1 W/K",
        high="5000 W/K",
        default=Default("50 W/K", "common-practice", "low"),
    )
    tank_loss: Quantity = measure(
        "thermal_conductance",
        "Heat from the tank wall to the air for each kelvin",
        symbol="K_a",
        low="0 W/K",
        high="500 W/K",
        default=Default("5 W/K", "common-practice", "low"),
    )
    approved_gas: str | None = field("Gas for which it is approved", None)


class Demand(Part):
    """What is wanted of the plant in a usual year."""

    running_hours: Quantity = measure("time", "Hours of running in a year", symbol="t_y", low="1 h", high="8760 h")
    starts: Quantity = measure("count", "Starts in a year", symbol="n_y", low="1", high="20000")
    daily_energy: Quantity | None = measure(
        "energy_lower",
        "Energy drawn on a usual day (lower heating value)",
        symbol="E_d",
        low="0 kWh(lower)",
        high="10000 kWh(lower)",
        optional=True,
    )
    hourly: str | None = field(
        "Table of the surplus and the demand of every hour of a year, in the plant's folder", None, pattern=TABLE
    )


class Safety(Part):
    """How the plant is isolated, purged and tested."""

    isolation_pressure: Quantity = measure(
        "pressure",
        "Pressure above which nothing is opened behind a single valve: two shut valves with an open bleed, or a blank",
        symbol="p_iso",
        low="0.5 bar(g)",
        high="100 bar(g)",
        usual=("1 bar(g)", "10 bar(g)"),
        default=Default("10 bar(g)", "common-practice", "low"),
    )
    purge_pressure: Quantity = measure(
        "pressure",
        "Pressure to which nitrogen is let in at each swing",
        symbol="p_sw",
        low="0.5 bar(g)",
        high="20 bar(g)",
    )
    oxygen_left: Quantity = measure(
        "fraction",
        "Oxygen that may be left before hydrogen is let in",
        symbol="x_O2",
        low="0.01 %",
        high="4 %",
        usual=("0.1 %", "1 %"),
        default=Default("1 %", "common-practice", "low"),
    )
    hydrogen_left: Quantity = measure(
        "fraction",
        "Hydrogen that may be left before air is let in",
        symbol="x_H2",
        low="0.01 %",
        high="2 %",
        usual=("0.1 %", "1 %"),
        default=Default("1 %", "common-practice", "low"),
    )
    leak_test_pressure: Quantity = measure(
        "pressure", "Pressure of the leak test with nitrogen", symbol="p_lt", low="0.5 bar(g)", high="300 bar(g)"
    )
    leak_test_time: Quantity = measure(
        "time", "Time for which the gauge is watched", symbol="t_lt", low="5 min", high="48 h", usual=("15 min", "24 h")
    )
    leak_allowed: Quantity = measure(
        "normal_flow",
        "Hydrogen that may leak from all joints of a section under test",
        symbol="Q_a",
        low="0.01 NmL/min",
        high="1 NL/min",
        usual=("0.1 NmL/min", "20 NmL/min"),
        default=Default("5 NmL/min", "common-practice", "low"),
    )
    tube_stress: Quantity = measure(
        "pressure_difference",
        "Allowable stress of the plant's usual tube, seamless austenitic steel, near ambient",
        symbol="σ",
        low="1 MPa",
        high="400 MPa",
        usual=("80 MPa", "140 MPa"),
        default=Default("115 MPa", "asme-b31-3", "low"),
    )
    membrane_hole: Quantity = measure(
        "length",
        "Hole of a ruptured membrane by which the oxygen side is judged",
        symbol="d_m",
        low="0.1 mm",
        high="20 mm",
        usual=("0.5 mm", "5 mm"),
        default=Default("1 mm", "common-practice", "high"),
    )


class Flush(Part):
    """The nitrogen that flushes the oxygen side of the stack once its current is lost."""

    tag: str = field("Tag of its purge inlet in network.yml", pattern=f"^{TAG}$")
    bottles: Quantity = measure("count", "Bottles that stand connected", symbol="n_b", low="1", high="100")
    content: Quantity = measure(
        "normal_volume",
        "Nitrogen in a full bottle, as its supplier states it",
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
    ] = field("What is watched")
    sensor: str | None = field("Tag of the item that watches", None, pattern=f"^{TAG}$")
    alarm: str | None = field("Value at which it alarms", None)
    trip: str | None = field("Value at which it trips", None)
    stops: list[Drive] = field("What loses its drive", [])
    shuts: list[str] = field("Valves that shut", [])
    opens: list[str] = field("Valves that open", [])
    reset: Literal["by_hand", "by_itself"] = field("How it is reset")
    safe_state: str = field("The state in which the plant then rests, in words")


class PlantFile(Part):
    """A plant, part by part. A part that the plant lacks is left out, and its figures do not exist."""

    format: Literal[1] = field("Version of this format")
    title: str = field("Name of the plant")
    status: Status = field("draft, published, built or withdrawn")
    recall: str | None = field("Why a withdrawn plant was withdrawn, and what its builders must do", None)
    summary: str = field("One or two sentences on what the plant is for")
    site: Site = field("Site")
    rooms: dict[str, Room] = field("Rooms by name", json_schema_extra={"keys": NAME})
    power: Power = field("Power")
    stack: Stack = field("Stack")
    water: Water = field("Water")
    drying: list[Stage] = field("Gas treatment, stages in the order of flow")
    buffer: Buffer | None = field("Buffer", None)
    boosters: list[Booster] = field("Boosters", [])
    compressor: Compressor | None = field("Compressor for drive air", None)
    banks: dict[str, Bank] = field("Banks by name", {}, json_schema_extra={"keys": NAME})
    transfers: list[Transfer] = field("Transfers between banks", [])
    uses: list[Use] = field("Uses", [])
    demand: Demand = field("Demand")
    safety: Safety = field("Isolating, purging, testing")
    flush: Flush | None = field("Flush of the oxygen side", None)
    trips: list[Trip] = field("Trips", [])
