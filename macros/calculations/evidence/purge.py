"""Evidence for purging."""

from macros.calculations.evidence import ByHand, CommonPractice, FromMemory, OtherRoute
from macros.calculations.purge import fraction_left, pressure_swings_exact, purge_gas_used, sweep_volumes, whole_swings

ATM = 101325.0
TORR_20 = 20 / 760 * ATM

EVIDENCE = [
    ByHand(
        pressure_swings_exact,
        arithmetic=(
            "air (20.9 % oxygen) to 1 %, to 4 bar(g) over 1.013 25 bar: ln 20.9 / ln(5.013 25/1.013 25) = 3.039 749/1.598 922 = 1.901 12;"
            " to 0.1 %, to 5 bar(g): ln 209 / ln 5.934 616 = 5.342 334/1.780 802 = 2.999 96;"
            " hydrogen from 100 % to 1 %, to 4 bar(g): 4.605 170/1.598 922 = 2.880 17"
        ),
        rel=1e-4,
        rows=[
            (dict(start_fraction=0.209, end_fraction=0.01, high_pressure_pa=501325.0, low_pressure_pa=ATM), 1.90112),
            (dict(start_fraction=0.209, end_fraction=0.001, high_pressure_pa=601325.0, low_pressure_pa=ATM), 2.99996),
            (dict(start_fraction=1.0, end_fraction=0.01, high_pressure_pa=501325.0, low_pressure_pa=ATM), 2.88017),
        ],
    ),
    ByHand(
        pressure_swings_exact,
        arithmetic="nitrogen that carries 0.1 % oxygen, 20.9 % to 1 %: ln(20.8/0.9)/ln 4.947 693 = 3.140 314/1.598 922 = 1.964 02",
        rel=1e-4,
        rows=[(dict(start_fraction=0.209, end_fraction=0.01, high_pressure_pa=501325.0, low_pressure_pa=ATM, purge_gas_fraction=0.001), 1.96402)],
    ),
    FromMemory(
        pressure_swings_exact,
        source="crowl-louvar",
        locator="worked example of vacuum purging a tank of 1000 gal from air to 1 ppm of oxygen, 20 mmHg to one atmosphere: 3.37 cycles",
        rel=5e-3,
        rows=[(dict(start_fraction=0.21, end_fraction=1e-6, high_pressure_pa=ATM, low_pressure_pa=TORR_20), 3.37)],
    ),
    CommonPractice(whole_swings, abs=0, rows=[(dict(exact=1.90112), 2.0), (dict(exact=2.88017), 3.0)]),
    ByHand(
        whole_swings,
        arithmetic="2.999 96 asks for 3, and 3 exactly for 3; 3.001 asks for 4",
        abs=0,
        rows=[(dict(exact=2.99996), 3.0), (dict(exact=3.0), 3.0), (dict(exact=3.001), 4.0), (dict(exact=0.0), 0.0)],
    ),
    ByHand(
        fraction_left,
        arithmetic=(
            "air swung twice to 4 bar(g): 0.209 × (1.013 25/5.013 25)^2 = 0.209 × 0.040 849 8 = 0.008 537 6;"
            " hydrogen three times: (0.202 114 4)^3 = 0.008 256 4"
        ),
        rel=1e-4,
        rows=[
            (dict(start_fraction=0.209, high_pressure_pa=501325.0, low_pressure_pa=ATM, swings=2.0), 0.0085376),
            (dict(start_fraction=1.0, high_pressure_pa=501325.0, low_pressure_pa=ATM, swings=3.0), 0.0082564),
        ],
    ),
    ByHand(
        sweep_volumes,
        arithmetic="21 % to 1 %: ln 21 = 3.044 52; 20.9 % to 0.2 %: ln 104.5 = 4.649 19",
        rel=1e-5,
        rows=[(dict(start_fraction=0.21, end_fraction=0.01), 3.04452), (dict(start_fraction=0.209, end_fraction=0.002), 4.64919)],
    ),
    FromMemory(
        purge_gas_used,
        source="crowl-louvar",
        locator="the same example: 4 cycles, 1.33 lb mol of nitrogen",
        rel=5e-3,
        rows=[(dict(space_m3=3.785412, high_pressure_pa=ATM, low_pressure_pa=TORR_20, temperature_k=297.04, swings=4.0), 1.33 * 453.59237)],
    ),
    OtherRoute(
        purge_gas_used,
        library="CoolProp",
        call=(
            "{swings} * {space_m3} * (CoolProp.CoolProp.PropsSI('Dmolar', 'T', {temperature_k}, 'P', {high_pressure_pa}, 'Nitrogen')"
            " - CoolProp.CoolProp.PropsSI('Dmolar', 'T', {temperature_k}, 'P', {low_pressure_pa}, 'Nitrogen'))"
        ),
        rel=3e-3,
        rows=[
            (dict(space_m3=0.012, high_pressure_pa=501325.0, low_pressure_pa=ATM, temperature_k=288.15, swings=3.0), 6.020490518),
            (dict(space_m3=0.2, high_pressure_pa=601325.0, low_pressure_pa=ATM, temperature_k=288.15, swings=2.0), 83.63969567),
        ],
    ),
]  # fmt: skip
