"""The command line: `gaswright COMMAND …`; each command a small function, each answer on standard output."""

from __future__ import annotations

import argparse
import json
import os
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from macros.command.compare import compared, comparison_data, comparison_text
from macros.command.lineup import failed_as_data, lineup_data, lineup_text
from macros.command.parts import compared_text, parts_text, write_parts
from macros.command.progress import told
from macros.command.review import refused_line, review_data, review_text
from macros.command.sizing import sizing_data, sizing_text
from macros.command.starter import create, yours
from macros.command.translations import translations_text
from macros.command.wall_guide import addresses_near, file_of, reasons_against, write_wall_guide
from macros.command.what_if import what_if_text
from macros.figures.explain import explain
from macros.figures.graph import UnknownPath
from macros.figures.lineups import proofs_failed
from macros.figures.plant import Plant
from macros.figures.sizing import SizingError, read_wish, size
from macros.pages.translations import standings
from macros.quantities import Faults, QuantityError, say
from macros.quantities.languages import SOURCE, VARIABLE, languages, speaking
from macros.review import review
from macros.review.refusal import day_of_review, refused
from macros.sheets.published import figure_rows, published
from macros.sheets.wall import PAPERS, SYSTEMS

__all__ = ["main"]

FINE, FAILED, INVALID = 0, 1, 2

if TYPE_CHECKING:
    from macros.site.build import Built

    Commands = argparse._SubParsersAction[argparse.ArgumentParser]


def main(arguments: Sequence[str] | None = None) -> int:
    """
    Run one command.

    Returns
    -------
    int
        0 fine, 1 something failed, 2 the input is invalid (all faults on standard error).
    """
    usual = os.environ.get(VARIABLE) or SOURCE
    if usual not in languages():
        print(
            say("command.no_such_language", variable=VARIABLE, found=usual, known=", ".join(languages())),
            file=sys.stderr,
        )
        return INVALID
    with speaking(usual):
        parsed = _parser().parse_args(arguments)
    with speaking(parsed.language or usual):
        return _run(parsed)


def _run(parsed: argparse.Namespace) -> int:
    command: Callable[[argparse.Namespace], int] = parsed.run
    try:
        return command(parsed)
    except Faults as faults:
        for fault in faults:
            print(f"{fault} [{fault.code}]" if fault.code else fault, file=sys.stderr)
        print(say("command.faults", count=len(faults)), file=sys.stderr)
        return INVALID


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog="gaswright", description=say("command.purpose"))
    commands = parser.add_subparsers(required=True, metavar="COMMAND")

    new = commands.add_parser("new", help=say("command.new"))
    new.add_argument("name", help=say("command.new_name"))
    new.add_argument("--like", metavar="PLANT", type=_folder, help=say("command.new_like"))
    new.add_argument("--handbook", type=Path, default=Path(), help=say("command.handbook"))
    new.set_defaults(run=_new)

    check = _plant_command(commands, "check", _check)
    check.add_argument("--json", action="store_true", help=say("command.json"))
    figures = _plant_command(commands, "figures", _figures)
    figures.add_argument("--json", action="store_true", help=say("command.json"))
    explained = _plant_command(commands, "explain", _explain)
    explained.add_argument("figure", help=say("command.figure"))

    sizing = _plant_command(commands, "size", _size)
    sizing.add_argument("--wish", action="append", required=True, help=say("command.wish"))
    sizing.add_argument("--vary", nargs="+", action="extend", required=True, help=say("command.vary"))
    sizing.add_argument("--json", action="store_true", help=say("command.json"))

    lineup = _plant_command(commands, "lineup", _lineup)
    lineup.add_argument("procedure", help=say("command.procedure"))
    lineup.add_argument("--failures", action="store_true", help=say("command.failures"))
    lineup.add_argument("--json", action="store_true", help=say("command.json"))

    reviewed = _plant_command(commands, "review", _review)
    reviewed.add_argument("--json", action="store_true", help=say("command.json"))
    reviewed.add_argument("--all", action="store_true", help=say("command.review_all"))

    wall = _plant_command(commands, "wall-guide", _wall_guide)
    wall.add_argument("--paper", choices=PAPERS, default="a3", help=say("command.wall_paper"))
    wall.add_argument("--units", choices=SYSTEMS, default="workshop", help=say("command.wall_units"))
    wall.add_argument("--out", type=Path, help=say("command.wall_file"))
    wall.add_argument("--address", default="", help=say("command.wall_address"))

    parts = _plant_command(commands, "parts", _parts)
    parts.add_argument("--csv", type=Path, metavar="FILE", help=say("command.parts_csv"))
    parts.add_argument("--xlsx", type=Path, metavar="FILE", help=say("command.parts_xlsx"))
    parts.add_argument("--compare", type=Path, metavar="OLD", help=say("command.parts_compare"))

    _plant_command(commands, "what-if", _what_if)

    differing = commands.add_parser("compare", help=say("command.compare"))
    differing.add_argument("old", help=say("command.compare_old"))
    differing.add_argument("new", help=say("command.compare_new"))
    form = differing.add_mutually_exclusive_group()
    form.add_argument("--json", action="store_true", help=say("command.json"))
    form.add_argument("--markdown", action="store_true", help=say("command.compare_markdown"))
    differing.add_argument("--fail-if-worse", action="store_true", help=say("command.compare_fail"))
    differing.add_argument("--handbook", type=Path, default=Path(), help=say("command.handbook"))
    differing.set_defaults(run=_compare)

    build = commands.add_parser("build", help=say("command.build"))
    build.add_argument("--handbook", type=Path, default=Path(), help=say("command.handbook"))
    build.add_argument("--site", type=Path, help=say("command.site"))
    build.set_defaults(run=_build)

    offline = commands.add_parser("offline", help=say("command.offline"))
    offline.add_argument("plant", nargs="?", default="", help=say("command.offline_plant"))
    offline.add_argument("--handbook", type=Path, default=Path(), help=say("command.handbook"))
    offline.add_argument("--out", type=Path, metavar="FILE", help=say("command.offline_file"))
    offline.set_defaults(run=_offline)

    serve = commands.add_parser("serve", help=say("command.serve"))
    serve.add_argument("--handbook", type=Path, default=Path(), help=say("command.handbook"))
    serve.add_argument("--address", default="127.0.0.1:8000", help=say("command.address"))
    serve.set_defaults(run=_serve)

    translated = commands.add_parser("translations", help=say("command.translations"))
    translated.add_argument("of", choices=languages(), metavar="LANGUAGE", help=say("command.translations_of"))
    translated.add_argument("--handbook", type=Path, default=Path(), help=say("command.handbook"))
    translated.add_argument("--json", action="store_true", help=say("command.json"))
    translated.set_defaults(run=_translations)

    for one in commands.choices.values():
        one.add_argument("--language", choices=languages(), help=say("command.language", variable=VARIABLE))
    return parser


def _plant_command(commands: Commands, name: str, run: Callable[[argparse.Namespace], int]) -> argparse.ArgumentParser:
    parser = commands.add_parser(name, help=say(f"command.{name}"))
    parser.add_argument("plant", type=_folder, help=say("command.plant"))
    parser.set_defaults(run=run)
    return parser


def _folder(text: str) -> Path:
    """A plant by its folder, or by its name below docs/designs."""
    for folder in (Path(text), Path("docs/designs") / text):
        if folder.is_dir():
            return folder
    raise argparse.ArgumentTypeError(say("command.no_such_plant", found=text))


def _loaded(folder: Path) -> Plant:
    with told(say("command.loading", plant=folder.name)):
        return Plant.load(folder)


def _new(arguments: argparse.Namespace) -> int:
    folder = create(arguments.name, arguments.handbook, arguments.like)
    print(say("command.copied" if arguments.like else "command.created", folder=folder.as_posix(), plant=folder.name))
    _tell_yours(folder)
    return FINE


def _tell_yours(folder: Path) -> None:
    for place in yours(folder):
        print(say("command.to_fill_in", place=place))


def _check(arguments: argparse.Namespace) -> int:
    try:
        plant = _loaded(arguments.plant)
    except Faults as faults:
        if not arguments.json:
            raise
        print(json.dumps({"faults": faults.as_data()}, indent=2, ensure_ascii=False))
        return INVALID
    unusual = list(plant.description.unusual())
    if arguments.json:
        failed = failed_as_data(plant)
        told = {"faults": [], "unusual": [str(one) for one in unusual], "failed": failed}
        print(json.dumps(told, indent=2, ensure_ascii=False))
        return FAILED if failed else FINE
    for finding in unusual:
        print(say("command.unusual", finding=finding))
    proofs = proofs_failed(plant)
    for fault, _ in proofs:
        print(say("command.check_failed", fault=fault))
    print(say("command.checked", plant=plant.name, figures=len(plant.graph.figures), unusual=len(unusual)))
    print(say("command.proofs_failed", count=len(proofs)) if proofs else say("command.proofs_passed"))
    _tell_yours(arguments.plant)
    return FAILED if proofs else FINE


def _lineup(arguments: argparse.Namespace) -> int:
    plant = _loaded(arguments.plant)
    procedures = plant.description.procedures.procedures
    if arguments.procedure not in procedures:
        known = ", ".join(procedures)
        print(say("command.no_such_procedure", found=arguments.procedure, known=known), file=sys.stderr)
        return INVALID
    if arguments.json:
        data = lineup_data(plant, arguments.procedure, every=arguments.failures)
        print(json.dumps(data, indent=2, ensure_ascii=False))
        found = [found for step in data["steps"] for found in (step, *step["failures"])]
        return FAILED if any(each["failed"] for each in found) else FINE
    text, failed = lineup_text(plant, arguments.procedure, every=arguments.failures)
    print(text)
    return FAILED if failed else FINE


def _review(arguments: argparse.Namespace) -> int:
    plant = _loaded(arguments.plant)
    with told(say("command.reviewing", plant=plant.name)):
        found = review(plant, day_of_review())
    if arguments.json:
        print(json.dumps(review_data(plant, found), indent=2, ensure_ascii=False))
    else:
        print(review_text(plant, found, everything=arguments.all))
    return FAILED if refused(plant) else FINE


def _compare(arguments: argparse.Namespace) -> int:
    with told(say("command.comparing")):
        found = compared(arguments.old, arguments.new, arguments.handbook)
    if arguments.json:
        print(json.dumps(comparison_data(found), indent=2, ensure_ascii=False))
    else:
        print(comparison_text(found, markdown=arguments.markdown))
    return FAILED if arguments.fail_if_worse and found.comparison.worse else FINE


def _figures(arguments: argparse.Namespace) -> int:
    plant = _loaded(arguments.plant)
    if arguments.json:
        print(json.dumps(published(plant), indent=2, ensure_ascii=False))
        return FINE
    rows = figure_rows(plant)
    widths = [max(len(row[column]) for row in rows) for column in (0, 1)]
    for name, shown, title, mark in rows:
        print(f"{name:<{widths[0]}}  {shown:>{widths[1]}}  {title}{mark}")
    return FINE


def _explain(arguments: argparse.Namespace) -> int:
    plant = _loaded(arguments.plant)
    try:
        print(explain(plant.graph, arguments.figure))
    except UnknownPath as error:
        print(error, file=sys.stderr)
        return INVALID
    return FINE


def _size(arguments: argparse.Namespace) -> int:
    plant = _loaded(arguments.plant)
    try:
        wishes = [read_wish(plant.graph, text) for text in arguments.wish]
        with told(say("command.sizing", plant=plant.name)):
            sizing = size(plant, wishes, arguments.vary)
    except (SizingError, UnknownPath, QuantityError) as error:
        print(error, file=sys.stderr)
        return INVALID
    if arguments.json:
        print(json.dumps(sizing_data(sizing), indent=2, ensure_ascii=False))
    else:
        print(sizing_text(sizing))
    return FINE if sizing.is_fine else FAILED


def _wall_guide(arguments: argparse.Namespace) -> int:
    plant = _loaded(arguments.plant)
    if against := reasons_against(plant, arguments.units):
        print("\n".join(against), file=sys.stderr)
        return FAILED
    file = arguments.out or file_of(plant, arguments.paper, arguments.units)
    address, newer_at = (arguments.address, "") if arguments.address else addresses_near(arguments.plant)
    written = write_wall_guide(plant, arguments.paper, arguments.units, address, file, newer_at)
    print(say("command.wall_written", file=written.as_posix()))
    return FINE


def _parts(arguments: argparse.Namespace) -> int:
    plant = _loaded(arguments.plant)
    if refused(plant) or plant.status == "withdrawn":
        print(say("command.parts_refused", plant=plant.name), file=sys.stderr)
    compared = None if arguments.compare is None else compared_text(plant, arguments.compare)
    for line in write_parts(plant, arguments.csv, arguments.xlsx):
        print(line)
    if compared is not None:
        print(compared)
    elif arguments.csv is None and arguments.xlsx is None:
        print(parts_text(plant))
    return FINE


def _what_if(arguments: argparse.Namespace) -> int:
    plant = _loaded(arguments.plant)
    with told(say("command.asking", plant=plant.name)):
        text, holds = what_if_text(plant)
    print(text)
    return FINE if holds else FAILED


def _build(arguments: argparse.Namespace) -> int:
    from macros.site.build import build

    built = build(arguments.handbook, arguments.site, only=_only(arguments))
    print(say("command.built", index=(built.folder / "index.html").as_posix()))
    return _told_of_refused(built)


def _told_of_refused(built: Built) -> int:
    for name, reasons in built.refused.items():
        print(refused_line(name, built.status[name], reasons))
    return FAILED if built.fails else FINE


def _offline(arguments: argparse.Namespace) -> int:
    from macros.site.offline import offline

    name = f"handbook-{arguments.plant}.zip" if arguments.plant else "handbook.zip"
    target = arguments.out or arguments.handbook / "build" / name
    built = offline(arguments.handbook, target, arguments.plant, only=_only(arguments))
    print(say("command.packed", file=target.as_posix()))
    return _told_of_refused(built)


def _only(arguments: argparse.Namespace) -> str:
    """The one language asked for, on the line or by the variable; empty for all that the handbook names."""
    return str(arguments.language or os.environ.get(VARIABLE) or "")


def _translations(arguments: argparse.Namespace) -> int:
    from macros.site.configuration import languages_of

    found = standings(arguments.handbook / "docs", arguments.of, languages_of(arguments.handbook)[0])
    if arguments.json:
        print(json.dumps([one.data() for one in found], indent=2, ensure_ascii=False))
    else:
        print(translations_text(found, arguments.of))
    return FINE if all(one.state == "current" for one in found) else FAILED


def _serve(arguments: argparse.Namespace) -> int:
    from macros.site.serve import serve

    return serve(arguments.handbook, arguments.address)
