"""Evidence for a stack that has stopped."""

from macros.calculations.evidence import ByHand, OtherRoute
from macros.calculations.standstill import (
    dry_gas_held,
    hydrogen_after_let_down,
    let_down_time,
    sweep_flow,
    time_to_limit,
    time_to_limit_shut,
)

EVIDENCE = [
    OtherRoute(
        dry_gas_held,
        library="CoolProp (oxygen as a real gas at its partial pressure)",
        call="CoolProp.CoolProp.PropsSI('DMOLAR', 'T', {temperature_k}, 'P', {pressure_pa} - {vapour_pressure_pa}, 'Oxygen')"
        " * {volume_m3}",
        rel=1e-3,
        rows=[
            (
                dict(volume_m3=1e-3, pressure_pa=1.113e5, vapour_pressure_pa=0.19946e5, temperature_k=333.15),
                0.03299085635,
            ),
            (
                dict(volume_m3=5e-3, pressure_pa=1.013e5, vapour_pressure_pa=0.0317e5, temperature_k=298.15),
                0.1980530029,
            ),
        ],
    ),
    OtherRoute(
        time_to_limit,
        library="scipy (integral of the dilution)",
        call="scipy.integrate.quad(lambda x: {gas_mol} / {crossover_mol_per_s} / (1 - x), 0, {hydrogen_limit})[0]",
        rel=1e-6,
        rows=[
            (dict(gas_mol=0.033, crossover_mol_per_s=3.64e-5, hydrogen_limit=0.04), 37.00895108),
            (dict(gas_mol=0.033, crossover_mol_per_s=3.64e-5, hydrogen_limit=0.02), 18.31564125),
        ],
    ),
    ByHand(
        time_to_limit,
        arithmetic="a litre at 0 °C and one atmosphere, 44.615 mmol, and 55 NmL/min, 40.898 µmol/s: 1090.9 s × 0.040 822 "
        "= 44.53 s to 4 % (a litre over 55 mL/min is 1090.9 s; −ln 0.96 = 0.040 822)",
        rel=2e-4,
        rows=[(dict(gas_mol=44.615e-3, crossover_mol_per_s=40.898e-6, hydrogen_limit=0.04), 44.53)],
    ),
    ByHand(
        time_to_limit_shut,
        arithmetic="0.033 mol with 3.64e-5 mol/s: 4 parts of hydrogen to 96 of oxygen are 0.033 × 4 / 96 = 1.375e-3 mol: 37.775 s; "
        "to 2 %, 0.033 × 2 / 98 = 6.734 69e-4 mol: 18.502 s",
        rel=1e-4,
        rows=[
            (dict(gas_mol=0.033, crossover_mol_per_s=3.64e-5, hydrogen_limit=0.04), 37.775),
            (dict(gas_mol=0.033, crossover_mol_per_s=3.64e-5, hydrogen_limit=0.02), 18.502),
        ],
    ),
    ByHand(
        let_down_time,
        arithmetic="26.013 to 1.513 bar(a) at 5 bar/min: 24.5 / 5 = 4.9 min = 294 s; 5.013 to 1.013 at 1 bar/min: 240 s",
        rel=1e-9,
        rows=[
            (dict(pressure_pa=26.013e5, end_pressure_pa=1.513e5, rate_pa_per_s=5e5 / 60), 294.0),
            (dict(pressure_pa=5.013e5, end_pressure_pa=1.013e5, rate_pa_per_s=1e5 / 60), 240.0),
        ],
    ),
    OtherRoute(
        hydrogen_after_let_down,
        library="scipy (the balance integrated step by step)",
        call="scipy.integrate.solve_ivp(lambda t, x: ({crossover_mol_per_s} + ({crossover_end_mol_per_s} - {crossover_mol_per_s})"
        " * t / {let_down_time_s}) / {gas_mol} * (1 - x), (0, {let_down_time_s}), [0.0], rtol=1e-10, atol=1e-12).y[0, -1]",
        rel=1e-6,
        rows=[
            (
                dict(
                    crossover_mol_per_s=3.6e-5,
                    crossover_end_mol_per_s=1.8e-6,
                    let_down_time_s=294.0,
                    gas_mol=0.033,
                ),
                0.15496887517,
            ),
            (
                dict(crossover_mol_per_s=6e-6, crossover_end_mol_per_s=1e-6, let_down_time_s=60.0, gas_mol=0.1),
                0.00209779654,
            ),
        ],
    ),
    ByHand(
        sweep_flow,
        arithmetic="2 % is one part of hydrogen to 49: 63.6 NmL/min ask for 3.116 NL/min; 1 %, one to 99: 6.296 NL/min",
        rel=1e-3,
        rows=[
            (dict(crossover_mol_per_s=4.7291e-5, hydrogen_limit=0.02), 3.116e-3 / 22.41397e-3 / 60),
            (dict(crossover_mol_per_s=4.7291e-5, hydrogen_limit=0.01), 6.296e-3 / 22.41397e-3 / 60),
        ],
    ),
]
