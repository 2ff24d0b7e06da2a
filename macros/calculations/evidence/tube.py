"""Evidence for tubes."""

from macros.calculations.evidence import ByHand, CommonPractice, OtherRoute
from macros.calculations.tube import minimum_wall, thick_wall_rating, thin_wall_rating, tube_rating

PSI = 6894.757
QUARTER_INCH = dict(outside_diameter_m=0.00635, wall_m=0.000889, allowable_stress_pa=20000 * PSI)
SIX_MM = dict(outside_diameter_m=0.006, wall_m=0.0009, allowable_stress_pa=115e6)

EVIDENCE = [
    ByHand(
        minimum_wall,
        arithmetic="1 mm less 10 %: 0.9 mm; 1.5 mm less 12.5 % and 0.1 mm: 1.212 5 mm",
        rel=1e-12,
        rows=[(dict(nominal_wall_m=0.001, tolerance=0.1), 0.0009), (dict(nominal_wall_m=0.0015, tolerance=0.125, allowance_m=0.0001), 0.0012125)],
    ),
    ByHand(
        thin_wall_rating,
        arithmetic=(
            "0.25 in by 0.035 in at 20 000 psi: 2 × 20 000 × 0.035/(0.25 − 0.028) = 6306.3 psi (434.8 bar);"
            " 6 mm by 0.9 mm at 115 MPa: 2 × 115 × 0.9/(6 − 0.72) = 39.205 MPa"
        ),
        rel=1e-4,
        rows=[(QUARTER_INCH, 6306.3 * PSI), (SIX_MM, 39.205e6)],
    ),
    ByHand(
        thick_wall_rating,
        arithmetic=(
            "0.25 in by 0.035 in, bore 0.18 in, at 20 000 psi: 20 000 × (0.062 5 − 0.032 4)/(0.062 5 + 0.032 4) = 6343.5 psi;"
            " 6 mm by 0.9 mm, bore 4.2 mm, at 115 MPa: 115 × (36 − 17.64)/(36 + 17.64) = 39.362 MPa"
        ),
        rel=1e-4,
        rows=[(QUARTER_INCH, 6343.5 * PSI), (SIX_MM, 39.362e6)],
    ),
    OtherRoute(
        # The stress field of a cylinder, integrated from the balance of a ring: r dσ/dr = 2 (A − σ) with nothing outside.
        thick_wall_rating,
        library="scipy",
        call=(
            "(lambda ro, ri: (lambda s: {allowable_stress_pa} * -s.y[0][-1] / (2.0 - s.y[0][-1]))"
            "(scipy.integrate.solve_ivp(lambda r, y: [2 * (1.0 - y[0]) / r], (ro, ri), [0.0], rtol=1e-11, atol=1e-13)))"
            "({outside_diameter_m} / 2, {outside_diameter_m} / 2 - {wall_m})"
        ),
        rel=1e-5,
        rows=[(SIX_MM, 39362416.11), (dict(outside_diameter_m=0.012, wall_m=0.003, allowable_stress_pa=115e6), 69000000)],
    ),
    CommonPractice(
        # Barlow's formula on the outside diameter, 2 S t/D, lies 10 to 15 % below for such tubes.
        thin_wall_rating,
        rel=0.15,
        rows=[(QUARTER_INCH, 5600 * PSI)],
    ),
    ByHand(
        tube_rating,
        arithmetic=(
            "6 mm by 1 mm less 10 %, 115 MPa: thin wall 39.205, thick wall 39.362 MPa, the lower and the atmosphere: 39.306 MPa;"
            " 12 mm by 3 mm without tolerance: thin 2 × 115 × 3/(12 − 2.4) = 71.875, thick 115 × (144 − 36)/180 = 69.0 MPa: 69.101 MPa"
        ),
        rel=1e-4,
        rows=[
            (dict(outside_diameter_m=0.006, nominal_wall_m=0.001, tolerance=0.1, allowable_stress_pa=115e6, atmosphere_pa=101325.0), 39.306e6),
            (dict(outside_diameter_m=0.012, nominal_wall_m=0.003, tolerance=0.0, allowable_stress_pa=115e6, atmosphere_pa=101325.0), 69.1013e6),
        ],
    ),
]  # fmt: skip
