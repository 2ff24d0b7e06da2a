"""Evidence for air-driven boosters."""

from macros.calculations.booster import (
    assumed_stroke_rate,
    booster_flow,
    drive_air_per_mass,
    free_air_of_stroke,
    measured_stroke_rate,
    pressure_ratio,
    rate_share,
    ratio_of_no_flow,
    share_of_stall,
    stall_pressure,
    strokes_for_mass,
    strokes_per_mass,
    volumetric_efficiency,
)
from macros.calculations.evidence import ByHand, CommonPractice, OtherRoute, Printed
from macros.calculations.evidence.storage import ATMOSPHERE, BAR, gauge, other_density, other_pressure

PSI = 6894.757293168361
FOOT3 = 0.028316846592
INCH3 = 1.6387064e-5

_INLET = other_density("{inlet_pressure_pa}", "{inlet_temperature_k}")
_EFFICIENCY = (
    "1 - {clearance} * ("
    + other_density("{discharge_pressure_pa}", "{temperature_k}")
    + " / "
    + other_density("{inlet_pressure_pa}", "{temperature_k}")
    + " - 1)"
)
_NO_FLOW = (
    other_pressure(
        f"{other_density('{inlet_pressure_pa}', '{temperature_k}')} * (1 + 1 / {{clearance}})", "{temperature_k}"
    )
    + " / {inlet_pressure_pa}"
)
_CURVE = ((0.0, 1.0), (0.2, 0.9), (0.6, 0.4), (0.9, 0.1), (1.0, 0.0))

EVIDENCE = [
    Printed(
        stall_pressure,
        source="oil-industry-pump-ratio",
        locator="air at 100 psi with ratios of 2:1 and 3:1",
        rel=1e-9,
        rows=[
            (
                dict(
                    area_ratio=ratio,
                    drive_pressure_pa=100 * PSI + ATMOSPHERE,
                    supply_pressure_pa=ATMOSPHERE,
                    assisting_area_ratio=0.0,
                    atmosphere_pa=ATMOSPHERE,
                ),
                fluid * PSI + ATMOSPHERE,
            )
            for ratio, fluid in ((2.0, 200), (3.0, 300))
        ],
    ),
    ByHand(
        stall_pressure,
        arithmetic=(
            "air piston 30 times the gas piston, drive 6 bar(g): 180 bar(g); where the supply of 10 bar(g) pushes on an"
            " equal area, 190 bar(g); with the rod taking a fifth of that area, 180 + 0.8 × 10 = 188 bar(g)"
        ),
        rel=1e-9,
        rows=[
            (
                dict(
                    area_ratio=30.0,
                    drive_pressure_pa=gauge(6),
                    supply_pressure_pa=gauge(10),
                    assisting_area_ratio=assist,
                    atmosphere_pa=ATMOSPHERE,
                ),
                gauge(stall),
            )
            for assist, stall in ((0.0, 180), (1.0, 190), (0.8, 188))
        ],
    ),
    CommonPractice(
        share_of_stall,
        source="common-practice",
        abs=0.05,
        rows=[
            (dict(discharge_pressure_pa=gauge(50), stall_pressure_pa=gauge(72), atmosphere_pa=ATMOSPHERE), 0.7),
            (dict(discharge_pressure_pa=gauge(140), stall_pressure_pa=gauge(198), atmosphere_pa=ATMOSPHERE), 0.7),
        ],
    ),
    ByHand(
        share_of_stall,
        arithmetic="50 of 72 bar(g): 50 / 72 = 0.6944, gauge against gauge",
        rel=1e-4,
        rows=[(dict(discharge_pressure_pa=gauge(50), stall_pressure_pa=gauge(72), atmosphere_pa=ATMOSPHERE), 0.69444)],
    ),
    ByHand(
        pressure_ratio,
        arithmetic="a line at 100 psi(g) under an atmosphere of 14.7 psi: (100 + 14.7) / 14.7 = 7.803",
        rel=1e-4,
        rows=[(dict(discharge_pressure_pa=114.7 * PSI, inlet_pressure_pa=14.7 * PSI), 7.8027)],
    ),
    ByHand(
        pressure_ratio,
        arithmetic="from 15 to 50 bar(g): (50 + 1.01325) / (15 + 1.01325) = 51.01325 / 16.01325 = 3.1857; not 50 / 15 = 3.33",
        rel=1e-4,
        rows=[(dict(discharge_pressure_pa=gauge(50), inlet_pressure_pa=gauge(15)), 3.1857)],
    ),
    OtherRoute(
        volumetric_efficiency,
        library="scipy",
        call=_EFFICIENCY,
        abs=1e-4,
        rows=[
            (
                dict(
                    clearance=0.05, inlet_pressure_pa=gauge(15), discharge_pressure_pa=gauge(50), temperature_k=288.15
                ),
                0.894006672,
            ),
            (
                dict(
                    clearance=0.08, inlet_pressure_pa=gauge(25), discharge_pressure_pa=gauge(140), temperature_k=303.15
                ),
                0.674094038,
            ),
        ],
    ),
    ByHand(
        volumetric_efficiency,
        arithmetic="a twentieth of clearance from 1 to 4 bar, hydrogen as good as ideal: 1 − 0.05 × (4 − 1) = 0.85",
        abs=5e-4,
        rows=[
            (dict(clearance=0.05, inlet_pressure_pa=1 * BAR, discharge_pressure_pa=4 * BAR, temperature_k=300.0), 0.85),
        ],
    ),
    OtherRoute(
        ratio_of_no_flow,
        library="scipy",
        call=_NO_FLOW,
        rel=5e-4,
        rows=[
            (dict(clearance=0.05, inlet_pressure_pa=gauge(15), temperature_k=288.15), 26.6078778),
            (dict(clearance=0.1, inlet_pressure_pa=gauge(25), temperature_k=288.15), 13.2539132),
        ],
    ),
    ByHand(
        ratio_of_no_flow,
        arithmetic=(
            "a twentieth of clearance, 1 bar drawn: the 21-fold density is met a little above 21 bar,"
            " where hydrogen takes 1.3 % more room than an ideal gas: 21.3"
        ),
        rel=3e-3,
        rows=[(dict(clearance=0.05, inlet_pressure_pa=1 * BAR, temperature_k=288.15), 21.26)],
    ),
    ByHand(
        assumed_stroke_rate,
        arithmetic="20 strokes a minute against nothing, none at 72 bar(g): at 36 bar(g) half of them, 10 a minute",
        rel=1e-9,
        rows=[
            (
                dict(
                    free_stroke_rate_per_s=20 / 60,
                    discharge_pressure_pa=gauge(36),
                    stall_pressure_pa=gauge(72),
                    atmosphere_pa=ATMOSPHERE,
                ),
                10 / 60,
            ),
        ],
    ),
    ByHand(
        assumed_stroke_rate,
        arithmetic="60 strokes a minute against nothing, none at 200 bar(g): at 150 bar(g) a quarter of them; at 210 none",
        abs=1e-12,
        rows=[
            (
                dict(
                    free_stroke_rate_per_s=1.0,
                    discharge_pressure_pa=gauge(back),
                    stall_pressure_pa=gauge(200),
                    atmosphere_pa=ATMOSPHERE,
                ),
                rate,
            )
            for back, rate in ((150, 0.25), (210, 0.0))
        ],
    ),
    OtherRoute(
        rate_share,
        library="numpy",
        call="numpy.interp({share}, [x for x, y in {rate_curve}], [y for x, y in {rate_curve}])",
        rel=1e-8,
        rows=[(dict(rate_curve=_CURVE, share=0.25), 0.8375), (dict(rate_curve=_CURVE, share=0.7), 0.3)],
    ),
    ByHand(
        measured_stroke_rate,
        arithmetic=(
            "20 strokes a minute against nothing; measured 0.4 of them at 0.6 of the stall and 0.1 at 0.9: at 54 of"
            " 72 bar(g), 0.75 of the stall, half way between: 0.25, 5 a minute"
        ),
        rel=1e-9,
        rows=[
            (
                dict(
                    free_stroke_rate_per_s=20 / 60,
                    rate_curve=_CURVE,
                    discharge_pressure_pa=gauge(back),
                    stall_pressure_pa=gauge(72),
                    atmosphere_pa=ATMOSPHERE,
                ),
                rate / 60,
            )
            for back, rate in ((54, 5.0), (43.2, 8.0))
        ],
    ),
    OtherRoute(
        booster_flow,
        library="scipy",
        call=f"{{swept_volume_m3}} * {{faces}} * {{stroke_rate_per_s}} * {{volumetric_efficiency}} * {_INLET}",
        rel=2e-4,
        rows=[
            (
                dict(
                    swept_volume_m3=60e-6,
                    faces=1.0,
                    stroke_rate_per_s=0.1,
                    volumetric_efficiency=0.9,
                    inlet_pressure_pa=gauge(15),
                    inlet_temperature_k=288.15,
                ),
                7.20655116e-06,
            ),
            (
                dict(
                    swept_volume_m3=150e-6,
                    faces=2.0,
                    stroke_rate_per_s=0.5,
                    volumetric_efficiency=0.8,
                    inlet_pressure_pa=gauge(28),
                    inlet_temperature_k=313.15,
                ),
                0.000265159497,
            ),
        ],
    ),
    ByHand(
        booster_flow,
        arithmetic=(
            "60 mL drawn whole, 20 times a minute, at 20 bar(g) and 15 °C: 1.2 L/min of gas 21.01 / 1.01325 = 20.74 times"
            " as dense as at 1 atm, 273.15 / 288.15 of that in NL: 23.6 NL/min, less 1.3 % for the real gas: 23.3;"
            " 23.3 / 22.414 × 2.015 88 / 60 = 34.9 mg/s"
        ),
        rel=5e-3,
        rows=[
            (
                dict(
                    swept_volume_m3=60e-6,
                    faces=1.0,
                    stroke_rate_per_s=20 / 60,
                    volumetric_efficiency=1.0,
                    inlet_pressure_pa=gauge(20),
                    inlet_temperature_k=288.15,
                ),
                34.9e-6,
            ),
        ],
    ),
    OtherRoute(
        strokes_per_mass,
        library="scipy",
        call=f"1 / ({{swept_volume_m3}} * {{faces}} * {{volumetric_efficiency}} * {_INLET})",
        rel=2e-4,
        rows=[
            (
                dict(
                    swept_volume_m3=60e-6,
                    faces=1.0,
                    volumetric_efficiency=0.9,
                    inlet_pressure_pa=gauge(15),
                    inlet_temperature_k=288.15,
                ),
                13876.2631,
            ),
            (
                dict(
                    swept_volume_m3=60e-6,
                    faces=2.0,
                    volumetric_efficiency=0.95,
                    inlet_pressure_pa=gauge(50),
                    inlet_temperature_k=278.15,
                ),
                2035.00271,
            ),
        ],
    ),
    ByHand(
        free_air_of_stroke,
        source="fluid-power-examples",
        arithmetic=(
            "example 13-12: 1.75 in bore, 6 in stroke, 30 cycles a minute, air at 100 psi(g): 1.91 scfm at 68 °F from"
            " air at 80 °F, so 1.91 × 540 / 528 = 1.953 ft³/min at the air's own temperature, one way;"
            " 1.953 / 30 = 0.0651 ft³ a stroke, 0.1302 ft³ with an equal way back"
        ),
        rel=3e-3,
        rows=[
            (
                dict(
                    area_ratio=1.0,
                    swept_volume_m3=14.4317 * INCH3,
                    return_share=back,
                    drive_pressure_pa=114.7 * PSI,
                    atmosphere_pa=14.7 * PSI,
                ),
                free * FOOT3,
            )
            for back, free in ((0.0, 0.0651), (1.0, 0.1302))
        ],
    ),
    ByHand(
        free_air_of_stroke,
        arithmetic=(
            "a gas piston of 60 mL, the air piston 12 times as large: 0.72 L each way, 1.44 L; at 6 bar(g)"
            " 7.01325 / 1.01325 = 6.9215 times as much free air: 9.967 L"
        ),
        rel=1e-4,
        rows=[
            (
                dict(
                    area_ratio=12.0,
                    swept_volume_m3=60e-6,
                    return_share=1.0,
                    drive_pressure_pa=gauge(6),
                    atmosphere_pa=ATMOSPHERE,
                ),
                9.967e-3,
            ),
        ],
    ),
    ByHand(
        drive_air_per_mass,
        arithmetic="10 000 strokes move a kilogram, each takes 10 L of free air: 100 m³ for a kilogram",
        rel=1e-9,
        rows=[(dict(strokes_per_kg=1e4, free_air_m3=0.010), 100.0)],
    ),
    ByHand(
        drive_air_per_mass,
        arithmetic="0.1 g in a stroke is 10 000 strokes for a kilogram; 2.5 L a stroke: 25 m³ for a kilogram",
        rel=1e-9,
        rows=[(dict(strokes_per_kg=1 / 0.1e-3, free_air_m3=2.5e-3), 25.0)],
    ),
    ByHand(
        strokes_for_mass,
        arithmetic="10 000 strokes for a kilogram, 50 kg in a year by strokes: half a million",
        rel=1e-9,
        rows=[(dict(strokes_per_kg=1e4, mass_kg=50.0), 5e5)],
    ),
    ByHand(
        strokes_for_mass,
        arithmetic="a stroke moves 0.08 g: 400 g are 5 000 strokes",
        rel=1e-9,
        rows=[(dict(strokes_per_kg=1 / 0.08e-3, mass_kg=0.4), 5000.0)],
    ),
]
