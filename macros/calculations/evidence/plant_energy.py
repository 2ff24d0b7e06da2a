"""Evidence for the whole plant."""

from macros.calculations.evidence import ByHand
from macros.calculations.plant_energy import energy_per_kg_kept, energy_per_kg_made, mass_in_time, round_trip_efficiency

EVIDENCE = [
    ByHand(
        energy_per_kg_made,
        arithmetic="2100 W supply, 25 W pump, 35 W controls for 1e-5 kg/s: 2160/1e-5 = 216 MJ/kg (60 kWh/kg); without the rest 2100/1e-5 = 210 MJ/kg",
        rel=1e-9,
        rows=[
            (dict(supply_power_w=2100.0, pump_power_w=25.0, other_power_w=35.0, mass_flow_kg_per_s=1e-5), 216e6),
            (dict(supply_power_w=2100.0, pump_power_w=0.0, other_power_w=0.0, mass_flow_kg_per_s=1e-5), 210e6),
        ],
    ),
    ByHand(
        energy_per_kg_kept,
        arithmetic=(
            "216 MJ/kg and 45 MJ/kg of boosting, 320 starts of 1.8 MJ over 55 kg: 261 + 576/55 = 271.473 MJ/kg;"
            " without booster and starts 216 MJ/kg"
        ),
        rel=1e-5,
        rows=[
            (dict(running_j_per_kg=261e6, yearly_j=576e6, yearly_mass_kg=55.0), 271.473e6),
            (dict(running_j_per_kg=216e6, yearly_j=0.0, yearly_mass_kg=55.0), 216e6),
        ],
    ),
    ByHand(
        round_trip_efficiency,
        arithmetic="half of 33.322 kWh/kg made, 60 kWh/kg put in: 16.661/60 = 0.277 69",
        rel=1e-4,
        rows=[(dict(efficiency=0.5, stored_j_per_kg=216e6), 0.27769)],
    ),
    ByHand(
        round_trip_efficiency,
        arithmetic="48 % of 119.96 MJ/kg over 271.473 MJ/kg: 57.580 8/271.473 = 0.212 105",
        rel=1e-4,
        rows=[(dict(efficiency=0.48, stored_j_per_kg=271.473e6), 0.212105)],
    ),
    ByHand(
        mass_in_time,
        arithmetic="1e-5 kg/s for 1600 h: 1e-5 × 5.76e6 = 57.6 kg; for 5 h: 0.18 kg",
        rel=1e-9,
        rows=[(dict(mass_flow_kg_per_s=1e-5, running_s=5.76e6), 57.6), (dict(mass_flow_kg_per_s=1e-5, running_s=18000.0), 0.18)],
    ),
]  # fmt: skip
