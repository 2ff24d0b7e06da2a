"""`gaswright compare`: what a change altered and why, as text, as data, or as Markdown for a change request."""

from __future__ import annotations

import difflib
import re
import subprocess
import tarfile
import tempfile
from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path
from typing import Any

from macros.figures.plant import Plant
from macros.pages.guide_texts import guide_texts
from macros.quantities import Fault, Faults, say, show
from macros.review import review
from macros.review.compare import Changed, Comparison, compare
from macros.review.refusal import day_of_review
from macros.review.sides import Side, side_of_plant, side_of_published

__all__ = ["Compared", "compared", "comparison_data", "comparison_text"]

REVISION = re.compile(r"(?P<plant>[^@]+)@(?P<revision>[A-Za-z0-9][A-Za-z0-9._/~^-]*)")
NUMBERED = re.compile(r"\.\d+$")
LISTED = ("equal", "drawing")
"""Parts whose names stand in one row."""

NO_LONGER_THAN = 60
"""Characters of a text that a line shows; more are cut, since the whole stands in the description."""


@dataclass(frozen=True)
class Compared:
    """A comparison, with the guides whose text it changes; none where one side cannot write them."""

    comparison: Comparison
    guides: dict[str, list[str]] | None
    notes: tuple[str, ...]


def compared(old: str, new: str, handbook: Path) -> Compared:
    """
    Compare two sides, each a folder, a plant by name, `PLANT@revision`, or a published `figures.json`.

    Raises
    ------
    Faults
        Everything that is wrong with either side.
    """
    with tempfile.TemporaryDirectory() as kept:
        sides = [_side(text, handbook, Path(kept) / f"{place}") for place, text in enumerate((old, new))]
        plants = [plant for _, plant in sides]
        notes = [say("command.compare_old_data", side=text) for text in (old, new) if _revision(text)]
        guides = None
        if plants[0] is not None and plants[1] is not None:
            guides = _guides(handbook / "docs", plants[0], plants[1])
        else:
            notes.append(say("command.compare_published"))
        return Compared(compare(sides[0][0], sides[1][0]), guides, tuple(notes))


def _side(text: str, handbook: Path, kept: Path) -> tuple[Side, Plant | None]:
    if text.endswith(".json"):
        return side_of_published(Path(text)), None
    found = _revision(text)
    folder = _folder(found["plant"] if found else text, handbook)
    if found:
        folder = _of_revision(folder, found["revision"], kept)
    elif not folder.is_dir():
        raise Faults([Fault(text, 0, "", say("command.no_such_plant", found=text))])
    plant = Plant.load(folder, kept if found else None)
    return side_of_plant(text, plant, review(plant, day_of_review())), plant


def _revision(text: str) -> re.Match[str] | None:
    return None if Path(text).exists() else REVISION.fullmatch(text)


def _folder(text: str, handbook: Path) -> Path:
    by_name = handbook / "docs" / "designs" / text
    return by_name if by_name.is_dir() or not Path(text).is_dir() else Path(text)


def _of_revision(folder: Path, revision: str, kept: Path) -> Path:
    """The files of a plant as they were, put aside; its folder may be gone by now."""
    root = next((each for each in (folder, *folder.resolve().parents) if (each / ".git").exists()), None)
    place = f"{folder}@{revision}"
    if root is None:
        raise Faults([Fault(place, 0, "", say("command.compare_no_history"))])
    within = folder.resolve().relative_to(root.resolve()).as_posix()
    made = subprocess.run(
        ["git", "-C", str(root), "archive", "--format=tar", f"{revision}:{within}"], capture_output=True, check=False
    )
    if made.returncode:
        reason = made.stderr.decode("utf-8", "replace").strip()
        raise Faults([Fault(place, 0, "", say("command.compare_no_revision", reason=reason))])
    target = kept / folder.name
    target.mkdir(parents=True)
    with tarfile.open(fileobj=BytesIO(made.stdout)) as archive:
        archive.extractall(target, filter="data")
    return target


def _guides(docs: Path, old: Plant, new: Plant) -> dict[str, list[str]]:
    """The guides whose text differs, each with its lines as they were and are."""
    before, after = ({_guide(name): lines for name, lines in guide_texts(docs, plant).items()} for plant in (old, new))
    found: dict[str, list[str]] = {}
    for name in dict.fromkeys((*before, *after)):
        told = difflib.unified_diff(before.get(name, []), after.get(name, []), lineterm="", n=0)
        lines = [line for line in told if line[:3] not in ("---", "+++") and not line.startswith("@@")]
        if lines:
            found[name] = lines
    return found


def _guide(address: str) -> str:
    return address.split("/", 1)[-1].removesuffix(".md")


def comparison_text(found: Compared, *, markdown: bool = False) -> str:
    """A comparison as text, or as Markdown."""
    heading, item = ("## {}", "- {}") if markdown else ("{}", "  {}")
    old, new = found.comparison.old, found.comparison.new
    title = say("command.compare_title", old=old.name, new=new.name, before=old.digest, after=new.digest)
    lines = [f"# {title}" if markdown else title, *found.notes]
    if found.comparison.is_empty and not found.guides:
        return "\n".join([*lines, "", say("command.compare_equal")])
    for key, rows in _parts(found):
        if rows:
            lines += ["", heading.format(say(f"command.compare_part.{key}", count=len(rows)))]
            told = [", ".join(rows)] if key in LISTED else rows
            lines += ["", *(item.format(_escaped(row)) for row in told)] if markdown else map(item.format, told)
    return "\n".join([*lines, "", say("command.compare_caution")])


def _escaped(row: str) -> str:
    """A row in which Markdown finds nothing of its own: descriptions are strangers' texts."""
    return re.sub(r"([\\`*_\[\]<>|#])", r"\\\1", row)


def _parts(found: Compared) -> Iterator[tuple[str, list[str]]]:
    comparison = found.comparison
    yield "inputs", [_row(each) for each in comparison.inputs]
    yield "figures", [_row(each) for each in comparison.figures]
    yield "equal", list(comparison.equal)
    yield (
        "rules",
        [
            say(
                "command.compare_rule",
                rule=each.rule,
                where=each.where,
                old=_standing(each.old),
                new=_standing(each.new),
            )
            for each in sorted(comparison.flipped or (), key=lambda each: not each.is_worse)
        ],
    )
    yield "procedures", [f"{name}: {', '.join(parts)}" for name, parts in (comparison.procedures or {}).items()]
    yield "drawing", list(comparison.drawing or ())
    yield (
        "guides",
        [say("command.compare_guide", guide=name, count=len(lines)) for name, lines in (found.guides or {}).items()],
    )


def _row(each: Changed) -> str:
    old, new = (_short(text) for text in each.texts)
    if each.old is None:
        told = say("command.compare_added", name=each.name, new=new)
    elif each.new is None:
        told = say("command.compare_removed", name=each.name, old=old)
    elif not old and not new:
        told = say("command.compare_otherwise", name=each.name)
    else:
        told = say("command.compare_changed", name=each.name, old=old, new=new)
    if each.share is not None:
        told += say("command.compare_share", share=("+" if each.share > 0 else "") + show(each.share, "%", 2))
    if each.causes:
        told += say("command.compare_causes", names=", ".join(_gathered(each.causes)))
    elif each.old is not None and each.new is not None and each.old.inputs:
        told += say("command.compare_by_code")
    return told


def _gathered(names: Iterable[str]) -> Iterator[str]:
    """Names with the numbered ones of a list told as one, `power.surplus.*`, where there are several."""
    listed = {name: NUMBERED.sub(".*", name) for name in names}
    lists = Counter(listed.values())
    yield from dict.fromkeys(short if lists[short] > 1 else name for name, short in listed.items())


def _short(text: str) -> str:
    return text if len(text) <= NO_LONGER_THAN else text[: NO_LONGER_THAN - 1] + "…"


def _standing(standing: str | None) -> str:
    return say(f"command.compare_standing.{standing or 'nowhere'}")


def comparison_data(found: Compared) -> dict[str, Any]:
    """A comparison as lists and dictionaries, ready for JSON."""
    comparison = found.comparison
    return {
        "old": {"name": comparison.old.name, "plant": comparison.old.plant, "digest": comparison.old.digest},
        "new": {"name": comparison.new.name, "plant": comparison.new.plant, "digest": comparison.new.digest},
        "notes": list(found.notes),
        "inputs": [_changed_data(each) for each in comparison.inputs],
        "figures": [_changed_data(each) for each in comparison.figures],
        "equal": list(comparison.equal),
        "rules": None if comparison.flipped is None else [
            {"rule": each.rule, "where": each.where, "old": each.old, "new": each.new, "worse": each.is_worse}
            for each in comparison.flipped
        ],
        "procedures": None if comparison.procedures is None else {
            name: list(parts) for name, parts in comparison.procedures.items()
        },
        "drawing": None if comparison.drawing is None else list(comparison.drawing),
        "guides": found.guides,
    }  # fmt: skip


def _changed_data(each: Changed) -> dict[str, Any]:
    old, new = each.texts
    return {
        "name": each.name, "title": each.title, "old": old, "new": new, "share": each.share,
        "old_si": _number(each.old), "new_si": _number(each.new), "causes": list(each.causes),
    }  # fmt: skip


def _number(told: Any) -> float | None:
    return told.content if told is not None and isinstance(told.content, float) else None
