"""Evidence for the cable."""

from macros.calculations.conductor import (
    conductor_resistance,
    current_drawn,
    hot_resistance,
    share_of_voltage,
    smallest_conductor,
    voltage_drop,
    voltage_headroom,
)
from macros.calculations.evidence import ByHand, FromMemory, Printed

EVIDENCE = [
    Printed(
        conductor_resistance,
        source="iec-60228",
        locator="class 5, plain wires, 20 °C",
        rel=1e-9,
        rows=[
            (dict(area_m2=2.5e-6), 7.98e-3),
            (dict(area_m2=4e-6), 4.95e-3),
            (dict(area_m2=6e-6), 3.30e-3),
            (dict(area_m2=10e-6), 1.91e-3),
            (dict(area_m2=16e-6), 1.21e-3),
            (dict(area_m2=25e-6), 0.780e-3),
            (dict(area_m2=35e-6), 0.554e-3),
        ],
    ),
    FromMemory(
        conductor_resistance,
        source="iec-60228",
        locator="class 5, plain wires, 20 °C, the sizes that were not read",
        rel=1e-9,
        rows=[
            (dict(area_m2=1.5e-6), 13.3e-3),
            (dict(area_m2=0.5e-6), 39.0e-3),
            (dict(area_m2=0.75e-6), 26.0e-3),
            (dict(area_m2=1.0e-6), 19.5e-3),
            (dict(area_m2=50e-6), 0.386e-3),
            (dict(area_m2=70e-6), 0.272e-3),
            (dict(area_m2=95e-6), 0.206e-3),
            (dict(area_m2=120e-6), 0.161e-3),
            (dict(area_m2=150e-6), 0.129e-3),
            (dict(area_m2=185e-6), 0.106e-3),
            (dict(area_m2=240e-6), 0.0801e-3),
            (dict(area_m2=300e-6), 0.0641e-3),
        ],
    ),
    ByHand(
        conductor_resistance,
        arithmetic="solid annealed copper of 25 mm² has 1.724 1e-8 / 25e-6 = 0.690 mΩ/m; a stranded conductor may have up to 15 % more",
        rel=0.15,
        rows=[(dict(area_m2=25e-6), 0.69e-3)],
    ),
    ByHand(
        hot_resistance,
        arithmetic="at 70 °C 1 + 0.003 93 × 50 = 1.196 5: 0.780 mΩ/m becomes 0.933 27; at 20 °C it stays",
        rel=1e-6,
        rows=[
            (dict(resistance_ohm_per_m=0.780e-3, temperature_k=343.15), 0.93327e-3),
            (dict(resistance_ohm_per_m=0.780e-3, temperature_k=293.15), 0.780e-3),
        ],
    ),
    ByHand(
        hot_resistance,
        arithmetic="another way: copper's resistance falls in a straight line to nothing at −234.5 °C: (234.5 + 70) / (234.5 + 20) = 1.196 5",
        rel=1e-4,
        rows=[(dict(resistance_ohm_per_m=1e-3, temperature_k=343.15), 1.1965e-3)],
    ),
    ByHand(
        voltage_drop,
        arithmetic="4 m there and 4 m back: 8 × 0.933 27e-3 × 60 = 0.447 97 V; 10 m one way, 1.91 mΩ/m, 25 A: 20 × 1.91e-3 × 25 = 0.955 V",
        rel=1e-6,
        rows=[
            (dict(resistance_ohm_per_m=0.93327e-3, length_m=4.0, current_a=60.0), 0.4479696),
            (dict(resistance_ohm_per_m=1.91e-3, length_m=10.0, current_a=25.0), 0.955),
        ],
    ),
    ByHand(
        share_of_voltage,
        arithmetic="3 % of 31.84 V = 0.955 2 V; 5 % of 40 V = 2 V",
        rel=1e-9,
        rows=[(dict(voltage_v=31.84, fraction=0.03), 0.9552), (dict(voltage_v=40.0, fraction=0.05), 2.0)],
    ),
    ByHand(
        smallest_conductor,
        arithmetic="0.955 2 V over 8 m at 60 A allow 1.990 mΩ/m hot, 1.990 / 1.196 5 = 1.663 mΩ/m at 20 °C: 10 mm² has 1.91, too "
        "much, 16 mm² has 1.21. Half the drop allows 0.832: 25 mm² with 0.780. 20 mΩ/m allow 1.5 mm² with 13.3 × 1.196 5 = 15.9 and not 1 mm² with 23.3",
        rel=1e-9,
        rows=[
            (dict(length_m=4.0, current_a=60.0, drop_allowed_v=0.9552, temperature_k=343.15), 16e-6),
            (dict(length_m=4.0, current_a=60.0, drop_allowed_v=0.4776, temperature_k=343.15), 25e-6),
            (dict(length_m=4.0, current_a=60.0, drop_allowed_v=9.6, temperature_k=343.15), 1.5e-6),
        ],
    ),
    ByHand(
        voltage_headroom,
        arithmetic="40 V less 0.448 V less 16 × 2.24 = 35.84 V leave 3.712 V; 36 V leave −0.288 V: the cold stack does not reach its current",
        rel=1e-9,
        rows=[
            (dict(rectifier_voltage_v=40.0, cable_drop_v=0.448, cold_voltage_v=35.84), 3.712),
            (dict(rectifier_voltage_v=36.0, cable_drop_v=0.448, cold_voltage_v=35.84), -0.288),
        ],
    ),
    ByHand(
        current_drawn,
        arithmetic="2122.67 W / (230 V × 0.95) = 9.715 A; 1150 W at 230 V and power factor 1: 5 A",
        rel=1e-4,
        rows=[
            (dict(power_w=2122.67, voltage_v=230.0, power_factor=0.95), 9.715),
            (dict(power_w=1150.0, voltage_v=230.0, power_factor=1.0), 5.0),
        ],
    ),
]
