"""Evidence for burners."""

from macros.calculations.burner import burner_flow, combustion_air, combustion_water, time_of_store
from macros.calculations.evidence import ByHand, CommonPractice, OtherRoute, Printed

EVIDENCE = [
    Printed(
        burner_flow,
        source="doe-record-9013",
        locator="lower heating value 33.3 kWh/kg: 33.3 kW burn a kilogram an hour",
        rel=2e-3,
        rows=[(dict(heat_w=33.3e3), 1 / 3600)],
    ),
    OtherRoute(
        burner_flow,
        library="chemicals",
        call="{heat_w} / (241822.0 / chemicals.MW('1333-74-0') * 1e3)",
        rel=1e-3,
        rows=[(dict(heat_w=2500.0), 2.08405356e-05), (dict(heat_w=500.0), 4.16810712e-06)],
    ),
    ByHand(
        time_of_store,
        arithmetic="0.8 kg at 2.084 03e-5 kg/s (2.5 kW): 38 387 s (10.66 h); 0.2 kg at 1e-5 kg/s: 20 000 s",
        rel=1e-4,
        rows=[(dict(mass_kg=0.8, mass_flow_kg_per_s=2.08403e-5), 38387.0), (dict(mass_kg=0.2, mass_flow_kg_per_s=1e-5), 20000.0)],
    ),
    ByHand(
        combustion_air,
        arithmetic="1e-5 kg/s: 4.960 61e-3 mol/s × 0.5/0.209 46 = 0.011 841 4 mol/s; with half as much again 0.017 762 1 mol/s",
        rel=1e-4,
        rows=[(dict(mass_flow_kg_per_s=1e-5, excess_air=1.0), 0.0118414), (dict(mass_flow_kg_per_s=1e-5, excess_air=1.5), 0.0177621)],
    ),
    CommonPractice(  # 2.4 volumes of air a volume of hydrogen: 29.5 % at the stoichiometric point
        combustion_air, rel=1e-2, rows=[(dict(mass_flow_kg_per_s=2.01588e-3, excess_air=1.0), 0.705 / 0.295)]
    ),
    ByHand(
        combustion_water,
        arithmetic="18.015 28/2.015 88 = 8.936 7 kg a kg: 1e-5 kg/s give 8.936 7e-5 kg/s, 2.084 03e-5 give 1.862 44e-4 kg/s",
        rel=1e-4,
        rows=[(dict(mass_flow_kg_per_s=1e-5), 8.9367e-5), (dict(mass_flow_kg_per_s=2.08403e-5), 1.86244e-4)],
    ),
]  # fmt: skip
