"""Evidence for the cost of stored energy."""

from macros.calculations.evidence import ByHand, OtherRoute
from macros.calculations.levelised_cost import annuity, cost_of_energy

EVIDENCE = [
    ByHand(
        annuity,
        arithmetic="5 % over 10 years: 0.05/(1 − 1.05^−10) = 0.05/(1 − 0.613 913) = 0.129 505; without interest 1/10",
        rel=1e-5,
        rows=[(dict(interest=0.05, years=10.0), 0.129505), (dict(interest=0.0, years=10.0), 0.1)],
    ),
    OtherRoute(
        annuity,
        library="scipy",
        call="scipy.optimize.brentq(lambda a: sum(a / (1 + {interest}) ** n for n in range(1, int({years}) + 1)) - 1, 1e-6, 2)",
        rel=1e-6,
        rows=[(dict(interest=0.03, years=20.0), 0.0672157076), (dict(interest=0.08, years=15.0), 0.1168295449)],
    ),
    ByHand(
        cost_of_energy,
        arithmetic=(
            "12 000 over 15 years without interest and 400 a year for 1800 kWh: (800 + 400)/6.48e9 = 1.851 85e-7 a joule (0.667 a kWh);"
            " at 5 % over 10 years: (12 000 × 0.129 505 + 400)/6.48e9 = 3.015 52e-7"
        ),
        rel=1e-4,
        rows=[
            (dict(investment=12000.0, interest=0.0, years=15.0, yearly_cost=400.0, yearly_j=6.48e9), 1.85185e-7),
            (dict(investment=12000.0, interest=0.05, years=10.0, yearly_cost=400.0, yearly_j=6.48e9), 3.01552e-7),
        ],
    ),
]  # fmt: skip
