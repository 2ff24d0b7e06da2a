"""
What may stand between braces on a page, and nothing else.

.. code-block:: text

    {{ plant.stack.voltage }}                                a figure or entry, looked up by its name
    {{ plant.stack.voltage.to("V", digits=2) }}              in another unit of its kind
    {{ plant.title }}                                        a word about the plant
    {{ gas_yield(cells=20, current="40 A") }}                a registered macro with constants
    {% if plant.has("boosters") %} … {% elif … %} … {% else %} … {% endif %}   with `and`, `or`, `not`

The template library parses one expression at a time; its tree is interpreted here. Nothing is compiled or executed, and
no attribute of any object is read.
"""

from __future__ import annotations

import difflib
import inspect
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from jinja2 import Environment, TemplateSyntaxError, nodes

from macros.quantities import say

__all__ = [
    "And",
    "Condition",
    "Expression",
    "Has",
    "MacroCall",
    "Not",
    "Or",
    "Quote",
    "RefusedError",
    "read_condition",
    "read_expression",
]

LONGEST = 500
"""Characters of one expression; nobody needs more, and a parser that recurses has a limit."""

MOST_DIGITS = 12
WITHIN = "within"
NAME = re.compile(r"[a-z][a-z0-9_]*|[1-9][0-9]*")
PARSER = Environment(autoescape=True)


class RefusedError(ValueError):
    """An expression that may not stand on a page; its text is ready for the author."""


@dataclass(frozen=True)
class Quote:
    """A figure, entry or word of the plant."""

    path: str
    unit: str | None = None
    digits: int | None = None


@dataclass(frozen=True)
class MacroCall:
    """A registered macro with constants."""

    name: str
    positional: tuple[Any, ...] = ()
    named: Mapping[str, Any] = field(default_factory=dict)


@dataclass(frozen=True)
class Has:
    """Whether the plant has a part."""

    part: str


@dataclass(frozen=True)
class Not:
    condition: Condition


@dataclass(frozen=True)
class And:
    left: Condition
    right: Condition


@dataclass(frozen=True)
class Or:
    left: Condition
    right: Condition


Expression = Quote | MacroCall
Condition = Has | Not | And | Or

# What each node of the parser's tree is called in a message: keys of the family pages.construct.
CONSTRUCTS: dict[type[nodes.Node], str] = {
    nodes.Filter: "filter",
    nodes.Test: "test",
    nodes.CondExpr: "inline_if",
    nodes.Compare: "comparison",
    nodes.Concat: "joining",
    nodes.List: "collection",
    nodes.Tuple: "collection",
    nodes.Dict: "collection",
    nodes.Slice: "subscript",
    nodes.Getitem: "subscript",
    nodes.Getattr: "attribute",
    nodes.Call: "call",
    nodes.Const: "constant",
    nodes.TemplateData: "constant",
    nodes.And: "logic",
    nodes.Or: "logic",
    nodes.Not: "logic",
    nodes.Name: "name",
}


def read_expression(code: str, macros: Mapping[str, Callable[..., Any]]) -> Expression:
    """
    What stands between double braces.

    Parameters
    ----------
    code : str
        The text between the braces.
    macros : mapping
        Functions that may be called, by name. A first parameter called `page` is handed in by us.

    Raises
    ------
    RefusedError
        If it is anything but a name of the plant, that name with `.to(…)`, or a macro with constants.
    """
    node = _parsed_output(code)
    if isinstance(node, nodes.Call):
        return _call(node, code, macros)
    path = _path(node, code)
    if path is None:
        raise _refusal(node, code)
    if path[0] != "plant":
        raise _foreign_name(path, macros)
    if len(path) == 1:
        raise RefusedError(say("pages.plant_alone"))
    return Quote(_name(path[1:]))


def read_condition(code: str) -> Condition:
    """
    What stands behind `if` or `elif`.

    Raises
    ------
    RefusedError
        If it is anything but `plant.has("…")` with `and`, `or`, `not`.
    """
    _check_text(code)
    try:
        body = PARSER.parse("{% if " + code + " %}" + WITHIN + "{% endif %}").body
    except TemplateSyntaxError as error:
        raise RefusedError(say("pages.syntax", found=_short(code), reason=error.message or "")) from None
    except (RecursionError, ValueError, OverflowError):
        raise RefusedError(say("pages.too_deep")) from None
    # Braces within the code could have closed the tag early; then what stands within it is not what we put there.
    if len(body) != 1 or not isinstance(body[0], nodes.If) or body[0].elif_ or body[0].else_:
        raise RefusedError(say("pages.condition", found=_short(code)))
    if body[0].body != [nodes.Output([nodes.TemplateData(WITHIN)])]:
        raise RefusedError(say("pages.condition", found=_short(code)))
    return _condition(body[0].test, code)


def _check_text(code: str) -> None:
    if not code.strip():
        raise RefusedError(say("pages.empty"))
    if len(code) > LONGEST:
        raise RefusedError(say("pages.too_long", most=LONGEST))
    if "\\" in code:
        raise RefusedError(say("pages.backslash"))
    if "`" in code:
        raise RefusedError(say("pages.backtick"))
    if code[0] in "-+" or code[-1] in "-+":
        raise RefusedError(say("pages.whitespace_mark", mark=code[0] if code[0] in "-+" else code[-1]))


def _parsed_output(code: str) -> nodes.Node:
    _check_text(code)
    try:
        body = PARSER.parse("{{" + code + "}}").body
    except TemplateSyntaxError as error:
        raise RefusedError(say("pages.syntax", found=_short(code), reason=error.message or "")) from None
    except (RecursionError, ValueError, OverflowError):
        raise RefusedError(say("pages.too_deep")) from None
    if len(body) == 1 and isinstance(body[0], nodes.Output) and len(body[0].nodes) == 1:
        node = body[0].nodes[0]
        if not isinstance(node, nodes.TemplateData):
            return node
    raise RefusedError(say("pages.syntax", found=_short(code), reason=say("pages.more_than_one")))


def _path(node: nodes.Node, code: str) -> list[str] | None:
    """The parts of a dotted name; None if it is none. A number behind a dot counts as a part, brackets do not."""
    parts: list[str] = []
    while True:
        if isinstance(node, nodes.Name):
            return [node.name, *reversed(parts)]
        if isinstance(node, nodes.Getattr):
            parts.append(node.attr)
            node = node.node
        elif isinstance(node, nodes.Getitem) and isinstance(node.arg, nodes.Const) and _is_whole(node.arg.value):
            if "[" in code:
                return None
            parts.append(str(node.arg.value))
            node = node.node
        else:
            return None


def _is_whole(value: Any) -> bool:
    return isinstance(value, int) and not isinstance(value, bool)


def _name(parts: list[str]) -> str:
    name = ".".join(parts)
    if not all(NAME.fullmatch(part) for part in parts):
        raise RefusedError(say("pages.not_a_name", found=name))
    return name


def _call(node: nodes.Call, code: str, macros: Mapping[str, Callable[..., Any]]) -> Expression:
    path = _path(node.node, code)
    if path is None:
        raise _refusal(node.node, code, inside_call=True)
    if node.dyn_args is not None or node.dyn_kwargs is not None:
        raise RefusedError(say("pages.refused", what=say("pages.construct.unpacking"), found=_short(code)))
    if path[0] == "plant" and len(path) > 1:
        if path[-1] == "has":
            raise RefusedError(say("pages.has_outside_if"))
        if path[-1] != "to" or len(path) < 3:
            raise RefusedError(say("pages.no_such_method", found=path[-1]))
        return _converted(_name(path[1:-1]), node, code)
    if len(path) > 1:
        raise _foreign_name(path, macros)
    return _macro(path[0], node, code, macros)


def _converted(path: str, node: nodes.Call, code: str) -> Quote:
    if len(node.args) > 1:
        raise RefusedError(say("pages.to_arguments", found=_short(code)))
    unit = _constant(node.args[0], code) if node.args else None
    if unit is not None and not isinstance(unit, str):
        raise RefusedError(say("pages.to_arguments", found=_short(code)))
    digits = None
    for pair in node.kwargs:
        if pair.key != "digits" or digits is not None:
            raise RefusedError(say("pages.to_arguments", found=_short(code)))
        digits = _constant(pair.value, code)
        if not _is_whole(digits) or not 1 <= digits <= MOST_DIGITS:
            raise RefusedError(say("pages.digits", found=digits, most=MOST_DIGITS))
    if unit is None and digits is None:
        raise RefusedError(say("pages.to_arguments", found=_short(code)))
    return Quote(path, unit, digits)


def _macro(name: str, node: nodes.Call, code: str, macros: Mapping[str, Callable[..., Any]]) -> MacroCall:
    if name not in macros:
        raise RefusedError(say("pages.unknown_macro", found=name, nearest=_nearest(name, macros)))
    positional = tuple(_constant(argument, code) for argument in node.args)
    named: dict[str, Any] = {}
    for pair in node.kwargs:
        if pair.key in named:
            raise RefusedError(say("pages.argument_twice", macro=name, found=pair.key))
        named[pair.key] = _constant(pair.value, code)
    return _fitted(name, macros[name], positional, named)


def _fitted(
    name: str, function: Callable[..., Any], positional: tuple[Any, ...], named: Mapping[str, Any]
) -> MacroCall:
    """
    A call as the macro takes it.

    A number stands for its text where a text is wanted, so that a missing unit is told as such.

    Raises
    ------
    RefusedError
        If the macro does not take the constants.
    """
    parameters = {key: one for key, one in inspect.signature(function).parameters.items() if key != "page"}
    any_more = [one for one in parameters.values() if one.kind is inspect.Parameter.VAR_POSITIONAL]
    by_place = [key for key, one in parameters.items() if one.kind is inspect.Parameter.POSITIONAL_OR_KEYWORD]
    by_name = [key for key, one in parameters.items() if one.kind is not inspect.Parameter.VAR_POSITIONAL]
    for key in named:
        if key not in by_name:
            raise RefusedError(say("pages.unknown_argument", macro=name, found=key, known=", ".join(by_name)))
    if len(positional) > len(by_place) and not any_more:
        raise RefusedError(say("pages.too_many_arguments", macro=name, known=", ".join(by_name)))
    for key in by_place[: len(positional)]:
        if key in named:
            raise RefusedError(say("pages.argument_twice", macro=name, found=key))
    given = {*by_place[: len(positional)], *named}
    missing = [key for key in by_name if parameters[key].default is inspect.Parameter.empty and key not in given]
    if missing:
        raise RefusedError(say("pages.missing_argument", macro=name, missing=", ".join(missing)))
    placed = [*(parameters[key] for key in by_place), *(any_more * len(positional))]
    return MacroCall(
        name,
        tuple(_typed(name, value, one) for value, one in zip(positional, placed, strict=False)),
        {key: _typed(name, value, parameters[key]) for key, value in named.items()},
    )


def _typed(macro: str, value: Any, parameter: inspect.Parameter) -> Any:
    """A constant of the type that a parameter asks for; its annotation is text, as everywhere in our own code."""
    wanted = str(parameter.annotation).split(" ")[0]
    is_number = isinstance(value, (int, float)) and not isinstance(value, bool)
    if wanted == "str" and not isinstance(value, bool):
        return value if isinstance(value, str) else f"{value}"
    if (wanted == "bool" and isinstance(value, bool)) or (wanted == "int" and _is_whole(value)):
        return value
    if wanted == "float" and is_number:
        return value
    raise RefusedError(say(f"pages.argument_wanted.{wanted}", macro=macro, argument=parameter.name, found=value))


def _constant(node: nodes.Node, code: str) -> Any:
    if (
        isinstance(node, nodes.Neg)
        and isinstance(node.node, nodes.Const)
        and not isinstance(node.node.value, (str, bool))
    ):
        return -node.node.value
    if isinstance(node, nodes.Const) and isinstance(node.value, (str, int, float)):
        return node.value
    raise RefusedError(say("pages.no_constant", found=_short(code)))


def _condition(node: nodes.Node, code: str) -> Condition:
    if isinstance(node, nodes.Not):
        return Not(_condition(node.node, code))
    if isinstance(node, nodes.And):
        return And(_condition(node.left, code), _condition(node.right, code))
    if isinstance(node, nodes.Or):
        return Or(_condition(node.left, code), _condition(node.right, code))
    if (
        isinstance(node, nodes.Call)
        and _path(node.node, code) == ["plant", "has"]
        and len(node.args) == 1
        and isinstance(node.args[0], nodes.Const)
        and isinstance(node.args[0].value, str)
        and not node.kwargs
        and node.dyn_args is None
        and node.dyn_kwargs is None
    ):
        return Has(_name(node.args[0].value.split(".")))
    raise RefusedError(say("pages.condition", found=_short(code)))


def _refusal(node: nodes.Node, code: str, inside_call: bool = False) -> RefusedError:
    """Say what an expression is, by the innermost part that we do not take."""
    while isinstance(node, (nodes.Getattr, nodes.Call)) and _path(node.node, code) is None:
        node = node.node
    if isinstance(node, nodes.Sub):
        whole = _hyphenated(node, code)
        if whole:
            return RefusedError(say("pages.hyphen", found=whole, instead=whole.replace("-", "_")))
    calculates = isinstance(node, (nodes.BinExpr, nodes.UnaryExpr))
    construct = CONSTRUCTS.get(type(node), "arithmetic" if calculates else "other")
    if inside_call and construct == "name":
        construct = "call"
    return RefusedError(say("pages.refused", what=say(f"pages.construct.{construct}"), found=_short(code)))


def _hyphenated(node: nodes.Sub, code: str) -> str:
    """The name that somebody wrote with a hyphen; empty where a difference was meant."""
    match = re.fullmatch(r"plant(?:\.[A-Za-z0-9_-]+)+", code.strip())
    return match[0] if match and _path_of_first(node) == "plant" else ""


def _path_of_first(node: nodes.Node) -> str:
    while not isinstance(node, nodes.Name):
        if isinstance(node, nodes.Sub):
            node = node.left
        elif isinstance(node, (nodes.Getattr, nodes.Getitem)):
            node = node.node
        else:
            return ""
    return node.name


def _foreign_name(path: list[str], macros: Mapping[str, Callable[..., Any]]) -> RefusedError:
    name = ".".join(path)
    if len(path) == 1 and path[0] in macros:
        return RefusedError(say("pages.macro_without_brackets", found=name))
    return RefusedError(say("pages.foreign_name", found=name))


def _nearest(name: str, known: Mapping[str, Any]) -> str:
    """The known name most like another, else all of them."""
    close = difflib.get_close_matches(name, list(known), 1, 0.5)
    return close[0] if close else ", ".join(sorted(known))


def _short(code: str) -> str:
    text = " ".join(code.split())
    return text if len(text) <= 80 else text[:79] + "…"
