"""Evidence for the voltage of a cell."""

from macros.calculations.cell_voltage import (
    activation_voltage,
    cold_cell_voltage,
    direct_power,
    dry_pressure,
    exchange_current_density,
    measured_voltage,
    membrane_conductivity,
    modelled_voltage,
    power_drawn,
    reversible_voltage,
    stack_voltage,
    standard_reversible_voltage,
    thermoneutral_voltage,
)
from macros.calculations.evidence import ByHand, CommonPractice, FromMemory, OtherRoute, Printed

POINTS = ((200.0, 1.46), (1000.0, 1.54), (2000.0, 1.60), (4000.0, 1.69), (8000.0, 1.845), (12000.0, 1.99))
UNEVEN = ((1.0, 1.0), (2.0, 1.0), (3.0, 5.0), (9.0, 5.1))

_PROPERTY = (
    "(CoolProp.CoolProp.PropsSI('{of}', 'T', {{temperature_k}}, 'P', {at}, '{fluid}')"
    " - CoolProp.CoolProp.PropsSI('{of}', 'T', 298.15, 'P', 1e5, '{fluid}'))"
)


def _splitting(of: str, hydrogen_at: str, oxygen_at: str) -> str:
    return " + ".join(
        [
            _PROPERTY.format(of=of, at=hydrogen_at, fluid="Hydrogen"),
            "0.5 * " + _PROPERTY.format(of=of, at=oxygen_at, fluid="Oxygen"),
            "-1 * " + _PROPERTY.format(of=of, at="1e5", fluid="Water"),
        ]
    )


_VOLT = "(2 * scipy.constants.e * scipy.constants.N_A)"
_ENTHALPY = f"(285830 + {_splitting('HMOLAR', '{hydrogen_pressure_pa}', '{oxygen_pressure_pa}')})"
_ENTROPY = f"(130.68 + 205.152 / 2 - 69.95 + {_splitting('SMOLAR', '{hydrogen_pressure_pa}', '{oxygen_pressure_pa}')})"

EVIDENCE = [
    Printed(
        thermoneutral_voltage,
        source="codata-key-values",
        locator="formation enthalpy of liquid water, -285.830 kJ/mol at 298.15 K",
        rel=1e-6,
        rows=[(dict(temperature_k=298.15), 285830 / (2 * 96485.33212))],
    ),
    OtherRoute(
        thermoneutral_voltage,
        library="CoolProp, scipy (real gases, heat capacities that move with temperature)",
        call=f"(285830 + {_splitting('HMOLAR', '1e5', '1e5')}) / {_VOLT}",
        abs=2e-4,
        rows=[
            (dict(temperature_k=298.15), 1.4812095979),
            (dict(temperature_k=313.15), 1.4787471414),
            (dict(temperature_k=333.15), 1.4754752443),
            (dict(temperature_k=353.15), 1.4722020412),
        ],
    ),
    FromMemory(
        thermoneutral_voltage,
        source="leroy-1980",
        locator="thermoneutral voltage, 1.5187 − 9.763e-5 T − 9.50e-8 T²",
        abs=5e-4,
        rows=[(dict(temperature_k=313.15), 1.47881), (dict(temperature_k=353.15), 1.47237)],
    ),
    Printed(
        standard_reversible_voltage,
        source="crc-handbook",
        locator="Gibbs energy of formation of liquid water, 237.141, 236.839 and 225.160 kJ/mol at 298.15, 300 and 373.21 K "
        "and 1 bar; 0.25 to 0.32 mV more at one standard atmosphere",
        abs=1e-4,
        rows=[
            (dict(temperature_k=298.15), 237141 / (2 * 96485.33212) + 0.00025),
            (dict(temperature_k=300.0), 236839 / (2 * 96485.33212) + 0.00025),
            (dict(temperature_k=373.15), 225160 / (2 * 96485.33212) + 0.00032),
        ],
    ),
    ByHand(
        dry_pressure,
        arithmetic="26.013 bar(a) less 0.199 46 bar of vapour at 60 °C leave 25.813 54 bar; 1.113 bar(a) leave 0.913 54 bar",
        rel=1e-6,
        rows=[
            (dict(pressure_pa=26.013e5, vapour_pressure_pa=0.19946e5), 25.81354e5),
            (dict(pressure_pa=1.113e5, vapour_pressure_pa=0.19946e5), 0.91354e5),
        ],
    ),
    OtherRoute(
        reversible_voltage,
        library="CoolProp, scipy (enthalpies and entropies of real gases on CODATA values at 25 °C)",
        call=f"({_ENTHALPY} - {{temperature_k}} * {_ENTROPY}) / {_VOLT}",
        abs=5e-4,
        rows=[
            (dict(temperature_k=298.15, hydrogen_pressure_pa=101325.0, oxygen_pressure_pa=101325.0), 1.22914677899),
            (dict(temperature_k=333.15, hydrogen_pressure_pa=25.8e5, oxygen_pressure_pa=0.9e5), 1.24569385804),
            (dict(temperature_k=333.15, hydrogen_pressure_pa=15e5, oxygen_pressure_pa=0.9e5), 1.23782424549),
            (dict(temperature_k=353.15, hydrogen_pressure_pa=30e5, oxygen_pressure_pa=0.6e5), 1.23123145346),
        ],
    ),
    ByHand(
        reversible_voltage,
        arithmetic="ten times the hydrogen pressure adds RT ln 10 / 2F: 8.314 463 × 298.15 × 2.302 585 / 192 970.66 "
        "= 29.58 mV at 25 °C, on top of 1.229 14 V",
        abs=2e-5,
        rows=[
            (
                dict(temperature_k=298.15, hydrogen_pressure_pa=1013250.0, oxygen_pressure_pa=101325.0),
                1.22914 + 0.02958,
            )
        ],
    ),
    OtherRoute(
        measured_voltage,
        library="scipy",
        call="float(scipy.interpolate.PchipInterpolator(*zip(*{polarisation}))({current_density_a_per_m2}))",
        rel=1e-9,
        rows=[
            (dict(polarisation=POINTS, current_density_a_per_m2=200.0), 1.46),
            (dict(polarisation=POINTS, current_density_a_per_m2=300.0), 1.47162688214),
            (dict(polarisation=POINTS, current_density_a_per_m2=1500.0), 1.57293035876),
            (dict(polarisation=POINTS, current_density_a_per_m2=5000.0), 1.73081466869),
            (dict(polarisation=POINTS, current_density_a_per_m2=11000.0), 1.9546796875),
            (dict(polarisation=POINTS, current_density_a_per_m2=12000.0), 1.99),
            (dict(polarisation=UNEVEN, current_density_a_per_m2=1.3), 1.0),
            (dict(polarisation=UNEVEN, current_density_a_per_m2=2.2), 1.4146094154),
            (dict(polarisation=UNEVEN, current_density_a_per_m2=8.9), 5.0999888118),
        ],
    ),
    ByHand(
        measured_voltage,
        arithmetic="between two points alone the line is straight: a quarter of the way from 1.6 to 1.8 V is 1.65 V",
        rel=1e-12,
        rows=[(dict(polarisation=((0.0, 1.6), (8000.0, 1.8)), current_density_a_per_m2=2000.0), 1.65)],
    ),
    ByHand(
        membrane_conductivity,
        arithmetic="22 waters at 30 °C: 0.005 139 × 22 − 0.003 26 = 0.109 798 S/cm, × exp(1268 × (1/303 − 1/303.15)) = 1.002 07 "
        "gives 0.110 03; at 60 °C × exp(0.378 73) = 1.460 4 gives 0.160 35; at 80 °C × exp(0.594 29) = 1.811 7 gives 0.198 92",
        rel=2e-4,
        rows=[
            (dict(water_content=22.0, temperature_k=303.15), 11.003),
            (dict(water_content=22.0, temperature_k=333.15), 16.035),
            (dict(water_content=22.0, temperature_k=353.15), 19.892),
        ],
    ),
    Printed(
        membrane_conductivity,
        source="scheepers-2020",
        locator="table 1, conductivity of the membrane at 80 °C and unit activity of water, after Yadav and Fedkiw, another fit",
        rel=0.12,
        rows=[(dict(water_content=14.0, temperature_k=353.15), 13.7)],
    ),
    OtherRoute(
        activation_voltage,
        library="scipy, numpy",
        call="scipy.constants.R * {temperature_k} / (scipy.constants.e * scipy.constants.N_A)"
        " * numpy.arcsinh({current_density_a_per_m2} / (2 * {exchange_current_density_a_per_m2}))",
        rel=1e-9,
        rows=[
            (
                dict(current_density_a_per_m2=1e4, exchange_current_density_a_per_m2=1.65e-4, temperature_k=298.15),
                0.46040858877,
            ),
            (
                dict(current_density_a_per_m2=1e4, exchange_current_density_a_per_m2=900.0, temperature_k=298.15),
                0.06207195899,
            ),
            (
                dict(current_density_a_per_m2=100.0, exchange_current_density_a_per_m2=7.5, temperature_k=333.15),
                0.0745232029,
            ),
        ],
    ),
    ByHand(
        activation_voltage,
        arithmetic="far above the exchange current a decade costs RT ln 10 / F = 59.16 mV at 25 °C: from j0 to 1e8 j0 "
        "that is 8 × 59.160 = 473.28 mV",
        abs=1e-5,
        rows=[
            (
                dict(current_density_a_per_m2=1e4, exchange_current_density_a_per_m2=1e-4, temperature_k=298.15),
                0.47328,
            )
        ],
    ),
    ByHand(
        exchange_current_density,
        arithmetic="90 kJ/mol from 318 to 353.15 K: 90 000 / 8.314 463 × (1/318 − 1/353.15) = 10 824.5 × 3.129 94e-4 = 3.388 0; "
        "e^3.388 0 = 29.607. 30 kJ/mol from 318 to 333.15 K: 3 608.17 × 1.430 04e-4 = 0.515 98; e^0.515 98 = 1.675 3",
        rel=2e-4,
        rows=[
            (
                dict(
                    exchange_current_density_a_per_m2=1e-3,
                    activation_energy_j_per_mol=90e3,
                    given_temperature_k=318.0,
                    temperature_k=353.15,
                ),
                29.607e-3,
            ),
            (
                dict(
                    exchange_current_density_a_per_m2=7.5,
                    activation_energy_j_per_mol=30e3,
                    given_temperature_k=318.0,
                    temperature_k=333.15,
                ),
                7.5 * 1.6753,
            ),
        ],
    ),
    ByHand(
        modelled_voltage,
        arithmetic="1 A/cm² at 80 °C, 178 µm: 1.18 V + RT/F × asinh(1e4 / 0.059 215) = 0.030 432 × 12.730 1 = 0.387 41 V "
        "+ 0.030 432 × asinh(1e4 / 46.404) = 0.030 432 × 6.066 2 = 0.184 61 V + 1e4 × 178e-6 / 19.892 = 0.089 48 V "
        "makes 1.841 5 V",
        abs=2e-4,
        rows=[
            (
                dict(
                    current_density_a_per_m2=1e4,
                    temperature_k=353.15,
                    reversible_voltage_v=1.18,
                    membrane_thickness_m=178e-6,
                ),
                1.8415,
            )
        ],
    ),
    CommonPractice(
        modelled_voltage,
        abs=0.12,
        rows=[
            (
                dict(
                    current_density_a_per_m2=1e4,
                    temperature_k=333.15,
                    reversible_voltage_v=1.246,
                    membrane_thickness_m=205e-6,
                ),
                1.92,
            ),
            (
                dict(
                    current_density_a_per_m2=2e3,
                    temperature_k=333.15,
                    reversible_voltage_v=1.246,
                    membrane_thickness_m=205e-6,
                ),
                1.70,
            ),
        ],
    ),
    ByHand(
        cold_cell_voltage,
        arithmetic="1.99 V warm + 0.25 V = 2.24 V cold; 1.6 V + 0 V = 1.6 V",
        rel=1e-12,
        rows=[
            (dict(cell_voltage_v=1.99, cold_rise_v=0.25), 2.24),
            (dict(cell_voltage_v=1.6, cold_rise_v=0.0), 1.6),
        ],
    ),
    ByHand(
        stack_voltage,
        arithmetic="16 × 1.99 V = 31.84 V; 40 × 1.85 V = 74 V",
        rel=1e-12,
        rows=[(dict(cell_voltage_v=1.99, cells=16.0), 31.84), (dict(cell_voltage_v=1.85, cells=40.0), 74.0)],
    ),
    ByHand(
        direct_power,
        arithmetic="31.84 V × 60 A = 1910.4 W; ten cells at 1.9 V and 100 A: 19 V × 100 A = 1900 W",
        rel=1e-12,
        rows=[(dict(voltage_v=31.84, current_a=60.0), 1910.4), (dict(voltage_v=19.0, current_a=100.0), 1900.0)],
    ),
    ByHand(
        power_drawn,
        arithmetic="1910.4 W / 0.9 = 2122.67 W; two diodes of 0.9 V on 20 V pass 20 / 21.8 = 91.743 %: 1000 W / 0.917 43 = 1090 W",
        rel=1e-5,
        rows=[
            (dict(power_w=1910.4, conversion_efficiency=0.9), 2122.6667),
            (dict(power_w=1000.0, conversion_efficiency=20 / 21.8), 1090.0),
        ],
    ),
]
