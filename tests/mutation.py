"""
Mutation run over the calculations: does a test fail when the code is wrong?

Not collected by the test run. Each mutant changes one operator, constant, comparison or bound of one module through its
syntax tree, and lives only in memory of a forked process: no file is touched.

    python -m tests.mutation                      # every module, all mutants
    python -m tests.mutation faraday relief       # some modules
    python -m tests.mutation --sample 60          # at most so many mutants of a module, drawn with a fixed seed
    python -m tests.mutation --examples 15        # of each property; what survives may be tried again with more
    python -m tests.mutation --report mutants.jsonl

A mutant is killed when a test that imports its module fails, or takes five times as long as without it, counted in
time of the processor: a busy machine kills none.
"""

from __future__ import annotations

import argparse
import ast
import copy
import importlib
import importlib.abc
import importlib.machinery
import json
import os
import random
import re
import resource
import signal
import sys
import types
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    import hypothesis

ROOT = Path(__file__).parents[1]
CALCULATIONS = ROOT / "macros" / "calculations"
TESTS = ROOT / "tests" / "calculations"
HEAVY = (
    "CoolProp.CoolProp", "hypothesis", "numpy", "pytest", "scipy.integrate", "scipy.interpolate", "scipy.optimize",
    "fluids", "chemicals", "ht", "iapws", "psychrolib", "networkx",
)  # fmt: skip
"""Imported once, before the fork."""

PROMISES = ("test_each_docstring_gives_units_that_agree_with_the_names", "test_each_number_has_bounds")
"""What is held of all calculations at once, for a module that is changed."""

EXAMPLES = 40
"""Of each property, where the command line asks for no other number."""

SWAPS: dict[type[ast.AST], tuple[type[ast.AST], ...]] = {
    ast.Add: (ast.Sub,), ast.Sub: (ast.Add,), ast.Mult: (ast.Div,), ast.Div: (ast.Mult,), ast.Pow: (ast.Mult,),
    ast.Mod: (ast.Mult,), ast.FloorDiv: (ast.Mult,),
    ast.Lt: (ast.LtE, ast.GtE), ast.LtE: (ast.Lt, ast.Gt), ast.Gt: (ast.GtE, ast.LtE), ast.GtE: (ast.Gt, ast.Lt),
    ast.Eq: (ast.NotEq,), ast.NotEq: (ast.Eq,), ast.And: (ast.Or,), ast.Or: (ast.And,),
}  # fmt: skip
NAMES = {
    "above": "at_least", "at_least": "above", "between": "above", "largest": "smallest", "smallest": "largest",
    "max": "min", "min": "max",
}  # fmt: skip


@dataclass(frozen=True)
class Mutant:
    """One change of one module."""

    module: str
    line: int
    before: str
    after: str
    code: str


class _Sites(ast.NodeVisitor):
    """Where a module can be changed: what readers only see (messages, annotations, lists of names) is left alone."""

    def __init__(self) -> None:
        self.found: list[Any] = []

    def visit(self, node: ast.AST) -> None:
        self.found.append(node)
        super().visit(node)

    def visit_Raise(self, node: ast.Raise) -> None:
        self.found.remove(node)

    def visit_Assert(self, node: ast.Assert) -> None:
        self.found.remove(node)

    def visit_JoinedStr(self, node: ast.JoinedStr) -> None:
        self.found.remove(node)

    def visit_FunctionDef(self, node: ast.FunctionDef) -> None:
        for part in (*node.decorator_list, *node.args.defaults, *node.args.kw_defaults, *node.body):
            if part is not None:
                self.visit(part)

    def visit_AnnAssign(self, node: ast.AnnAssign) -> None:
        if node.value is not None:
            self.visit(node.value)

    def visit_Subscript(self, node: ast.Subscript) -> None:
        self.visit(node.value)
        self.visit(node.slice)


def changes_of(node: ast.AST) -> Iterator[ast.AST]:
    """Every changed form of one node."""
    if isinstance(node, (ast.BinOp, ast.BoolOp, ast.AugAssign)):
        for other in SWAPS.get(type(node.op), ()):
            changed = copy.deepcopy(node)
            changed.op = other()
            yield changed
    elif isinstance(node, ast.Compare):
        for place, operator in enumerate(node.ops):
            for other in SWAPS.get(type(operator), ()):
                changed = copy.deepcopy(node)
                changed.ops[place] = other()
                yield changed
    elif isinstance(node, ast.UnaryOp) and isinstance(node.op, (ast.USub, ast.Not)):
        yield copy.deepcopy(node.operand)
    elif isinstance(node, ast.Constant) and isinstance(node.value, (int, float)) and not isinstance(node.value, bool):
        yield ast.Constant(node.value + 1 if isinstance(node.value, int) or node.value == 0 else node.value * 1.1)
    elif isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in NAMES:
        changed = copy.deepcopy(node)
        assert isinstance(changed.func, ast.Name)
        changed.func.id = NAMES[node.func.id]
        if node.func.id == "between":
            # Without its upper bound.
            changed = ast.Call(ast.Name("at_least", ast.Load()), [copy.deepcopy(node.args[0])], [])
        yield changed


def mutants_of(module: str, source: str) -> list[Mutant]:
    """Every mutant of a module."""
    tree = ast.parse(source)
    sites = _Sites()
    for statement in tree.body:
        if not (isinstance(statement, ast.Assign) and ast.unparse(statement.targets[0]) == "__all__"):
            sites.visit(statement)
    found = []
    for node in sites.found:
        for changed in changes_of(node):
            whole = copy.deepcopy(tree)
            _replace(whole, tree, node, changed)
            if isinstance(changed, ast.Call):
                _import_both_bounds(whole)
            code = ast.unparse(ast.fix_missing_locations(whole))
            found.append(Mutant(module, node.lineno, ast.unparse(node), ast.unparse(changed), code))
    return found


def _import_both_bounds(tree: ast.Module) -> None:
    """A bound that was swapped needs its name; a module imports only those it uses."""
    for place, statement in enumerate(tree.body):
        if isinstance(statement, ast.ImportFrom) and statement.module == "macros.calculations.contract":
            names = [ast.alias(name) for name in ("above", "at_least")]
            tree.body.insert(place, ast.ImportFrom("macros.calculations.contract", names, 0))
            return


def _replace(whole: ast.AST, tree: ast.AST, node: ast.AST, changed: ast.AST) -> None:
    """Put a changed node into a copy of a tree, at the place of the node in the first."""
    for ours, theirs in zip(ast.walk(whole), ast.walk(tree), strict=True):
        for name, value in ast.iter_fields(theirs):
            if value is node:
                setattr(ours, name, changed)
                return
            if isinstance(value, list):
                for place, each in enumerate(value):
                    if each is node:
                        getattr(ours, name)[place] = changed
                        return
    raise ValueError("the node is none of the tree")


class _Changed(importlib.abc.MetaPathFinder, importlib.abc.InspectLoader):
    """Loads one module from changed source."""

    def __init__(self, name: str, path: Path, source: str) -> None:
        self.name, self.path, self.source = name, path, source

    def find_spec(self, fullname: str, *_: object) -> importlib.machinery.ModuleSpec | None:
        if fullname != self.name:
            return None
        spec = importlib.machinery.ModuleSpec(fullname, self, origin=str(self.path))
        spec.has_location = True
        return spec

    def get_source(self, fullname: str) -> str:
        assert fullname == self.name
        return self.source

    def exec_module(self, module: types.ModuleType) -> None:
        # Compiled under the path of the file, so that what reads a function's source finds the one that was written.
        exec(compile(self.source, str(self.path), "exec"), module.__dict__)


def tests_of(module: str) -> list[str]:
    """The rows of evidence of a module first, then every test of calculations that imports or names it."""
    importing = re.compile(
        rf'macros\.calculations\.{module}\b|macros\.calculations import [^\n]*\b{module}\b|"{module}[."]'
    )
    files = [path for path in sorted(TESTS.glob("test_*.py")) if importing.search(path.read_text(encoding="utf-8"))]
    quick = ("ranges", "bounds", "limits")
    return [str(path) for path in sorted(files, key=lambda path: not path.stem.endswith(quick))]


def run(module: str, source: str | None, limit_s: float | None, examples: int = EXAMPLES) -> tuple[bool, float, str]:
    """
    Whether the tests of a module hold with a source in place of its own; the processor time they took; what killed it.

    A fork: whatever the mutant does to the process is gone with it.
    """
    reader, writer = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(reader)
        code = 3
        try:
            if limit_s is not None:
                most = int(limit_s) + 1
                resource.setrlimit(resource.RLIMIT_CPU, (most, most + 5))
            code = _tests_in_child(module, source, writer, examples)
        except BaseException as error:
            os.write(writer, repr(error).encode()[:200])
        finally:
            os._exit(code)
    os.close(writer)
    _, status, used = os.wait4(child, 0)
    said = os.read(reader, 10000).decode(errors="replace")
    os.close(reader)
    if os.WIFSIGNALED(status):
        late = os.WTERMSIG(status) in (signal.SIGXCPU, signal.SIGKILL)
        said = "time" if late else f"signal {os.WTERMSIG(status)}"
    return os.waitstatus_to_exitcode(status) == 0, used.ru_utime + used.ru_stime, said


def _tests_in_child(module: str, source: str | None, writer: int, examples: int) -> int:
    import pytest
    from hypothesis import Phase, settings

    null = os.open(os.devnull, os.O_WRONLY)
    os.dup2(null, 1)
    os.dup2(null, 2)
    sys.dont_write_bytecode = True
    if source is not None:
        sys.meta_path.insert(0, _Changed(f"macros.calculations.{module}", CALCULATIONS / f"{module}.py", source))
    _take_fewer_examples(settings, examples)
    phases = (Phase.explicit, Phase.generate)
    settings.register_profile(
        "mutation", database=None, derandomize=True, deadline=None, phases=phases, max_examples=examples
    )

    class Failing:
        def pytest_runtest_logreport(self, report):  # type: ignore[no-untyped-def]
            if report.failed:
                os.write(writer, report.nodeid.rsplit("/", 1)[-1].encode()[:200])

        def pytest_collectreport(self, report):  # type: ignore[no-untyped-def]
            if report.failed:
                os.write(writer, b"import")

    # Asked for on the command line, since the one that the tests load by themselves would take its place.
    common = [
        "-x",
        "--hypothesis-profile=mutation",
        "-p",
        "no:cacheprovider",
        "-p",
        "no:unraisableexception",
        "-W",
        "ignore::pytest.PytestAssertRewriteWarning",
    ]
    common += ["-c", str(ROOT / "pyproject.toml")]
    if wrong := _wrong_row(module):
        os.write(writer, wrong.encode()[:200])
        return 1
    promises = [f"{TESTS / 'test_evidence.py'}::{name}" for name in PROMISES]
    return int(int(pytest.main([*common, *tests_of(module), *promises], plugins=[Failing()])) not in (0, 5))


def _wrong_row(module: str) -> str:
    """The first row of a module's evidence that does not hold; read without the tests, since most mutants die of one."""
    if not (CALCULATIONS / "evidence" / f"{module}.py").exists():
        return ""
    for piece in importlib.import_module(f"macros.calculations.evidence.{module}").EVIDENCE:
        for arguments, expected in piece.rows:
            if not piece.holds(piece.ours(arguments), expected):
                return f"evidence of {piece.calculation.__name__}"
    return ""


def _take_fewer_examples(settings: type[hypothesis.settings], most: int) -> None:
    """Properties are tried on fewer examples than the tests ask for: faster, and a kill is a kill all the more."""
    built = settings.__init__

    def with_fewer(self: hypothesis.settings, parent: hypothesis.settings | None = None, **given: Any) -> None:
        if isinstance(given.get("max_examples"), int):
            given["max_examples"] = min(given["max_examples"], most)
        built(self, parent, **given)

    settings.__init__ = with_fewer  # type: ignore[method-assign]


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("modules", nargs="*")
    parser.add_argument("--sample", type=int, help="at most so many mutants of each module")
    parser.add_argument("--examples", type=int, default=EXAMPLES, help="examples tried of each property")
    parser.add_argument("--limit", type=float, help="seconds of a mutant's tests, instead of measuring them first")
    parser.add_argument("--report", type=Path, help="a line of JSON for each mutant")
    chosen = parser.parse_args()
    os.chdir(ROOT)
    for library in HEAVY:
        importlib.import_module(library)
    modules = chosen.modules or [
        path.stem for path in sorted(CALCULATIONS.glob("*.py")) if not path.stem.startswith("_")
    ]
    totals = [0, 0]
    for module in modules:
        source = (CALCULATIONS / f"{module}.py").read_text(encoding="utf-8")
        mutants = mutants_of(module, source)
        if chosen.sample and len(mutants) > chosen.sample:
            drawn = sorted(random.Random(module).sample(range(len(mutants)), chosen.sample))
            mutants = [mutants[number] for number in drawn]
        limit_s = chosen.limit
        if limit_s is None:
            holds, took_s, said = run(module, None, None, chosen.examples)
            if not holds:
                print(f"{module}: its tests fail without any change ({said})")
                continue
            limit_s = 5 * took_s + 10
        killed = 0
        survivors = []
        for mutant in mutants:
            holds, _, said = run(module, mutant.code, limit_s, chosen.examples)
            killed += not holds
            if holds:
                survivors.append(mutant)
            if chosen.report:
                with chosen.report.open("a", encoding="utf-8") as report:
                    row = {
                        "module": module, "line": mutant.line, "before": mutant.before, "after": mutant.after,
                        "killed_by": "" if holds else said or "import",
                    }  # fmt: skip
                    report.write(json.dumps(row, ensure_ascii=False) + "\n")
        totals[0] += killed
        totals[1] += len(mutants)
        share = killed / len(mutants) if mutants else 1.0
        print(f"{module}: {killed} of {len(mutants)} killed, {share:.0%}", flush=True)
        for mutant in survivors:
            print(f"    {module}.py:{mutant.line}: {mutant.before}  →  {mutant.after}", flush=True)
    if totals[1]:
        print(f"{totals[0]} of {totals[1]} killed, {totals[0] / totals[1]:.0%}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
