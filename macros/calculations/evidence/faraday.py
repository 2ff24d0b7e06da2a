"""Evidence for Faraday's law."""

from macros.calculations.evidence import ByHand, OtherRoute
from macros.calculations.faraday import hydrogen_produced

EVIDENCE = [
    OtherRoute(
        hydrogen_produced,
        library="scipy",
        call="{current_a}*{cells}/(2*scipy.constants.e*scipy.constants.N_A)",
        rel=1e-9,
        rows=[(dict(current_a=60.0, cells=16.0), 4.974849797e-3)],
    ),
    ByHand(
        hydrogen_produced,
        arithmetic="1 A through one cell: 1 / (2 × 96 485.332) = 5.182 135e-6 mol/s",
        rel=1e-6,
        rows=[(dict(current_a=1.0, cells=1.0), 5.182135e-6)],
    ),
]
