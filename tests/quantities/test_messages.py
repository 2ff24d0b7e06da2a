"""The message table: strict, whole, and nothing in it that no code says."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from macros.quantities.messages import FOLDER, MessageError, families, merged, messages, say, tables, titles

MACROS = Path(__file__).parents[2] / "macros"


def test_a_message_with_its_values():
    text = say("quantities.wrong_kind", found="5 kg/h", given="a mass flow", wanted="a normal flow")
    assert text == '"5 kg/h" is a mass flow; wanted is a normal flow.'


def test_values_are_not_read_as_texts():
    """A brace that an author typed stays a brace."""
    assert "{wanted}" in say("quantities.no_number", found="{wanted} {0} {", wanted="a number")


def test_an_unknown_key_is_a_slip_in_code():
    with pytest.raises(MessageError, match=r"no message 'quantities\.no_such'"):
        say("quantities.no_such")


def test_values_are_exactly_those_named():
    with pytest.raises(MessageError, match=r"missing: \['wanted'\]"):
        say("quantities.no_number", found="x")
    with pytest.raises(MessageError, match=r"does not name: \['more'\]"):
        say("quantities.no_number", found="x", wanted="y", more="z")


def test_tables_of_several_files_are_one():
    found, beginnings = merged(
        {
            "one.toml": {"families": ["figure."], "figure": {"stack": {"voltage": "Voltage"}}, "one": {"a": "A {x}"}},
            "two.toml": {"two": {"a": "A"}, "figure": {"banks": {"*.mass": "Mass"}}},
        }
    )
    assert found == {
        "figure.stack.voltage": "Voltage",
        "one.a": "A {x}",
        "two.a": "A",
        "figure.banks.*.mass": "Mass",
    }
    assert beginnings == {"figure."}


@pytest.mark.parametrize(
    ("files", "complaint"),
    [
        ({"one.toml": {"a": {"b": "x"}}, "two.toml": {"a": {"b": "y"}}}, r"two\.toml: a\.b stands in one\.toml too"),
        ({"one.toml": {"a": {"b": 3}}}, r"one\.toml: a\.b is not a text"),
        ({"one.toml": {"a": {"b": "{}"}}}, "more than a plain name"),
        ({"one.toml": {"a": {"b": "{x.y}"}}}, "more than a plain name"),
        ({"one.toml": {"a": {"b": "{x[0]}"}}}, "more than a plain name"),
        ({"one.toml": {"a": {"b": "{x:.3f}"}}}, "more than a plain name"),
        ({"one.toml": {"a": {"b": "{x!r}"}}}, "more than a plain name"),
        ({"one.toml": {"a": {"b": "{x"}}}, r"message 'a\.b'"),
        ({"one.toml": {"families": ["figure"], "a": {"b": "x"}}}, "with the dot at its end"),
        ({"one.toml": {"families": "figure.", "a": {"b": "x"}}}, "with the dot at its end"),
    ],
)
def test_a_table_that_is_not_in_order_is_refused(files, complaint):
    with pytest.raises(MessageError, match=complaint):
        merged(files)


def test_a_family_must_be_declared():
    with pytest.raises(MessageError, match=r"declares the family 'quantities\.'"):
        titles("quantities")


def test_each_file_is_named_after_the_floor_that_says_it():
    floors = {path.name for path in MACROS.iterdir() if path.is_dir()}
    assert {path.stem.partition("_")[0] for path in FOLDER.glob("*.toml")} <= floors


def calls(name: str) -> Iterator[tuple[str, ast.Call]]:
    """Every call of a function in our code, with its place."""
    for path in sorted(MACROS.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == name and node.args:
                yield f"{path.relative_to(MACROS.parent)}:{node.lineno}", node


def keys_said(node: ast.expr) -> Iterator[str]:
    """The keys that an expression can give, as far as they stand in the code."""
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        yield node.value
    elif isinstance(node, ast.IfExp):
        yield from keys_said(node.body)
        yield from keys_said(node.orelse)


def test_every_key_that_code_says_is_in_the_table():
    unknown = [
        f"{place} says {key}"
        for place, call in calls("say")
        for key in keys_said(call.args[0])
        if key not in messages()
    ]
    unknown += [
        f"a template says {key}" for key in said_in_templates() if not key.endswith(".") and key not in messages()
    ]
    assert not unknown


def said_in_templates() -> set[str]:
    """The keys, and beginnings of keys, that the templates of the site say."""
    texts = (path.read_text("utf-8") for path in MACROS.rglob("*.html"))
    return {key for text in texts for key in re.findall(r"""\bsay\(["']([a-z_.]+)["']""", text)}


def test_every_call_gives_the_values_that_its_text_names():
    """Where both key and values are written out; a slip would else show only when the message is needed."""
    wrong = []
    for place, call in calls("say"):
        if any(keyword.arg is None for keyword in call.keywords):
            continue
        for key in keys_said(call.args[0]):
            try:
                say(key, **{keyword.arg: "" for keyword in call.keywords})
            except MessageError as error:
                wrong.append(f"{place}: {error}")
    assert not wrong


def test_every_message_is_said_somewhere():
    """A key that stands nowhere in the code, nor its beginning, and belongs to no declared family, is dead."""
    literals = {
        node.value
        for path in MACROS.rglob("*.py")
        for node in ast.walk(ast.parse(path.read_text("utf-8")))
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
    } | said_in_templates()
    beginnings = {text for text in literals if text.endswith(".") and text.count(".") > 1} | families()
    dead = [key for key in messages() if key not in literals and not key.startswith(tuple(beginnings))]
    assert not dead


def test_messages_are_whole_and_plain():
    for name, table in tables(FOLDER).items():
        assert table, name
    for key, text in messages().items():
        assert text == text.strip("\n\t\r") and text, key
