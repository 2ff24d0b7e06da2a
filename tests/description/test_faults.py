"""What an author reads when something is wrong: each message word for word, one for each mistake, all at once."""

# ruff: noqa: E501 - a message that is promised word for word stands on one line

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from macros.description.loading import load
from tests.description.plants import Copy

P, N, S, T, R = "plant.yml", "network.yml", "procedures.yml", "parts.yml", "record.yml"
PRESSURE = "a gauge pressure or an absolute pressure (bar(g), mbar(g), Pa(g), kPa(g), MPa(g), psi(g), …)"

ONE_FAULT = [
    # --- quantities
    (P, "  cut_out: 25 bar(g)\n", "  cut_out: 25 bar\n", "buffer.cut_out", '"25 bar" does not say gauge or absolute; write 25 bar(g) or 25 bar(a).'),
    (P, "  cut_out: 25 bar(g)\n", "  cut_out: 25\n", "buffer.cut_out", f'"25" has no unit; wanted is {PRESSURE}.'),
    (P, "  cut_out: 25 bar(g)\n", "  cut_out: 25 kg\n", "buffer.cut_out", f'"25 kg" is a mass; wanted is {PRESSURE}.'),
    (P, "  cut_out: 25 bar(g)\n", "  cut_out: [25 bar(g)]\n", "buffer.cut_out", f"a list is no number with its unit; wanted is {PRESSURE}."),
    (P, "  cut_out: 25 bar(g)\n", "  cut_out: true\n", "buffer.cut_out", f"true is no number with its unit; wanted is {PRESSURE}."),
    (P, "  cut_out: 25 bar(g)\n", "  cut_out: null\n", "buffer.cut_out", f"null stands here; wanted is {PRESSURE}."),
    (P, "  cut_out: 25 bar(g)\n", "  cut_out: 2500 bar(g)\n", "buffer.cut_out", "2500 bar(g) is impossible here: the highest allowed is 200 bar(g)."),
    (P, "  hottest: 38 °C\n", "  hottest: -5 °C\n", "site.hottest", "-5 °C is impossible here: the lowest allowed is 0 °C."),
    (P, "  cells: 16\n", "  cells: 16.5\n", "stack.cells", '"16.5" is not whole; wanted is a count, a plain number.'),
    (P, "    - [0.1 A/cm2, 1.54 V]\n", "    - [0.01 A/cm2, 1.54 V]\n", "stack.polarisation", "0.01 A/cm2, 1.54 V does not lie above the point before it; write the points with the first value rising."),
    (P, "    - [0.1 A/cm2, 1.54 V]\n", "    - [0.1 A/cm2]\n", "stack.polarisation", "a list is no list of points; write at least two pairs in brackets, the first value rising: [[0.1 A/cm2, 1.54 V], [0.2 A/cm2, 1.60 V]]."),
    # --- keys
    (P, "  cut_out: 25 bar(g)\n", "  cut_ot: 25 bar(g)\n", "buffer.cut_ot", 'the key "cut_ot" is not known here; the nearest known is "cut_out".'),
    (P, "  cut_out: 25 bar(g)\n", "", "buffer.cut_out", f"the key is missing (Pressure at which the switch starts the booster); wanted is {PRESSURE}."),
    (P, "  country: NL\n", "  country: NL\n  colour: red\n", "site.colour", 'the key "colour" is not known here; known are atmosphere.'),
    (P, "    bed_mass: 2.0 kg\n", "    bed_mas: 2.0 kg\n", "drying.3.bed_mas", 'the key "bed_mas" is not known here; the nearest known is "bed_mass".'),
    # --- types and choices
    (P, "status: published\n", "status: drft\n", "status", '"drft" is no choice here; the nearest is "draft".'),
    (P, "status: published\n", "status: 7\n", "status", "7 is no choice here; write one of draft, published, built, withdrawn."),
    (P, "format: 1\n", "format: 2\n", "format", "format 2 is not known; this version reads 1."),
    (P, "  place: Marram Lane\n", "  place: 12\n", "site.place", "12 stands here; wanted is text (in quotes if it looks like a number)."),
    (P, "    title: The yard behind the shed, under an open roof\n    outdoors: true\n", "    title: The yard behind the shed, under an open roof\n    outdoors: yes\n", "rooms.yard.outdoors", '"yes" stands here; wanted is true or false.'),
    (P, "  cooler: {conductance: 45 W/K, air_flow: 400 m3/h}\n", "  cooler: 45 W/K\n", "water.cooler", '"45 W/K" stands here; wanted is a part with the keys conductance, air_flow.'),
    (P, "  country: NL\n", "  country: Nl\n", "site.country", '"Nl" is no country code; write two capitals of ISO 3166-1, such as NL.'),
    (P, "    inspection_due: 2031-05\n", "    inspection_due: 2031-13\n", "banks.store.inspection_due", '"2031-13" is no month; write year-month, such as 2031-05.'),
    (P, "    inspection_due: 2031-05\n", "    inspection_due: May\n", "banks.store.inspection_due", '"May" is no month; write year-month, such as 2031-05.'),
    (P, "  surplus: [", "  surplus: [2 kWh, ", "power.surplus", "13 values stand here; write twelve, one for each month from January."),
    (P, "  surplus: [", "  surplus: [2 kg, ", "power.surplus", '"2 kg" is a mass; wanted is an energy (kWh, Wh, J, kJ, MJ, BTU, …).'),
    # --- what stands beside what, in plant.yml
    (P, "  tag: BV1\n", "  tag: BV2\n", "buffer.tag", "no item of network.yml is tagged BV2. The nearest known is BV1."),
    (P, "  tag: BV1\n", "  tag: bv1\n", "buffer.tag", '"bv1" is no tag; a tag is one to four capitals and one to three digits, such as RV1.'),
    (P, "  relief: RV1\n", "  relief: V1\n", "buffer.relief", "V1 is a hand_valve in network.yml; wanted here is relief_valve or burst_disc."),
    (P, "  - {tag: CO1, kind: coalescer,", "  - {tag: SE1, kind: coalescer,", "drying.2.tag", "SE1 is a separator in network.yml; wanted here is coalescer."),
    (P, "    room: yard\n", "    room: yrd\n", "banks.store.room", 'no room of plant.yml is called "yrd". The nearest known is yard.'),
    (P, "    supply: buffer\n", "    supply: bufer\n", "boosters.1.supply", 'neither the buffer nor a bank is called "bufer". The nearest known is buffer.'),
    (P, "    target: store\n", "    target: stor\n", "boosters.1.target", 'no bank of plant.yml is called "stor". The nearest known is store.'),
    (P, "  cut_in: 15 bar(g)\n", "  cut_in: 26 bar(g)\n", "buffer.cut_out", "25 bar(g) is not above buffer.cut_in, which is 26 bar(g)."),
    (P, "  high_trip: 27 bar(g)\n", "  high_trip: 25 bar(g)\n", "buffer.high_trip", "25 bar(g) is not above buffer.cut_out, which is 25 bar(g)."),
    (P, "    working_pressure: 200 bar(g)\n", "    working_pressure: 40 bar(g)\n", "banks.store.working_pressure", "40 bar(g) is below banks.store.fill_pressure, which is 50 bar(g)."),
    (P, "  usable: 6 L\n", "  usable: 16 L\n", "water.reservoir", "12 L is below water.usable, which is 16 L."),
    (P, "  train_volume: 2.5 L\n", "  train_volume: 3 L\n", "buffer.train_volume", "3 L stands here, but the sections of network.yml that ride with the buffer add up to 2.500\u00a0L."),
    (P, "    sensor: AT1\n", "    sensor: AT9\n", "trips.1.sensor", "no item of network.yml is tagged AT9. The nearest known is AT2."),
    (P, "    trip: 60 bar(g)\n", "    trip: 60 bars\n", "trips.5.trip", '"60 bars" has the unknown unit "bars"; with the nearest known it reads 60 bar.'),
    (P, "    stops: [current, heater, pump, booster_air]\n", "    stops: [curent, heater, pump, booster_air]\n", "trips.8.stops.1", '"curent" is no choice here; the nearest is "current".'),
    (P, "for a cooker and a small fuel cell.", "for a cooker of 2.5 kW.", "summary", '"2.5 kW" is a number typed by hand; refer to the figure or entry that says it, such as {buffer.cut_out}.'),
    (P, "{banks.store.fill_pressure}", "{banks.store.fill_pressure + 1}", "summary", "{banks.store.fill_pressure + 1} is no reference; write the name of a figure or entry in braces, such as {buffer.cut_out}, or the tag of an item."),
    # --- network.yml
    (N, "kind: stack, title", "kind: stak, title", "items.ST1.kind", 'no kind of item is called "stak"; the nearest known is "stack".'),
    (N, "title: Gauge of the column, room: shed, at: [15, 4.6], rating: 60 bar(g), ", "title: Gauge of the column, room: shed, at: [15, 4.6], ", "items.PG2.rating", "the key is missing (Highest pressure that it bears); a pressure_gauge needs it."),
    (N, "at: [15, 4.6], rating: 60 bar(g),", "at: [15, 4.6], ratting: 60 bar(g),", "items.PG2.ratting", 'the key "ratting" is not known here; the nearest known is "rating".'),
    (N, "title: Stack, room: shed,", "title: Stack, room: shed, rating: 35 bar(g),", "items.ST1.rating", 'a stack has no "rating"; its sizes and ratings stand in plant.yml.'),
    (N, "title: Dust filter, room: shed, at: [18, 6],", "title: Dust filter, room: shed, at: [18, 6], lock_up: 1 bar,", "items.FI2.lock_up", 'a filter has no "lock_up"; its settings are rating, mesh, volume, flow_coefficient.'),
    (N, "title: Cold coil, room: shed, at: [19, 6],", "title: Cold coil, room: shed, at: [19],", "items.CC1.at", "too few entries stand here (1); wanted are at least 2."),
    (N, "title: Water cooler, room: shed,", "title: Water cooler, room: shd,", "items.CL1.room", 'no room of plant.yml is called "shd". The nearest known is shed.'),
    (N, "title: Drain of the separator, room: shed, at: [8, 7.3], facing: down, rating: 40 bar(g), normal_position: closed", "title: Drain of the separator, room: shed, at: [8, 7.3], facing: down, rating: 40 bar(g), normal_position: shut", "items.DR1.normal_position", 'DR1 cannot be "shut"; its positions are open, closed.'),
    (N, "  O4: {chain: J3.branch > AT1,", "  O4: {chain: J3.branch > AT11,", "lines.O4.chain", "no item of network.yml is tagged AT11. The nearest known is AT1."),
    (N, "  O4: {chain: J3.branch > AT1,", "  O4: {chain: J3.side > AT1,", "lines.O4.chain", 'J3 has no port "side"; it has J3.in or J3.out or J3.branch.'),
    (N, "  O4: {chain: J3.branch > AT1,", "  O4: {chain: J3 > AT1,", "lines.O4.chain", "J3.out is taken by the line O3; use J3.branch, or put a junction before it."),
    (N, "  O4: {chain: J3.branch > AT1,", "  O4: {chain: J3.branch - AT1,", "lines.O4.chain", '"J3.branch - AT1" stands where a tag belongs; write tags with " > " between them, such as ST1.h2 > SE1 > V1.'),
    (N, "  O4: {chain: J3.branch > AT1,", "  O4: {chain: AT1,", "lines.O4.chain", '"AT1" joins nothing; a line has at least two items.'),
    (N, "  E1: {chain: SU1 > IS2 > RC1.in,", "  E1: {chain: SU1 > IS2 > RC1.in > FC1.positive,", "lines.E1.chain", "RC1.in stands in the middle, where a line passes from inlet to outlet; end this line there and begin a branch."),
    (N, "L3: {chain: J6.branch > PT1,", "L3: {chain: J6.branch > PT1 > AT2,", "lines.L3.chain", "PT1 is a transmitter, which no line passes through; end this line there."),
    (N, "  O1: {chain: ST1.o2 > J1", "  O1: {chain: ST1 > J1", "lines.O1.chain", "ST1 has several ports; say which: ST1.water_in or ST1.o2 or ST1.h2 or ST1.h2_water or ST1.positive or ST1.negative."),
    (N, "BO1.drive_air, medium: air,", "BO1.drive_air, medium: hydrogen,", "lines.A1.chain", "CP1.out holds air, and this line hydrogen."),
    (N, "  R2: {chain: RV2 > VT1,", "  R2: {chain: RV2 > VT7,", "lines.R2.chain", "VT7.in is taken by the line R1; put a junction before it."),
    (N, "    items: [BV1, V10, RV1, PS1, PG3, V9]\n", "    items: [BV1, V10, RV1, PS1, PG3, V9, SE1]\n", "sections.buffer.items.7", "SE1 stands in the section train already."),
    (N, "    relief: [RV1]\n", "    relief: [V9]\n", "sections.buffer.relief.1", "V9 is a hand_valve in network.yml; wanted here is relief_valve or burst_disc."),
    (N, "    room: lean_to\n    free_volume: 2 L\n", "    room: lean\n    free_volume: 2 L\n", "sections.drive_air.room", 'no room of plant.yml is called "lean". The nearest known is lean_to.'),
    (N, "tolerance: 5 %, accumulation: 10 %,", "tolerance: 5 bar, accumulation: 10 %,", "items.RV5.tolerance", '"5 bar" is a difference of pressures; wanted is a fraction (%, ‰, ppm).'),
    # --- procedures.yml
    (S, "    when: On a morning with", "    wehn: On a morning with", "procedures.normal_start.wehn", 'the key "wehn" is not known here; the nearest known is "when".'),
    (S, "        sets: {V21: closed, V22: closed}\n", "        sets: {V21: closed, V222: closed}\n", "procedures.change_deioniser.steps.2.sets.V222", "no item of network.yml is tagged V222. The nearest known is V22."),
    (S, "        sets: {V21: closed, V22: closed}\n", "        sets: {V21: closed, V22: shut}\n", "procedures.change_deioniser.steps.2.sets.V22", 'V22 cannot be "shut"; its positions are open, closed.'),
    (S, "        sets: {V21: closed, V22: closed}\n", "        sets: {V21: closed, V22: closed, NR1: closed}\n", "procedures.change_deioniser.steps.2.sets.NR1", "NR1 is a non_return_valve, which nobody can set; set a valve."),
    (S, "        sets: {V21: open, V22: open}\n", "        sets: {V21: open}\n", "procedures.change_deioniser.end", 'the steps do not end in the state "cold": V22 is left closed where it is open.'),
    (S, "        stops: [pump, compressor]\n", "        stops: [pump]\n", "procedures.normal_stop.end", 'the steps do not end in the state "cold": compressor still runs.'),
    (S, "    start: filling\n", "    start: filing\n", "procedures.emergency_stop.start", 'no state of procedures.yml is called "filing". The nearest known is filling.'),
    (S, "Call the fire service from outside.", "Call the fire service from 50 m away.", "procedures.emergency_stop.steps.3.do", '"50 m" is a number typed by hand; refer to the figure or entry that says it, such as {buffer.cut_out}.'),
    (S, "the cylinder valves {V15} by hand", "the cylinder valves {V99} by hand", "procedures.emergency_stop.steps.4.do", "no item of network.yml is tagged V99. The nearest known is V9."),
    (S, "        opens: [DI1]\n", "        opens: [DI2]\n", "procedures.change_deioniser.steps.3.opens.1", "no item of network.yml is tagged DI2. The nearest known is DI1."),
    # --- parts.yml and record.yml
    (T, "unit_price: 5200,", "unit_price: 5200.005,", "parts.1.unit_price", '"5200.005" is no price; write a number with at most two decimals, such as 12.50, and the currency beside it.'),
    (T, "unit_price: 5200, currency: EUR,", "unit_price: 5200, currency: euro,", "parts.1.currency", '"euro" is no currency code; write three capitals of ISO 4217, such as EUR.'),
    (T, "lead_time: 90 d, tags: [ST1]", "lead_time: 90 d, tags: [ST2]", "parts.1.tags.1", "no item of network.yml is tagged ST2. The nearest known is ST1."),
    (T, "  date: 2026-11-25\n", "  date: 2026-02-30\n", "prices.date", '"2026-02-30" is no day of the calendar; write year-month-day, such as 2031-05-14.'),
    (R, "waivers: []\n", "waivers: [{rule: a-rule, reason: too short, role: builder, expiry: 2027-01-01, digest: 0123456789ab}]\n", "waivers.1.reason", "the text is too short to say it; write at least 20 characters."),
    (R, "sign_offs: []\n", "sign_offs: [{date: 2026-11-25, role: reviewer, statement: Seen, digest: xyz}]\n", "sign_offs.1.digest", '"xyz" is no digest; copy it from a page or sheet of the plant.'),
    (R, "figure: stack.cell_voltage,", "figure: voltage,", "to_measure.2.figure", '"voltage" is no figure; write its dotted name, such as stack.hydrogen_flow.'),
]  # fmt: skip


@pytest.mark.parametrize(
    ("file", "old", "new", "key", "message"), ONE_FAULT, ids=[f"{row[0]}:{row[3]}:{row[4][:20]}" for row in ONE_FAULT]
)
def test_one_mistake_gives_one_message(tmp_path: Path, file: str, old: str, new: str, key: str, message: str) -> None:
    found = Copy(tmp_path).change(file, old, new).faults()
    assert len(found) == 1, found
    place, _, rest = found[0].partition(": ")
    assert rest == f"{key}: {message}"
    assert place.startswith(f"shed/{file}:")


def test_the_line_is_that_of_the_key(tmp_path: Path) -> None:
    copy = Copy(tmp_path)
    line = copy.line("plant.yml", "  cut_out: 25 bar(g)")
    copy.change("plant.yml", "  cut_out: 25 bar(g)", "  cut_out: 25 bar")
    assert copy.faults()[0].startswith(f"shed/plant.yml:{line}: buffer.cut_out: ")


def test_the_line_of_a_key_that_is_missing_is_that_of_its_part(tmp_path: Path) -> None:
    copy = Copy(tmp_path)
    lines = copy.text("plant.yml").split("\n")
    copy.change("plant.yml", "  cut_out: 25 bar(g)\n", "")
    assert copy.faults()[0].startswith(
        f"shed/plant.yml:{lines.index('buffer:') + 1}: buffer.cut_out: the key is missing"
    )


def test_five_mistakes_in_five_files_give_five_messages(tmp_path: Path) -> None:
    copy = Copy(tmp_path)
    copy.change(P, "  cut_out: 25 bar(g)\n", "  cut_out: 25 bar\n")
    copy.change(N, "  O4: {chain: J3.branch > AT1,", "  O4: {chain: J3.side > AT1,")
    copy.change(S, "    start: filling\n", "    start: filing\n")
    copy.change(T, "unit_price: 5200,", "unit_price: cheap,")
    copy.change(R, "figure: stack.cell_voltage,", "figure: voltage,")
    found = copy.faults()
    assert [each.partition(": ")[2] for each in found] == [
        'lines.O4.chain: J3 has no port "side"; it has J3.in or J3.out or J3.branch.',
        'parts.1.unit_price: "cheap" is no price; write a number with at most two decimals, such as 12.50, and the currency beside it.',
        'buffer.cut_out: "25 bar" does not say gauge or absolute; write 25 bar(g) or 25 bar(a).',
        'procedures.emergency_stop.start: no state of procedures.yml is called "filing". The nearest known is filling.',
        'to_measure.2.figure: "voltage" is no figure; write its dotted name, such as stack.hydrogen_flow.',
    ]  # fmt: skip


def test_five_mistakes_in_one_part_give_five_messages(tmp_path: Path) -> None:
    copy = Copy(tmp_path)
    copy.change(P, "  cut_in: 15 bar(g)\n", "  cut_in: 15\n")
    copy.change(P, "  cut_out: 25 bar(g)\n", "  cut_ot: 25 bar(g)\n")
    copy.change(P, "  high_trip: 27 bar(g)\n", "  high_trip: 2700 bar(g)\n")
    copy.change(P, "  relief: RV1\n", "  relief: RV9\n")
    copy.change(P, "  regime: fixed\n", "  regime: fixd\n")
    assert [each.partition(": ")[2].split(":")[0] for each in copy.faults()] == [
        "buffer.cut_in", "buffer.cut_ot", "buffer.high_trip", "buffer.relief", "buffer.regime",
    ]  # fmt: skip


def test_an_item_misspelt_where_it_is_described_is_told_once_with_the_places_that_name_it(tmp_path: Path) -> None:
    copy = Copy(tmp_path).change(N, "  V9: {kind: hand_valve", "  V99: {kind: hand_valve")
    (found,) = copy.faults()
    line = copy.line(N, "L11: {chain: BV1 > V9 > J23 > BO1")
    assert found.startswith(f"shed/network.yml:{line}: lines.L11.chain: no item of network.yml is tagged V9.")
    assert "It stands in shed/network.yml:" in found
    assert found.endswith("more places too.")


def test_sections_that_slipped_among_the_lines_are_told_by_their_names_alone(tmp_path: Path) -> None:
    """Nothing is said of what stands in them: it is right, but for its place."""
    copy = Copy(tmp_path)
    names = load(copy.folder, copy.root).network.sections
    found = copy.change(N, "\nsections:\n", "\n").faults()
    misplaced = [fault.split(": ")[1] for fault in found if "is no tag" in fault]
    assert sorted(misplaced) == sorted(f"lines.{name}" for name in names)
    assert all("is no tag" in fault or "no section of network.yml is called" in fault for fault in found)


def test_a_part_whose_beginning_is_lost_is_told_once(tmp_path: Path) -> None:
    """All its keys then stand twice, in the part before."""
    copy = Copy(tmp_path)
    line = copy.line(P, "  - cause: fan_lost")
    (found,) = copy.change(P, "  - cause: fan_lost\n", "").faults()
    assert found.startswith(f"shed/plant.yml:{line}: trips.14.sensor: this key stands twice; the first is in line ")


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        (
            "  RV2:\n",
            "  RV2x:\n",
            'items.RV2x: "RV2x" is no tag; a tag is one to four capitals and one to three digits, such as RV1.',
        ),
        ("  AV5: {kind", "  AV4: {kind", "items.AV4: this key stands twice; the first is in line "),
        ("  R5: {chain", "  R4: {chain", "lines.R4: this key stands twice; the first is in line "),
    ],
)
def test_an_item_or_line_whose_tag_is_at_fault_is_not_missed_elsewhere(
    tmp_path: Path, old: str, new: str, message: str
) -> None:
    (found,) = Copy(tmp_path).change(N, old, new).faults()
    assert message in found


def test_a_room_misspelt_where_it_is_described_is_told_once(tmp_path: Path) -> None:
    (found,) = Copy(tmp_path).change(P, "  kitchen:\n", "  kitchn:\n").faults()
    assert 'no room of plant.yml is called "kitchen". The nearest known is kitchn.' in found


@pytest.mark.parametrize("file", [P, N, S, T, R])
def test_a_file_that_cannot_be_read_is_told_alone(tmp_path: Path, file: str) -> None:
    """What the other files name of it is not told as unknown: it may well stand there."""
    copy = Copy(tmp_path)
    path = copy.folder / file
    path.write_text("a: b: c\n" + path.read_text("utf-8"), "utf-8")
    (found,) = copy.faults()
    assert found.startswith(f"shed/{file}:1: a second colon stands")


@pytest.mark.parametrize("file", [P, N, S, T, R])
def test_a_file_that_is_missing_is_told_alone(tmp_path: Path, file: str) -> None:
    copy = Copy(tmp_path)
    (copy.folder / file).unlink()
    assert copy.faults() == [
        f'shed/{file}: the file is missing; a plant has one, even if it holds no more than "format: 1".'
    ]


@pytest.mark.parametrize(
    ("file", "old", "new"),
    [
        (P, "buffer:\n  tag: BV1", "buffer: &b\n  tag: BV1"),
        (P, "rooms:\n", "rooms: &r\n"),
        (P, "banks:\n", "banks: &b\n"),
        (N, "items:\n", "items: &i\n"),
        (N, "sections:\n  oxygen:", "sections: &s\n  oxygen:"),
        (S, "states:\n", "states: &s\n"),
        (N, "  RV1:\n    kind", "  RV1: &r\n    kind"),
    ],
    ids=["buffer", "rooms", "banks", "items", "sections", "states", "one item"],
)
def test_a_part_that_is_refused_takes_nothing_else_with_it(tmp_path: Path, file: str, old: str, new: str) -> None:
    (found,) = Copy(tmp_path).change(file, old, new).faults()
    assert found.endswith("is not read here; remove it.")


def test_a_folder_whose_name_is_no_name_is_refused(tmp_path: Path) -> None:
    copy = Copy(tmp_path)
    copy.folder = copy.folder.rename(tmp_path / "My Shed")
    (found,) = copy.faults()
    assert "the folder is called My Shed, but its name is the plant's" in found


def test_a_folder_that_does_not_exist_is_told(tmp_path: Path) -> None:
    copy = Copy(tmp_path)
    copy.folder = tmp_path / "nowhere"
    assert copy.faults() == [f"{copy.folder.as_posix()}: the folder does not exist."]


JUNK = st.sampled_from(
    [*"{}[]:\"'&*!|>%@\t,#-?", "\u202e", "\n", "null", "true", "7", " - ", "5 kg", "<<: ", "V1", "{V1}", "é"]
)


@settings(max_examples=60, deadline=None)
@given(file=st.sampled_from([P, N, S, T, R]), at=st.floats(0, 1), cut=st.integers(0, 40), junk=JUNK)
def test_a_slip_anywhere_is_told_and_never_breaks_the_loader(
    tmp_path_factory: pytest.TempPathFactory, file: str, at: float, cut: int, junk: str
) -> None:
    copy = Copy(tmp_path_factory.mktemp("slip"))
    text = copy.text(file)
    place = int(at * len(text))
    (copy.folder / file).write_text(text[:place] + junk + text[place + cut :], "utf-8")
    for found in copy.faults():
        assert found.startswith("shed/")
        assert found.endswith((".", ")"))
