"""
Evidence for the desiccant.

The points of Wang and LeVan at 25 °C above 15 % relative humidity enter the isotherm and so vouch for nothing; those at
0, 50 and 75 °C and those at 25 °C below it, where a published power law stands, do.
"""

from macros.calculations.desiccant import (
    bed_length,
    bed_temperature,
    humidity_over_gel,
    inlet_humidity,
    loading,
    regeneration_energy,
    regeneration_interval,
    residual_loading,
    water_after_bed,
    working_capacity,
)
from macros.calculations.evidence import AsToday, ByHand, OtherRoute, Printed

MPA = 1e6
AT_0_C, AT_25_C, AT_50_C, AT_75_C = 611.21, 3169.7, 12351.3, 38595.4
"""Saturation pressures of water, Pa, IAPWS-IF97: the tables print vapour pressures."""

EVIDENCE = [
    Printed(
        loading,
        source="wang-levan-2009",
        locator="silica gel and water, 298.15 K, the three lowest pressures",
        rel=1e-2,
        rows=[
            (dict(relative_humidity=27.1 / AT_25_C, temperature_k=298.15), 0.017654974),
            (dict(relative_humidity=88.9 / AT_25_C, temperature_k=298.15), 0.03729163),
            (dict(relative_humidity=408 / AT_25_C, temperature_k=298.15), 0.095661137),
        ],
    ),
    Printed(
        loading,
        source="wang-levan-2009",
        locator="silica gel and water, 323.15 K",
        rel=0.07,
        rows=[
            (dict(relative_humidity=29.7 / AT_50_C, temperature_k=323.15), 0.007782601),
            (dict(relative_humidity=115 / AT_50_C, temperature_k=323.15), 0.017600929),
            (dict(relative_humidity=363 / AT_50_C, temperature_k=323.15), 0.037111477),
            (dict(relative_humidity=1880 / AT_50_C, temperature_k=323.15), 0.09458022),
        ],
    ),
    Printed(
        loading,
        source="wang-levan-2009",
        locator="silica gel and water, 348.15 K",
        rel=0.05,
        rows=[
            (dict(relative_humidity=13.9 / AT_75_C, temperature_k=348.15), 0.001927635),
            (dict(relative_humidity=113 / AT_75_C, temperature_k=348.15), 0.007692525),
            (dict(relative_humidity=466 / AT_75_C, temperature_k=348.15), 0.017240623),
            (dict(relative_humidity=1500 / AT_75_C, temperature_k=348.15), 0.03603056),
        ],
    ),
    Printed(
        loading,
        source="wang-levan-2009",
        locator="silica gel and water, 273.15 K",
        rel=0.14,
        rows=[
            (dict(relative_humidity=20 / AT_0_C, temperature_k=273.15), 0.037435752),
            (dict(relative_humidity=93.3 / AT_0_C, temperature_k=273.15), 0.096003427),
            (dict(relative_humidity=200 / AT_0_C, temperature_k=273.15), 0.18916044),
            (dict(relative_humidity=368 / AT_0_C, temperature_k=273.15), 0.281038368),
            (dict(relative_humidity=540 / AT_0_C, temperature_k=273.15), 0.34229032),
        ],
    ),
    Printed(
        loading,
        source="conservation-silica-table",
        locator="regular density, 50 % at 25 °C",
        rel=0.05,
        rows=[(dict(relative_humidity=0.5, temperature_k=298.15), 0.2707)],
    ),
    Printed(
        humidity_over_gel,
        source="wang-levan-2009",
        locator="silica gel and water, 298.15 K, the three lowest pressures, read the other way",
        rel=2e-2,
        rows=[
            (dict(loading=0.017654974, temperature_k=298.15), 27.1 / AT_25_C),
            (dict(loading=0.03729163, temperature_k=298.15), 88.9 / AT_25_C),
            (dict(loading=0.095661137, temperature_k=298.15), 408 / AT_25_C),
        ],
    ),
    Printed(
        humidity_over_gel,
        source="wang-levan-2009",
        locator="silica gel and water, 323.15 and 348.15 K, read the other way",
        rel=0.13,
        rows=[
            (dict(loading=0.007782601, temperature_k=323.15), 29.7 / AT_50_C),
            (dict(loading=0.017600929, temperature_k=323.15), 115 / AT_50_C),
            (dict(loading=0.001927635, temperature_k=348.15), 13.9 / AT_75_C),
            (dict(loading=0.017240623, temperature_k=348.15), 466 / AT_75_C),
        ],
    ),
    Printed(
        residual_loading,
        source="wang-levan-2009",
        locator=(
            "silica gel and water, 348.15 K: 466 Pa and 1500 Pa, the vapour pressures of dew points −3.26 °C (ice) and 13.02 °C (water)"
        ),
        rel=0.05,
        rows=[
            (dict(regeneration_temperature_k=348.15, purge_dew_point_k=269.89), 0.017240623),
            (dict(regeneration_temperature_k=348.15, purge_dew_point_k=286.17), 0.03603056),
        ],
    ),
    ByHand(
        residual_loading,
        arithmetic=(
            "air of dew point 10 °C (1228.2 Pa) at 140 °C: carried to 25 °C with exp[−5835.03 × (1/298.15 − 1/413.15)] = exp(−5.4475) = 0.004 307, "
            "5.290 Pa or 0.166 88 % of 3169.7 Pa, 0.346 × 0.001 668 8^0.625 = 0.006 354 kg/kg"
        ),
        rel=1e-3,
        rows=[(dict(regeneration_temperature_k=413.15, purge_dew_point_k=283.15), 0.006354)],
    ),
    ByHand(
        bed_length,
        arithmetic=(
            "2 kg at 720 kg/m3 is 2.777 78 L; a column of 80 mm has 50.2655 cm2: 0.552 622 m; "
            "720 kg in a column of 1 m: 1 m3 / 0.785 398 m2 = 1.273 240 m"
        ),
        rel=1e-5,
        rows=[
            (dict(bed_mass_kg=2.0, bed_diameter_m=0.08), 0.552622),
            (dict(bed_mass_kg=720.0, bed_diameter_m=1.0), 1.273240),
        ],
    ),
    ByHand(
        bed_temperature,
        arithmetic=(
            "heat of adsorption 5835.03 × 8.314 463 / 0.018 015 28 = 2.693 03 MJ/kg. 1 mol/s of hydrogen at 1 bar and 25 °C takes "
            "2.015 88 g × 14 306.3 J/(kg K) = 28.8397 W/K; 0.1 g/s of vapour gives 269.303 W, 9.338 K: 307.488 K. Dry gas: no rise"
        ),
        rel=1e-5,
        rows=[
            (dict(temperature_k=298.15, vapour_kg_per_s=0.1e-3, dry_gas_mol_per_s=1.0, pressure_pa=1e5), 307.488),
            (dict(temperature_k=298.15, vapour_kg_per_s=0.0, dry_gas_mol_per_s=1.0, pressure_pa=1e5), 298.15),
        ],
    ),
    ByHand(
        inlet_humidity,
        arithmetic=(
            "at 40 °C and 10 bar(a) 1 mol/s holds 0.134 960 g/s, 7435.7 ppm. 0.067 2284 g/s is 3717.85 ppm (0.003 717 85 / 0.996 282 15 × 18.015 28): "
            "one half. 0.27 g/s is 0.014 987 21 mol/s, 14 765.9 ppm: 1.985 81"
        ),
        rel=3e-5,
        rows=[
            (dict(water_kg_per_s=0.0672284e-3, dry_gas_mol_per_s=1.0, pressure_pa=MPA, temperature_k=313.15), 0.5),
            (dict(water_kg_per_s=0.27e-3, dry_gas_mol_per_s=1.0, pressure_pa=MPA, temperature_k=313.15), 1.98581),
        ],
    ),
    ByHand(
        working_capacity,
        arithmetic=(
            "2 kg of gel, gas at 76.66 % and 25 °C: 0.340 49 − 0.006 35 = 0.334 14 kg/kg × 2 kg × (1 − 0.2) = 0.534 62 kg. "
            "The same, wetter than saturated: the loading stays. With gel as wet as the gas: nothing"
        ),
        rel=1e-4,
        rows=[
            (
                dict(
                    bed_mass_kg=2.0,
                    inlet_humidity=0.7666,
                    temperature_k=298.15,
                    residual_loading=0.00635,
                    transfer_zone=0.2,
                ),
                0.53462,
            ),
            (
                dict(
                    bed_mass_kg=2.0,
                    inlet_humidity=1.5,
                    temperature_k=298.15,
                    residual_loading=0.00635,
                    transfer_zone=0.2,
                ),
                0.53462,
            ),
            (
                dict(
                    bed_mass_kg=2.0, inlet_humidity=0.1, temperature_k=298.15, residual_loading=0.2, transfer_zone=0.2
                ),
                0.0,
            ),
        ],
    ),
    ByHand(
        water_after_bed,
        arithmetic=(
            "gel with 0.017 654 97 kg/kg at 25 °C leaves 27.1 Pa (measured): at 30 bar(a) 9.033 ppm × 1.0220 (Poynting) = 9.232 ppm, "
            "with 1 mol/s 9.232e-6 × 18.015 28 g/mol = 0.166 32 mg/s. Gas that is drier passes unchanged"
        ),
        rel=0.02,
        rows=[
            (
                dict(
                    water_kg_per_s=1e-4,
                    dry_gas_mol_per_s=1.0,
                    pressure_pa=3 * MPA,
                    temperature_k=298.15,
                    residual_loading=0.01765497,
                ),
                1.6632e-7,
            ),
            (
                dict(
                    water_kg_per_s=1e-8,
                    dry_gas_mol_per_s=1.0,
                    pressure_pa=3 * MPA,
                    temperature_k=298.15,
                    residual_loading=0.01765497,
                ),
                1e-8,
            ),
        ],
    ),
    ByHand(
        regeneration_interval,
        arithmetic="0.36 kg at 0.1 g/h: 3600 h = 12 960 000 s; 1 g at 1 mg/s: 1000 s",
        rel=1e-9,
        rows=[
            (dict(working_capacity_kg=0.36, water_removed_kg_per_s=1e-4 / 3600), 12960000.0),
            (dict(working_capacity_kg=1e-3, water_removed_kg_per_s=1e-6), 1000.0),
        ],
    ),
    ByHand(
        regeneration_energy,
        arithmetic=(
            "2 kg × 920 J/(kg K) + 2500 J/K = 4340 J/K, from 25 to 140 °C 499 100 J; 0.5 kg of water × 2.693 03 MJ/kg = 1 346 515 J; "
            "together 1 845 615 J, at one half 3 691 230 J. Nothing to drive out and no losses: 499 100 J"
        ),
        rel=1e-5,
        rows=[
            (
                dict(
                    bed_mass_kg=2.0,
                    water_kg=0.5,
                    temperature_k=298.15,
                    regeneration_temperature_k=413.15,
                    column_heat_capacity_j_per_k=2500.0,
                    efficiency=0.5,
                ),
                3691230.0,
            ),
            (
                dict(
                    bed_mass_kg=2.0,
                    water_kg=0.0,
                    temperature_k=298.15,
                    regeneration_temperature_k=413.15,
                    column_heat_capacity_j_per_k=2500.0,
                    efficiency=1.0,
                ),
                499100.0,
            ),
        ],
    ),
    OtherRoute(
        bed_temperature,
        library="scipy, with 2.7 MJ/kg and 7/2 R for the gas (common practice)",
        call=("{temperature_k} + {vapour_kg_per_s} * 2.7e6 / ({dry_gas_mol_per_s} * 3.5 * scipy.constants.R)"),
        rel=1e-3,
        rows=[
            (dict(temperature_k=298.15, vapour_kg_per_s=1.2e-7, dry_gas_mol_per_s=0.005, pressure_pa=2e6), 300.376757)
        ],
    ),
    AsToday(
        loading,
        source="chua-2004",
        locator="far from any measured point: 150 °C, 0.1 % relative humidity",
        rel=1e-3,
        rows=[(dict(relative_humidity=0.001, temperature_k=423.15), 0.0028527)],
    ),
]
