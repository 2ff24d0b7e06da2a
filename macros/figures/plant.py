"""A plant as the floors above see it: its description, its network, its figures."""

from __future__ import annotations

import functools
import hashlib
import importlib.metadata
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from macros.description.loading import Description, load
from macros.figures import MODULES, boosters, costs, single_failures
from macros.figures.carrying import carry_over
from macros.figures.graph import Entry, Figure, FigureError, Graph
from macros.network import Network
from macros.quantities import Fault, Faults, store
from macros.quantities.languages import SOURCE, speaking

__all__ = ["Plant", "plants_in"]

LIBRARIES = ("CoolProp", "CurrencyConverter", "schemdraw", "pydantic", "PyYAML")
"""Libraries whose version may change a published number or drawing, and so enter the digest."""

NOT_SIGNED_FOR = ("record.yml", "wall.yml")
"""Files that change without the design."""

STATUS = re.compile(rb"^status:.*$", re.MULTILINE)


@dataclass(frozen=True, eq=False)
class Plant:
    """One plant, loaded whole and the same for as long as it lives. Build with `Plant.load`."""

    description: Description
    network: Network
    graph: Graph

    @classmethod
    def load(cls, folder: Path, root: Path | None = None, former: Plant | None = None) -> Plant:
        """
        Read a plant's folder and evaluate every figure once, but for those that wait until something asks. A plant whose
        figures all could be evaluated once, as it stands and with this code, need not show it again.

        Parameters
        ----------
        folder : Path
        root : Path, optional
            Against which messages name files.
        former : Plant, optional
            The plant before an edit of its description: only what descends from the edit is computed.

        Raises
        ------
        Faults
            Everything that is wrong with the description, or that keeps a figure from being evaluated.
        """
        plant = cls.of(load(folder, root))
        if former is not None:
            carry_over(former.graph, plant.graph)
        key = store.key_of("every figure evaluated", *plant.identity)
        if store.read(key) is None:
            if faults := list(plant._faults()):
                raise Faults(faults)
            store.write(key, True)
        return plant

    @classmethod
    def of(cls, description: Description) -> Plant:
        """A plant whose figures are evaluated as something asks for them, and that may fail then."""
        return cls(description, Network.of(description), Graph(entries_of(description), figures_of(description)))

    @property
    def name(self) -> str:
        return self.description.name

    @property
    def title(self) -> str:
        return self.description.plant.title

    @property
    def status(self) -> str:
        return self.description.plant.status

    @property
    def identity(self) -> tuple[str, str, str]:
        """What stands, in a key of what is kept, for a plant as it was read from its folder; see `store`."""
        return self.name, self.description.file("plant.yml"), self._whole_digest

    @property
    def digest(self) -> str:
        """Twelve hexadecimal digits over the description, our code and the libraries that decide numbers."""
        return self._whole_digest[:12]

    @functools.cached_property
    def _whole_digest(self) -> str:
        """All of it: twelve digits tell plants apart for people, but somebody could seek another plant with the same."""
        digest = hashlib.sha256()
        for part in self.description.sources():
            digest.update(part)
        digest.update(code_digest())
        return digest.hexdigest()

    @functools.cached_property
    def design_digest(self) -> str:
        """
        Twelve hexadecimal digits over what somebody signs for: the design as described, and every figure as shown.

        The signature itself stands in the record and moves the status; neither enters, nor does the sheet's selection.
        A change of code voids it where it moves a figure. Figures that wait until something asks follow from the others;
        what it costs moves with the rates of the day and is no part of it.
        """
        digest = hashlib.sha256()
        for name, content in self.description.contents.items():
            if name not in NOT_SIGNED_FOR:
                digest.update(name.encode() + b"\0" + STATUS.sub(b"", content))
        for name, figure in self.graph.figures.items():
            if figure.late or name.startswith(costs.COSTS):
                continue
            value = self.graph[name]
            with speaking(SOURCE):  # the same digest in every language
                shown = value.show() if value.is_number or value.kind == "category" else value.kind
            digest.update(f"{name}={shown}\n".encode())
        return digest.hexdigest()[:12]

    def _faults(self) -> Iterator[Fault]:
        """One fault for each figure that fails, by itself or beside an uncertain entry; none for those that read it."""
        failed: set[str] = set()
        for path, message in boosters.faults(self.description, self.graph):
            failed |= {path, *self.graph.descendants([path])}
            file, _, line = self.description.places[path].rpartition(":")
            yield Fault(file, int(line), path, message)
        for name, one in self.graph.figures.items():
            if one.late:
                continue
            try:
                if self.graph[name].is_number:
                    self.graph.uncertainty(name)
            except FigureError as error:
                if error.name not in failed:
                    failed.add(error.name)
                    yield Fault(self.description.file("plant.yml"), 0, error.name, error.reason)


@functools.cache
def code_digest() -> bytes:
    """Digest over our own Python and tables and the versions of the libraries that decide numbers."""
    digest = hashlib.sha256()
    here = Path(__file__).parent.parent
    for package in (here, here.parent / "diagrams"):
        for path in sorted(package.rglob("*")):
            if path.suffix in (".py", ".toml"):
                digest.update(path.relative_to(here.parent).as_posix().encode() + b"\0" + path.read_bytes())
    for library in LIBRARIES:
        digest.update(f"{library}=={importlib.metadata.version(library)}\n".encode())
    return digest.digest()


def entries_of(description: Description) -> Iterator[Entry]:
    """The entries of a description as the graph reads them."""
    for path, value, title, symbol, default, place in description.entries():
        assumed, safe = (default.source, default.safe) if default else ("", "")
        yield Entry(path, value, title, symbol, assumed, safe, place)
    yield from costs.entries(description)


def figures_of(description: Description) -> Iterator[Figure]:
    """Every figure that this plant has parts for, module by module; last the one that must know all others."""
    known = {entry.path for entry in description.entries()}
    counts = {entry.path for entry in description.entries() if getattr(entry.value, "kind", "") == "count"}
    for module in MODULES:
        for one in module.figures(description):
            known.add(one.name)
            if one.kind == "count":
                counts.add(one.name)
            yield one
    yield from costs.figures(description, known, counts)
    yield from single_failures.figures(description, known)


def plants_in(designs: Path, root: Path | None = None) -> list[Plant]:
    """
    Every plant of a folder of designs, by name.

    Raises
    ------
    Faults
        Everything wrong in any of them, at once.
    """
    plants: list[Plant] = []
    faults: list[Fault] = []
    for folder in folders_in(designs):
        try:
            plants.append(Plant.load(folder, root))
        except Faults as error:
            faults.extend(error)
    if faults:
        raise Faults(faults)
    return plants


def folders_in(designs: Path) -> Iterable[Path]:
    """The folders that hold a plant."""
    return sorted(path.parent for path in designs.glob("*/plant.yml"))
