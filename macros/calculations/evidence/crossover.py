"""Evidence for hydrogen that crosses the membrane."""

from macros.calculations.crossover import (
    crossover_flow,
    crossover_flux,
    faraday_efficiency,
    membrane_permeability,
    wet_thickness,
)
from macros.calculations.evidence import ByHand, OtherRoute, Printed

EVIDENCE = [
    Printed(
        membrane_permeability,
        source="scheepers-2020",
        locator="table 1, permeability for hydrogen at 80 °C, 5.31e-16 mol/(cm s Pa)",
        rel=1e-9,
        rows=[(dict(temperature_k=353.15), 5.31e-14)],
    ),
    Printed(
        membrane_permeability,
        source="trinke-2016",
        locator="abstract, coated membrane of 40 µm at 60 °C, diffusive part",
        rel=0.25,
        rows=[(dict(temperature_k=333.15), 2.95e-14)],
    ),
    OtherRoute(
        membrane_permeability,
        library="scipy, numpy (sum of a dry and a wet term, 37 % of the volume water, on the dry thickness as 1.15 of it)",
        call="1.15 * (15.7e-12 * numpy.exp(-20280 / (scipy.constants.R * {temperature_k}))"
        " + 0.37 * 45e-12 * numpy.exp(-18930 / (scipy.constants.R * {temperature_k})))",
        source="goshtasbi-2020",
        locator="hydrogen permeability of the ionomer, both terms",
        rel=0.15,
        rows=[
            (dict(temperature_k=313.15), 2.08018382e-14),
            (dict(temperature_k=333.15), 3.25512329e-14),
            (dict(temperature_k=353.15), 4.84271015e-14),
        ],
    ),
    ByHand(
        membrane_permeability,
        arithmetic="18 930 / 8.314 463 × (1/353.15 − 1/333.15) = 2276.755 × (−1.699 90e-4) = −0.387 03; e^−0.387 03 = 0.679 07; "
        "5.31e-14 × 0.679 07 = 3.605 9e-14",
        rel=1e-4,
        rows=[(dict(temperature_k=333.15), 3.6059e-14)],
    ),
    ByHand(
        wet_thickness,
        arithmetic="178 µm × 1.15 = 204.7 µm",
        rel=1e-9,
        rows=[(dict(dry_thickness_m=178e-6), 204.7e-6)],
    ),
    ByHand(
        wet_thickness,
        arithmetic="another way, as if it swelled alike in all directions: 22 waters of 18.07 cm³ for each 1100 g of polymer "
        "at 1.98 g/cm³ add 397.5 to 555.6 cm³, 1.716 of the volume, 1.197 of the length: 178 µm become 213 µm",
        rel=0.05,
        rows=[(dict(dry_thickness_m=178e-6), 213e-6)],
    ),
    ByHand(
        crossover_flux,
        arithmetic="4.65e-14 × 1e5 Pa / 178e-6 m = 2.612 4e-5 mol/(m² s), as a current × 192 970.66 = 5.041 A/m² = 0.504 mA/cm² "
        "for each bar; through 51 µm 9.117 6e-5 mol/(m² s) = 1.759 mA/cm²",
        rel=1e-4,
        rows=[
            (
                dict(
                    permeability_mol_per_m_s_pa=4.65e-14,
                    hydrogen_pressure_pa=1e5,
                    oxygen_side_pressure_pa=0.0,
                    membrane_thickness_m=178e-6,
                ),
                2.6124e-5,
            ),
            (
                dict(
                    permeability_mol_per_m_s_pa=4.65e-14,
                    hydrogen_pressure_pa=1e5,
                    oxygen_side_pressure_pa=0.0,
                    membrane_thickness_m=51e-6,
                ),
                9.1176e-5,
            ),
        ],
    ),
    ByHand(
        crossover_flux,
        arithmetic="25.8 bar against 0.005 bar: 3.6e-14 × 25.795e5 / 204.7e-6 × 1.3 = 4.536 5e-4 × 1.3 = 5.897 4e-4 mol/(m² s)",
        rel=1e-4,
        rows=[
            (
                dict(
                    permeability_mol_per_m_s_pa=3.6e-14,
                    hydrogen_pressure_pa=25.8e5,
                    oxygen_side_pressure_pa=500.0,
                    membrane_thickness_m=204.7e-6,
                    excess=1.3,
                ),
                5.8974e-4,
            )
        ],
    ),
    ByHand(
        crossover_flow,
        arithmetic="5e-4 mol/(m² s) × 16 × 50 cm² = 5e-4 × 0.08 = 4e-5 mol/s = 53.8 NmL/min; five of 25 cm²: × 0.012 5 = 6.25e-6",
        rel=1e-9,
        rows=[
            (dict(flux_mol_per_m2_s=5e-4, active_area_m2=50e-4, cells=16.0), 4e-5),
            (dict(flux_mol_per_m2_s=5e-4, active_area_m2=25e-4, cells=5.0), 6.25e-6),
        ],
    ),
    ByHand(
        faraday_efficiency,
        arithmetic="4e-5 of 4.974 85e-3 mol/s lost: 1 − 0.008 040 4 = 0.991 959 6; nothing lost: 1",
        rel=1e-7,
        rows=[
            (dict(crossover_mol_per_s=4e-5, hydrogen_gross_mol_per_s=4.97485e-3), 0.9919596),
            (dict(crossover_mol_per_s=0.0, hydrogen_gross_mol_per_s=4.97485e-3), 1.0),
        ],
    ),
]
