"""Evidence for flow through holes."""

from macros.calculations.evidence import ByHand, FromMemory, OtherRoute
from macros.calculations.leak import (
    critical_pressure_ratio,
    hole_area,
    ideal_mass_flux,
    leak_flow,
    nozzle_mass_flux,
    opening_of_valve,
)

HYDROGEN = dict(heat_capacity_ratio=1.405, molar_mass_kg_per_mol=2.01588e-3)

# A real gas by an equation that shares nothing with ours: p (v - b) = R T / M with b = 7.691e-3 m3/kg, heat capacities constant.
# Isentrope p (v - b)^k constant; the energy balance h = cp T + b p; the largest flux over the pressure in the throat.
ABEL_NOBLE = (
    "max((lambda p0, T0, x: (lambda R, b, k: (lambda w: ((2 * (k * R / (k - 1) * T0 * (1 - x ** ((k - 1) / k)) + b * p0 * (1 - x))) ** 0.5"
    " / (w * x ** (-1 / k) + b)))(R * T0 / p0))(scipy.constants.R / 2.01588e-3, 7.691e-3, 1.41))"
    "({upstream_pressure_pa}, {upstream_temperature_k}, max(n / 2000, {back_pressure_pa} / {upstream_pressure_pa})) for n in range(800, 2000))"
)

EVIDENCE = [
    ByHand(
        hole_area,
        arithmetic="1 mm: 3.141 593 × (1e-3)^2 / 4 = 7.853 98e-7 m2; 0.25 mm: 7.853 98e-7 / 16 = 4.908 74e-8 m2",
        rel=1e-5,
        rows=[(dict(diameter_m=1e-3), 7.85398e-7), (dict(diameter_m=0.25e-3), 4.90874e-8)],
    ),
    OtherRoute(
        opening_of_valve,
        library="fluids",
        call="3.141592653589793 * 0.01 ** 2 / 4 / fluids.Kv_to_K({flow_coefficient}, 0.01) ** 0.5",
        rel=2e-3,
        rows=[(dict(flow_coefficient=0.02), 3.926990817e-07), (dict(flow_coefficient=1.2), 2.35619449e-05)],
    ),
    ByHand(
        opening_of_valve,
        arithmetic="Kv 0.3: 0.3/3600 m3/s over √(2 × 1e5/1000) = 14.142 m/s: 5.892 6e-6 m2",
        rel=1e-4,
        rows=[(dict(flow_coefficient=0.3), 5.8926e-6)],
    ),
    OtherRoute(
        critical_pressure_ratio,
        library="fluids",
        call="fluids.P_critical_flow(1.0, {heat_capacity_ratio})",
        rel=1e-9,
        rows=[(dict(heat_capacity_ratio=1.4), 0.5282817877171742), (dict(heat_capacity_ratio=1.41), 0.5266032928)],
    ),
    ByHand(
        ideal_mass_flux,
        arithmetic=(
            "hydrogen, 10 bar, 20 °C, into 1 bar, choked: p √(k M/(R T)) (2/(k+1))^((k+1)/(2(k−1)));"
            " M/(R T) = 2.015 88e-3/(8.314 463 × 293.15) = 8.270 64e-7; × 1.405 = 1.162 02e-6, root 1.077 97e-3;"
            " 2/2.405 = 0.831 601, exponent 2.405/0.81 = 2.969 14: exp(−0.184 402 6 × 2.969 14) = 0.578 377;"
            " 1e6 × 1.077 97e-3 × 0.578 377 = 623.47 kg/(s m2)"
        ),
        rel=2e-4,
        rows=[(dict(upstream_pressure_pa=1e6, upstream_temperature_k=293.15, back_pressure_pa=1e5, **HYDROGEN), 623.47)],
    ),
    ByHand(
        ideal_mass_flux,
        arithmetic=(
            "hydrogen, 1 mbar over an atmosphere, 20 °C: next to no expansion, so √(2 ρ Δp);"
            " ρ = 101 425 × 8.270 64e-7 = 0.083 885 kg/m3; √(2 × 0.083 885 × 100) = 4.096 kg/(s m2)"
        ),
        rel=2e-3,
        rows=[(dict(upstream_pressure_pa=101425.0, upstream_temperature_k=293.15, back_pressure_pa=101325.0, **HYDROGEN), 4.096)],
    ),
    OtherRoute(
        ideal_mass_flux,
        library="fluids",
        call=(
            "0.975**-1 / fluids.API520_A_g(m=1.0, T={upstream_temperature_k}, Z={compressibility}, MW={molar_mass_kg_per_mol}*1e3,"
            " k={heat_capacity_ratio}, P1={upstream_pressure_pa}, P2={back_pressure_pa})"
        ),
        rel=2e-3,
        rows=[
            (
                dict(upstream_pressure_pa=3.4e6, upstream_temperature_k=313.15, back_pressure_pa=1e5, compressibility=1.02, **HYDROGEN),
                2030.786526,
            ),
            (
                dict(upstream_pressure_pa=1.5e5, upstream_temperature_k=313.15, back_pressure_pa=1e5, compressibility=1.0, **HYDROGEN),
                86.57060973,
            ),
        ],
    ),
    FromMemory(
        ideal_mass_flux,
        source="crowl-louvar",
        locator="chapter 4, flow of gas through holes, the worked example of a leak of nitrogen",
        rel=5e-3,
        rows=[
            (
                dict(  # 200 psi(g), 80 °F; 0.0380 lb/s through 0.1 in with the coefficient 1
                    upstream_pressure_pa=1480276.0, upstream_temperature_k=299.82, back_pressure_pa=101325.0,
                    heat_capacity_ratio=1.41, molar_mass_kg_per_mol=28.0134e-3,
                ),
                0.0380 * 0.45359237 / 5.0671e-6,
            )
        ],
    ),
    ByHand(
        nozzle_mass_flux,
        arithmetic=(
            "10 bar, 20 °C, into 1 bar: as an ideal gas with k = 1.405: 623.5 kg/(s m2) (arithmetic at the ideal equation);"
            " the compressibility factor is 1.006, so the real gas lies within 0.3 %"
        ),
        rel=4e-3,
        rows=[(dict(upstream_pressure_pa=1e6, upstream_temperature_k=293.15, back_pressure_pa=1e5), 623.5)],
    ),
    OtherRoute(
        nozzle_mass_flux,
        library="scipy",
        call=ABEL_NOBLE,
        rel=1e-2,
        rows=[
            (dict(upstream_pressure_pa=2.6e6, upstream_temperature_k=293.15, back_pressure_pa=1e5), 1616.917811),
            (dict(upstream_pressure_pa=14.1e6, upstream_temperature_k=293.15, back_pressure_pa=1e5), 8627.592669),
            (dict(upstream_pressure_pa=20.1e6, upstream_temperature_k=293.15, back_pressure_pa=1e5), 12199.01845),
            (dict(upstream_pressure_pa=1.5e5, upstream_temperature_k=293.15, back_pressure_pa=1.013e5), 88.9214861),
        ],
    ),
    ByHand(
        leak_flow,
        arithmetic=(
            "0.1 mm, 10 bar, 20 °C, coefficient 0.75: 7.853 98e-9 m2 × 0.75 × 623.9 kg/(s m2) = 3.675e-6 kg/s (2.45 NL/min);"
            " 0.25 mm, 5 bar: 4.908 74e-8 × 0.75 × 312.1 = 1.149e-5 kg/s, the flux being half that at 10 bar within 0.1 %"
        ),
        rel=2e-3,
        rows=[
            (
                dict(hole_area_m2=7.85398e-9, discharge_coefficient=0.75, upstream_pressure_pa=1e6, upstream_temperature_k=293.15, back_pressure_pa=101325.0),
                3.675e-6,
            ),
            (
                dict(hole_area_m2=4.90874e-8, discharge_coefficient=0.75, upstream_pressure_pa=5e5, upstream_temperature_k=293.15, back_pressure_pa=101325.0),
                1.149e-5,
            ),
        ],
    ),
]  # fmt: skip
