"""What is promised of every rule."""

import ast
import functools
import inspect
import string
from collections.abc import Iterable
from pathlib import Path

import pytest

from macros.quantities import say
from macros.quantities.messages import messages
from macros.review import FAMILIES, RULES, Finding
from macros.review.reviewed import Reviewed
from macros.review.reviewing import findings_of
from tests.review.looking import TODAY, plant_named


@pytest.mark.parametrize("name", RULES)
def test_a_rule_says_in_the_table_what_its_docstring_says(name: str) -> None:
    docstring = inspect.getdoc(RULES[name].looks) or ""
    assert " ".join(docstring.split("\n\n")[0].split()) == RULES[name].says


@pytest.mark.parametrize("name", RULES)
def test_a_rule_has_its_texts_and_they_name_a_place_or_value(name: str) -> None:
    found, hint = messages()[f"review.rule.{name}.found"], messages()[f"review.rule.{name}.hint"]
    assert found.endswith(".") and hint.endswith((".", "?"))
    assert messages().get(f"review.rule.{name}.broken", ".").endswith(".")
    assert any(field for _, field, _, _ in string.Formatter().parse(found)), f"{name} finds the same words everywhere"


def test_every_family_has_a_title_and_a_rule() -> None:
    for module in FAMILIES:
        family = module.__name__.rsplit(".", 1)[-1]
        assert say(f"review.family.{family}")
        assert any(rule.family == family for rule in RULES.values())


def test_no_text_is_left_without_its_rule() -> None:
    named = {key.split(".")[2] for key in messages() if key.startswith("review.rule.")}
    assert named == set(RULES)


def test_every_rule_is_named_in_a_test() -> None:
    here = Path(__file__)
    words = {
        node.value
        for path in here.parent.glob("test_*.py")
        if path != here
        for node in ast.walk(ast.parse(path.read_text("utf-8")))
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
    }
    assert set(RULES) <= words


@functools.cache
def findings(plant: str) -> list[Finding]:
    """What all rules find in a plant whose line-ups hold; that they do is proved among the tests of the network."""
    reviewed = Reviewed(plant_named(plant), TODAY, failed=())
    return [each for rule in RULES.values() for each in findings_of(rule, reviewed)]


def told(found: Iterable[Finding]) -> list[str]:
    return [f"{each.rule} {each.where}: {each.message.workshop}" for each in found]


@pytest.mark.parametrize("plant", ["bench", "shed", "farm"])
def test_the_paths_that_rules_read_exist(plant: str) -> None:
    """A misspelt path would make a rule unknown for ever."""
    assert not told(each for each in findings(plant) if each.verdict == "unknown")


@pytest.mark.parametrize("plant", ["bench", "shed", "farm"])
def test_a_plant_of_the_handbook_passes(plant: str) -> None:
    assert not told(each for each in findings(plant) if each.severity == "fail" and not each.holds)
