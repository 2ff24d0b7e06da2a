"""Evidence for the water cooler."""

from macros.calculations.cooler import (
    air_capacity_rate,
    capacity_ratio,
    cooling_capacity,
    cooling_margin,
    effectiveness_counterflow,
    effectiveness_crossflow,
    temperature_rise,
    transfer_units,
    water_capacity_rate,
)
from macros.calculations.evidence import ByHand, OtherRoute

EVIDENCE = [
    OtherRoute(
        water_capacity_rate,
        library="iapws",
        call="{water_flow_m3_per_s} * iapws.IAPWS97(T=333.15, P=0.2).rho * iapws.IAPWS97(T=333.15, P=0.2).cp * 1e3",
        rel=1e-3,
        rows=[
            (dict(water_flow_m3_per_s=4e-3 / 60), 274.1667447815),
            (dict(water_flow_m3_per_s=1e-3), 4112.5011717),
        ],
    ),
    OtherRoute(
        water_capacity_rate,
        library="CoolProp (at 40 °C: how far the choice of 60 °C is felt)",
        call="{water_flow_m3_per_s} * CoolProp.CoolProp.PropsSI('D', 'T', 313.15, 'P', 2e5, 'Water')"
        " * CoolProp.CoolProp.PropsSI('C', 'T', 313.15, 'P', 2e5, 'Water')",
        rel=0.01,
        rows=[(dict(water_flow_m3_per_s=1e-3), 4146.823503534)],
    ),
    OtherRoute(
        air_capacity_rate,
        library="CoolProp (air as a real mixture)",
        call="{air_flow_m3_per_s} * CoolProp.CoolProp.PropsSI('D', 'T', {temperature_k}, 'P', {pressure_pa}, 'Air')"
        " * CoolProp.CoolProp.PropsSI('C', 'T', {temperature_k}, 'P', {pressure_pa}, 'Air')",
        rel=3e-3,
        rows=[
            (dict(air_flow_m3_per_s=400 / 3600, pressure_pa=101325.0, temperature_k=311.15), 126.9402411662),
            (dict(air_flow_m3_per_s=0.02, pressure_pa=95e3, temperature_k=288.15), 23.1154863601),
        ],
    ),
    ByHand(
        transfer_units,
        arithmetic="45 W/K over the smaller of 274 and 127 W/K: 45 / 127 = 0.354 33, whichever stream is named first",
        rel=1e-4,
        rows=[
            (dict(conductance_w_per_k=45.0, first_rate_w_per_k=274.0, second_rate_w_per_k=127.0), 0.35433),
            (dict(conductance_w_per_k=45.0, first_rate_w_per_k=127.0, second_rate_w_per_k=274.0), 0.35433),
        ],
    ),
    ByHand(
        capacity_ratio,
        arithmetic="127 / 274 = 0.463 50, whichever stream is named first",
        rel=1e-4,
        rows=[
            (dict(first_rate_w_per_k=274.0, second_rate_w_per_k=127.0), 0.46350),
            (dict(first_rate_w_per_k=127.0, second_rate_w_per_k=274.0), 0.46350),
        ],
    ),
    OtherRoute(
        effectiveness_counterflow,
        library="ht",
        call="ht.effectiveness_from_NTU(NTU={transfer_units}, Cr={capacity_ratio}, subtype='counterflow')",
        rel=1e-9,
        rows=[
            (dict(transfer_units=0.5, capacity_ratio=0.5), 0.362265572828),
            (dict(transfer_units=1.0, capacity_ratio=0.3), 0.591539667918),
            (dict(transfer_units=5.0, capacity_ratio=0.7), 0.920670368605),
            (dict(transfer_units=1.2, capacity_ratio=1.0), 0.545454545455),
        ],
    ),
    ByHand(
        effectiveness_counterflow,
        arithmetic="against a stream that does not warm, 1 − e^−1 = 0.632 12",
        rel=1e-5,
        rows=[(dict(transfer_units=1.0, capacity_ratio=0.0), 0.63212)],
    ),
    OtherRoute(
        effectiveness_crossflow,
        library="ht",
        call="ht.effectiveness_from_NTU(NTU={transfer_units}, Cr={capacity_ratio}, subtype='crossflow')",
        source="ntu-method",
        locator="crossflow, both unmixed, the exact integral that the approximation stands for",
        rel=0.02,
        rows=[
            (dict(transfer_units=0.5, capacity_ratio=0.5), 0.35782704645),
            (dict(transfer_units=1.0, capacity_ratio=0.3), 0.57962791225),
            (dict(transfer_units=2.0, capacity_ratio=0.7), 0.68300473795),
            (dict(transfer_units=5.0, capacity_ratio=0.7), 0.84448217998),
        ],
    ),
    OtherRoute(
        effectiveness_crossflow,
        library="ht",
        call="ht.effectiveness_from_NTU(NTU={transfer_units}, Cr={capacity_ratio}, subtype='crossflow approximate')",
        rel=1e-9,
        rows=[
            (dict(transfer_units=0.35433, capacity_ratio=0.4635), 0.27396949912),
            (dict(transfer_units=1.2, capacity_ratio=1.0), 0.509464986567),
        ],
    ),
    ByHand(
        cooling_capacity,
        arithmetic="0.27 of the 127 W/K that the air takes, over 60 − 38 = 22 K: 0.27 × 127 × 22 = 754.38 W; nothing where both are alike",
        rel=1e-9,
        rows=[
            (
                dict(
                    effectiveness=0.27,
                    first_rate_w_per_k=274.0,
                    second_rate_w_per_k=127.0,
                    hot_temperature_k=333.15,
                    cold_temperature_k=311.15,
                ),
                754.38,
            ),
            (
                dict(
                    effectiveness=0.27,
                    first_rate_w_per_k=274.0,
                    second_rate_w_per_k=127.0,
                    hot_temperature_k=311.15,
                    cold_temperature_k=311.15,
                ),
                0.0,
            ),
        ],
    ),
    ByHand(
        temperature_rise,
        arithmetic="419 W into 1.20 L/min, 2e-5 m³/s × 4.19e6 = 83.8 W/K: 5 K; 500 W into 274 W/K: 1.824 8 K",
        rel=1e-4,
        rows=[(dict(heat_w=419.0, rate_w_per_k=83.8), 5.0), (dict(heat_w=500.0, rate_w_per_k=274.0), 1.8248)],
    ),
    ByHand(
        cooling_margin,
        arithmetic="754.38 W of capacity for 500 W leave (754.38 − 500) / 754.38 = 33.72 %; for 800 W −6.05 %",
        rel=1e-3,
        rows=[
            (dict(capacity_w=754.38, heat_w=500.0), 0.3372),
            (dict(capacity_w=754.38, heat_w=800.0), -0.06047),
        ],
    ),
]
