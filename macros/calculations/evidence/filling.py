"""
Evidence for the warming of a vessel that is filled.

The energies of the other route follow by calculus from the equation of Lemmon, Huber and Leachman, those of the ideal gas
from the heat capacity that the library chemicals carries.
"""

from macros.calculations.evidence import ByHand, OtherRoute
from macros.calculations.evidence.storage import BAR, gauge, other_density, other_pressure, other_terms
from macros.calculations.filling import (
    adiabatic_fill_temperature,
    cylinder_surface,
    gas_wall_fill,
    shared_fill_temperature,
    shortest_fill_time,
)

_HEAT = "4.7, 2311000.0, 1150.0, -10.157, 11.235, -1640000.0, 39.0, 41.0"
"""Coefficients of the heat capacity of the ideal gas, as the library chemicals carries them for hydrogen."""


def other_enthalpy(pressure: str, temperature: str) -> str:
    """Enthalpy by the other route, as an expression; its zero is arbitrary."""
    departure = f"sum(a * b / c * (100 / {temperature})**b * ({pressure} / 1e6)**c for a, b, c in {other_terms()})"
    ideal = f"chemicals.heat_capacity.TRCCp_integral({temperature}, {_HEAT})"
    return f"(({ideal} + scipy.constants.R * {temperature} * {departure}) / 2.01588e-3)"


def other_energy(pressure: str, temperature: str) -> str:
    """Internal energy by the other route, as an expression."""
    return f"({other_enthalpy(pressure, temperature)} - {pressure} / {other_density(pressure, temperature)})"


_SUPPLIED = other_enthalpy("{supply_pressure_pa}", "{supply_temperature_k}")
_BEFORE = other_density("{initial_pressure_pa}", "{initial_temperature_k}")
_ENERGY_BEFORE = other_energy("{initial_pressure_pa}", "{initial_temperature_k}")
_ADIABATIC = (
    f"scipy.optimize.brentq(lambda T: {other_density('{final_pressure_pa}', 'T')}"
    f" * ({other_energy('{final_pressure_pa}', 'T')} - {_SUPPLIED}) - {_BEFORE} * ({_ENERGY_BEFORE} - {_SUPPLIED}), 250, 600)"
)


def _shared(initial_temperature: str, wall_heat_capacity: str) -> str:
    """Temperature at which gas of the full vessel and its wall hold all the energy that came in."""
    before = other_density("{initial_pressure_pa}", initial_temperature)
    energy_before = other_energy("{initial_pressure_pa}", initial_temperature)
    after = other_density("{settled_pressure_pa}", "288.15")
    energy = other_energy("p", "T")
    return (
        "scipy.optimize.brentq(lambda T: (lambda p: {volume_m3} * ("
        f"{after} * ({energy} - {_SUPPLIED}) - {before} * ({energy_before} - {_SUPPLIED})) + {wall_heat_capacity}"
        f" * (T - {initial_temperature}))({other_pressure(after, 'T')}), 250, 600)"
    )


_BOTTLE = dict(
    volume_m3=0.05, initial_pressure_pa=gauge(0), settled_pressure_pa=200 * BAR, supply_pressure_pa=200 * BAR,
    supply_temperature_k=288.15,
)  # fmt: skip
_SLOW = dict(
    volume_m3=0.05, wall_heat_capacity_j_per_k=25850.0, initial_pressure_pa=gauge(0), ambient_temperature_k=288.15,
    settled_pressure_pa=gauge(20), supply_pressure_pa=gauge(20), supply_temperature_k=288.15,
)  # fmt: skip

EVIDENCE = [
    ByHand(
        cylinder_surface,
        arithmetic=(
            "20 cm across and 120 cm long: volume π/4 × 0.04 × 1.2 = 0.037 70 m³, mantle π × 0.2 × 1.2 = 0.7540 m²,"
            " two ends 2 × 0.031 42 = 0.0628 m²: 0.8168 m²; 10 cm across and 10 cm long: 0.785 40 L, 1.5 × π × 0.01 m²"
        ),
        rel=1e-3,
        rows=[
            (dict(volume_m3=0.0377, slenderness=6.0), 0.8168),
            (dict(volume_m3=0.7854e-3, slenderness=1.0), 0.047124),
        ],
    ),
    OtherRoute(
        adiabatic_fill_temperature,
        library="scipy, chemicals",
        call=_ADIABATIC,
        abs=0.5,
        rows=[
            (
                dict(
                    initial_pressure_pa=gauge(0),
                    initial_temperature_k=288.15,
                    final_pressure_pa=200 * BAR,
                    supply_pressure_pa=200 * BAR,
                    supply_temperature_k=288.15,
                ),
                414.368819,
            ),
            (
                dict(
                    initial_pressure_pa=20 * BAR,
                    initial_temperature_k=288.15,
                    final_pressure_pa=350 * BAR,
                    supply_pressure_pa=350 * BAR,
                    supply_temperature_k=288.15,
                ),
                412.916824,
            ),
            (
                dict(
                    initial_pressure_pa=gauge(25),
                    initial_temperature_k=308.15,
                    final_pressure_pa=gauge(50),
                    supply_pressure_pa=gauge(60),
                    supply_temperature_k=308.15,
                ),
                359.155926,
            ),
        ],
    ),
    ByHand(
        adiabatic_fill_temperature,
        arithmetic=(
            "ideal gas into an all but empty vessel (0.1 bar, then 10 bar): T = γT₀p₂ / (p₂ + (γ − 1)p₁)"
            " = 1.406 × 288.15 × 10 / (10 + 0.406 × 0.1) = 403.5 K; at 10 bar hydrogen is warmed by its expansion"
            " of 10 bar by 0.4 K more"
        ),
        abs=1.5,
        rows=[
            (
                dict(
                    initial_pressure_pa=0.1 * BAR,
                    initial_temperature_k=288.15,
                    final_pressure_pa=10 * BAR,
                    supply_pressure_pa=10 * BAR,
                    supply_temperature_k=288.15,
                ),
                403.9,
            ),
        ],
    ),
    OtherRoute(
        shared_fill_temperature,
        library="scipy, chemicals",
        call=_shared("{initial_temperature_k}", "{wall_heat_capacity_j_per_k}"),
        abs=0.2,
        rows=[
            (_BOTTLE | dict(wall_heat_capacity_j_per_k=25850.0, initial_temperature_k=288.15), 317.756146),
            (_BOTTLE | dict(wall_heat_capacity_j_per_k=8000.0, initial_temperature_k=303.15), 358.821048),
        ],
    ),
    ByHand(
        shared_fill_temperature,
        arithmetic=(
            "a 50 L steel bottle of 55 kg, 470 J/(kg K): 25.85 kJ/K; 0.743 kg come in at 200 bar and bring their flow work"
            " p/ρ = 200e5 / 14.94 = 1339 kJ/kg and 95 kJ/kg by which compressed gas at 15 °C holds less internal"
            " energy: about 0.743 × 1339 = 995 kJ into 25.85 + 0.747 × 10.5 = 33.7 kJ/K: 29.5 K up"
        ),
        abs=1.0,
        rows=[(_BOTTLE | dict(wall_heat_capacity_j_per_k=25850.0, initial_temperature_k=288.15), 288.15 + 29.5)],
    ),
    OtherRoute(
        gas_wall_fill,
        library="scipy, chemicals",
        call=_shared("{ambient_temperature_k}", "0.0"),
        pick=lambda filling: filling.end_temperature_k,
        abs=0.7,
        rows=[
            (
                _BOTTLE
                | dict(
                    wall_heat_capacity_j_per_k=25850.0,
                    inner_conductance_w_per_k=0.0,
                    outer_conductance_w_per_k=5.0,
                    ambient_temperature_k=288.15,
                    stop_pressure_pa=700 * BAR,
                    fill_time_s=600.0,
                ),
                415.342092,
            ),
        ],
    ),
    OtherRoute(
        gas_wall_fill,
        library="scipy, chemicals",
        call=_shared("{ambient_temperature_k}", "{wall_heat_capacity_j_per_k}"),
        pick=lambda filling: filling.end_temperature_k,
        abs=0.2,
        rows=[
            (
                _BOTTLE
                | dict(
                    wall_heat_capacity_j_per_k=25850.0,
                    inner_conductance_w_per_k=1e5,
                    outer_conductance_w_per_k=0.0,
                    ambient_temperature_k=288.15,
                    stop_pressure_pa=700 * BAR,
                    fill_time_s=600.0,
                ),
                317.756146,
            ),
        ],
    ),
    ByHand(
        gas_wall_fill,
        arithmetic=(
            "50 L to 20 bar(g) in a day: 1.6808 g/L at the end: 80 g, 0.926 mg/s; each gram brings its flow work RT"
            " = 8.314 × 288.15 / 2.016 = 1188 J, and 1.5 % more at these pressures: 1.12 W; through 20 and 5 W/K in series,"
            " 4 W/K: 0.28 K above 15 °C"
        ),
        pick=lambda filling: filling.peak_temperature_k,
        abs=0.02,
        rows=[
            (
                _SLOW
                | dict(
                    inner_conductance_w_per_k=20.0,
                    outer_conductance_w_per_k=5.0,
                    stop_pressure_pa=gauge(30),
                    fill_time_s=86400.0,
                ),
                288.15 + 0.28,
            ),
        ],
    ),
    ByHand(
        shortest_fill_time,
        arithmetic=(
            "50 L to 20 bar(g) so slowly that gas and wall stay 0.5 K above ambient: 80 g bring 80 × 1.205 kJ = 96.4 kJ,"
            " through 4 W/K and 0.5 K 2 W leave: 48 200 s"
        ),
        rel=0.04,
        rows=[
            (
                _SLOW | dict(inner_conductance_w_per_k=20.0, outer_conductance_w_per_k=5.0, limit_temperature_k=288.65),
                48200.0,
            ),
        ],
    ),
    ByHand(
        shortest_fill_time,
        arithmetic=(
            "the same with twice the conductances loses twice as much; 0.25 K in the place of 0.5 K halves that again:"
            " 48 200 s once more"
        ),
        rel=0.04,
        rows=[
            (
                _SLOW
                | dict(inner_conductance_w_per_k=40.0, outer_conductance_w_per_k=10.0, limit_temperature_k=288.40),
                48200.0,
            ),
        ],
    ),
]
