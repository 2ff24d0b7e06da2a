"""Evidence for torn hoses and lines."""

from macros.calculations.evidence import ByHand, FromMemory, OtherRoute
from macros.calculations.hose import rupture_flow, torn_line_flux

HYDROGEN = dict(heat_capacity_ratio=1.405, molar_mass_kg_per_mol=2.01588e-3, back_pressure_pa=101325.0)
AIR = dict(heat_capacity_ratio=1.4, molar_mass_kg_per_mol=28.96546e-3, back_pressure_pa=101325.0)
# The same flow by density instead of Mach number: the energy balance along the line, and its integral from inlet to tear.
BY_DENSITY = (
    "(lambda k, R, T0, p0, K: (lambda G: G)(scipy.optimize.brentq(lambda G: scipy.integrate.quad(lambda m: 2 * (1 - m * m)"
    " / (k * m ** 3 * (1 + (k - 1) / 2 * m * m)), scipy.optimize.brentq(lambda m: p0 * m * (k / R / T0) ** 0.5 * (1 + (k - 1) / 2 * m * m)"
    " ** (-(k + 1) / 2 / (k - 1)) - G, 1e-9, 1.0), 1.0)[0] - K, 1e-4 * p0 * (k / R / T0) ** 0.5, 0.5783 * p0 * (k / R / T0) ** 0.5)))"
    "({heat_capacity_ratio}, scipy.constants.R / {molar_mass_kg_per_mol}, {upstream_temperature_k}, {upstream_pressure_pa}, {resistance})"
)
# The same integral where the atmosphere is reached before the speed of sound: the flow fixes the Mach number at both ends.
NOT_CHOKED = (
    "(lambda k, R, T0, p0, pb, K: scipy.optimize.brentq(lambda G: scipy.integrate.quad(lambda m: 2 * (1 - m * m) / (k * m ** 3 * (1 + (k - 1) / 2 * m * m)),"
    " scipy.optimize.brentq(lambda m: p0 * m * (k / R / T0) ** 0.5 * (1 + (k - 1) / 2 * m * m) ** (-(k + 1) / 2 / (k - 1)) - G, 1e-9, 1.0),"
    " scipy.optimize.brentq(lambda m: pb * m * (k / R / T0 * (1 + (k - 1) / 2 * m * m)) ** 0.5 - G, 1e-9, 1.0))[0] - K,"
    " 1e-2 * pb * (k / R / T0) ** 0.5, 0.999 * min(pb * (k / R / T0 * (k + 1) / 2) ** 0.5, 0.5783 * p0 * (k / R / T0) ** 0.5)))"
    "({heat_capacity_ratio}, scipy.constants.R / {molar_mass_kg_per_mol}, {upstream_temperature_k}, {upstream_pressure_pa}, {back_pressure_pa}, {resistance})"
)

EVIDENCE = [
    FromMemory(
        torn_line_flux,
        source="fanno-flow",
        locator="printed tables, ratio 1.4, Mach 0.5: friction length 1.069 1; with isentropic 0.843 0 and 1.05",
        rel=1e-3,
        rows=[
            # air, 10 bar, 300 K: 8.430e5 × 0.5 × √(1.4 × 28.965 46e-3/(8.314 463 × 300/1.05))
            (dict(upstream_pressure_pa=1e6, upstream_temperature_k=300.0, resistance=1.0691, **AIR), 1741.5),
        ],
    ),
    ByHand(
        torn_line_flux,
        arithmetic=(
            "without friction it is a nozzle: hydrogen, 10 bar, 20 °C: 623.47 kg/(s m2) (arithmetic at the ideal equation);"
            " with next to no difference it is a liquid: 1.023 25 over 1.013 25 bar, 20 °C, resistance 9: ρ = 102 325 × 8.270 64e-7 = 0.084 629 kg/m3,"
            " √(2 × 0.084 629 × 1000/(1 + 9)) = 4.114 kg/(s m2)"
        ),
        rel=6e-3,
        rows=[
            (dict(upstream_pressure_pa=1e6, upstream_temperature_k=293.15, resistance=0.0, **HYDROGEN), 623.47),
            (dict(upstream_pressure_pa=102325.0, upstream_temperature_k=293.15, resistance=9.0, **HYDROGEN), 4.114),
        ],
    ),
    OtherRoute(
        torn_line_flux,
        library="scipy",
        call=BY_DENSITY,
        rel=1e-6,
        rows=[
            (dict(upstream_pressure_pa=51e5, upstream_temperature_k=288.15, resistance=12.0, **HYDROGEN), 1167.456606),
            (dict(upstream_pressure_pa=141e5, upstream_temperature_k=288.15, resistance=25.0, **HYDROGEN), 2377.694029),
        ],
    ),
    OtherRoute(
        torn_line_flux,
        library="scipy",
        call=NOT_CHOKED,
        rel=1e-6,
        rows=[
            (dict(upstream_pressure_pa=1.8e5, upstream_temperature_k=288.15, resistance=8.0, **HYDROGEN), 43.35853682),
            (dict(upstream_pressure_pa=2.5e5, upstream_temperature_k=288.15, resistance=40.0, **HYDROGEN), 32.15441693),
            (dict(upstream_pressure_pa=1.4e5, upstream_temperature_k=313.15, resistance=1.0, **AIR), 208.3360529),
        ],
    ),
    ByHand(
        rupture_flow,
        arithmetic=(
            "6 mm bore, 10 bar, 20 °C, no friction: 2.827 43e-5 m2 × 623.47 = 0.017 628 kg/s (11.8 Nm3/min);"
            " 4 mm: 1.256 64e-5 × 623.47 = 7.834 8e-3 kg/s"
        ),
        rel=1e-3,
        rows=[
            (dict(bore_area_m2=2.82743e-5, upstream_pressure_pa=1e6, upstream_temperature_k=293.15, resistance=0.0, **HYDROGEN), 0.017628),
            (dict(bore_area_m2=1.25664e-5, upstream_pressure_pa=1e6, upstream_temperature_k=293.15, resistance=0.0, **HYDROGEN), 7.8348e-3),
        ],
    ),
]  # fmt: skip
