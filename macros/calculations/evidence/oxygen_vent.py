"""Evidence for the oxygen's vent."""

from macros.calculations.evidence import ByHand, OtherRoute
from macros.calculations.oxygen_vent import vent_velocity

EVIDENCE = [
    OtherRoute(
        vent_velocity,
        library="CoolProp, numpy (dry oxygen as a real gas)",
        call="{oxygen_mol_per_s} / CoolProp.CoolProp.PropsSI('DMOLAR', 'T', {temperature_k}, 'P', {pressure_pa}, 'Oxygen')"
        " / (numpy.pi * {bore_m} ** 2 / 4)",
        rel=2e-3,
        rows=[
            (
                dict(
                    oxygen_mol_per_s=2.487e-3,
                    water_fraction=0.0,
                    temperature_k=313.15,
                    pressure_pa=101325.0,
                    bore_m=0.012,
                ),
                0.5647680328,
            ),
        ],
    ),
    ByHand(
        vent_velocity,
        arithmetic="2.487 mmol/s dry with 7.288 % vapour are 2.682 5 mmol/s; × 8.314 463 × 313.15 / 101 325 = 6.893 1e-5 m³/s, over "
        "1.130 97e-4 m² 0.609 5 m/s; at half the bore four times that, 2.438 m/s",
        rel=2e-4,
        rows=[
            (
                dict(
                    oxygen_mol_per_s=2.487e-3,
                    water_fraction=0.07288,
                    temperature_k=313.15,
                    pressure_pa=101325.0,
                    bore_m=0.012,
                ),
                0.6095,
            ),
            (
                dict(
                    oxygen_mol_per_s=2.487e-3,
                    water_fraction=0.07288,
                    temperature_k=313.15,
                    pressure_pa=101325.0,
                    bore_m=0.006,
                ),
                2.438,
            ),
        ],
    ),
]
