"""Evidence for the heat of the stack."""

from macros.calculations.evidence import ByHand, OtherRoute
from macros.calculations.stack_heat import evaporation_heat, latent_heat, preheat_energy, preheat_time, stack_heat

_LATENT = "(iapws.IAPWS97(T={temperature_k}, x=1).h - iapws.IAPWS97(T={temperature_k}, x=0).h) * 1e3"

EVIDENCE = [
    ByHand(
        stack_heat,
        arithmetic="ten cells at 100 A and 1.9 V, thermoneutral 1.481 V: 10 × 100 × 0.419 = 419 W; one cell at 1.8 V gives "
        "1.8 − 1.481 2 = 0.318 8 W for each ampere",
        rel=1e-9,
        rows=[
            (dict(current_a=100.0, cells=10.0, cell_voltage_v=1.9, thermoneutral_voltage_v=1.481), 419.0),
            (dict(current_a=1.0, cells=1.0, cell_voltage_v=1.8, thermoneutral_voltage_v=1.4812), 0.3188),
        ],
    ),
    ByHand(
        stack_heat,
        arithmetic="16 cells at 60 A: 960 × (1.99 − 1.475 4) = 494.0 W, and 8 W of the catalyst: 502.0 W",
        rel=1e-4,
        rows=[
            (
                dict(
                    current_a=60.0,
                    cells=16.0,
                    cell_voltage_v=1.99,
                    thermoneutral_voltage_v=1.4754,
                    catalyst_heat_w=8.0,
                ),
                502.016,
            )
        ],
    ),
    OtherRoute(
        latent_heat,
        library="iapws",
        call=_LATENT,
        rel=3e-3,
        rows=[
            (dict(temperature_k=293.15), 2453549.559886),
            (dict(temperature_k=313.15), 2406001.369548),
            (dict(temperature_k=333.15), 2357691.011564),
            (dict(temperature_k=353.15), 2308065.654804),
            (dict(temperature_k=373.15), 2256472.874223),
        ],
    ),
    OtherRoute(
        evaporation_heat,
        library="iapws",
        call=f"{{vapour_kg_per_s}} * {_LATENT}",
        rel=3e-3,
        rows=[
            (dict(vapour_kg_per_s=1e-5, temperature_k=333.15), 23.57691011564),
            (dict(vapour_kg_per_s=2e-5, temperature_k=353.15), 46.16131309608),
        ],
    ),
    ByHand(
        preheat_time,
        arithmetic="5 kg of water, 4186 J/(kg K), 15 to 60 °C with 500 W and no loss: 941 850 J / 500 W = 1883.7 s = 31.4 min",
        rel=1e-6,
        rows=[
            (
                dict(
                    heat_capacity_j_per_k=20930.0,
                    loss_w_per_k=0.0,
                    heater_power_w=500.0,
                    start_temperature_k=288.15,
                    end_temperature_k=333.15,
                ),
                1883.7,
            )
        ],
    ),
    OtherRoute(
        preheat_time,
        library="scipy (integral of the heat balance)",
        call="scipy.integrate.quad(lambda t: {heat_capacity_j_per_k} / ({heater_power_w} - {loss_w_per_k}"
        " * (t - {start_temperature_k})), {start_temperature_k}, {end_temperature_k})[0]",
        rel=1e-6,
        rows=[
            (
                dict(
                    heat_capacity_j_per_k=30e3,
                    loss_w_per_k=4.0,
                    heater_power_w=500.0,
                    start_temperature_k=265.15,
                    end_temperature_k=333.15,
                ),
                5889.468521,
            ),
            (
                dict(
                    heat_capacity_j_per_k=30e3,
                    loss_w_per_k=1e-5,
                    heater_power_w=500.0,
                    start_temperature_k=265.15,
                    end_temperature_k=333.15,
                ),
                4080.0,
            ),
        ],
    ),
    ByHand(
        preheat_energy,
        arithmetic="500 W for 1883.7 s = 941 850 J = 0.261 6 kWh; 1 kW for an hour = 3.6 MJ",
        rel=1e-9,
        rows=[
            (dict(preheat_time_s=1883.7, heater_power_w=500.0), 941850.0),
            (dict(preheat_time_s=3600.0, heater_power_w=1000.0), 3.6e6),
        ],
    ),
]
