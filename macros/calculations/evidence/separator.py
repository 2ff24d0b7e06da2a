"""Evidence for separators and the mean load over a fill."""

from macros.calculations.evidence import ByHand, CommonPractice, OtherRoute
from macros.calculations.separator import (
    pressure_of_mean_load,
    vapour_carried,
    water_after_separating,
    water_leaving_stack,
)

MPA = 1e6
SATURATED_40_C_10_BAR = 0.134960e-3

EVIDENCE = [
    ByHand(
        water_after_separating,
        arithmetic=(
            "1 mol/s of gas at 40 °C and 10 bar(a) holds 7435.7 ppm: 0.007 4357 / 0.992 5643 × 18.015 28 g/mol = 0.134 960 g/s. "
            "Of 1.134 960 g/s that enter 1 g/s is liquid; with 1 % carried over 0.134 960 + 0.01 = 0.144 960 g/s leave. "
            "With nothing carried over 0.134 960 g/s. Dry gas (0.05 g/s) passes unchanged"
        ),
        rel=2e-5,
        rows=[
            (
                dict(
                    water_kg_per_s=1.13496e-3,
                    dry_gas_mol_per_s=1.0,
                    pressure_pa=MPA,
                    temperature_k=313.15,
                    carry_over=0.01,
                ),
                0.144960e-3,
            ),
            (
                dict(
                    water_kg_per_s=1.13496e-3,
                    dry_gas_mol_per_s=1.0,
                    pressure_pa=MPA,
                    temperature_k=313.15,
                    carry_over=0.0,
                ),
                0.134960e-3,
            ),
            (
                dict(
                    water_kg_per_s=0.05e-3,
                    dry_gas_mol_per_s=1.0,
                    pressure_pa=MPA,
                    temperature_k=313.15,
                    carry_over=0.01,
                ),
                0.05e-3,
            ),
        ],
    ),
    OtherRoute(
        water_after_separating,
        library="psychrolib (moist air at one atmosphere, cooled to saturation)",
        call=(
            "(psychrolib.SetUnitSystem(psychrolib.SI), psychrolib.GetSatHumRatio({temperature_k} - 273.15, {pressure_pa})"
            " * {dry_gas_mol_per_s} * 28.966e-3)[1]"
        ),
        rel=5e-3,
        rows=[
            (
                dict(
                    water_kg_per_s=1e-3,
                    dry_gas_mol_per_s=1.0,
                    pressure_pa=101325.0,
                    temperature_k=283.15,
                    carry_over=0.0,
                ),
                0.000221012136,
            ),
            (
                dict(
                    water_kg_per_s=1e-3,
                    dry_gas_mol_per_s=1.0,
                    pressure_pa=101325.0,
                    temperature_k=298.15,
                    carry_over=0.0,
                ),
                0.000581669802,
            ),
        ],
    ),
    ByHand(
        vapour_carried,
        arithmetic="1 mol/s at 40 °C and 10 bar(a) holds 0.134 960 g/s of vapour (see water_after_separating); less water is all vapour",
        rel=2e-5,
        rows=[
            (
                dict(water_kg_per_s=1.0e-3, dry_gas_mol_per_s=1.0, pressure_pa=MPA, temperature_k=313.15),
                SATURATED_40_C_10_BAR,
            ),
            (dict(water_kg_per_s=0.1e-3, dry_gas_mol_per_s=1.0, pressure_pa=MPA, temperature_k=313.15), 0.1e-3),
        ],
    ),
    OtherRoute(
        vapour_carried,
        library="iapws (Dalton's law without the Poynting factor, 2 % at 26 bar)",
        call=(
            "{dry_gas_mol_per_s} * 18.01528e-3 * iapws.IAPWS97(T={temperature_k}, x=0).P * 1e6"
            " / ({pressure_pa} - iapws.IAPWS97(T={temperature_k}, x=0).P * 1e6)"
        ),
        rel=0.02,
        rows=[
            (
                dict(water_kg_per_s=1.0, dry_gas_mol_per_s=0.005, pressure_pa=2.6 * MPA, temperature_k=298.15),
                1.09949191e-07,
            )
        ],
    ),
    ByHand(
        water_leaving_stack,
        arithmetic=(
            "three molecules a proton are six a molecule of hydrogen: 0.005 mol/s × 6 × 18.015 28 g/mol = 0.540 46 g/s, far above the vapour; "
            "without drag at 40 °C and 10 bar(a) the vapour of 1 mol/s, 0.134 960 g/s"
        ),
        rel=2e-5,
        rows=[
            (
                dict(
                    water_dragged_kg_per_s=0.540458e-3,
                    dry_gas_mol_per_s=0.005,
                    pressure_pa=1.6 * MPA,
                    temperature_k=333.15,
                ),
                0.540458e-3,
            ),
            (
                dict(water_dragged_kg_per_s=0.0, dry_gas_mol_per_s=1.0, pressure_pa=MPA, temperature_k=313.15),
                SATURATED_40_C_10_BAR,
            ),
        ],
    ),
    OtherRoute(
        pressure_of_mean_load,
        library="scipy (numerical mean of 1/p)",
        call=(
            "({higher_pressure_pa} - {lower_pressure_pa})"
            " / scipy.integrate.quad(lambda p: 1 / p, {lower_pressure_pa}, {higher_pressure_pa})[0]"
        ),
        rel=1e-8,
        rows=[
            (dict(lower_pressure_pa=7.01e5, higher_pressure_pa=22.01e5), 1311006.38),
            (dict(lower_pressure_pa=16.01e5, higher_pressure_pa=26.01e5), 2060718.87),
        ],
    ),
    ByHand(
        pressure_of_mean_load,
        arithmetic=(
            "from 1 to e bar: (2.718 282 − 1) / 1 = 1.718 282 bar; from 6 to 21 bar(g) (7.013 to 22.013 bar(a)): "
            "15 / ln(3.138 885) = 15 / 1.143 868 = 13.1134 bar(a); equal pressures give that pressure"
        ),
        rel=1e-5,
        rows=[
            (dict(lower_pressure_pa=1e5, higher_pressure_pa=2.718282e5), 1.718282e5),
            (dict(lower_pressure_pa=7.013e5, higher_pressure_pa=22.013e5), 13.1134e5),
            (dict(lower_pressure_pa=5e5, higher_pressure_pa=5e5), 5e5),
        ],
    ),
    CommonPractice(
        pressure_of_mean_load,
        source="common-practice",
        locator="the mean load from 6 to 21 bar(g) is about 1.7 times that at 21 bar(g)",
        rel=0.02,
        rows=[(dict(lower_pressure_pa=7.01e5, higher_pressure_pa=22.01e5), 22.01e5 / 1.7)],
    ),
]
