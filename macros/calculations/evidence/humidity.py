"""Evidence for water vapour in gas."""

from macros.calculations.evidence import ByHand, OtherRoute, Printed
from macros.calculations.humidity import (
    dew_point,
    frost_point,
    molar_volume_of_water,
    poynting_factor,
    relative_humidity,
    saturation_pressure,
    saturation_pressure_over_ice,
    water_carried,
    water_fraction_of_load,
    water_fraction_saturated,
)

MPA = 1e6
PPM = 1e-6

_WATER_GIBBS = (
    "numpy.exp((iapws.IAPWS97(T={temperature_k}, P={pressure_pa} / 1e6).g - iapws.IAPWS97(T={temperature_k}, x=0).g)"
    " / (0.461526 * {temperature_k}))"
)
_WATER_FRACTION = (
    f"{_WATER_GIBBS} * CoolProp.CoolProp.PropsSI('P', 'T', {{temperature_k}}, 'Q', 0, 'Water') / {{pressure_pa}}"
)
_ICE_GIBBS = (
    "numpy.exp((iapws._iapws._Ice({temperature_k}, {pressure_pa} / 1e6)['g'] - iapws._iapws._Ice({temperature_k}, 1e-3)['g'])"
    " / (0.461526 * {temperature_k}))"
)

EVIDENCE = [
    Printed(
        saturation_pressure,
        source="iapws-if97",
        locator="table 35",
        rel=1e-8,
        rows=[
            (dict(temperature_k=300.0), 0.353658941e-2 * MPA),
            (dict(temperature_k=500.0), 0.263889776e1 * MPA),
            (dict(temperature_k=600.0), 0.123443146e2 * MPA),
        ],
    ),
    OtherRoute(
        saturation_pressure,
        library="CoolProp (its water is the formulation IAPWS-95, another equation)",
        call="CoolProp.CoolProp.PropsSI('P', 'T', {temperature_k}, 'Q', 0, 'Water')",
        rel=2e-4,
        rows=[
            (dict(temperature_k=278.15), 872.575114),
            (dict(temperature_k=298.15), 3169.92934),
            (dict(temperature_k=313.15), 7384.93807),
            (dict(temperature_k=333.15), 19946.4343),
            (dict(temperature_k=353.15), 47414.474),
        ],
    ),
    Printed(
        saturation_pressure_over_ice,
        source="iapws-r14",
        locator="table 3",
        rel=1e-6,
        rows=[(dict(temperature_k=230.0), 8.94735)],
    ),
    OtherRoute(
        saturation_pressure_over_ice,
        library="psychrolib (Hyland and Wexler, as in the ASHRAE handbook)",
        call="(psychrolib.SetUnitSystem(psychrolib.SI), psychrolib.GetSatVapPres({temperature_k} - 273.15))[1]",
        rel=2e-3,
        rows=[
            (dict(temperature_k=203.15), 0.261795021),
            (dict(temperature_k=233.15), 12.8452493),
            (dict(temperature_k=253.15), 103.260379),
            (dict(temperature_k=268.15), 401.764122),
        ],
    ),
    Printed(
        molar_volume_of_water,
        source="iapws-sr1",
        locator="density 999.789 and 958.365 kg/m3, values for checking, as copied into public test suites",
        rel=1e-6,
        rows=[
            (dict(temperature_k=273.16), 18.01528e-3 / 999.789),
            (dict(temperature_k=373.1243), 18.01528e-3 / 958.365),
        ],
    ),
    OtherRoute(
        molar_volume_of_water,
        library="iapws (the equation of state IAPWS R10-06 for ice)",
        call="18.01528e-3 / iapws._iapws._Ice({temperature_k}, 0.1)['rho']",
        rel=2e-2,
        rows=[(dict(temperature_k=233.15), 1.95347079e-05), (dict(temperature_k=268.15), 1.9636273e-05)],
    ),
    OtherRoute(
        poynting_factor,
        library="iapws, numpy (from the Gibbs energy of compressed water, IAPWS-IF97 region 1)",
        call=_WATER_GIBBS,
        rel=2e-4,
        rows=[
            (dict(pressure_pa=0.7 * MPA, temperature_k=313.15), 1.00484099),
            (dict(pressure_pa=2.6 * MPA, temperature_k=313.15), 1.0182339),
            (dict(pressure_pa=2.6 * MPA, temperature_k=333.15), 1.01720376),
            (dict(pressure_pa=5.1 * MPA, temperature_k=288.15), 1.03907107),
        ],
    ),
    OtherRoute(
        poynting_factor,
        library="iapws, numpy (the same at 200 bar, where the water itself is compressed)",
        call=_WATER_GIBBS,
        rel=1e-3,
        rows=[(dict(pressure_pa=20 * MPA, temperature_k=293.15), 1.15883255)],
    ),
    OtherRoute(
        poynting_factor,
        library="iapws, numpy (from the Gibbs energy of ice, IAPWS R10-06)",
        call=_ICE_GIBBS,
        rel=1e-3,
        rows=[
            (dict(pressure_pa=2.6 * MPA, temperature_k=263.15), 1.02357737),
            (dict(pressure_pa=5.1 * MPA, temperature_k=243.15), 1.05056259),
        ],
    ),
    OtherRoute(
        water_fraction_saturated,
        library="iapws, CoolProp, numpy (Gibbs energy of compressed water over IAPWS-IF97, saturation by IAPWS-95)",
        call=_WATER_FRACTION,
        rel=5e-4,
        rows=[
            (dict(pressure_pa=0.5 * MPA, temperature_k=323.15), 0.0247857727),
            (dict(pressure_pa=1.6 * MPA, temperature_k=313.15), 0.00466711606),
            (dict(pressure_pa=2.6 * MPA, temperature_k=308.15), 0.00220508252),
            (dict(pressure_pa=2.6 * MPA, temperature_k=333.15), 0.00780368766),
        ],
    ),
    ByHand(
        water_fraction_saturated,
        arithmetic=(
            "40 °C, 10 bar(a): 7384.4 Pa / 1 000 000 Pa = 7384 ppm, times exp(18.16e-6 × 992 616 / (8.3145 × 313.15)) = 1.006 95, 7436 ppm. "
            "At 30 bar(a): 2461.5 ppm × exp(18.16e-6 × 2 992 616 / 2603.7) = 2461.5 × 1.021 09 = 2513 ppm"
        ),
        rel=2e-4,
        rows=[
            (dict(pressure_pa=1 * MPA, temperature_k=313.15), 7435.7e-6),
            (dict(pressure_pa=3 * MPA, temperature_k=313.15), 2513.4e-6),
        ],
    ),
    Printed(
        water_fraction_saturated,
        source="dew-point-table",
        locator="dew point −40, −66 and −70 °C at 1013 hPa, after the vapour pressure over ice",
        rel=3e-3,
        rows=[
            (dict(pressure_pa=101325.0, temperature_k=233.15), 126.8 * PPM),
            (dict(pressure_pa=101325.0, temperature_k=207.15), 4.635 * PPM),
            (dict(pressure_pa=101325.0, temperature_k=203.15), 2.584 * PPM),
        ],
    ),
    Printed(
        frost_point,
        source="dew-point-table",
        locator="dew points −20 to −70 °C at 1013 hPa",
        abs=0.05,
        rows=[
            (dict(water_fraction=1019 * PPM), 253.15),
            (dict(water_fraction=126.8 * PPM), 233.15),
            (dict(water_fraction=10.68 * PPM), 213.15),
            (dict(water_fraction=2.584 * PPM), 203.15),
        ],
    ),
    OtherRoute(
        frost_point,
        library="psychrolib, scipy (Hyland and Wexler, Dalton's law)",
        call=(
            "(psychrolib.SetUnitSystem(psychrolib.SI), scipy.optimize.brentq(lambda t, x={water_fraction}:"
            " psychrolib.GetSatVapPres(t) - x * 101325.0, -90.0, 90.0))[1] + 273.15"
        ),
        abs=0.05,
        rows=[
            (dict(water_fraction=5 * PPM), 207.685265),
            (dict(water_fraction=300 * PPM), 241.019335),
            (dict(water_fraction=0.0285), 296.599137),
        ],
    ),
    Printed(
        dew_point,
        source="hygrometer-sampling-guide",
        locator="pressure conversion, example 1: a frost point of −60 °C at 1013 hPa (10.80e-3 hPa) is −35.2 °C at 21 kg/cm2",
        abs=0.25,
        rows=[(dict(pressure_pa=21 * 98066.5, water_fraction=10.80e-3 / 1013), 237.95)],
    ),
    OtherRoute(
        dew_point,
        library="psychrolib, scipy (Hyland and Wexler, Dalton's law: without the Poynting factor, half a degree off at 26 bar)",
        call=(
            "(psychrolib.SetUnitSystem(psychrolib.SI), scipy.optimize.brentq(lambda t, p={pressure_pa}, x={water_fraction}:"
            " psychrolib.GetSatVapPres(t) - x * p, -90.0, 150.0))[1] + 273.15"
        ),
        abs=0.6,
        rows=[
            (dict(pressure_pa=1.6 * MPA, water_fraction=0.00465), 313.293153),
            (dict(pressure_pa=2.6 * MPA, water_fraction=0.0003), 276.553705),
            (dict(pressure_pa=2.6 * MPA, water_fraction=5 * PPM), 233.255883),
        ],
    ),
    ByHand(
        dew_point,
        arithmetic=(
            "gas saturated at 40 °C and 10 bar(a) holds 7435.7 ppm (see the saturated fraction): its dew point at 10 bar(a) is 40 °C. "
            "2513.4 ppm at 30 bar(a) likewise"
        ),
        abs=0.01,
        rows=[
            (dict(pressure_pa=1 * MPA, water_fraction=7435.7e-6), 313.15),
            (dict(pressure_pa=3 * MPA, water_fraction=2513.4e-6), 313.15),
        ],
    ),
    ByHand(
        relative_humidity,
        arithmetic=(
            "at 40 °C and 10 bar(a) saturation is 7435.7 ppm: 3717.85 ppm is one half; 7435.7 ppm is 1; "
            "at 30 bar(a) 2513.4 ppm saturate, so 502.7 ppm is 0.2"
        ),
        rel=3e-4,
        rows=[
            (dict(pressure_pa=1 * MPA, temperature_k=313.15, water_fraction=3717.85e-6), 0.5),
            (dict(pressure_pa=1 * MPA, temperature_k=313.15, water_fraction=7435.7e-6), 1.0),
            (dict(pressure_pa=3 * MPA, temperature_k=313.15, water_fraction=502.68e-6), 0.2),
        ],
    ),
    OtherRoute(
        relative_humidity,
        library="psychrolib (moist air at one atmosphere)",
        call=(
            "(psychrolib.SetUnitSystem(psychrolib.SI), psychrolib.GetRelHumFromHumRatio({temperature_k} - 273.15,"
            " {water_fraction} / (1 - {water_fraction}) * 0.621945, {pressure_pa}))[1]"
        ),
        rel=3e-3,
        rows=[
            (dict(pressure_pa=101325.0, temperature_k=298.15, water_fraction=0.0156), 0.498757347),
            (dict(pressure_pa=101325.0, temperature_k=313.15, water_fraction=0.01), 0.137232408),
        ],
    ),
    ByHand(
        water_carried,
        arithmetic=(
            "1 mol/s of dry gas with 2 % water: 0.02 / 0.98 = 0.020 408 mol/s × 18.015 28 g/mol = 0.367 66 g/s; "
            "with one half water 1 mol/s of water, 18.015 g/s"
        ),
        rel=1e-5,
        rows=[
            (dict(dry_gas_mol_per_s=1.0, water_fraction=0.02), 0.367659e-3),
            (dict(dry_gas_mol_per_s=1.0, water_fraction=0.5), 18.01528e-3),
        ],
    ),
    OtherRoute(
        water_carried,
        library="psychrolib, CoolProp (moist air: humidity ratio times mass of dry air)",
        call=(
            "(psychrolib.SetUnitSystem(psychrolib.SI), psychrolib.GetHumRatioFromVapPres({water_fraction} * 101325.0, 101325.0)"
            " * {dry_gas_mol_per_s} * 28.966e-3)[1]"
        ),
        rel=1e-4,
        rows=[(dict(dry_gas_mol_per_s=0.005, water_fraction=0.0728), 7.07242691e-06)],
    ),
    ByHand(
        water_fraction_of_load,
        arithmetic=(
            "0.367 659 g/s of water is 0.020 408 mol/s; with 1 mol/s of gas 0.020 408 / 1.020 408 = 0.02; "
            "18.015 28 g/s with 1 mol/s is one half"
        ),
        rel=1e-5,
        rows=[
            (dict(water_kg_per_s=0.367659e-3, dry_gas_mol_per_s=1.0), 0.02),
            (dict(water_kg_per_s=18.01528e-3, dry_gas_mol_per_s=1.0), 0.5),
        ],
    ),
]
