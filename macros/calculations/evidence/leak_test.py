"""Evidence for leak tests."""

from macros.calculations.evidence import ByHand, OtherRoute
from macros.calculations.leak_test import (
    decay_allowed,
    decay_leak,
    hydrogen_leak_factor,
    passing_leak,
    pressure_at_reference,
    smallest_leak_seen,
)

STEADY = dict(first_temperature_k=293.15, last_temperature_k=293.15)
NITROGEN = dict(
    test_viscosity_pa_s=17.58e-6,
    hydrogen_viscosity_pa_s=8.797e-6,
    test_molar_mass_kg_per_mol=28.0134e-3,
    hydrogen_molar_mass_kg_per_mol=2.01588e-3,
)
HELIUM = dict(
    test_viscosity_pa_s=19.6e-6,
    hydrogen_viscosity_pa_s=8.797e-6,
    test_molar_mass_kg_per_mol=4.002602e-3,
    hydrogen_molar_mass_kg_per_mol=2.01588e-3,
)

EVIDENCE = [
    ByHand(
        pressure_at_reference,
        arithmetic="6 bar(a) at 25 °C carried to 15 °C: 6 × 288.15/298.15 = 5.798 76 bar(a); a rise from 10 to 20 °C: 6 × 293.15/283.15 = 6.211 90",
        rel=1e-5,
        rows=[
            (dict(pressure_pa=6e5, temperature_k=298.15, reference_k=288.15), 5.79876e5),
            (dict(pressure_pa=6e5, temperature_k=283.15, reference_k=293.15), 6.21190e5),
        ],
    ),
    ByHand(
        decay_leak,
        arithmetic=(
            "10 L, 0.1 bar in 24 h at 20 °C: 0.01 × 1e4/(8.314 463 × 293.15 × 86 400) = 4.748 56e-7 mol/s,"
            " which is 0.638 6 NmL/min, or 0.011 574 mbar L/s;"
            " 10 L at 6 bar(a) that fell by 0.1 bar while it cooled from 20 to 15.114 °C (6 → 5.9 bar(a) at the same p/T): no leak"
        ),
        abs=2e-11,
        rows=[
            (dict(space_m3=0.01, first_pressure_pa=6e5, last_pressure_pa=5.9e5, time_s=86400.0, **STEADY), 4.74856e-7),
            (dict(space_m3=0.01, first_pressure_pa=6e5, last_pressure_pa=5.9e5, first_temperature_k=293.15, last_temperature_k=288.264166667, time_s=86400.0), 0.0),
        ],
    ),
    OtherRoute(
        decay_leak,
        library="CoolProp",
        call=(
            "{space_m3} / {time_s} * (CoolProp.CoolProp.PropsSI('Dmolar', 'T', {first_temperature_k}, 'P', {first_pressure_pa}, 'Nitrogen')"
            " - CoolProp.CoolProp.PropsSI('Dmolar', 'T', {last_temperature_k}, 'P', {last_pressure_pa}, 'Nitrogen'))"
        ),
        rel=5e-3,
        rows=[(dict(space_m3=0.012, first_pressure_pa=11e5, last_pressure_pa=10.7e5, first_temperature_k=293.15, last_temperature_k=291.15, time_s=3600.0), 3.084668381e-05)],
    ),
    ByHand(
        decay_allowed,
        arithmetic=(
            "the other way round: 4.748 56e-7 mol/s out of 10 L in 24 h at 20 °C makes 0.1 bar;"
            " 1 NmL/min (7.435 85e-7 mol/s) out of 12 L in 1 h at 15 °C: 7.435 85e-7 × 8.314 463 × 288.15 × 3600/0.012 = 534.4 Pa (5.3 mbar)"
        ),
        rel=1e-4,
        rows=[
            (dict(space_m3=0.01, temperature_k=293.15, leak_mol_per_s=4.74856e-7, time_s=86400.0), 1e4),
            (dict(space_m3=0.012, temperature_k=288.15, leak_mol_per_s=7.43585e-7, time_s=3600.0), 534.44),
        ],
    ),
    ByHand(
        smallest_leak_seen,
        arithmetic=(
            "12 L at 11 bar(a) and 15 °C for an hour, gauge step 10 mbar, thermometer 0.2 K: 1000 + 1.1e6 × 0.2/288.15 = 1763.5 Pa;"
            " 0.012 × 1763.5/(8.314 463 × 288.15 × 3600) = 2.453 6e-6 mol/s (3.3 NmL/min);"
            " with a perfect thermometer 0.012 × 1000/8.624 9e6 = 1.391 3e-6 mol/s"
        ),
        rel=1e-4,
        rows=[
            (dict(space_m3=0.012, pressure_pa=1.1e6, temperature_k=288.15, gauge_step_pa=1000.0, thermometer_step_k=0.2, time_s=3600.0), 2.45359e-6),
            (dict(space_m3=0.012, pressure_pa=1.1e6, temperature_k=288.15, gauge_step_pa=1000.0, thermometer_step_k=0.0, time_s=3600.0), 1.39133e-6),
        ],
    ),
    ByHand(
        hydrogen_leak_factor,
        arithmetic=(
            "nitrogen: by viscosity 17.58/8.797 = 2.00, by molar mass √(28.013 4/2.015 88) = 3.727 8, the larger stands;"
            " helium: by viscosity 19.6/8.797 = 2.228, by molar mass √(4.002 602/2.015 88) = 1.409 1"
        ),
        rel=1e-4,
        rows=[(NITROGEN, 3.72777), (HELIUM, 2.22803)],
    ),
    OtherRoute(
        hydrogen_leak_factor,
        library="CoolProp",
        call=(
            "max(CoolProp.CoolProp.PropsSI('V', 'T', 293.15, 'P', 101325, 'Helium') / CoolProp.CoolProp.PropsSI('V', 'T', 293.15, 'P', 101325, 'Hydrogen'),"
            " (CoolProp.CoolProp.PropsSI('M', 'Helium') / CoolProp.CoolProp.PropsSI('M', 'Hydrogen')) ** 0.5)"
        ),
        rel=5e-3,
        rows=[(HELIUM, 2.230089595)],
    ),
    ByHand(
        passing_leak,
        arithmetic=(
            "a shut valve that lets 0.5 L rise by 20 mbar in 10 min at 15 °C: 5e-4 × 2000/(8.314 463 × 288.15 × 600) = 6.956 6e-7 mol/s (0.94 NmL/min);"
            " a pressure that fell shows nothing: 0"
        ),
        abs=2e-11,
        rows=[
            (dict(space_m3=5e-4, pressure_rise_pa=2000.0, temperature_k=288.15, time_s=600.0), 6.95663e-7),
            (dict(space_m3=5e-4, pressure_rise_pa=-2000.0, temperature_k=288.15, time_s=600.0), 0.0),
        ],
    ),
]  # fmt: skip
