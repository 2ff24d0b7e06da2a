"""The files of a plant are data: nothing in them runs, refers out, shows other than it is, or has no end."""

import pytest

from macros.description.loading import load
from macros.quantities import Faults
from tests.hostile.watching import watched

HEAD = "format: 1\n"
"""Every file begins with it; what is hostile follows from line 2 on."""

EVERYWHERE = [
    ("an object that runs", 'x: !!python/object/apply:os.system ["id"]', "description.yaml.tag", 2),
    ("a module", "x: !!python/module:os", "description.yaml.tag", 2),
    ("the environment", "x: !ENV SECRET", "description.yaml.tag", 2),
    ("a file put in", "x: !include /etc/passwd", "description.yaml.tag", 2),
    ("bytes", "x: !!binary aGFsbG8=", "description.yaml.tag", 2),
    ("an anchor", "x: &a 1", "description.yaml.anchor", 2),
    ("laughs without end", "a: &a [x, x]\nb: [*a, *a]", "description.yaml.alias", 3),
    ("an alias of itself", "x: &x [*x]", "description.yaml.anchor", 2),
    ("a merge", "x:\n  <<: {a: 1}", "description.yaml.merge", 3),
    ("a key twice", "x: 1\nx: 2", "description.yaml.twice", 3),
    ("a second document", "x: 1\n---\ny: 2", "description.yaml.documents", 3),
    ("depth", "x: " + "[" * 400, "description.yaml.too_deep", 2),
    ("values without end", "x: [" + "1," * 30_000 + "]", "description.yaml.too_many", 2),
    ("a text without end", "x: " + "a" * 5000, "description.yaml.too_long", 2),
    ("a number without end", "x: " + "9" * 300, "description.yaml.too_many_digits", 2),
    ("text turned round", "x: a\u202eb", "description.yaml.unseen", 2),
    ("text turned round behind a backslash", 'x: "a\\u202eb"', "description.yaml.unseen", 2),
    ("an isolate", "x: a\u2066b\u2069", "description.yaml.unseen", 2),
    ("a width of nothing", "x: 1\u200b5", "description.yaml.unseen", 2),
    ("a bell", 'x: "a\\ab"', "description.yaml.unseen", 2),
    ("an escape of the terminal", 'x: "\\e[2J"', "description.yaml.unseen", 2),
    ("a nought", 'x: "a\\0b"', "description.yaml.unseen", 2),
    ("a token of pages", 'x: "\\ue100\\ue110\\ue101"', "description.yaml.unseen", 2),
    ("half a pair", 'x: "\\ud800"', "description.yaml.", 2),
    ("a digit that is struck", "x: 1\u03385", "description.yaml.unseen", 2),
    ("digits of another script", "x: \u0661\u0662 bar(g)", "description.yaml.digit", 2),
    ("a tab", "x:\t1", "description.yaml.tab", 2),
    ("a key that is a list", "? [a]\n: b", "description.yaml.key_no_text", 2),
    ("a key that is a number", "1: b", "description.yaml.key_no_text", 2),
    ("an unknown key", "__class__: b", "description.unknown_key", 2),
    ("a key of another world", "constructor: b", "description.unknown_key", 2),
]
FILES = ("plant.yml", "network.yml", "procedures.yml", "parts.yml", "record.yml", "wall.yml")

OWN = [
    (
        "procedures.yml",
        "a title without end",
        "states:\n  a:\n    title: " + "a" * 200,
        "description.amounts.text_too_long",
        4,
    ),
    (
        "procedures.yml",
        "a reference that calculates",
        "states:\n  a:\n    title: '{stack.voltage + 1}'",
        "description.reference",
        4,
    ),
    (
        "procedures.yml",
        "a reference that calls",
        "states:\n  a:\n    title: '{__import__(os)}'",
        "description.reference",
        4,
    ),
    (
        "procedures.yml",
        "a reference to an attribute",
        "states:\n  a:\n    title: '{stack.__class__}'",
        "description.reference",
        4,
    ),
    (
        "procedures.yml",
        "a format of the language",
        "states:\n  a:\n    title: '{0.__init__.__globals__}'",
        "description.reference",
        4,
    ),
    (
        "procedures.yml",
        "an expression of pages",
        "states:\n  a:\n    title: '{{ config }}'",
        "description.reference",
        4,
    ),
    (
        "procedures.yml",
        "a tag of the template",
        "states:\n  a:\n    title: '{% include x %}'",
        "description.reference",
        4,
    ),
    (
        "procedures.yml",
        "a number that is typed",
        "states:\n  a:\n    title: set to 26 bar(g)",
        "description.typed_number",
        4,
    ),
    ("plant.yml", "no number", "site:\n  altitude: .nan m", "quantities.", 3),
    ("plant.yml", "NaN", "site:\n  altitude: NaN m", "quantities.", 3),
    ("plant.yml", "without bound", "site:\n  altitude: inf m", "quantities.", 3),
    ("plant.yml", "too large for a number", "site:\n  altitude: 1e400 m", "quantities.", 3),
    ("plant.yml", "an altitude in space", "site:\n  altitude: 1e9 m", "description.above_bound", 3),
    ("plant.yml", "colder than can be", "site:\n  coldest: -300 °C", "", 3),
    ("plant.yml", "a bare bar", "buffer:\n  cut_out: 26 bar", "quantities.", 3),
    ("plant.yml", "a unit that calculates", "site:\n  altitude: 4 m**9", "quantities.", 3),
    ("plant.yml", "a quantity that is a list", "site:\n  altitude: [4, m]", "description.not_a_quantity", 3),
    ("plant.yml", "a quantity that is true", "site:\n  altitude: true", "description.not_a_quantity", 3),
    ("plant.yml", "a table above the folder", "demand:\n  hourly: ../../secret.csv", "description.pattern.table", 3),
    ("plant.yml", "a table at the root", "demand:\n  hourly: /etc/passwd", "description.pattern.table", 3),
    ("plant.yml", "a table that is not there", "demand:\n  hourly: nowhere.csv", "description.hourly.no_file", 3),
    ("plant.yml", "a status of its own", "title: a\nstatus: approved", "description.no_choice", 3),
    ("plant.yml", "cells without end", "stack:\n  cells: 1000000000", "description.above_bound", 3),
    ("plant.yml", "a name with a tag", 'rooms:\n  "<script>": {title: a}', "description.pattern.name", 3),
    ("plant.yml", "a name that climbs", 'banks:\n  "../../x": {title: a}', "description.pattern.name", 3),
    ("plant.yml", "a name without end", f"banks:\n  {'a' * 300}: {{title: a}}", "description.pattern.name", 3),
    ("plant.yml", "a name of another script", "banks:\n  h\u0456gh: {title: a}", "description.pattern.name", 3),
    (
        "plant.yml",
        "rooms without end",
        "rooms:\n" + "".join(f"  r{n}: {{title: a}}\n" for n in range(30)),
        "description.amounts.too_many",
        2,
    ),
    (
        "plant.yml",
        "points without end",
        "stack:\n  polarisation: [" + "[1 A/cm2, 1 V]," * 200 + "]",
        "description.amounts.too_many",
        3,
    ),
    (
        "network.yml",
        "a tag with a quote",
        "items:\n  'V1\" onload=\"x': {kind: valve, title: a}",
        "description.pattern.tag",
        3,
    ),
    ("network.yml", "a tag with a tag", "items:\n  '<b>': {kind: valve, title: a}", "description.pattern.tag", 3),
    (
        "network.yml",
        "a tag without end",
        f"items:\n  {'V' * 300}1: {{kind: valve, title: a}}",
        "description.pattern.tag",
        3,
    ),
    (
        "network.yml",
        "a tag of another script",
        "items:\n  \u04121: {kind: valve, title: a}",
        "description.pattern.tag",
        3,
    ),
    (
        "network.yml",
        "a kind of its own",
        "items:\n  V1: {kind: __class__, title: a, at: [1, 1]}",
        "description.unknown_kind",
        3,
    ),
    (
        "network.yml",
        "a place off the sheet",
        "items:\n  V1: {kind: valve, title: a, at: [1, 1000000000]}",
        "description.amounts.too_far",
        3,
    ),
    (
        "network.yml",
        "a place before the sheet",
        "items:\n  V1: {kind: valve, title: a, at: [-5, 1]}",
        "description.amounts.too_far",
        3,
    ),
    (
        "network.yml",
        "a place that is no number",
        "items:\n  V1: {kind: valve, title: a, at: [.nan, 1]}",
        "description.wrong_type",
        3,
    ),
    (
        "network.yml",
        "a label without end",
        f"items:\n  V1: {{kind: junction, title: {'a' * 900}, at: [1, 1]}}\nlines: {{}}",
        "description.amounts.text_too_long",
        3,
    ),
    (
        "network.yml",
        "items without end",
        "items:\n" + "".join(f"  V{n}: {{}}\n" for n in range(900)),
        "description.amounts.too_many",
        2,
    ),
    (
        "network.yml",
        "lines without end",
        "lines:\n" + "".join(f"  L{n}: {{}}\n" for n in range(900)),
        "description.amounts.too_many",
        2,
    ),
    ("procedures.yml", "a name that climbs", "procedures:\n  ../x: {title: a}", "description.pattern.name", 3),
    (
        "procedures.yml",
        "steps without end",
        "procedures:\n  a:\n    steps: [" + "{do: x}," * 90 + "]",
        "description.amounts.too_many",
        4,
    ),
    (
        "procedures.yml",
        "procedures without end",
        "procedures:\n" + "".join(f"  p{n}: {{}}\n" for n in range(90)),
        "description.amounts.too_many",
        2,
    ),
    ("procedures.yml", "an act of another kind", "procedures:\n  a: {run: rm -rf /}", "description.unknown_key", 3),
    (
        "procedures.yml",
        "a drive of its own",
        "procedures:\n  a:\n    steps:\n      - {do: x, starts: [shell]}",
        "description.no_choice",
        5,
    ),
    ("parts.yml", "a price without end", "parts:\n  - {item: a, unit_price: 1e999}", "description.no_price", 3),
    ("parts.yml", "a price below nothing", "parts:\n  - {item: a, unit_price: -5}", "", 3),
    ("parts.yml", "a currency of its own", "parts:\n  - {item: a, currency: '=A1'}", "description.pattern.currency", 3),
    ("parts.yml", "parts without end", "parts:\n" + "  - {}\n" * 900, "description.amounts.too_many", 2),
    ("parts.yml", "a quantity that refers to nothing", "parts:\n  - {item: a, quantity: '{x'}", "quantities.", 3),
    ("record.yml", "a day that is none", "readings:\n  - {date: 2026-02-30}", "description.no_day", 3),
    ("record.yml", "a figure that is code", "readings:\n  - {figure: __import__}", "description.pattern.figure", 3),
    ("record.yml", "a digest that is none", "sign_offs:\n  - {digest: '<b>'}", "description.pattern.digest", 3),
    ("record.yml", "a rule that is code", "waivers:\n  - {rule: '*'}", "description.pattern.rule", 3),
    ("record.yml", "a waiver for ever", "waivers:\n  - {expiry: never}", "description.pattern.date", 3),
    ("wall.yml", "a priority of its own", "drawing: {priority: 0, height: 100 mm}", "description.no_choice", 2),
    ("wall.yml", "a sheet as high as a house", "drawing: {height: 90 m}", "description.above_bound", 2),
    ("wall.yml", "columns without end", "lines: {columns: [a, b, c, d, e, f, g, h]}", "description.too_many", 2),
]
CASES = [
    (FILES[number % 6], name, text, code, line) for number, (name, text, code, line) in enumerate(EVERYWHERE)
] + OWN


@pytest.fixture(scope="module")
def bare(tmp_path_factory):
    """A plant whose files hold nothing: it is no good, and what is hostile is told beside what is missing."""
    folder = tmp_path_factory.mktemp("bare") / "shed"
    folder.mkdir()
    for name in FILES:
        (folder / name).write_text(HEAD, encoding="utf-8")
    return folder


@pytest.mark.parametrize(("file", "name", "text", "code", "line"), CASES, ids=[f"{row[0]}: {row[1]}" for row in CASES])
def test_a_hostile_description_is_refused(bare, file, name, text, code, line):
    path = bare / file
    path.write_text(HEAD + text + "\n", encoding="utf-8", errors="surrogatepass")
    try:
        with watched(bare), pytest.raises(Faults) as raised:
            load(bare, bare.parent)
    finally:
        path.write_text(HEAD, encoding="utf-8")
    found = [(one.code, one.line) for one in raised.value if one.file == f"shed/{file}"]
    assert any(at == line and told.startswith(code) for told, at in found), (name, found)
    assert len(str(raised.value)) < 100_000


@pytest.mark.parametrize(
    ("content", "code"),
    [
        (b"\xff\xfe\x00", "description.yaml.not_utf8"),
        (b"#" * 600_000, "description.yaml.too_large"),
        (b"", "description.yaml.no_mapping"),
        (b"- " * 40_000, "description.yaml."),
        (b"{" * 40_000, "description.yaml."),
        (b"? " * 40_000, "description.yaml."),
        (b"a: '" + b"x\n" * 40_000, "description.yaml."),
        (b"\x00" * 1000, "description.yaml."),
    ],
    ids=range(8),
)
def test_files_that_are_no_description_are_refused(bare, content, code):
    path = bare / "parts.yml"
    path.write_bytes(content)
    try:
        with watched(bare), pytest.raises(Faults) as raised:
            load(bare, bare.parent)
    finally:
        path.write_text(HEAD, encoding="utf-8")
    assert any(one.code.startswith(code) for one in raised.value if one.file == "shed/parts.yml")


@pytest.mark.parametrize("name", ["Shed", "a b", "-x", "s\u0127ed", "a" * 90, "x.y"])
def test_a_plant_of_a_strange_name_is_refused(tmp_path, name):
    folder = tmp_path / name
    folder.mkdir()
    with watched(tmp_path), pytest.raises(Faults) as raised:
        load(folder, tmp_path)
    assert "description.folder_name" in [one.code for one in raised.value]
