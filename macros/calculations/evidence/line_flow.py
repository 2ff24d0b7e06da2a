"""Evidence for flow along lines."""

from macros.calculations.evidence import ByHand, OtherRoute, Printed
from macros.calculations.line_flow import friction_factor, line_pressure_drop, line_velocity, reynolds_number

HYDROGEN = dict(molar_mass_kg_per_mol=2.01588e-3)
# 100 scfm of air, 65 psi(g), 115 °F, 75 ft of 1 inch schedule 40 (bore 1.049 in), clean steel: Reynolds number 142 000, friction 0.0240.
CRANE_7_16 = dict(
    mass_flow_kg_per_s=0.05776, inlet_pressure_pa=549513.0, temperature_k=319.26, bore_m=0.0266446, length_m=22.86,
    friction=0.0240, fittings=0.0, molar_mass_kg_per_mol=28.96546e-3, compressibility=1.0,
)  # fmt: skip
FLUIDS = (
    "{inlet_pressure_pa} - fluids.isothermal_gas(rho={inlet_pressure_pa} * {molar_mass_kg_per_mol} / ({compressibility} * 8.31446261815324 * {temperature_k}),"
    " fd={friction} + {fittings} * {bore_m} / {length_m}, P1={inlet_pressure_pa}, P2=None, L={length_m}, D={bore_m}, m={mass_flow_kg_per_s})"
)

EVIDENCE = [
    OtherRoute(
        reynolds_number,
        library="fluids",
        call="fluids.Reynolds(V={mass_flow_kg_per_s} / (0.084 * 3.141592653589793 * {bore_m} ** 2 / 4), D={bore_m}, rho=0.084, mu={viscosity_pa_s})",
        rel=1e-9,
        rows=[
            (dict(mass_flow_kg_per_s=1e-5, bore_m=0.004, viscosity_pa_s=8.8e-6), 361.7157798),
            (dict(mass_flow_kg_per_s=1e-2, bore_m=0.01, viscosity_pa_s=9.2e-6), 138395.6027),
        ],
    ),
    Printed(
        reynolds_number,
        source="crane-tp-410",
        locator="example 7-1: water at 30 °C, 200 L/min, 50 mm: 100 600",
        rel=1e-2,
        rows=[(dict(mass_flow_kg_per_s=200 / 60 * 0.9957, bore_m=0.0525, viscosity_pa_s=0.797e-3), 100600.0)],
    ),
    ByHand(
        line_velocity,
        arithmetic="1e-5 kg/s at 2.1 kg/m3 in 4 mm: 1e-5/(2.1 × 1.256 637e-5) = 0.378 94 m/s; at 0.084 kg/m3: 9.473 5 m/s",
        rel=1e-4,
        rows=[
            (dict(mass_flow_kg_per_s=1e-5, bore_m=0.004, density_kg_per_m3=2.1), 0.37894),
            (dict(mass_flow_kg_per_s=1e-5, bore_m=0.004, density_kg_per_m3=0.084), 9.4735),
        ],
    ),
    ByHand(
        friction_factor,
        arithmetic="laminar: 64/1000 = 0.064; 64/100 = 0.64",
        rel=1e-3,
        rows=[(dict(reynolds=1000.0, relative_roughness=0.0), 0.064), (dict(reynolds=100.0, relative_roughness=1e-3), 0.64)],
    ),
    OtherRoute(
        friction_factor,
        library="fluids",
        source="colebrook-1939",
        locator="implicit equation",
        call="fluids.friction.Colebrook({reynolds}, {relative_roughness})",
        rel=2e-2,
        rows=[
            (dict(reynolds=1e5, relative_roughness=1e-4), 0.01851386608),
            (dict(reynolds=1e4, relative_roughness=4e-4), 0.03149394622),
            (dict(reynolds=1e6, relative_roughness=2e-3), 0.0236069904),
        ],
    ),
    OtherRoute(
        friction_factor,
        library="fluids",
        call="fluids.friction.Churchill_1977({reynolds}, {relative_roughness})",
        rel=1e-9,
        rows=[(dict(reynolds=3000.0, relative_roughness=1e-3), 0.04369154057), (dict(reynolds=5e4, relative_roughness=0.01), 0.03944933106)],
    ),
    OtherRoute(
        line_pressure_drop,
        library="fluids",
        call=FLUIDS,
        rel=1e-6,
        rows=[
            (CRANE_7_16, 18809.18869),
            (dict(mass_flow_kg_per_s=1e-5, inlet_pressure_pa=26e5, temperature_k=313.15, bore_m=0.004, length_m=12.0, friction=0.064, fittings=5.0, compressibility=1.015, **HYDROGEN), 31.45095243),
            (dict(mass_flow_kg_per_s=4e-3, inlet_pressure_pa=35e5, temperature_k=333.15, bore_m=0.008, length_m=6.0, friction=0.025, fittings=3.0, compressibility=1.02, **HYDROGEN), 27707.07547),
        ],
    ),
    Printed(
        line_pressure_drop,
        source="crane-tp-410",
        locator="example 7-16: 2.61 psi (by a formula for small drops)",
        rel=5e-2,
        rows=[(CRANE_7_16, 2.61 * 6894.757)],
    ),
    ByHand(
        line_pressure_drop,
        arithmetic=(
            "1e-5 kg/s of hydrogen at 26 bar(a), 40 °C in 4 mm over 12 m, friction 0.064, fittings 5: next to no expansion, so the drop of a liquid of"
            " 2.6e6 × 2.015 88e-3/(1.015 × 8.314 463 × 313.15) = 1.983 3 kg/m3: speed 0.401 24 m/s;"
            " (0.064 × 12/0.004 + 5) × 1.983 3 × 0.401 24²/2 = 197 × 0.159 65 = 31.45 Pa"
        ),
        rel=1e-3,
        rows=[(dict(mass_flow_kg_per_s=1e-5, inlet_pressure_pa=26e5, temperature_k=313.15, bore_m=0.004, length_m=12.0, friction=0.064, fittings=5.0, compressibility=1.015, **HYDROGEN), 31.45)],
    ),
]  # fmt: skip
