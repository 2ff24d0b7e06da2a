"""Loading a plant: the files of a folder, read, checked and joined, with everything that is wrong told at once."""

from __future__ import annotations

import functools
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path as FilePath
from typing import Any, NamedTuple

import pydantic

from macros.description import hourly, strict_yaml
from macros.description.amounts import LONGEST_TITLE, LONGEST_WORDS, faults_of_amounts
from macros.description.crossing import crossing_faults
from macros.description.fields import Default, Part, comparable, is_name
from macros.description.hourly import HourlyYear, read_hours
from macros.description.judging import faults_of, meant_paths
from macros.description.naming import Naming
from macros.description.network_file import NetworkFile
from macros.description.parts_file import PartsFile
from macros.description.plain_files import content_of
from macros.description.plant import PlantFile
from macros.description.procedures_file import ProceduresFile
from macros.description.record_file import RecordFile
from macros.description.references import malformed, references
from macros.description.shape import Leaf, choices, leaves
from macros.description.sheet import Sheet
from macros.description.strict_yaml import Document, Path, dotted
from macros.description.wall_file import WallFile
from macros.quantities import Fault, Faults, Quantity, numbers_with_units, say, store
from macros.quantities.languages import cached_as_spoken

__all__ = ["FILES", "Description", "Entry", "load"]

FILES: Mapping[str, type[Part]] = {
    "plant.yml": PlantFile,
    "network.yml": NetworkFile,
    "procedures.yml": ProceduresFile,
    "parts.yml": PartsFile,
    "record.yml": RecordFile,
    "wall.yml": WallFile,
}
"""The files of a plant, and what each holds."""

OPTIONAL = ("wall.yml",)
"""Files that a plant may lack."""

HOURLY = ("demand", "hourly")
"""Where plant.yml names the table of the hours of a year; figures read the hours themselves."""

NO_FIGURES = ("kind", "at", "facing", "note", "title", "chain")
"""Keys of items and lines that say where and what they are; everything else may enter a figure."""


class Entry(NamedTuple):
    """A value of a description as figures read it."""

    path: str
    """Dotted, lists numbered from 1, tags in lower case."""
    value: Any
    title: str
    symbol: str
    default: Default | None
    """The default that stands in; none where the author gave the value."""
    place: str
    """`file:line`; empty where the author wrote nothing."""


@dataclass(frozen=True)
class Description:
    """A plant as described: its files, read and checked. Build with `load`."""

    folder: FilePath
    plant: PlantFile
    network: NetworkFile
    procedures: ProceduresFile
    parts: PartsFile
    record: RecordFile
    wall: WallFile | None
    """What goes on the sheet beside the plant; none where the plant says nothing of one."""
    documents: Mapping[str, Document]
    files: Mapping[str, str]
    """The files as messages show them, by name."""
    contents: Mapping[str, bytes]
    hours: HourlyYear | None = None
    """The hours of a year, where plant.yml names a table of them."""

    @property
    def name(self) -> str:
        """Name of the plant: that of its folder."""
        return self.folder.name

    def file(self, name: str) -> str:
        """A file of the plant as messages show it."""
        return self.files[name]

    def sources(self) -> Iterator[bytes]:
        """Everything that was read, for a digest: each file's name and content."""
        for name, content in self.contents.items():
            yield name.encode() + b"\0" + content

    @property
    def places(self) -> dict[str, str]:
        """Where each value that figures may read stands, `file:line` by path."""
        found = {}
        for name in ("plant.yml", "network.yml", "parts.yml"):
            for path in self.documents[name].lines:
                if path:
                    found[lowered(path)] = self.place(name, path)
        return found

    def place(self, name: str, path: Path) -> str:
        """Where a value stands; empty where the author wrote nothing."""
        document = self.documents[name]
        return f"{self.files[name]}:{document.lines[path]}" if path in document.lines else ""

    def entries(self) -> tuple[Entry, ...]:
        """Everything that a figure may read: all of plant.yml, settings of items, sizes of lines, sections."""
        return self._entries

    @functools.cached_property
    def _entries(self) -> tuple[Entry, ...]:
        return tuple(self._listed())

    def _listed(self) -> Iterator[Entry]:
        for leaf in leaves(self.plant):
            if leaf.path != ("format",):
                yield self._entry("plant.yml", leaf)
        for leaf in leaves(self.network):
            if len(leaf.path) >= 3 and leaf.path[2] not in NO_FIGURES:
                yield self._entry("network.yml", leaf)

    def _entry(self, name: str, leaf: Leaf) -> Entry:
        demand, place = leaf.slot.measure, self.place(name, leaf.path)
        default = demand.default if demand is not None and not place else None
        symbol = demand.symbol if demand is not None else ""
        value = self.hours if leaf.path == HOURLY else leaf.value
        return Entry(lowered(leaf.path), value, leaf.slot.title, symbol, default, place)

    def texts(self) -> tuple[tuple[str, Path, str], ...]:
        """Every free text: file, path and text. The references in it are looked up on a floor above."""
        return self._texts

    @functools.cached_property
    def _texts(self) -> tuple[tuple[str, Path, str], ...]:
        every = ((name, leaf) for name, part in self._files() for leaf in leaves(part))
        return tuple((name, leaf.path, leaf.value) for name, leaf in every if is_free_text(leaf))

    def _files(self) -> Iterator[tuple[str, Part]]:
        yield "plant.yml", self.plant
        yield "network.yml", self.network
        yield "procedures.yml", self.procedures
        yield "parts.yml", self.parts
        yield "record.yml", self.record
        if self.wall is not None:
            yield "wall.yml", self.wall

    def unusual(self) -> Iterator[Fault]:
        """Values outside what practice is used to: no errors, but findings."""
        for name, part in self._files():
            for leaf in leaves(part):
                demand = leaf.slot.measure
                if demand is None or demand.usual is None or not isinstance(leaf.value, Quantity):
                    continue
                low, high = demand.usual
                key = None
                if comparable(leaf.value) < comparable(low):
                    key = "description.unusual_low"
                elif comparable(leaf.value) > comparable(high):
                    key = "description.unusual_high"
                if key is not None:
                    line = self.documents[name].line(leaf.path)
                    message = say(key, found=leaf.value.text, low=low.text, high=high.text)
                    yield Fault(self.files[name], line, dotted(leaf.path), message)


def lowered(path: Path) -> str:
    """A path as figures name it: tags and lines in lower case."""
    return ".".join(each.lower() if isinstance(each, str) else str(each) for each in path)


def is_free_text(leaf: Leaf) -> bool:
    """Whether a value is text for readers: neither a choice nor a name nor a tag."""
    known = leaf.slot.known
    shaped = known is not None and any(getattr(each, "pattern", None) for each in known.metadata)
    extra = known.json_schema_extra if known is not None else None
    named = isinstance(extra, dict) and bool({"choices", "keys", "entries"} & extra.keys())
    return (
        isinstance(leaf.value, str)
        and leaf.slot.name not in WORDS_OF_OURS
        and not shaped
        and not named
        and not choices(leaf.slot.annotation)
    )


WORDS_OF_OURS = frozenset(
    ("chain", "items", "relief", "capped_by", "normal_position", "supply", "stops", "shuts", "opens", "closes",
     "admits", "makes_inert", "makes_hydrogen", "inert", "air", "tags", "alarm", "trip"),
)  # fmt: skip
"""Keys whose texts are tags, names or limits, judged as such."""


def load(folder: FilePath, root: FilePath | None = None) -> Description:
    """
    Read the files of a plant.

    Parameters
    ----------
    folder : Path
        Holds the files; its name is the plant's.
    root : Path, optional
        Messages show files from there on; without it as the folder is given.

    Raises
    ------
    Faults
        Everything that is wrong in any of the files, one fault for each mistake.
    """
    loader = _Loader(folder, root)
    loader.read_all()
    return loader.description()


@cached_as_spoken(maxsize=64)
def _as_written(
    name: str, content: bytes, shown: str
) -> tuple[Document, Part | None, frozenset[Path], tuple[Fault, ...]]:
    """A file by itself: as read, as its part, the paths at fault, and what is wrong. An edit of one leaves the others."""
    root = FILES[name]
    document = strict_yaml.parse(content, shown)
    try:
        return document, root.model_validate(document.data), frozenset(), tuple(document.faults)
    except pydantic.ValidationError as error:
        found = list(faults_of(error, root, document, shown))
        at_fault = frozenset(meant_paths(error, root, document)).union(path for path, _ in found)
        return document, None, at_fault, (*document.faults, *(fault for _, fault in found))


class _Loader:
    def __init__(self, folder: FilePath, root: FilePath | None) -> None:
        self.folder = folder
        shown = folder.resolve().relative_to(root.resolve()) if root is not None else folder
        self.files = {name: (shown / name).as_posix() for name in FILES}
        self.contents: dict[str, bytes] = {}
        self.sheets: dict[str, Sheet] = {}
        self.parts: dict[str, Any] = {}
        self.hours: HourlyYear | None = None
        self.faults: list[Fault] = []

    def read_all(self) -> None:
        """Read, check each file for itself, then all together."""
        if not self.folder.is_dir():
            raise Faults([Fault(self.folder.as_posix(), 0, "", say("description.no_folder"))])
        if not is_name(self.folder.resolve().name):
            self.faults.append(
                Fault(self.folder.as_posix(), 0, "", say("description.folder_name", found=self.folder.resolve().name))
            )
        for name in FILES:
            self.read_one(name)
        if too_much := list(faults_of_amounts(self.sheets)):
            raise Faults(too_much)  # what else is wrong with so much is wrong too often to be told
        self.read_the_hours()
        key = store.key_of("sound description", *self._identity())
        if not self.faults and store.read(key) is not None:
            return
        self.check()
        if self.faults:
            raise Faults(dict.fromkeys(self.faults))
        store.write(key, True)

    def _identity(self) -> Iterator[str | bytes]:
        """Everything that the checks look at: the name of the folder, and each file's name, how it is shown, content."""
        yield self.folder.resolve().name
        for name, content in self.contents.items():
            yield from (name, self.files[name], content)

    def check(self) -> None:
        """What reaches from one place to another, and what texts refer to."""
        plant, network, procedures, parts = (self.sheets[name] for name in list(FILES)[:4])
        naming = Naming(plant, network, procedures, parts)
        self.faults.extend(crossing_faults(naming))
        for name, sheet in self.sheets.items():
            self.texts_of(name, sheet, naming)
        self.faults.extend(naming.faults_of_names())

    def read_one(self, name: str) -> None:
        shown, root = self.files[name], FILES[name]
        nothing = Sheet(shown, root, Document(), {()})
        self.sheets[name] = nothing
        try:
            content = content_of(self.folder / name, strict_yaml.LARGEST_BYTES)
        except FileNotFoundError:
            if name not in OPTIONAL:
                self.faults.append(Fault(shown, 0, "", say("description.no_file")))
            return
        except OSError:
            self.faults.append(Fault(shown, 0, "", say("description.no_plain_file")))
            return
        self.contents[name] = content
        try:
            document, part, at_fault, faults = _as_written(name, content, shown)
        except Faults as error:
            self.faults.extend(error)
            return
        self.sheets[name] = Sheet(shown, root, document, {*document.broken, *at_fault})
        self.faults.extend(faults)
        if part is not None:
            self.parts[name] = part

    def read_the_hours(self) -> None:
        """The hours of a year, where plant.yml names a table of them."""
        plant = self.sheets["plant.yml"]
        name = plant.text(*HOURLY)
        if name is None:
            return
        try:
            self.contents[name] = content_of(self.folder / name, hourly.LARGEST_BYTES)
        except OSError:
            self.faults.append(plant.fault(HOURLY, say("description.hourly.no_file", name=name)))
            return
        self.files[name] = plant.name.removesuffix("plant.yml") + name
        try:
            self.hours = read_hours(self.contents[name], name, self.files[name])
        except Faults as error:
            self.faults.extend(error)

    def texts_of(self, name: str, sheet: Sheet, naming: Naming) -> None:
        """Free texts refer in the one form that is read, and type no number with a unit."""
        if name not in self.parts:
            return
        for leaf in leaves(self.parts[name]):
            if not is_free_text(leaf):
                continue
            most = LONGEST_TITLE if leaf.slot.name == "title" else LONGEST_WORDS
            if len(leaf.value) > most:
                message = say("description.amounts.text_too_long", found=len(leaf.value), most=most)
                self.faults.append(sheet.fault(leaf.path, message))
                continue
            if (wrong := malformed(leaf.value)) is not None:
                self.faults.append(sheet.fault(leaf.path, say("description.reference", found=wrong)))
            for reference in references(leaf.value):
                if reference.is_tag:
                    naming.tag_stands(sheet, leaf.path, reference.name)
            for found in numbers_with_units(leaf.value):
                self.faults.append(sheet.fault(leaf.path, say("description.typed_number", found=found.text)))

    def description(self) -> Description:
        return Description(
            self.folder.resolve(),
            self.parts["plant.yml"],
            self.parts["network.yml"],
            self.parts["procedures.yml"],
            self.parts["parts.yml"],
            self.parts["record.yml"],
            self.parts.get("wall.yml"),
            {name: sheet.document for name, sheet in self.sheets.items()},
            self.files,
            self.contents,
            self.hours,
        )
