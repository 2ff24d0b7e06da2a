"""Evidence for dissolved hydrogen."""

from macros.calculations.dissolved import (
    dissolved_fraction,
    henry_constant,
    hydrogen_returned,
    returned_per_hydrogen,
    share_of_oxygen,
)
from macros.calculations.evidence import ByHand, FromMemory, OtherRoute, Printed

MOLES_OF_WATER = 997.05 / 18.01528e-3

EVIDENCE = [
    OtherRoute(
        henry_constant,
        library="iapws (the same fit with the vapour pressure of another equation)",
        call="iapws._iapws._Henry({temperature_k}, 'H2') * 1e6",
        rel=3e-4,
        rows=[
            (dict(temperature_k=298.15), 7.09614439715e9),
            (dict(temperature_k=313.15), 7.59405052646e9),
            (dict(temperature_k=333.15), 7.84249439093e9),
            (dict(temperature_k=353.15), 7.68394306605e9),
        ],
    ),
    Printed(
        henry_constant,
        source="sander-2023",
        locator="hydrogen: Fernández-Prini 7.8e-6, Young 7.7e-6, Ruetschi and Amlie 7.5e-6 mol/(m³ Pa) at 25 °C, "
        "with 55 345 mol/m³ of water",
        rel=0.05,
        rows=[
            (dict(temperature_k=298.15), MOLES_OF_WATER / 7.8e-6),
            (dict(temperature_k=298.15), MOLES_OF_WATER / 7.7e-6),
            (dict(temperature_k=298.15), MOLES_OF_WATER / 7.5e-6),
        ],
    ),
    Printed(
        henry_constant,
        source="sander-2023",
        locator="hydrogen, Young: 7.7e-6 mol/(m³ Pa) at 25 °C and 490 K, carried to 40 °C: 7.7e-6 × exp(−490 × 1.606 6e-4) = 7.117e-6",
        rel=0.03,
        rows=[(dict(temperature_k=313.15), 992.2 / 18.01528e-3 / 7.117e-6)],
    ),
    ByHand(
        dissolved_fraction,
        arithmetic="26 bar over 7.1e4 bar: 3.661 97e-4; 25.8 bar over 7.593 3e4 bar: 3.397 73e-4",
        rel=1e-5,
        rows=[
            (dict(hydrogen_pressure_pa=26e5, henry_constant_pa=7.1e9), 3.66197e-4),
            (dict(hydrogen_pressure_pa=25.8e5, henry_constant_pa=7.5933e9), 3.39773e-4),
        ],
    ),
    FromMemory(
        dissolved_fraction,
        source="sander-2023",
        locator="solubility at one atmosphere and 25 °C, 1.41e-5 by amount (1.6 mg/L)",
        rel=0.02,
        rows=[(dict(hydrogen_pressure_pa=101325.0, henry_constant_pa=7.0955e9), 1.41e-5)],
    ),
    ByHand(
        hydrogen_returned,
        arithmetic="0.537 74 g/s of water, 29.849 1 mmol/s, × 3.66e-4 = 1.092 48e-5 mol/s; a pot that frees 70 % leaves 3.277 4e-6",
        rel=1e-4,
        rows=[
            (dict(water_kg_per_s=0.53774e-3, dissolved_fraction=3.66e-4), 1.09248e-5),
            (dict(water_kg_per_s=0.53774e-3, dissolved_fraction=3.66e-4, degassed_share=0.7), 3.2774e-6),
        ],
    ),
    ByHand(
        returned_per_hydrogen,
        arithmetic="3 waters a proton, 2 protons a hydrogen: 6 × 3.661 97e-4 = 2.197 18e-3; with 70 % freed 6.591 55e-4",
        rel=1e-5,
        rows=[
            (dict(drag_per_proton=3.0, dissolved_fraction=3.66197e-4), 2.19718e-3),
            (dict(drag_per_proton=3.0, dissolved_fraction=3.66197e-4, degassed_share=0.7), 6.59155e-4),
        ],
    ),
    ByHand(
        share_of_oxygen,
        arithmetic="4 × drag × p / k_H = 4 × 3 × 26 / 7.1e4 = 0.439 4 % of the oxygen: 1.093 09e-5 of 2.487 425e-3 mol/s; "
        "3.277 4e-6 of it are 0.131 76 %",
        rel=1e-3,
        rows=[
            (dict(returned_mol_per_s=1.09309e-5, oxygen_mol_per_s=2.487425e-3), 0.004394),
            (dict(returned_mol_per_s=3.2774e-6, oxygen_mol_per_s=2.487425e-3), 0.0013176),
        ],
    ),
]
