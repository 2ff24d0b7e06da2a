"""Evidence for the fuse."""

from macros.calculations.evidence import ByHand, Printed
from macros.calculations.fuse import fuse_maximum, fuse_minimum

EVIDENCE = [
    ByHand(
        fuse_minimum,
        arithmetic="60 A of working current ask for a fuse of 60 A or more; with 25 % for a load of hours, 75 A",
        rel=1e-12,
        rows=[(dict(current_a=60.0), 60.0), (dict(current_a=60.0, continuous_load_factor=1.25), 75.0)],
    ),
    Printed(
        fuse_maximum,
        source="iec-60364-4-43",
        locator="clause 433.1 as applied to fuses: the cable bears 1.1 times the fuse of 16 A and more, 1.31 times a smaller one",
        rel=5e-3,
        rows=[
            (dict(ampacity_a=110.0, fusing_ratio=1.6), 100.0),
            (dict(ampacity_a=13.1, fusing_ratio=1.9), 10.0),
        ],
    ),
    ByHand(
        fuse_maximum,
        arithmetic="1.45 × 110 / 1.6 = 99.687 5 A; a breaker that surely opens at 1.45 times its rating may have the cable's own 110 A, "
        "and one at 1.3 times no more",
        rel=1e-9,
        rows=[
            (dict(ampacity_a=110.0, fusing_ratio=1.6), 99.6875),
            (dict(ampacity_a=110.0, fusing_ratio=1.45), 110.0),
            (dict(ampacity_a=110.0, fusing_ratio=1.3), 110.0),
        ],
    ),
]
