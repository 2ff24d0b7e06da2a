"""Evidence for hydrogen in the oxygen and the catalyst that burns it."""

from macros.calculations.catalyst import catalyst_heat, hydrogen_in_oxygen, minimum_current, recombined
from macros.calculations.evidence import ByHand, OtherRoute

EVIDENCE = [
    ByHand(
        recombined,
        arithmetic="70 % of 4e-5 mol/s = 2.8e-5; a dead catalyst burns nothing",
        rel=1e-12,
        rows=[
            (dict(crossover_mol_per_s=4e-5, catalyst_efficiency=0.7), 2.8e-5),
            (dict(crossover_mol_per_s=4e-5, catalyst_efficiency=0.0), 0.0),
        ],
    ),
    ByHand(
        hydrogen_in_oxygen,
        arithmetic="16 cells at 60 A make G = 4.974 85e-3 mol/s; c = 4e-5 crosses. η = 0.7: 1.2e-5 of hydrogen in "
        "2.487 425e-3 − 1.4e-5 = 2.473 425e-3 of oxygen: 1.2e-5 / 2.485 425e-3 = 0.482 8 %. Dead: 4e-5 / 2.527 425e-3 = 1.582 6 %",
        rel=1e-4,
        rows=[
            (dict(crossover_mol_per_s=4e-5, hydrogen_gross_mol_per_s=4.97485e-3, catalyst_efficiency=0.7), 0.0048281),
            (dict(crossover_mol_per_s=4e-5, hydrogen_gross_mol_per_s=4.97485e-3, catalyst_efficiency=0.0), 0.0158264),
        ],
    ),
    ByHand(
        hydrogen_in_oxygen,
        arithmetic="1 m² at 1 A/cm²: j/4F = 1e4 / 385 941.33 = 0.025 910 7 mol/s of oxygen; 4.65e-14 × 30e5 / 178e-6 = 7.837 1e-4 "
        "crosses: 7.837 1e-4 / (7.837 1e-4 + 0.025 910 7) = 2.935 9 %, 3.02 % against the oxygen alone",
        rel=1e-4,
        rows=[(dict(crossover_mol_per_s=7.8371e-4, hydrogen_gross_mol_per_s=0.0518214), 0.029359)],
    ),
    ByHand(
        hydrogen_in_oxygen,
        arithmetic="with 1e-5 mol/s brought back by the drains, dead catalyst: 5e-5 / (5e-5 + 2.487 425e-3) = 1.970 5 %",
        rel=1e-4,
        rows=[
            (
                dict(crossover_mol_per_s=4e-5, hydrogen_gross_mol_per_s=4.97485e-3, returned_mol_per_s=1e-5),
                0.019705,
            )
        ],
    ),
    OtherRoute(
        minimum_current,
        library="scipy (root of the balance at a current, found by bisection)",
        call="scipy.optimize.brentq(lambda i: ((1 - {catalyst_efficiency}) * {crossover_mol_per_s}"
        " + {returned_per_hydrogen} * i * {cells} / 192970.66424662) * (1 - {hydrogen_limit}) / {hydrogen_limit}"
        " - (i * {cells} / 192970.66424662 - {catalyst_efficiency} * {crossover_mol_per_s}) / 2, 1e-6, 1e4, xtol=1e-12)",
        rel=1e-6,
        rows=[
            (
                dict(
                    crossover_mol_per_s=4e-5,
                    hydrogen_limit=0.01,
                    catalyst_efficiency=0.7,
                    cells=16.0,
                    returned_per_hydrogen=0.0,
                ),
                28.99384246,
            ),
            (
                dict(
                    crossover_mol_per_s=4e-5,
                    hydrogen_limit=0.02,
                    catalyst_efficiency=0.0,
                    cells=16.0,
                    returned_per_hydrogen=6e-4,
                ),
                50.23142025,
            ),
            (
                dict(
                    crossover_mol_per_s=6e-5,
                    hydrogen_limit=0.02,
                    catalyst_efficiency=0.7,
                    cells=16.0,
                    returned_per_hydrogen=6e-4,
                ),
                23.14233290,
            ),
        ],
    ),
    ByHand(
        minimum_current,
        arithmetic="without a catalyst 1 % needs 99 parts of oxygen for one of hydrogen: 99 × 4e-5 = 3.96e-3 mol/s, 7.92e-3 of "
        "hydrogen, × 192 970.66 / 16 = 95.520 5 A",
        rel=1e-5,
        rows=[
            (
                dict(crossover_mol_per_s=4e-5, hydrogen_limit=0.01, catalyst_efficiency=0.0, cells=16.0),
                95.5205,
            )
        ],
    ),
    ByHand(
        catalyst_heat,
        arithmetic="2.8e-5 mol/s × 285.83 kJ/mol = 8.003 2 W at 25 °C; at 60 °C × 2 × 96 485.332 × 1.475 44 = 284.717 kJ/mol: 7.972 1 W",
        rel=1e-4,
        rows=[
            (dict(recombined_mol_per_s=2.8e-5, thermoneutral_voltage_v=1.48121), 8.0032),
            (dict(recombined_mol_per_s=2.8e-5, thermoneutral_voltage_v=1.47544), 7.9721),
        ],
    ),
]
