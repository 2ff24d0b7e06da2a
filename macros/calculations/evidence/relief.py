"""Evidence for relief valves."""

from macros.calculations.evidence import ByHand, FromMemory, OtherRoute
from macros.calculations.relief import relief_area_required, relief_capacity, relieving_pressure

EXAMPLE_1 = dict(
    mass_flow_kg_per_s=24270 / 3600, relieving_pressure_pa=670e3, temperature_k=348.0, discharge_coefficient=0.975,
    heat_capacity_ratio=1.11, molar_mass_kg_per_mol=51e-3, compressibility=0.90,
)  # fmt: skip
HYDROGEN = dict(heat_capacity_ratio=1.405, molar_mass_kg_per_mol=2.01588e-3)
FLUIDS = (
    "fluids.API520_A_g(m={mass_flow_kg_per_s}, T={temperature_k}, Z={compressibility}, MW={molar_mass_kg_per_mol}*1e3,"
    " k={heat_capacity_ratio}, P1={relieving_pressure_pa}, P2={back_pressure_pa}, Kd={discharge_coefficient})"
)

EVIDENCE = [
    ByHand(
        relieving_pressure,
        arithmetic=(
            "set at 30 bar(g), 10 % accumulation, atmosphere 1.013 25 bar: 30 × 1.1 + 1.013 25 = 34.013 25 bar(a);"
            " with 3 % tolerance and no accumulation: 30.9 + 1.013 25 = 31.913 25 bar(a)"
        ),
        rel=1e-9,
        rows=[
            (dict(set_pressure_pa=3101325.0, atmosphere_pa=101325.0, accumulation=0.1), 3401325.0),
            (dict(set_pressure_pa=3101325.0, atmosphere_pa=101325.0, accumulation=0.0, tolerance=0.03), 3191325.0),
        ],
    ),
    FromMemory(
        relief_area_required,
        source="api-520",
        locator="example 1, gas in critical flow: 3698 mm2",
        rel=1e-3,
        rows=[(dict(back_pressure_pa=101325.0, **EXAMPLE_1), 3698e-6)],
    ),
    OtherRoute(
        relief_area_required,
        library="fluids",
        source="api-520",
        locator="examples 1 and 2 (the second with 532 kPa behind the valve) as the library fluids carries them",
        call=FLUIDS,
        rel=1e-3,
        rows=[
            (dict(back_pressure_pa=101325.0, **EXAMPLE_1), 0.003699046065),
            (dict(back_pressure_pa=532e3, **EXAMPLE_1), 0.004248358776),
        ],
    ),
    OtherRoute(
        relief_area_required,
        library="fluids",
        call=FLUIDS,
        rel=1e-3,
        rows=[
            (dict(mass_flow_kg_per_s=1e-5, relieving_pressure_pa=3.4e6, temperature_k=333.15, back_pressure_pa=101325.0, discharge_coefficient=0.7, compressibility=1.02, **HYDROGEN), 7.255734579e-09),
            (dict(mass_flow_kg_per_s=1e-5, relieving_pressure_pa=1.6e5, temperature_k=333.15, back_pressure_pa=101325.0, discharge_coefficient=0.7, compressibility=1.0, **HYDROGEN), 1.564933718e-07),
        ],
    ),
    ByHand(
        relief_capacity,
        arithmetic=(
            "12.57 mm2 (4 mm), coefficient 0.7, hydrogen at 34 bar(a), 60 °C, compressibility 1.02: "
            "M/(Z R T) = 2.015 88e-3/(1.02 × 8.314 463 × 333.15) = 7.134 9e-7; × 1.405 = 1.002 45e-6, root 1.001 22e-3; "
            "× 0.578 377 (ideal equation, k = 1.405) = 5.790 83e-4; × 3.4e6 = 1968.9 kg/(s m2); "
            "× 0.7 × 12.57e-6 = 0.017 324 kg/s (11.6 Nm3/min)"
        ),
        rel=2e-4,
        rows=[(dict(flow_area_m2=12.57e-6, relieving_pressure_pa=3.4e6, temperature_k=333.15, back_pressure_pa=101325.0, discharge_coefficient=0.7, compressibility=1.02, **HYDROGEN), 0.017324)],
    ),
    OtherRoute(
        relief_capacity,
        library="fluids",
        call=(
            "{flow_area_m2} / fluids.API520_A_g(m=1.0, T={temperature_k}, Z={compressibility}, MW={molar_mass_kg_per_mol}*1e3,"
            " k={heat_capacity_ratio}, P1={relieving_pressure_pa}, P2={back_pressure_pa}, Kd={discharge_coefficient})"
        ),
        rel=1e-3,
        rows=[
            (dict(flow_area_m2=5e-6, relieving_pressure_pa=7.6e5, temperature_k=313.15, back_pressure_pa=101325.0, discharge_coefficient=0.6, compressibility=1.005, **HYDROGEN), 0.00137194676),
            (dict(flow_area_m2=20e-6, relieving_pressure_pa=1.55e7, temperature_k=313.15, back_pressure_pa=101325.0, discharge_coefficient=0.6, compressibility=1.09, **HYDROGEN), 0.1074694775),
        ],
    ),
]  # fmt: skip
