"""What is joined to what in service: from where a part is fed, where it leads to, how weak its weakest part is."""

from __future__ import annotations

import functools
from collections.abc import Callable, Iterable, Iterator, Mapping

from macros.description.item_kinds import HYDROGEN
from macros.figures.lines import rating_path
from macros.network import How, Port, Way
from macros.quantities import say
from macros.review.reviewed import CANNOT, Reading, Reviewed

__all__ = [
    "beyond",
    "bore_of",
    "feeders",
    "highest_at",
    "line_ratings",
    "lowest",
    "part_of",
    "tags_beyond",
    "weakest",
    "working_pressure",
]

BOTH_WAYS = (How.FREE, How.LIMITS)
IN_SERVICE = (*BOTH_WAYS, How.ONE_WAY, How.LOWERS, How.RAISES, How.HOLDS_BACK)
"""How gas goes from part to part in service: not through a relief, a membrane or the seal of a piston."""

FEEDING: Mapping[str, tuple[str, ...]] = {
    "stack": ("h2", "h2_water"), "buffer": (), "bank": (), "booster": ("out",), "pressure_regulator": ("out",),
    "air_regulator": ("out",), "compressor": ("out",),
}  # fmt: skip
"""Kinds that hold or set the pressure of what follows them, and by which ports; vessels hold one at all of theirs."""

Crosses = Callable[[Way, bool], bool]
"""Whether a search crosses a way; the second says that it would go against it."""


def beyond(plant: Reviewed, starts: Iterable[Port], crosses: Crosses) -> frozenset[Port]:
    """Every port that a search comes to from some ports; vent lines are not entered."""
    beside: dict[Port, list[tuple[Port, Way, bool]]] = {}
    for way in plant.network.ways():
        beside.setdefault(way.start, []).append((way.end, way, False))
        beside.setdefault(way.end, []).append((way.start, way, True))
    headers, node = plant.piping.headers, plant.piping.node
    found = set(starts)
    waiting = list(found)
    while waiting:
        for there, way, against in beside.get(waiting.pop(), ()):
            if there not in found and node[there] not in headers and crosses(way, against):
                found.add(there)
                waiting.append(there)
    return frozenset(found)


def tags_beyond(plant: Reviewed, starts: Iterable[Port], crosses: Crosses) -> frozenset[str]:
    """The items that a search comes to."""
    return frozenset(tag for tag, _ in beyond(plant, starts, crosses))


def carries(plant: Reviewed, way: Way, media: Iterable[str]) -> bool:
    """Whether a way is a line of one of some media, or leads through an item."""
    line = plant.network.lines.get(way.through)
    return line is None or line.medium in media


def feeders(plant: Reviewed, port: Port) -> list[Port]:
    """
    The ports of all that feeds a part in service: vessels, the stack, boosters, regulators, the compressor.

    What stands behind one of these is not looked at: it sets the pressure.
    """
    medium = _medium(plant, port)
    media = HYDROGEN if medium in HYDROGEN else (medium,)
    kinds = {tag: item.kind.name for tag, item in plant.network.items.items()}

    def crosses(way: Way, against: bool) -> bool:
        inside = way.through in kinds and kinds[way.through] in FEEDING
        return not inside and carries(plant, way, media) and way.how in (IN_SERVICE if against else BOTH_WAYS)

    found = beyond(plant, [port], crosses)
    feeding = {each for each in found if each[1] in FEEDING.get(kinds[each[0]], ())}
    return sorted(feeding | {(tag, "") for tag, _ in found if kinds[tag] in ("buffer", "bank")})


def working_pressure(plant: Reviewed, port: Port) -> Reading:
    """
    The highest pressure in service at a port: that to which what feeds it is filled or set.

    Raises
    ------
    LookupError
        If nothing feeds it.
    """
    found = [plant.reading(path) for feeder in feeders(plant, port) for path in _service(plant, feeder)]
    if not found and _medium(plant, port) == "oxygen":
        return plant.reading("stack.anode_pressure")  # an open vent holds it, and nothing sets it
    if not found:
        raise LookupError(say("review.nothing_feeds", tag=port[0]))
    return max(found, key=lambda reading: reading.si)


def _medium(plant: Reviewed, port: Port) -> str:
    """What stands at a port by its section; hydrogen where it belongs to none."""
    section = plant.network.section_of(port[0])
    return plant.network.sections[section].medium if section else "hydrogen"


def _service(plant: Reviewed, feeder: Port) -> Iterator[str]:
    """The paths of the pressures to which a feeder fills what follows it."""
    tag, described = feeder[0], plant.described
    kind = plant.network.items[tag].kind.name
    if kind in ("stack", "buffer"):
        yield "buffer.cut_out"
    elif kind == "bank":
        yield from (f"banks.{name}.fill_pressure" for name, bank in described.banks.items() if bank.tag == tag)
    elif kind == "booster":
        yield from (f"banks.{each.target}.fill_pressure" for each in described.boosters if each.tag == tag)
    elif kind == "compressor":
        yield f"items.{tag.lower()}.highest_pressure"
    else:
        yield f"items.{tag.lower()}.set_pressure"


def rated(plant: Reviewed, section: str) -> Iterator[str]:
    """The paths of all that bears the pressure of a section: its items, their tees, tubes and fittings."""
    piping = plant.piping
    nodes = nodes_of(plant, section)
    for port, node in piping.node.items():
        path = rating_path(plant.plant.description, port) if node in nodes else None
        if path is not None:
            yield path
    for run in plant.network.runs:
        if piping.node[run.start] in nodes:
            yield from line_ratings(plant, run.line)


def line_ratings(plant: Reviewed, line: str) -> Iterator[str]:
    """The paths of what tube and fittings of a line bear."""
    for path in (f"safety.tube.{line.lower()}.rating", f"lines.{line.lower()}.fitting_rating"):
        if plant.has(path):
            yield path


def weakest(plant: Reviewed, *sections: str) -> str:
    """
    The path of the lowest rating in sections; that of one that cannot be told, where there is one.

    Raises
    ------
    LookupError
        If nothing there has a rating.
    """
    return lowest(plant, [path for section in sections for path in rated(plant, section)])


def lowest(plant: Reviewed, paths: Iterable[str]) -> str:
    """The path of the lowest of some values; that of one that cannot be told, where there is one."""
    found: dict[str, float] = {}
    for path in dict.fromkeys(paths):
        try:
            found[path] = plant.reading(path).si
        except CANNOT:
            return path
    if not found:
        raise LookupError(say("review.nothing_rated"))
    return min(found, key=lambda path: found[path])


def part_of(path: str) -> str:
    """Whose rating a path is, as a reader finds it in the network: a tag, a line, or the path itself."""
    parts = path.split(".")
    if parts[0] in ("items", "lines"):
        return parts[1].upper()
    return parts[2].upper() if path.startswith("safety.tube.") else path


def nodes_of(plant: Reviewed, section: str) -> frozenset[int]:
    """The nodes of a section; the suction of a booster has the pressure of what it draws from, and is none of them."""
    node, held = plant.piping.node, plant.network.sections[section].items
    nodes = plant.piping.nodes_of_section(section)
    if not nodes:
        nodes = frozenset(each for (tag, _), each in node.items() if tag in held)
    return nodes - frozenset(suctions(plant))


def suctions(plant: Reviewed) -> dict[int, str]:
    """The nodes from which boosters draw, each with the path of the highest pressure there."""
    return {
        plant.piping.node[booster.tag, "in"]: f"boosters.{number}.supply_proof"
        for number, booster in enumerate(plant.described.boosters, start=1)
    }


def highest_at(plant: Reviewed, nodes: Iterable[int]) -> Callable[[], Reading] | None:
    """What tells the highest pressure of the sections to which some nodes belong; none where no section has one."""
    wanted = set(nodes)
    paths = [path for node, path in suctions(plant).items() if node in wanted]
    for name in plant.network.sections:
        if plant.has(path := f"safety.{name}.highest_pressure") and nodes_of(plant, name) & wanted:
            paths.append(path)
    return functools.partial(_highest, plant, paths) if paths else None


def _highest(plant: Reviewed, paths: Iterable[str]) -> Reading:
    return max((plant.reading(path) for path in paths), key=lambda reading: reading.si)


def bore_of(plant: Reviewed, line: str) -> Reading:
    """The inner diameter of a line: as described, or what its wall leaves of its outer diameter."""
    at = f"lines.{line.lower()}"
    if plant.has(f"{at}.bore"):
        return plant.reading(f"{at}.bore")
    outer, wall = plant.reading(f"{at}.outer_diameter"), plant.reading(f"{at}.wall")
    return plant.made(outer, outer.si - 2 * wall.si, outer, wall)
