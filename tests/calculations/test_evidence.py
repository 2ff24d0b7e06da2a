"""Every row of evidence holds, and every calculation has enough of it."""

import importlib
import inspect
import re

import pytest

import macros.calculations
from macros.calculations.contract import CALCULATIONS, OPAQUE
from macros.calculations.evidence import OtherRoute, all_evidence
from macros.calculations.sources import sources
from tests.calculations.subjects import import_all_subjects

import_all_subjects()
ROWS = [
    pytest.param(piece, arguments, expected, id=f"{subject}-{piece.calculation.__name__}-{piece.kind}-{number}")
    for subject, piece in all_evidence()
    for number, (arguments, expected) in enumerate(piece.rows, start=1)
]


@pytest.mark.parametrize(("piece", "arguments", "expected"), ROWS)
def test_our_value_is_the_expected_one(piece, arguments, expected):
    ours = piece.ours(arguments)
    assert piece.holds(ours, expected), f"ours {ours!r}, expected {expected!r}"


@pytest.mark.parametrize(
    ("piece", "arguments", "expected"), [row for row in ROWS if isinstance(row.values[0], OtherRoute)]
)
def test_the_other_route_still_says_so(piece, arguments, expected):
    names = {}
    for library in re.findall(r"[A-Za-z_]+", piece.library):
        try:
            names[library] = importlib.import_module(library)
        except ImportError:
            continue
    assert names, f"{piece.library!r} names no library that is installed"
    for submodule in re.findall(r"\b(scipy\.[a-z]+)\b", piece.call):
        importlib.import_module(submodule)
    again = eval(piece.call.format(**{name: repr(value) for name, value in arguments.items()}), names)  # our own data
    assert again == pytest.approx(expected, rel=1e-6)


def test_each_calculation_has_two_independent_points():
    points: dict[str, int] = {}
    for _, piece in all_evidence():
        if piece.independent:
            points[piece.calculation.__name__] = points.get(piece.calculation.__name__, 0) + len(piece.rows)
    lacking = {key: points.get(entry.name, 0) for key, entry in CALCULATIONS.items() if points.get(entry.name, 0) < 2}
    assert not lacking


def test_each_cited_source_is_known_and_has_a_locator():
    faults = []
    for key, entry in CALCULATIONS.items():
        cited = re.findall(r"\[([a-z0-9-]+)(, [^\]]+)?\]", inspect.getdoc(entry.function).split("Notes")[-1])
        if not cited:
            faults.append(f"{key} cites nothing")
        for source, locator in cited:
            if source not in sources():
                faults.append(f"{key} cites the unknown {source}")
            elif not locator and sources()[source].how != "practice":
                faults.append(f"{key} cites {source} without a locator")
    for subject, piece in all_evidence():
        if piece.source and piece.source not in sources():
            faults.append(f"evidence for {subject}.{piece.calculation.__name__} cites the unknown {piece.source}")
    assert not faults


def test_each_docstring_gives_units_that_agree_with_the_names():
    """The suffix of an argument's name and the bracket in its docstring say the same unit."""
    spelt = {
        "_pa": "Pa", "_k": "K", "_a": "A", "_v": "V", "_w": "W", "_m": "m", "_m2": "m2", "_m3": "m3", "_kg": "kg",
        "_s": "s", "_j": "J", "_mol": "mol", "_kg_per_s": "kg/s", "_mol_per_s": "mol/s", "_m3_per_s": "m3/s",
        "_w_per_k": "W/K", "_w_per_m2_k": "W/(m2 K)", "_j_per_k": "J/K", "_a_per_m2": "A/m2", "_j_per_kg": "J/kg", "_m_per_s": "m/s",
        "_kg_per_m3": "kg/m3", "_mol_per_m3": "mol/m3", "_pa_per_s": "Pa/s", "_s_per_m": "S/m", "_ohm": "ohm",
        "_per_s": "1/s", "_kg_per_mol": "kg/mol", "_pa_s": "Pa s",
        "_mol_per_m_s_pa": "mol/(m s Pa)", "_mol_per_m2_s": "mol/(m2 s)", "_j_per_mol": "J/mol",
        "_per_kg": "1/kg", "_j_per_m3": "J/m3", "_m3_per_kg": "m3/kg",
        "_ohm_per_m": "ohm/m", "_ohm_m2": "ohm m2",
    }  # fmt: skip
    faults = []
    for key, entry in CALCULATIONS.items():
        documented = dict(re.findall(r"^\s{0,8}(\w+) : [^\n]+\n(?:\s+[^\n]*\n)*?[^\n]*\[([^\]]+)\]$",
                                     inspect.getdoc(entry.function), re.MULTILINE))  # fmt: skip
        for name in inspect.signature(entry.function).parameters:
            if name not in documented:
                faults.append(f"{key}: {name} has no unit in the docstring")
                continue
            for suffix in sorted(spelt, key=len, reverse=True):
                if name.endswith(suffix):
                    if documented[name] != spelt[suffix]:
                        faults.append(f"{key}: {name} is documented in {documented[name]}")
                    break
    assert not faults


def test_each_number_has_bounds():
    unbounded = [
        f"{key}: {name}"
        for key, entry in CALCULATIONS.items()
        for name, parameter in inspect.signature(entry.function).parameters.items()
        if name not in entry.bounds and str(parameter.annotation) not in ("str", "bool", "str | None")
    ]
    assert not unbounded


def test_each_opaque_name_is_used():
    # Figures walk the network, of which calculations know nothing; `tests/figures/test_single_failures.py` tests that.
    of_figures = {"single failures"}
    assert set(OPAQUE) == {entry.opaque for entry in CALCULATIONS.values() if entry.opaque} | of_figures


def test_transparent_calculations_keep_their_trace():
    """`math` would lose the formula silently: outside calculations shown by name it is not used."""
    faults = []
    for key, entry in CALCULATIONS.items():
        if entry.opaque is None and re.search(r"\bmath\.|\bfloat\(", inspect.getsource(entry.function)):
            faults.append(key)
    assert not faults, macros.calculations.__doc__
