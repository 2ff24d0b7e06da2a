"""Networks to draw in tests: a shed plant as an author would place it, and random ones."""

from __future__ import annotations

from hypothesis import strategies as st

from diagrams import Item, Line, Text, symbol_ports
from diagrams.symbols import symbol_class

VOLUME = Text("10 L", "0.010 m³", "0.353 ft³")
RELIEF = Text("30 bar(g)", "3.0 MPa(g)", "435 psi(g)")
SWITCH = Text("15 / 25 bar(g)", "1.5 / 2.5 MPa(g)", "218 / 363 psi(g)")


def line(name: str, medium: str, *stops: str, label: Text | None = None, live: bool = False) -> Line:
    """A line from stops written `TAG` or `TAG.port`."""
    parted = [stop.partition(".") for stop in stops]
    return Line(name, medium, tuple((tag, port or None) for tag, _, port in parted), label, live)


def shed_items() -> list[Item]:
    """The items of a shed plant."""
    return [
        Item("RE1", "reservoir", (0, 2.2), (Text("20 L", "0.020 m³", "5.28 gal"),), "water reservoir"),
        Item("VT1", "vent", (0, 1), (Text("oxygen vent"),)),
        Item("PU1", "pump", (0, 3.4), facing="down"),
        Item("DI1", "deioniser", (0, 4.5)),
        Item("CL1", "cooler", (1, 5), (Text("60 °C", "333 K", "140 °F"),)),
        Item("TT1", "transmitter", (1, 4)),
        Item("ST1", "stack", (2, 3), (Text("16 × 50 cm²", "16 × 0.005 m²", "16 × 7.75 in²"),)),
        Item("SU1", "supply", (0, 0)),
        Item("IS1", "isolator", (0.8, 0), state="closed"),
        Item("FU1", "fuse", (1.4, 0), (Text("80 A"),)),
        Item("RC1", "rectifier", (2, 0)),
        Item("GD1", "gas_detector", (1, 1.5)),
        Item("SE1", "separator", (3, 2.5)),
        Item("CO1", "coalescer", (4, 2.5)),
        Item("V1", "hand_valve", (5, 2.5), title="inlet valve", state="open"),
        Item("DC1", "desiccant_column", (6, 2.5), (Text("2 kg", "", "4.41 lb"),)),
        Item("V2", "hand_valve", (7, 2.5), state="open"),
        Item("CC1", "cold_coil", (8, 2.5), (Text("−8 °C", "265 K", "17.6 °F"),)),
        Item("NR1", "non_return_valve", (9, 2.5)),
        Item("BU1", "buffer", (10, 2.5), (VOLUME, Text("25 bar(g)", "2.5 MPa(g)", "363 psi(g)"))),
        Item("PS1", "pressure_switch", (9, 1.2), (SWITCH,)),
        Item("PG1", "pressure_gauge", (11, 1.2)),
        Item("RV1", "relief_valve", (10, 0.9), (RELIEF,)),
        Item("VT2", "vent", (11, 0.1), (Text("hydrogen vent"),)),
        Item("DR1", "drain", (3, 3.5), facing="down"),
        Item("DR2", "drain", (4, 3.5), facing="down"),
        Item("DP1", "degassing_pot", (4, 4.6)),
        Item("VT3", "vent", (5, 3.7), (Text("hydrogen vent"),)),
        Item("V3", "actuated_valve", (10, 4), facing="down", state="open"),
        Item("BO1", "booster", (9, 5), (Text("1 : 12"),), facing="left"),
        Item("AR1", "air_regulator", (10, 6.2), (Text("6 bar(g)", "0.6 MPa(g)", "87 psi(g)"),), facing="left"),
        Item("CP1", "compressor", (11, 6.2), facing="left"),
        Item("NR2", "non_return_valve", (8, 5), facing="left"),
        Item("BA1", "bank", (6.5, 5), (Text("4 × 50 L", "4 × 0.050 m³", "4 × 1.77 ft³"),), facing="left"),
        Item("PG2", "pressure_gauge", (7.3, 4)),
        Item("RV2", "relief_valve", (6.5, 4), (Text("60 bar(g)", "6.0 MPa(g)", "870 psi(g)"),)),
        Item("VT4", "vent", (8, 3.4), (Text("hydrogen vent"),)),
        Item("V4", "hand_valve", (5, 6.2), state="closed", facing="left"),
        Item("PR1", "pressure_regulator", (4, 6.2), (Text("0.5 bar(g)", "50 kPa(g)", "7.25 psi(g)"),), facing="left"),
        Item("J1", "junction", (3.2, 6.2)),
        Item("FA1", "flame_arrestor", (2.4, 7.2), facing="left"),
        Item("BN1", "burner", (1.4, 7.2), facing="left"),
        Item("V5", "hand_valve", (2.4, 6.2), state="closed", facing="left"),
        Item("FC1", "fuel_cell", (1.2, 6.2), (Text("1 kW"),), facing="left"),
        Item("PI1", "purge_inlet", (5, 7.2), facing="left"),
        Item("V6", "hand_valve", (4, 7.2), state="closed", facing="left"),
    ]


def shed_lines() -> list[Line]:
    """The lines of the shed plant."""
    return [
        line("L1", "water", "RE1.bottom", "PU1", "DI1.top"),
        line("L2", "water", "DI1.bottom", "CL1", "ST1.water_in"),
        line("L3", "water", "CL1.out", "TT1"),
        line("L4", "oxygen", "ST1.o2", "RE1.out"),
        line("L5", "oxygen", "RE1.top", "VT1"),
        line("E1", "electric", "SU1", "IS1", "FU1", "RC1"),
        line("E2", "electric", "RC1.positive", "ST1.positive"),
        line("E3", "electric", "RC1.negative", "ST1.negative"),
        line("L6", "wet_hydrogen", "ST1.h2", "SE1", "CO1", "V1", "DC1"),
        line("L7", "hydrogen", "DC1", "V2", "CC1", "NR1", "BU1"),
        line("L8", "hydrogen", "BU1.top", "RV1", "VT2"),
        line("L9", "hydrogen", "BU1.top", "PS1"),
        line("L10", "hydrogen", "BU1.top", "PG1"),
        line("L11", "hydrogen", "BU1.bottom", "V3", "BO1", "NR2", "BA1", label=Text("6 × 1 mm", "", "1/4 in")),
        line("L12", "hydrogen", "BA1.in", "PG2"),
        line("L13", "hydrogen", "BA1.top", "RV2", "VT4"),
        line("L14", "air", "CP1", "AR1", "BO1.drive_air"),
        line("L15", "hydrogen", "BA1", "V4", "PR1", "J1", "V5", "FC1"),
        line("L16", "hydrogen", "J1.branch", "FA1", "BN1"),
        line("L17", "nitrogen", "PI1", "V6", "J1.branch"),
        line("D1", "water", "SE1.bottom", "DR1", "DP1.in"),
        line("D2", "water", "CO1.bottom", "DR2", "DP1.in"),
        line("D3", "water", "DP1.bottom", "RE1.in"),
        line("D4", "hydrogen", "DP1.top", "VT3"),
    ]


KINDS = (
    "hand_valve", "relief_valve", "buffer", "pressure_gauge", "pressure_switch", "three_way_valve", "pump", "vent",
    "non_return_valve", "booster", "bank", "stack", "junction", "drain", "isolator",
)  # fmt: skip
LABELS = (
    Text("25 bar(g)", "2.5 MPa(g)", "363 psi(g)"),
    Text("a rather long word or two"),
    Text("0.5 L", "", "30.5 in³"),
)


@st.composite
def networks(draw: st.DrawFn) -> tuple[list[Item], list[Line]]:
    """A few items anywhere on a small grid, and lines between any of their ports."""
    size = draw(st.integers(2, 7))
    places = draw(
        st.lists(
            st.tuples(st.integers(0, 8), st.integers(0, 6)).map(lambda at: (at[0] / 2, at[1] / 2)),
            min_size=size, max_size=size, unique=True,
        )
    )  # fmt: skip
    items = []
    for number, at in enumerate(places):
        kind = draw(st.sampled_from(KINDS))
        ways = ("right", "left") if symbol_class(kind).turns == "aside" else ("right", "left", "up", "down")
        labels = tuple(draw(st.lists(st.sampled_from(LABELS), max_size=2)))
        items.append(Item(f"X{number + 1}", kind, at, labels, facing=draw(st.sampled_from(ways))))
    lines = []
    for number in range(draw(st.integers(0, 6))):
        one, two = draw(st.lists(st.sampled_from(items), min_size=2, max_size=2, unique=True))
        ends = tuple((end.tag, draw(st.sampled_from(symbol_ports(end.symbol)))) for end in (one, two))
        medium = draw(st.sampled_from(("hydrogen", "water", "oxygen")))
        lines.append(Line(f"L{number + 1}", medium, ends, draw(st.sampled_from((None, Text("6 mm", "", "1/4 in"))))))
    return items, lines
