"""Evidence for strength tests."""

from macros.calculations.evidence import ByHand, OtherRoute, Printed
from macros.calculations.strength_test import hydrostatic_test_pressure, pneumatic_test_pressure, stored_energy

ATM = 101325.0

EVIDENCE = [
    Printed(
        hydrostatic_test_pressure,
        source="ped-2014-68",
        locator="Annex I 7.4: the maximum allowable pressure multiplied by 1.43 (30 and 100 bar(g) put in)",
        rel=1e-9,
        rows=[
            (dict(allowable_pressure_pa=3e6 + ATM, atmosphere_pa=ATM), 1.43 * 3e6 + ATM),
            (dict(allowable_pressure_pa=10e6 + ATM, atmosphere_pa=ATM), 1.43 * 10e6 + ATM),
        ],
    ),
    ByHand(
        hydrostatic_test_pressure,
        arithmetic=(
            "200 bar(g) in air of 0.95 bar: 286 + 0.95 = 286.95 bar(a), not 1.43 × 200.95 = 287.36;"
            " hot service, stress ratio 1.2: 1.25 × 1.2 = 1.5 > 1.43, so 150 + 1.013 25 = 151.013 25 bar(a) for 100 bar(g)"
        ),
        rel=1e-9,
        rows=[
            (dict(allowable_pressure_pa=200.95e5, atmosphere_pa=0.95e5), 286.95e5),
            (dict(allowable_pressure_pa=10e6 + ATM, atmosphere_pa=ATM, stress_ratio=1.2), 15101325.0),
        ],
    ),
    ByHand(
        pneumatic_test_pressure,
        arithmetic="100 bar(g) and 1.1: 110 + 1.013 25 = 111.013 25 bar(a); 30 bar(g): 33 + 1.013 25 = 34.013 25 bar(a)",
        rel=1e-9,
        rows=[
            (dict(allowable_pressure_pa=10e6 + ATM, atmosphere_pa=ATM), 11101325.0),
            (dict(allowable_pressure_pa=3e6 + ATM, atmosphere_pa=ATM), 3401325.0),
        ],
    ),
    ByHand(
        stored_energy,
        arithmetic=(
            "1 L at 33 bar(g) of nitrogen: 3.401 325e6 × 0.001/0.4 × (1 − (101 325/3 401 325)^(0.4/1.4));"
            " ln 0.029 790 = −3.513 59, × 0.285 714 = −1.003 88, e^… = 0.366 45; 8503.3 × 0.633 55 = 5387.3 J"
        ),
        rel=1e-4,
        rows=[(dict(space_m3=1e-3, test_pressure_pa=3401325.0, atmosphere_pa=ATM), 5387.3)],
    ),
    OtherRoute(
        stored_energy,
        library="CoolProp",
        call=(
            "{space_m3} * CoolProp.CoolProp.PropsSI('D', 'T', 288.15, 'P', {test_pressure_pa}, 'Nitrogen')"
            " * (CoolProp.CoolProp.PropsSI('U', 'T', 288.15, 'P', {test_pressure_pa}, 'Nitrogen') - CoolProp.CoolProp.PropsSI('U', 'P', {atmosphere_pa},"
            " 'S', CoolProp.CoolProp.PropsSI('S', 'T', 288.15, 'P', {test_pressure_pa}, 'Nitrogen'), 'Nitrogen'))"
        ),
        rel=5e-2,
        rows=[
            (dict(space_m3=0.01, test_pressure_pa=11e5, atmosphere_pa=ATM), 13454.01406),
            (dict(space_m3=0.05, test_pressure_pa=34e5, atmosphere_pa=ATM), 260817.7219),
        ],
    ),
]  # fmt: skip
