"""Evidence for the air of a room with a leak in it."""

from macros.calculations.evidence import ByHand, CommonPractice, OtherRoute
from macros.calculations.ventilation import (
    dilution_air,
    draught,
    fraction_after,
    hydrogen_in_room,
    layer_draught,
    layer_fraction,
    lightness_of_hydrogen,
    lightness_of_warmth,
    mixed_fraction,
    opening_needed,
    openings_in_series,
    plume_air,
    release_fraction,
    time_to_clear,
    time_to_fraction,
)

EVIDENCE = [
    OtherRoute(
        hydrogen_in_room,
        library="CoolProp",
        call="{mass_flow_kg_per_s} / CoolProp.CoolProp.PropsSI('D', 'T', {temperature_k}, 'P', {atmosphere_pa}, 'Hydrogen')",
        rel=1e-3,
        rows=[
            (dict(mass_flow_kg_per_s=1e-5, temperature_k=293.15, atmosphere_pa=101325.0), 0.0001193998976),
            (dict(mass_flow_kg_per_s=6e-5, temperature_k=313.15, atmosphere_pa=95e3), 0.0008161779401),
        ],
    ),
    ByHand(
        dilution_air,
        arithmetic="5 NL/min at 20 °C are 5.366 L/min = 8.943 5e-5 m3/s; to 1 %: × 0.99/0.01 = 8.854 1e-3 m3/s (31.9 m3/h); to 2 %: × 0.98/0.02 = 4.382 3e-3 m3/s",
        rel=1e-4,
        rows=[
            (dict(hydrogen_m3_per_s=8.9435e-5, allowed_fraction=0.01), 8.8541e-3),
            (dict(hydrogen_m3_per_s=8.9435e-5, allowed_fraction=0.02), 4.3823e-3),
        ],
    ),
    ByHand(
        mixed_fraction,
        arithmetic="1 part of hydrogen in 99 of air is 1 %; 0.2 L/s in 9.8 L/s is 2 %",
        rel=1e-12,
        rows=[(dict(hydrogen_m3_per_s=1.0, air_m3_per_s=99.0), 0.01), (dict(hydrogen_m3_per_s=0.2e-3, air_m3_per_s=9.8e-3), 0.02)],
    ),
    OtherRoute(
        fraction_after,
        library="scipy",
        call=(
            "scipy.integrate.solve_ivp(lambda t, x: ({hydrogen_m3_per_s} - ({hydrogen_m3_per_s} + {air_m3_per_s}) * x) / {space_m3},"
            " (0, {time_s}), [0.0], rtol=1e-10, atol=1e-14).y[0][-1]"
        ),
        rel=1e-6,
        rows=[
            (dict(hydrogen_m3_per_s=1e-4, air_m3_per_s=0.01, space_m3=30.0, time_s=3600.0), 0.006954440783),
            (dict(hydrogen_m3_per_s=1e-4, air_m3_per_s=0.0, space_m3=4.0, time_s=600.0), 0.0148880604),
        ],
    ),
    ByHand(
        time_to_fraction,
        arithmetic=(
            "0.1 L/s into 4 m3 without air, to 1 %: −4/1e-4 × ln 0.99 = 40 000 × 0.010 050 3 = 402.0 s;"
            " to 4 %: 40 000 × 0.040 822 0 = 1632.9 s"
        ),
        rel=1e-4,
        rows=[
            (dict(hydrogen_m3_per_s=1e-4, space_m3=4.0, fraction=0.01), 402.013),
            (dict(hydrogen_m3_per_s=1e-4, space_m3=4.0, fraction=0.04), 1632.88),
        ],
    ),
    ByHand(
        time_to_clear,
        arithmetic="4 % to 1 % with six changes an hour: ln 4 / 6 = 0.231 049 h = 831.78 s; 2 % to 1 % with one: ln 2 = 0.693 147 h = 2495.33 s",
        rel=1e-5,
        rows=[
            (dict(start_fraction=0.04, end_fraction=0.01, air_changes_per_s=6 / 3600), 831.777),
            (dict(start_fraction=0.02, end_fraction=0.01, air_changes_per_s=1 / 3600), 2495.33),
        ],
    ),
    OtherRoute(
        release_fraction,
        library="CoolProp",
        call="{mass_kg} / CoolProp.CoolProp.PropsSI('D', 'T', {temperature_k}, 'P', {atmosphere_pa}, 'Hydrogen') / {room_m3}",
        rel=1e-3,
        rows=[
            (dict(mass_kg=0.8, temperature_k=293.15, atmosphere_pa=101325.0, room_m3=30.0), 0.3183997269),
            (dict(mass_kg=0.02, temperature_k=303.15, atmosphere_pa=101325.0, room_m3=30.0), 0.00823142893),
        ],
    ),
    ByHand(
        openings_in_series,
        arithmetic="two of 0.1 m2: 0.1/√2 = 0.070 711 m2; 0.3 and 0.4 m2: 1/√(11.111 + 6.25) = 1/4.166 67 = 0.24 m2",
        rel=1e-5,
        rows=[(dict(lower_area_m2=0.1, upper_area_m2=0.1), 0.070711), (dict(lower_area_m2=0.3, upper_area_m2=0.4), 0.24)],
    ),
    ByHand(
        lightness_of_warmth,
        arithmetic="5 K at a mean of 295.65 K: 5/295.65 = 0.016 912; the colder room draws nothing: 0",
        abs=1e-6,
        rows=[(dict(inside_k=298.15, outside_k=293.15), 0.016912), (dict(inside_k=283.15, outside_k=293.15), 0.0)],
    ),
    ByHand(
        lightness_of_hydrogen,
        arithmetic="1 − 2.015 88/28.965 46 = 0.930 404: 1 % gives 0.009 304, 100 % gives 0.930 404",
        rel=1e-5,
        rows=[(dict(fraction=0.01), 0.00930404), (dict(fraction=1.0), 0.930404)],
    ),
    ByHand(
        draught,
        arithmetic=(
            "two openings of 0.1 m2, 2 m, 5 K: 0.61 × 0.070 711 × √(2 × 9.806 65 × 2 × 0.016 912) = 0.043 134 × 0.814 5 = 0.035 13 m3/s;"
            " driven by 1 % of hydrogen instead: √(39.226 6 × 0.009 304) = 0.604 12, × 0.043 134 = 0.026 06 m3/s"
        ),
        rel=5e-4,
        rows=[
            (dict(series_area_m2=0.0707107, discharge_coefficient=0.61, height_m=2.0, lightness=0.016912), 0.03513),
            (dict(series_area_m2=0.0707107, discharge_coefficient=0.61, height_m=2.0, lightness=0.009304), 0.02606),
        ],
    ),
    ByHand(
        opening_needed,
        arithmetic="the other way round: 0.035 13 m3/s with 5 K over 2 m asks for 0.1 m2 each; 0.026 06 m3/s with 1 % of hydrogen too",
        rel=5e-4,
        rows=[
            (dict(air_m3_per_s=0.03513, discharge_coefficient=0.61, height_m=2.0, lightness=0.016912), 0.1),
            (dict(air_m3_per_s=0.02606, discharge_coefficient=0.61, height_m=2.0, lightness=0.009304), 0.1),
        ],
    ),
    ByHand(
        plume_air,
        arithmetic=(
            "0.1 L/s, 2 m up, entrainment 0.1: lightness flux 9.806 65 × 1e-4 × 0.930 404 = 9.124 15e-4, cube root 0.096 991 5;"
            " 0.12 × 0.09^(1/3) × π^(2/3) = 0.12 × 0.448 140 × 2.145 029 = 0.115 353; 2^(5/3) = 3.174 802;"
            " 0.115 353 × 0.096 991 5 × 3.174 802 = 0.035 520 m3/s"
        ),
        rel=1e-4,
        rows=[(dict(hydrogen_m3_per_s=1e-4, rise_m=2.0, entrainment=0.1), 0.035520)],
    ),
    OtherRoute(
        # The three balances of the plume (volume, momentum, lightness), integrated from a little above the source.
        plume_air,
        library="scipy",
        call=(
            "(lambda F, a, z0: scipy.integrate.solve_ivp(lambda z, y: [2 * a * (scipy.constants.pi * y[1]) ** 0.5, F * y[0] / y[1]],"
            " (z0, {rise_m}), (lambda Q0: [Q0, Q0 ** 2 / (scipy.constants.pi * (6 * a * z0 / 5) ** 2)])"
            "(6 * a / 5 * (9 * a / 10) ** (1 / 3) * scipy.constants.pi ** (2 / 3) * F ** (1 / 3) * z0 ** (5 / 3)), rtol=1e-10, atol=1e-16).y[0][-1])"
            "(9.80665 * {hydrogen_m3_per_s} * 0.930404, {entrainment}, 0.01)"
        ),
        rel=1e-4,
        rows=[
            (dict(hydrogen_m3_per_s=5e-4, rise_m=1.0, entrainment=0.1), 0.01913151726),
            (dict(hydrogen_m3_per_s=2e-5, rise_m=2.5, entrainment=0.12), 0.03842180412),
        ],
    ),
    OtherRoute(
        layer_draught,
        library="scipy",
        call=(
            "(lambda C, B: (lambda h: C * B ** (1 / 3) * h ** (5 / 3))(scipy.optimize.brentq(lambda h: (C * B ** (1 / 3) * h ** (5 / 3)) ** 3"
            " - 2 * ({discharge_coefficient} * {series_area_m2}) ** 2 * B * ({height_m} - {leak_height_m} - h), 0, {height_m} - {leak_height_m}, xtol=1e-14)))"
            "(6 * {entrainment} / 5 * (9 * {entrainment} / 10) ** (1 / 3) * scipy.constants.pi ** (2 / 3), 9.80665 * {hydrogen_m3_per_s} * 0.9304038)"
        ),
        rel=1e-5,
        rows=[
            (dict(hydrogen_m3_per_s=1e-4, series_area_m2=0.0707107, discharge_coefficient=0.61, height_m=2.0, leak_height_m=0.5, entrainment=0.1), 0.01170607327),
            (dict(hydrogen_m3_per_s=1e-3, series_area_m2=0.02, discharge_coefficient=0.61, height_m=2.2, leak_height_m=1.0, entrainment=0.1), 0.01149217836),
        ],
    ),
    ByHand(
        layer_fraction,
        arithmetic=(
            "0.1 L/s of hydrogen, fan 50 L/s, plume 9.9 L/s at the ceiling: the plume arrives as it is, 0.1/10 = 1 %;"
            " fan 4.9 L/s: it takes less than the plume brings, 0.1/5 = 2 %; no fan: the layer grows without end, 100 %"
        ),
        rel=1e-9,
        rows=[
            (dict(hydrogen_m3_per_s=1e-4, air_m3_per_s=0.05, plume_air_m3_per_s=9.9e-3), 0.01),
            (dict(hydrogen_m3_per_s=1e-4, air_m3_per_s=4.9e-3, plume_air_m3_per_s=9.9e-3), 0.02),
            (dict(hydrogen_m3_per_s=1e-4, air_m3_per_s=0.0, plume_air_m3_per_s=9.9e-3), 1.0),
        ],
    ),
    CommonPractice(
        dilution_air,
        rel=0.05,
        rows=[(dict(hydrogen_m3_per_s=0.01, allowed_fraction=0.01), 1.0)],  # a hundredfold to a quarter of the limit
    ),
]  # fmt: skip
