"""Evidence for fuel cells."""

from macros.calculations.evidence import ByHand, FromMemory, OtherRoute, Printed
from macros.calculations.fuel_cell import (
    electricity_of_store,
    electricity_per_kg,
    fuel_cell_efficiency,
    fuel_cell_flow,
    fuel_cell_heat,
)

EVIDENCE = [
    ByHand(
        fuel_cell_efficiency,
        arithmetic=(
            "0.65 V: 2 × 96 485.33 × 0.65/(2.015 88e-3 × 119.96e6) = 125 430.9/241 825 = 0.518 69;"
            " 0.70 V with 95 % of the fuel used: 0.95 × 135 079.5/241 825 = 0.530 66"
        ),
        rel=1e-4,
        rows=[(dict(cell_voltage_v=0.65, fuel_use=1.0), 0.51869), (dict(cell_voltage_v=0.70, fuel_use=0.95), 0.53066)],
    ),
    OtherRoute(
        fuel_cell_efficiency,
        library="scipy",
        call="{fuel_use} * {cell_voltage_v} * 2 * scipy.constants.e * scipy.constants.N_A / 241826.0",
        rel=1e-3,
        rows=[(dict(cell_voltage_v=0.60, fuel_use=1.0), 0.478783913)],
    ),
    ByHand(
        electricity_per_kg,
        arithmetic="48 % of 119.96 MJ/kg: 57.581 MJ/kg (15.99 kWh/kg); 50 %: 59.98 MJ/kg",
        rel=1e-4,
        rows=[(dict(efficiency=0.48), 57.581e6), (dict(efficiency=0.5), 59.98e6)],
    ),
    Printed(
        fuel_cell_flow,
        source="hydrogen-association",
        locator="worked example: 10 kW at 45 % take 0.667 kg/h",
        rel=5e-3,
        rows=[(dict(electric_power_w=1e4, efficiency=0.45), 0.667 / 3600)],
    ),
    FromMemory(
        fuel_cell_flow,
        source="larminie-dicks",
        locator="1.05e-8 × power/voltage kg/s, at 0.65 V (51.87 %)",
        rel=1e-2,
        rows=[(dict(electric_power_w=1e3, efficiency=0.5187), 1.05e-8 * 1e3 / 0.65)],
    ),
    ByHand(
        fuel_cell_flow,
        arithmetic="1 kW at 48 %: 1000/(0.48 × 119.96e6) = 1.736 69e-5 kg/s (62.5 g/h)",
        rel=1e-4,
        rows=[(dict(electric_power_w=1e3, efficiency=0.48), 1.73669e-5)],
    ),
    ByHand(
        electricity_of_store,
        arithmetic="0.8 kg at 48 %: 0.8 × 57.581e6 = 46.065e6 J (12.8 kWh); nothing makes nothing",
        abs=1e3,
        rows=[(dict(mass_kg=0.8, efficiency=0.48), 46.0648e6), (dict(mass_kg=0.0, efficiency=0.48), 0.0)],
    ),
    ByHand(
        fuel_cell_heat,
        arithmetic="1 kW at 48 %: 1000 × (2.083 33 − 1) = 1083.3 W; at 50 % as much heat as power",
        rel=1e-4,
        rows=[(dict(electric_power_w=1e3, efficiency=0.48), 1083.33), (dict(electric_power_w=2e3, efficiency=0.5), 2e3)],
    ),
]  # fmt: skip
