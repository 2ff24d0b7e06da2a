"""Evidence for Faraday's law."""

from macros.calculations.evidence import ByHand, OtherRoute, Printed
from macros.calculations.faraday import (
    current_density,
    efficiency_higher,
    efficiency_lower,
    hydrogen_mass_flow,
    hydrogen_produced,
    oxygen_produced,
    specific_energy,
    water_consumed,
    water_dragged,
)

EVIDENCE = [
    ByHand(
        current_density,
        arithmetic="60 A over 50 cm²: 1.2 A/cm² = 12 000 A/m². 25 A over 25 cm²: 1 A/cm² = 10 000 A/m²",
        rel=1e-12,
        rows=[
            (dict(current_a=60.0, active_area_m2=50e-4), 12000.0),
            (dict(current_a=25.0, active_area_m2=25e-4), 10000.0),
        ],
    ),
    OtherRoute(
        hydrogen_produced,
        library="scipy",
        call="{current_a} * {cells} / (2 * scipy.constants.e * scipy.constants.N_A)",
        rel=1e-9,
        rows=[
            (dict(current_a=60.0, cells=16.0), 4.974849435e-3),
            (dict(current_a=25.0, cells=5.0), 6.477668535e-4),
            (dict(current_a=120.0, cells=40.0), 2.4874247175e-2),
        ],
    ),
    ByHand(
        hydrogen_produced,
        arithmetic="1 A through one cell: 1 / (2 × 96 485.332) = 5.182 135e-6 mol/s; with 98 % of the current 5.078 492e-6",
        rel=1e-6,
        rows=[
            (dict(current_a=1.0, cells=1.0), 5.182135e-6),
            (dict(current_a=1.0, cells=1.0, faraday_efficiency=0.98), 5.078492e-6),
        ],
    ),
    ByHand(
        hydrogen_produced,
        arithmetic="1 A for an hour: 3600 C / (2 × 96 485.332 C/mol) = 18.655 69 mmol = 0.418 145 NL at 22.413 97 L/mol; "
        "0.418 145 NL/h = 6.969 1 NmL/min",
        rel=1e-4,
        rows=[(dict(current_a=1.0, cells=1.0), 6.9691e-6 / 60 / 22.41397e-3)],
    ),
    ByHand(
        oxygen_produced,
        arithmetic="4.974 85 mmol/s of hydrogen leave half as much oxygen, 2.487 425; with 0.03 mmol/s burnt again "
        "(4.974 85 − 0.03) / 2 = 2.472 425 mmol/s",
        rel=1e-6,
        rows=[
            (dict(hydrogen_gross_mol_per_s=4.97485e-3), 2.487425e-3),
            (dict(hydrogen_gross_mol_per_s=4.97485e-3, recombined_mol_per_s=3e-5), 2.472425e-3),
        ],
    ),
    OtherRoute(
        water_consumed,
        library="chemicals",
        call="chemicals.MW('H2O') * 1e-3 * {hydrogen_gross_mol_per_s}",
        rel=1e-5,
        rows=[
            (dict(hydrogen_gross_mol_per_s=4.974849435e-3), 8.962329e-5),
            (dict(hydrogen_gross_mol_per_s=1.0), 1.80152800e-2),
        ],
    ),
    ByHand(
        water_consumed,
        arithmetic="a mole a second less a tenth burnt again: 0.9 × 18.015 28 g = 16.213 75 g/s",
        rel=1e-6,
        rows=[(dict(hydrogen_gross_mol_per_s=1.0, recombined_mol_per_s=0.1), 16.213752e-3)],
    ),
    ByHand(
        water_dragged,
        arithmetic="16 cells, 60 A, 3 waters a proton: 3 × 16 × 60 / 96 485.332 = 29.849 10 mmol/s, × 18.015 28 g/mol "
        "= 0.537 740 g/s = 1.936 kg/h. Five cells, 25 A, 2 a proton: 2 × 125 / 96 485.332 × 18.015 28 = 0.046 679 g/s",
        rel=1e-5,
        rows=[
            (dict(current_a=60.0, cells=16.0, drag_per_proton=3.0), 0.537740e-3),
            (dict(current_a=25.0, cells=5.0, drag_per_proton=2.0), 0.0466788e-3),
        ],
    ),
    OtherRoute(
        hydrogen_mass_flow,
        library="chemicals",
        call="chemicals.MW('H2') * 1e-3 * {hydrogen_mol_per_s}",
        rel=1e-5,
        rows=[(dict(hydrogen_mol_per_s=4.9e-3), 9.877812e-6), (dict(hydrogen_mol_per_s=0.5), 1.00794e-3)],
    ),
    OtherRoute(
        specific_energy,
        library="scipy, chemicals",
        call="2 * scipy.constants.e * scipy.constants.N_A * {cell_voltage_v}"
        " / (chemicals.MW('H2') * 1e-3 * {faraday_efficiency})",
        rel=1e-5,
        rows=[
            (dict(cell_voltage_v=1.6, faraday_efficiency=1.0), 153.1604375e6),
            (dict(cell_voltage_v=2.0, faraday_efficiency=1.0), 191.4505469e6),
            (dict(cell_voltage_v=1.85, faraday_efficiency=0.98), 180.7058734e6),
        ],
    ),
    ByHand(
        specific_energy,
        arithmetic="26 590.35 Ah a kilogram (2 × 96 485.332 / 2.015 88e-3 / 3600) × 1.8 V = 47.862 63 kWh/kg",
        rel=1e-6,
        rows=[(dict(cell_voltage_v=1.8, faraday_efficiency=1.0), 47.86263 * 3.6e6)],
    ),
    Printed(
        efficiency_lower,
        source="doe-record-9013",
        locator="lower heating value, 33.3 kWh/kg",
        rel=1e-3,
        rows=[(dict(specific_energy_j_per_kg=33.3 * 3.6e6), 1.0), (dict(specific_energy_j_per_kg=66.6 * 3.6e6), 0.5)],
    ),
    ByHand(
        efficiency_lower,
        arithmetic="the voltage that stands for the lower heating value, 241.826 kJ/mol / 192 970.66 C/mol = 1.253 2 V, "
        "over 1.9 V is 0.659 6; 1.9 V is 26.590 35 kAh/kg × 1.9 V = 50.521 67 kWh/kg",
        rel=5e-4,
        rows=[(dict(specific_energy_j_per_kg=50.52167 * 3.6e6), 0.6596)],
    ),
    ByHand(
        efficiency_higher,
        arithmetic="the thermoneutral voltage, 285.83 kJ/mol / 192 970.66 C/mol = 1.481 2 V, over 1.9 V is 0.779 6 and "
        "over 1.6 V 0.925 8; 26.590 35 kAh/kg × 1.9 V = 50.521 67 and × 1.6 V = 42.544 56 kWh/kg",
        rel=5e-4,
        rows=[
            (dict(specific_energy_j_per_kg=50.52167 * 3.6e6), 0.7796),
            (dict(specific_energy_j_per_kg=42.54456 * 3.6e6), 0.9258),
        ],
    ),
]
