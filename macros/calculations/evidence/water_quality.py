"""Evidence for the feed water and the deioniser."""

from macros.calculations.evidence import ByHand, CommonPractice, Printed
from macros.calculations.water_quality import deioniser_life, exhaustion_time, ionic_load

MICROSIEMENS_PER_CM = 1e-4
YEAR_S = 8760 * 3600.0

EVIDENCE = [
    ByHand(
        ionic_load,
        arithmetic="1.5 µS/cm less 0.055 of the water itself: 1.445e-4 S/m / 94.6e-4 = 0.015 275 mol/m³; pure water carries none",
        rel=1e-4,
        rows=[
            (dict(conductivity_s_per_m=1.5 * MICROSIEMENS_PER_CM), 0.015275),
            (dict(conductivity_s_per_m=0.05 * MICROSIEMENS_PER_CM), 0.0),
        ],
    ),
    CommonPractice(
        ionic_load,
        locator="0.5 to 0.7 mg/L for each µS/cm of natural water, as 84 g of sodium bicarbonate a mole 7.1 µmol/L, on the safe side by half",
        rel=0.55,
        rows=[(dict(conductivity_s_per_m=100 * MICROSIEMENS_PER_CM), 60 / 84.007)],
    ),
    Printed(
        exhaustion_time,
        source="mixed-bed-note",
        locator="10 000 grain of calcium carbonate a cubic foot: 22.9 g/L, 0.457 eq/L, so a litre of resin treats 229 L of water with 100 mg/L",
        rel=5e-3,
        rows=[
            (
                dict(
                    exchange_capacity_mol_per_m3=457.0,
                    resin_m3=1e-3,
                    ionic_load_mol_per_m3=2 * 100 / 100.087,
                    carbon_dioxide_mol_per_m3=0.0,
                    feed_kg_per_s=1e-3,
                    running_time_s=YEAR_S,
                ),
                229 * 0.9982 * 1e3,
            )
        ],
    ),
    ByHand(
        exhaustion_time,
        arithmetic="1.5 L of 0.41 eq/L hold 0.615 mol; 0.015 275 + 0.014 = 0.029 275 mol/m³ × 1e-4 kg/s / 998.2 × 1600 / 8760 h "
        "= 5.356 7e-10 mol/s: 1.148 1e9 s, 36 years",
        rel=1e-3,
        rows=[
            (
                dict(
                    exchange_capacity_mol_per_m3=410.0,
                    resin_m3=1.5e-3,
                    ionic_load_mol_per_m3=0.015275,
                    carbon_dioxide_mol_per_m3=0.014,
                    feed_kg_per_s=1e-4,
                    running_time_s=1600 * 3600.0,
                ),
                1.1481e9,
            )
        ],
    ),
    ByHand(
        deioniser_life,
        arithmetic="36 years of ions, but changed at a year; 30 days of ions come before a year",
        rel=1e-12,
        rows=[
            (dict(exhaustion_time_s=1.148e9, age_limit_s=YEAR_S), YEAR_S),
            (dict(exhaustion_time_s=30 * 86400.0, age_limit_s=YEAR_S), 30 * 86400.0),
        ],
    ),
]
