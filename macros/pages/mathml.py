"""
Formulas as static MathML and as spoken text, both from the tree that was evaluated.

A chain of products and quotients becomes one fraction; brackets stand only where the tree needs them.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from html import escape

from macros.calculations.formula import Call, Node, Number, Operation, Symbol
from macros.quantities import say
from macros.quantities.languages import between, with_mark

__all__ = ["TooLongError", "formula", "size", "spoken", "symbol_mathml", "symbol_text"]

LONGEST = 400
"""Nodes beyond which nobody reads a formula; its working then says so in place of it."""

DOT = "<mo>\u22c5</mo>"
APPLY = "<mo>\u2061</mo>"
FUNCTIONS = {"exp": "exp", "log": "ln", "max": "max", "min": "min"}

CHEMICAL = re.compile(r"(?:[A-Z][a-z]?[0-9]*)+")
ELEMENT = re.compile(r"([A-Z][a-z]?)([0-9]*)")
LETTERS_AND_ARGUMENT = re.compile(r"([^()]+)\(([^()]+)\)")

Words = Callable[[Symbol], str]


class TooLongError(ValueError):
    """A formula with more terms than anybody reads."""


def size(node: Node, limit: int = LONGEST) -> int:
    """Nodes of a tree, counted no further than just beyond the limit."""
    count = 0
    waiting: list[Node] = [node]
    while waiting and count <= limit:
        one = waiting.pop()
        count += 1
        if isinstance(one, (Operation, Call)):
            waiting.extend(one.arguments)
    return count


def formula(left: str, node: Node, symbols: Words, words: Words, left_words: str) -> str:
    """
    A `math` element that shows `left = node`, with its spoken text.

    Parameters
    ----------
    left : str
        Symbol of the result, `base_subscript`.
    node : Node
        What was evaluated.
    symbols, words : callable
        For a symbol of the tree, how it is written and what it is called.
    left_words : str
        What the result is called.

    Raises
    ------
    TooLongError
        If the tree has more than 400 nodes.
    """
    if size(node) > LONGEST:
        raise TooLongError(left)
    text = escape(say("pages.spoken.equals", left=left_words, right=spoken(node, words)))
    inner = f"<mrow>{symbol_mathml(left)}<mo>=</mo>{_Writer(symbols).row(node)}</mrow>"
    return f'<math display="block" alttext="{text}" aria-label="{text}">{inner}</math>'


def symbol_mathml(symbol: str) -> str:
    """A symbol `base_subscript`; further underscores separate parts of the subscript."""
    base, _, subscript = symbol.partition("_")
    if "." in base or not base:
        return f"<mtext>{escape(symbol_text(symbol))}</mtext>"
    if called := LETTERS_AND_ARGUMENT.fullmatch(base):
        written = f"<mrow>{_letters(called[1])}<mo>(</mo>{_letters(called[2])}<mo>)</mo></mrow>"
    else:
        written = _letters(base)
    if not subscript:
        return written
    parts = [_subscript(part) for part in subscript.split("_") if part]
    inner = parts[0] if len(parts) == 1 else "<mrow>" + "<mo>,</mo>".join(parts) + "</mrow>"
    return f"<msub>{written}{inner}</msub>"


def symbol_text(symbol: str) -> str:
    """A symbol as plain text; the name of a figure that has none, by its last part."""
    return symbol.rpartition(".")[2].replace("_", " ") if "." in symbol else symbol


def _letters(text: str) -> str:
    if text[0] == "Δ" and len(text) > 1:
        return f'<mrow><mi mathvariant="normal">Δ</mi>{_letters(text[1:])}</mrow>'
    return f"<mn>{text}</mn>" if text.isdecimal() else f"<mi>{escape(text)}</mi>"


def _subscript(text: str) -> str:
    if text.isdecimal():
        return f"<mn>{text}</mn>"
    if CHEMICAL.fullmatch(text) and any(each.isdecimal() for each in text):
        return "<mrow>" + "".join(_element(name, count) for name, count in ELEMENT.findall(text)) + "</mrow>"
    return f"<mi>{escape(text)}</mi>" if len(text) == 1 else f"<mtext>{escape(text)}</mtext>"


def _element(name: str, count: str) -> str:
    written = f'<mi mathvariant="normal">{name}</mi>' if len(name) == 1 else f"<mi>{name}</mi>"
    return f"<msub>{written}<mn>{count}</mn></msub>" if count else written


def number_text(value: float) -> tuple[str, str]:
    """Mantissa and power of ten of a number in a formula, exactly as evaluated; the power may be empty."""
    text = repr(float(value))
    mantissa, _, power = text.partition("e")
    return mantissa.removesuffix(".0"), str(int(power)) if power else ""


def _number(value: float) -> str:
    mantissa, power = number_text(value)
    sign = "<mo>−</mo>" if mantissa.startswith("-") else ""
    written = f"{sign}<mn>{with_mark(mantissa.lstrip('-'))}</mn>"
    if power:
        minus = "<mo>−</mo>" if power.startswith("-") else ""
        exponent = f"<mrow>{minus}<mn>{power.lstrip('-')}</mn></mrow>"
        return f"<mrow>{written}<mo>×</mo><msup><mn>10</mn>{exponent}</msup></mrow>"
    return f"<mrow>{written}</mrow>" if sign else written


def _is_plain(node: Node) -> bool:
    """Whether a number is written without sign or power of ten, so that it needs no brackets."""
    return isinstance(node, Number) and node.value >= 0 and not number_text(node.value)[1]


def factors(node: Node) -> tuple[list[Node], list[Node]]:
    """The numerator and the denominator of a chain of products and quotients."""
    if isinstance(node, Operation) and node.name in "*/":
        left_over, left_under = factors(node.arguments[0])
        over, under = factors(node.arguments[1])
        if node.name == "/":
            over, under = under, over
        return left_over + over, left_under + under
    return [node], []


class _Writer:
    """Writes a tree; `symbols` says how each symbol is written."""

    def __init__(self, symbols: Words) -> None:
        self.symbols = symbols

    def row(self, node: Node) -> str:
        """A tree as exactly one element."""
        if isinstance(node, Number):
            return _number(node.value)
        if isinstance(node, Symbol):
            return symbol_mathml(self.symbols(node))
        if isinstance(node, Call):
            return self._applied(f"<mtext>{escape(say(f'opaque_name.{node.name}'))}</mtext>", node.arguments)
        if node.name in FUNCTIONS:
            return self._applied(f"<mi>{FUNCTIONS[node.name]}</mi>", node.arguments)
        if node.name == "sqrt":
            return f"<msqrt>{self.row(node.arguments[0])}</msqrt>"
        if node.name == "**":
            return self._power(node.arguments[0], node.arguments[1])
        if node.name == "neg":
            return f"<mrow><mo>−</mo>{self._bracketed_if(node.arguments[0], ('+', '-', 'neg'))}</mrow>"
        if node.name in "+-":
            return self._sum(node)
        over, under = factors(node)
        if under:
            return f"<mfrac>{self._product(over)}{self._product(under)}</mfrac>"
        return self._product(over)

    def _sum(self, node: Operation) -> str:
        left, right = node.arguments
        sign = "<mo>+</mo>" if node.name == "+" else "<mo>−</mo>"
        written = self._bracketed_if(right, ("neg",) if node.name == "+" else ("+", "-", "neg"))
        if isinstance(right, Number) and right.value < 0:
            written = self._brackets(self.row(right))
        return f"<mrow>{self.row(left)}{sign}{written}</mrow>"

    def _product(self, nodes: Sequence[Node]) -> str:
        # What 1 multiplies reads the same without it, unless nothing else is left.
        shown = [node for node in nodes if node != Number(1.0)] or list(nodes)
        if len(shown) == 1:
            return self.row(shown[0])
        written = []
        for position, node in enumerate(shown):
            leads = position == 0 and isinstance(node, Number) and node.value >= 0
            signed = isinstance(node, Number) and not _is_plain(node) and not leads
            if signed or (isinstance(node, Operation) and node.name in ("+", "-", "neg")):
                written.append(self._brackets(self.row(node)))
            else:
                written.append(self.row(node))
        return f"<mrow>{DOT.join(written)}</mrow>"

    def _power(self, base: Node, exponent: Node) -> str:
        if exponent == Number(0.5):
            return f"<msqrt>{self.row(base)}</msqrt>"
        atom = isinstance(base, Symbol) or _is_plain(base)
        written = self.row(base) if atom else self._brackets(self.row(base))
        return f"<msup>{written}{self.row(exponent)}</msup>"

    def _bracketed_if(self, node: Node, names: tuple[str, ...]) -> str:
        written = self.row(node)
        return self._brackets(written) if isinstance(node, Operation) and node.name in names else written

    def _brackets(self, written: str) -> str:
        return f"<mrow><mo>(</mo>{written}<mo>)</mo></mrow>"

    def _applied(self, name: str, arguments: Sequence[Node]) -> str:
        inside = f"<mo>{between()}</mo>".join(self.row(argument) for argument in arguments)
        return f"<mrow>{name}{APPLY}<mrow><mo>(</mo>{inside}<mo>)</mo></mrow></mrow>"


def spoken(node: Node, words: Words) -> str:
    """
    A tree as it is read aloud; where a listener cannot see an end, the end is said.

    Parameters
    ----------
    node : Node
    words : callable
        What each symbol is called.
    """
    if isinstance(node, Number):
        mantissa, power = number_text(node.value)
        mantissa = with_mark(mantissa.replace("-", "−"))
        return say("pages.spoken.power_of_ten", number=mantissa, power=power.replace("-", "−")) if power else mantissa
    if isinstance(node, Symbol):
        return words(node)
    arguments = node.arguments
    if isinstance(node, Call):
        return say("pages.spoken.call", name=say(f"opaque_name.{node.name}"), arguments=_listed(arguments, words))
    if node.name in ("max", "min"):
        return say(f"pages.spoken.{node.name}", arguments=_listed(arguments, words))
    if node.name in ("exp", "log", "sqrt"):
        return say(f"pages.spoken.{node.name}", argument=spoken(arguments[0], words))
    if node.name == "neg":
        return say("pages.spoken.neg", argument=_group(arguments[0], words, ("+", "-", "neg")))
    if node.name == "**":
        return _spoken_power(arguments[0], arguments[1], words)
    if node.name == "+":
        return say("pages.spoken.plus", left=spoken(arguments[0], words), right=_group(arguments[1], words, ("neg",)))
    if node.name == "-":
        right = _group(arguments[1], words, ("+", "-", "neg"))
        return say("pages.spoken.minus", left=spoken(arguments[0], words), right=right)
    over, under = factors(node)
    if under:
        return say("pages.spoken.fraction", over=_spoken_product(over, words), under=_spoken_product(under, words))
    return _spoken_product(over, words)


def _spoken_product(nodes: Sequence[Node], words: Words) -> str:
    shown = [node for node in nodes if node != Number(1.0)] or list(nodes)
    if len(shown) == 1:
        return spoken(shown[0], words)
    return say("pages.spoken.times").join(_group(node, words, ("+", "-", "neg")) for node in shown)


def _spoken_power(base: Node, exponent: Node, words: Words) -> str:
    if exponent == Number(0.5):
        return say("pages.spoken.sqrt", argument=spoken(base, words))
    said = _group(base, words, ("+", "-", "neg", "*", "/", "**"))
    for power, key in ((2.0, "pages.spoken.squared"), (3.0, "pages.spoken.cubed")):
        if exponent == Number(power):
            return say(key, base=said)
    return say("pages.spoken.power", base=said, exponent=spoken(exponent, words))


def _group(node: Node, words: Words, names: tuple[str, ...]) -> str:
    said = spoken(node, words)
    if isinstance(node, Operation) and node.name in names:
        return say("pages.spoken.brackets", inside=said)
    return said


def _listed(arguments: Sequence[Node], words: Words) -> str:
    said = [spoken(argument, words) for argument in arguments]
    if len(said) < 2:
        return "".join(said)
    return say("pages.spoken.and", most=say("pages.spoken.comma").join(said[:-1]), last=said[-1])
