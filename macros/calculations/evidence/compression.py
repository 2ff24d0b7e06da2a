"""Evidence for work and warmth of compression."""

from macros.calculations.compression import (
    air_compression_work,
    boosting_efficiency,
    boosting_energy,
    compressor_duty,
    electricity_of_free_air,
    free_air_isothermal_work,
    free_air_of_normal_flow,
    isothermal_work,
    polytropic_temperature,
)
from macros.calculations.evidence import ByHand, CommonPractice, OtherRoute, Printed
from macros.calculations.evidence.storage import ATMOSPHERE, BAR, KWH, gauge, other_terms

_WORK = (
    "scipy.constants.R * {temperature_k} / 2.01588e-3 * (numpy.log({discharge_pressure_pa} / {inlet_pressure_pa})"
    " + sum(a * (100 / {temperature_k})**b / c * (({discharge_pressure_pa} / 1e6)**c - ({inlet_pressure_pa} / 1e6)**c)"
    f" for a, b, c in {other_terms()}))"
)

EVIDENCE = [
    Printed(
        isothermal_work,
        source="doe-record-9013-compression",
        locator="item: from 20 bar to 350 bar 1.05 kWh/kg, to 700 bar 1.36 kWh/kg",
        abs=0.005 * KWH,
        rows=[
            (dict(inlet_pressure_pa=20 * BAR, discharge_pressure_pa=350 * BAR, temperature_k=298.15), 1.05 * KWH),
            (dict(inlet_pressure_pa=20 * BAR, discharge_pressure_pa=700 * BAR, temperature_k=298.15), 1.36 * KWH),
        ],
    ),
    OtherRoute(
        isothermal_work,
        library="scipy, numpy",
        call=_WORK,
        rel=3e-4,
        rows=[
            (dict(inlet_pressure_pa=gauge(15), discharge_pressure_pa=gauge(50), temperature_k=288.15), 1402133.61),
            (dict(inlet_pressure_pa=gauge(50), discharge_pressure_pa=gauge(140), temperature_k=288.15), 1274130.03),
            (dict(inlet_pressure_pa=gauge(20), discharge_pressure_pa=gauge(200), temperature_k=313.15), 3051930.45),
        ],
    ),
    OtherRoute(
        polytropic_temperature,
        library="fluids",
        call=(
            "fluids.isentropic_T_rise_compression({inlet_temperature_k}, {inlet_pressure_pa}, {discharge_pressure_pa},"
            " {index})"
        ),
        rel=1e-8,
        rows=[
            (
                dict(
                    inlet_pressure_pa=gauge(15), discharge_pressure_pa=gauge(50), inlet_temperature_k=288.15, index=1.2
                ),
                349.531142,
            ),
            (
                dict(
                    inlet_pressure_pa=gauge(25),
                    discharge_pressure_pa=gauge(140),
                    inlet_temperature_k=313.15,
                    index=1.25,
                ),
                439.102063,
            ),
        ],
    ),
    ByHand(
        polytropic_temperature,
        arithmetic="index 4/3: the exponent is 1/4; ratio 4: 4^¼ = √2; 300 × 1.414 2 = 424.26 K",
        rel=1e-4,
        rows=[
            (
                dict(
                    inlet_pressure_pa=10 * BAR, discharge_pressure_pa=40 * BAR, inlet_temperature_k=300.0, index=4 / 3
                ),
                424.26,
            ),
        ],
    ),
    Printed(
        air_compression_work,
        source="cengel-boles",
        locator="example 7-13: isentropic, polytropic, two stages",
        abs=0.06e3,
        rows=[
            (
                dict(
                    inlet_pressure_pa=1e5,
                    discharge_pressure_pa=9e5,
                    inlet_temperature_k=300.0,
                    index=index,
                    stages=stages,
                ),
                work * 1e3,
            )
            for index, stages, work in ((1.4, 1.0, 263.2), (1.3, 1.0, 246.4), (1.3, 2.0, 215.3))
        ],
    ),
    OtherRoute(
        air_compression_work,
        library="fluids, chemicals",
        call=(
            "fluids.isentropic_work_compression(T1={inlet_temperature_k}, k={index}, Z=1.0, P1={inlet_pressure_pa},"
            " P2={discharge_pressure_pa}, eta=1.0) / 28.97e-3"
        ),
        rel=1e-3,
        rows=[
            (
                dict(
                    inlet_pressure_pa=101325.0, discharge_pressure_pa=gauge(8), inlet_temperature_k=293.15, index=1.35
                ),
                247381.406,
            ),
        ],
    ),
    ByHand(
        free_air_isothermal_work,
        source="cengel-boles",
        arithmetic=(
            "example 7-13 prints 189.2 kJ for a kilogram at constant temperature, 100 to 900 kPa, 300 K; a cubic metre of"
            " that air weighs 100 / (0.287 × 300) = 1.1614 kg: 189.2 × 1.1614 = 219.7 kJ"
        ),
        rel=5e-4,
        rows=[(dict(atmosphere_pa=1e5, line_pressure_pa=9e5), 219.7e3)],
    ),
    OtherRoute(
        free_air_isothermal_work,
        library="fluids, scipy",
        call=(
            "fluids.isothermal_work_compression({atmosphere_pa}, {line_pressure_pa}, 300.0, 1.0) * {atmosphere_pa}"
            " / (scipy.constants.R * 300.0)"
        ),
        rel=1e-6,
        rows=[(dict(atmosphere_pa=ATMOSPHERE, line_pressure_pa=gauge(8)), 221449.104)],
    ),
    ByHand(
        electricity_of_free_air,
        source="fluid-power-examples",
        arithmetic=(
            "example 14-4 gives 52.3 kW for 270 ft³/min of free air at 100 psi(g): 270 × 0.028 317 / 60 = 0.127 43 m³/s;"
            " 52.3 / 0.127 43 = 410.4 kJ = 0.114 kWh for a cubic metre"
        ),
        rel=1e-3,
        rows=[(dict(power_w=52300.0, free_air_m3_per_s=0.12743), 410.4e3)],
    ),
    ByHand(
        electricity_of_free_air,
        arithmetic="2.2 kW for 300 L/min: 300 L is a minute's work, 2.2 × 60 = 132 kJ, so 440 kJ for a cubic metre",
        rel=1e-6,
        rows=[(dict(power_w=2200.0, free_air_m3_per_s=0.3 / 60), 440e3)],
    ),
    ByHand(
        free_air_of_normal_flow,
        arithmetic=(
            "220 NL/min of air at 15 °C and 1 atm: 220 × 288.15 / 273.15 = 232.1 L/min; at 0.9 atm 257.9 L/min;"
            " 220 NL/min are 220 / 22.414 / 60 = 0.163 59 mol/s"
        ),
        rel=1e-3,
        rows=[
            (dict(normal_flow_mol_per_s=0.16359, atmosphere_pa=ATMOSPHERE, temperature_k=288.15), 232.1e-3 / 60),
            (dict(normal_flow_mol_per_s=0.16359, atmosphere_pa=0.9 * ATMOSPHERE, temperature_k=288.15), 257.9e-3 / 60),
        ],
    ),
    CommonPractice(
        boosting_energy,
        source="common-practice",
        abs=3.2 * KWH,
        rows=[
            (dict(free_air_m3_per_kg=100.0, electricity_j_per_m3=0.11 * KWH), 13 * KWH),
            (dict(free_air_m3_per_kg=120.0, electricity_j_per_m3=0.12 * KWH), 13 * KWH),
        ],
    ),
    ByHand(
        boosting_energy,
        arithmetic="100 m³ for a kilogram at 0.114 kWh for each: 11.4 kWh",
        rel=1e-9,
        rows=[(dict(free_air_m3_per_kg=100.0, electricity_j_per_m3=0.114 * KWH), 11.4 * KWH)],
    ),
    ByHand(
        boosting_efficiency,
        arithmetic="0.4 kWh of least work out of 12 kWh spent: one part in thirty",
        rel=1e-9,
        rows=[(dict(ideal_j_per_kg=0.4 * KWH, spent_j_per_kg=12 * KWH), 1 / 30)],
    ),
    ByHand(
        boosting_efficiency,
        arithmetic="1.05 kWh of least work where 4.2 kWh were measured: a quarter",
        rel=1e-9,
        rows=[(dict(ideal_j_per_kg=1.05 * KWH, spent_j_per_kg=4.2 * KWH), 0.25)],
    ),
    ByHand(
        compressor_duty,
        arithmetic="10 L a stroke, 20 strokes a minute: 200 L/min out of 250 L/min, four minutes in five",
        rel=1e-9,
        rows=[(dict(air_taken_m3_per_s=0.2 / 60, free_air_m3_per_s=0.25 / 60), 0.8)],
    ),
    ByHand(
        compressor_duty,
        arithmetic="a compressor half as large as what is taken would need two minutes a minute",
        rel=1e-9,
        rows=[(dict(air_taken_m3_per_s=0.01, free_air_m3_per_s=0.005), 2.0)],
    ),
]
