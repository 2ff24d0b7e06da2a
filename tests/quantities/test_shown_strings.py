"""
No string that people read stands in code: each is in the tables of messages, or it could not be said in another language.

A string counts as read if it has two words. What has two words and is no text is listed, with the reason.
"""

import ast
import re
from pathlib import Path

from macros.quantities.kinds import KINDS
from macros.quantities.languages import SOURCE, speaking
from macros.quantities.messages import messages
from macros.quantities.units import UNITS

ROOT = Path(__file__).parents[2]
TWO_WORDS = re.compile(r"[A-Za-z]{2,}[,.:;]? [A-Za-z(]")
SLIPS = {"ValueError", "KeyError", "TypeError", "RuntimeError", "LookupError", "AssertionError", "MessageError",
         "DrawingError", "NoRoomError", "compile", "TypstError", "PluginError"}  # fmt: skip
"""Errors of our own code, which a reader of the handbook never meets, and patterns."""

NO_TEXT = {
    "macros/calculations/evidence": "arithmetic and calls, as their authors would redo them, shown as evidence",
    "macros/description/strict_yaml.py": "what the YAML library says, recognised and put into words of ours",
    "macros/quantities/spellings.py": "words for units that authors may type, recognised, never shown",
    "macros/quantities/languages.py": "an error of our own code",
    "macros/command/starter.py": "a line of a description, searched for",
    "macros/site/heads.py": "style rules",
    "diagrams": "names of symbols, places of labels and style rules; what a drawing says is handed in",
    "macros/review": "words that are looked for in descriptions, and clauses of sources, which are quoted",
    "macros/network/kinds.py": "names of behaviours",
    "macros/pages/code_regions.py": "names of what a line does to a fence",
    "macros/sheets/wall/fonts.py": "names of fonts",
}  # fmt: skip

NAMES = re.compile(
    r"not refused|every figure evaluated|every reference leads somewhere|names of values|letters of headings|"
    r"sound description|sound page"
)
"""Of what things on disk are."""


UNITS_OF_CONSTANTS = {"J/(mol K)", "Pa s"}
COMMAND = "`gaswright "
"""A command, as it is typed in every language."""


def strings(path: Path):
    tree = ast.parse(path.read_text("utf-8"))
    above = {child: node for node in ast.walk(tree) for child in ast.iter_child_nodes(node)}
    for node in ast.walk(tree):
        if not (isinstance(node, ast.Constant) and isinstance(node.value, str) and TWO_WORDS.search(node.value)):
            continue
        chain = [above[node]]
        while chain[-1] in above:
            chain.append(above[chain[-1]])
        called = {ast.unparse(one.func).rpartition(".")[2] for one in chain if isinstance(one, ast.Call)}
        is_doc = isinstance(chain[0], ast.Expr)
        if not is_doc and not called & SLIPS and not any(isinstance(one, ast.Assert) for one in chain):
            yield node.lineno, node.value


def is_text(value: str) -> bool:
    """Whether a string may be a text: no markup, no name of the tables, no unit."""
    if (
        "<" in value
        or '="' in value
        or "gw-" in value
        or NAMES.search(value)
        or value.startswith("admonition ")
        or COMMAND in value
    ):
        return False
    known = {f"{family}.{value}" for family in ("constant", "opaque_name")}
    units = {each.typed for each in UNITS} | {kind.si for kind in KINDS.values()} | UNITS_OF_CONSTANTS
    return not (known & messages().keys() or value in units or re.fullmatch(r"[0-9.]+ \S+\(?.*", value))


def test_code_holds_no_text_that_people_read():
    with speaking(SOURCE):
        found = [
            f"{name}:{line}: {value!r}"
            for package in ("macros", "diagrams")
            for path in sorted((ROOT / package).rglob("*.py"))
            for name in [path.relative_to(ROOT).as_posix()]
            if not any(name.startswith(allowed) for allowed in NO_TEXT)
            for line, value in strings(path)
            if is_text(value)
        ]
    assert not found, "\n".join(found)


def test_the_audit_finds_a_text(tmp_path):
    file = tmp_path / "code.py"
    file.write_text(
        'def f():\n    """A docstring is read by developers."""\n    return "Open the valve"\n', encoding="utf-8"
    )
    assert [value for _, value in strings(file)] == ["Open the valve"]
    assert is_text("Open the valve")


def test_scripts_and_style_sheets_bring_no_words():
    """What a script shows comes from attributes of the page; what a style sheet adds is a sign."""
    assets = ROOT / "macros/site/assets"
    quoted = re.compile(r"""(["'`])((?:(?!\1)[^\\\n])*)\1""")
    found = [
        f"{path.name}: {text}"
        for path in sorted(assets.glob("*.js"))
        for _, text in quoted.findall(re.sub(r"//.*", "", path.read_text("utf-8")))
        if re.search(r"[A-Z][a-z]+ [a-z]|[a-z]{3,} [a-z]{3,} [a-z]{2,}", text) and not re.search(r"[\[\].#>:${}]", text)
    ]
    found += [
        f"{path.name}: {text}"
        for path in sorted(assets.glob("*.css"))
        for text in re.findall(r"(?<![-\w])content:\s*\"([^\"]*[A-Za-z]{2,}[^\"]*)\"", path.read_text("utf-8"))
        if not re.fullmatch(r"(?:\\[0-9a-f]{4}\S?)+", text)
    ]
    assert found == []
