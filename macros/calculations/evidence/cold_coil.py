"""Evidence for the cold coil."""

from macros.calculations.cold_coil import coil_area, coil_heat, ice_margin, log_mean_difference
from macros.calculations.evidence import ByHand, CommonPractice, OtherRoute, Printed

STEAM_TABLE = ((5.0, 2489.1), (20.0, 2453.5), (40.0, 2406.0), (60.0, 2357.6))
"""Temperature in °C and heat of vaporisation in kJ/kg, as printed."""

EVIDENCE = [
    OtherRoute(
        coil_heat,
        library="CoolProp (enthalpy of hydrogen, heat of vaporisation by IAPWS-95)",
        call=(
            "{dry_gas_mol_per_s} * 2.01588e-3 * (CoolProp.CoolProp.PropsSI('H', 'T', {temperature_in_k}, 'P', {pressure_pa}, 'Hydrogen')"
            " - CoolProp.CoolProp.PropsSI('H', 'T', {temperature_out_k}, 'P', {pressure_pa}, 'Hydrogen'))"
            " + {water_condensed_kg_per_s} * (CoolProp.CoolProp.PropsSI('H', 'T', {temperature_out_k}, 'Q', 1, 'Water')"
            " - CoolProp.CoolProp.PropsSI('H', 'T', {temperature_out_k}, 'Q', 0, 'Water'))"
        ),
        rel=3e-3,
        rows=[
            (
                dict(
                    dry_gas_mol_per_s=0.005,
                    water_condensed_kg_per_s=1e-7,
                    pressure_pa=2e6,
                    temperature_in_k=308.15,
                    temperature_out_k=283.15,
                ),
                3.86334672,
            ),
            (
                dict(
                    dry_gas_mol_per_s=0.025,
                    water_condensed_kg_per_s=5e-6,
                    pressure_pa=1.6e6,
                    temperature_in_k=333.15,
                    temperature_out_k=298.15,
                ),
                37.5989235,
            ),
        ],
    ),
    Printed(
        coil_heat,
        source="steam-table-temperature",
        locator="h_fg at 5, 20, 40 and 60 °C; gas that is not cooled",
        rel=1e-3,
        rows=[
            (
                dict(
                    dry_gas_mol_per_s=1.0,
                    water_condensed_kg_per_s=1e-3,
                    pressure_pa=1e6,
                    temperature_in_k=celsius + 273.15,
                    temperature_out_k=celsius + 273.15,
                ),
                heat,
            )
            for celsius, heat in STEAM_TABLE
        ],
    ),
    ByHand(
        coil_heat,
        arithmetic="1 g/s that freezes at 0 °C and below: 2500.9 + 333.4 = 2834.3 W",
        rel=1e-6,
        rows=[
            (
                dict(
                    dry_gas_mol_per_s=1.0,
                    water_condensed_kg_per_s=1e-3,
                    pressure_pa=1e6,
                    temperature_in_k=263.15,
                    temperature_out_k=263.15,
                ),
                2834.3,
            ),
        ],
    ),
    OtherRoute(
        log_mean_difference,
        library="ht",
        call="ht.LMTD({temperature_in_k}, {temperature_out_k}, {coolant_temperature_k}, {coolant_temperature_k})",
        rel=1e-8,
        rows=[
            (dict(temperature_in_k=308.15, temperature_out_k=283.15, coolant_temperature_k=277.15), 15.2232236),
            (dict(temperature_in_k=298.15, temperature_out_k=278.15, coolant_temperature_k=274.15), 11.1622125),
        ],
    ),
    ByHand(
        log_mean_difference,
        arithmetic="differences 27.182 82 K and 10 K: 17.182 82 / ln(2.718 282) = 17.182 82 K; equal differences of 10 K: 10 K",
        rel=1e-6,
        rows=[
            (dict(temperature_in_k=304.33282, temperature_out_k=287.15, coolant_temperature_k=277.15), 17.18282),
            (dict(temperature_in_k=287.15, temperature_out_k=287.15, coolant_temperature_k=277.15), 10.0),
        ],
    ),
    OtherRoute(
        coil_area,
        library="math: effectiveness with a coolant of one temperature, 1 − exp(−NTU), gas from 35 to 10 °C against 4 °C, 0.144 W/K",
        call="0.144 * math.log(31 / 6) / {coefficient_w_per_m2_k}",
        rel=1e-6,
        rows=[(dict(heat_w=3.6, coefficient_w_per_m2_k=30.0, mean_difference_k=15.2232236), 0.00788269313)],
    ),
    ByHand(
        coil_area,
        arithmetic="300 W over 30 W/(m2 K) and 10 K: 300 / 300 = 1 m2; 3.6 W over 30 and 15 K: 0.008 m2",
        rel=1e-9,
        rows=[
            (dict(heat_w=300.0, coefficient_w_per_m2_k=30.0, mean_difference_k=10.0), 1.0),
            (dict(heat_w=3.6, coefficient_w_per_m2_k=30.0, mean_difference_k=15.0), 0.008),
        ],
    ),
    ByHand(
        ice_margin,
        arithmetic=(
            "wall at 4 °C, gas of dew point 20 °C: 4 K above freezing. Wall at −8 °C, dew point 20 °C: −8 K. "
            "Wall at −8 °C, gas dried to −40 °C: 32 K above its dew point"
        ),
        abs=1e-9,
        rows=[
            (dict(coolant_temperature_k=277.15, dew_point_k=293.15), 4.0),
            (dict(coolant_temperature_k=265.15, dew_point_k=293.15), -8.0),
            (dict(coolant_temperature_k=265.15, dew_point_k=233.15), 32.0),
        ],
    ),
    CommonPractice(
        ice_margin,
        source="common-practice",
        locator="a coil below 0 °C on wet gas is an ice plug",
        abs=1e-9,
        rows=[(dict(coolant_temperature_k=263.15, dew_point_k=313.15), -10.0)],
    ),
]
