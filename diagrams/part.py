"""A part of a plan: some of its items where the whole plan has them, so that drawings of parts compare at a glance."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from diagrams.ink import number
from diagrams.layout import Plan
from diagrams.lettering import Room, letters_size
from diagrams.pipes import Arrow, Letters, Point, Run, bridge, dots_of, runs_of, set_letters, steps_of
from diagrams.places import Box
from diagrams.proportions import DOT, HOP, LIVE, MARGIN, SLASH, STUB
from diagrams.routes import Leg
from diagrams.words import letters_of

__all__ = ["Cut", "part_of", "slashes"]

NEAR = 0.01


@dataclass(frozen=True)
class Cut:
    """Where a line goes on beyond the part: the stub that is drawn of it, from what is kept outward."""

    leg: Leg
    start: Point
    end: Point


def part_of(whole: Plan, tags: Iterable[str], flags: Iterable[str]) -> tuple[Plan, tuple[Cut, ...]]:
    """
    The plan of some items of a plan, each where it stood, and where lines go on beyond them.

    Parameters
    ----------
    whole : Plan
    tags : iterable of str
        The items that are kept.
    flags : iterable of str
        Names of the flags that are kept.
    """
    kept, named = set(tags), set(flags)
    legs = [leg for leg in whole.legs if leg.start.item.tag in kept and leg.end.item.tag in kept]
    cuts = tuple(_cuts(whole, legs, kept))
    runs = runs_of(legs)
    every = [run for leg_runs in runs for run in leg_runs]
    hops = bridge(every)
    legs_cut = [cut.leg for cut in cuts]
    dots = [
        (point, leg) for point, leg in dots_of([*legs, *legs_cut])
        if any(cut.start == point for cut in cuts) or any(_on(point, run) for run in every)
    ]  # fmt: skip
    placed = {tag: one for tag, one in whole.placed.items() if tag in kept}
    blocks = [(one, block) for one, block in whole.blocks if one.item.tag in kept]
    shown = tuple(flag for flag in whole.flags if flag.name in named)
    arrows = list(_arrows(whole, legs, every))
    room = Room()
    for box in (
        *(one.box for one in placed.values()), *(block.box for _, block in blocks), *(flag.box for flag in shown),
        *(flag.stem_box for flag in shown), *(arrow.box for arrow in arrows),
        *(Box(x - HOP, y - HOP - 1, x + HOP, y) for x, y in hops),
        *(Box(x - DOT, y - DOT, x + DOT, y + DOT) for (x, y), _ in dots),
    ):  # fmt: skip
        room.take(box)
    letters = _letters(whole, every, room)
    boxes = [one.box for one in placed.values()] + [run.box(LIVE) for run in every]
    boxes += [block.box for _, block in blocks] + [flag.box for flag in shown] + [text.box for text in letters]
    boxes += [Box(*cut.end, *cut.end).grown(SLASH + 3) for cut in cuts]
    box = boxes[0]
    for other in boxes[1:]:
        box = box.joined(other)
    part = replace(
        whole, placed=placed, legs=legs, runs=runs, hops=hops, dots=dots, arrows=arrows, letters=letters,
        line_labels=[], blocks=blocks, flags=shown, box=box.grown(MARGIN),
    )  # fmt: skip
    return part, cuts


def _on(point: Point, run: Run) -> bool:
    """Whether a point lies on a stretch."""
    box = run.box(0)
    return box.left - NEAR <= point[0] <= box.right + NEAR and box.top - NEAR <= point[1] <= box.bottom + NEAR


def _cuts(whole: Plan, legs: Sequence[Leg], kept: set[str]) -> Iterator[Cut]:
    """A stub of every leg with one end kept, from where it parts from what is drawn."""
    drawn = {(leg.net, frozenset(edge)) for leg in legs for edge in pairwise(steps_of(leg))}
    begun: set[tuple[int, Point, Point]] = set()
    for leg in whole.legs:
        inside = leg.start.item.tag in kept
        if inside == (leg.end.item.tag in kept) or leg.to_instrument:
            continue
        steps = steps_of(leg)
        if not inside:
            steps = steps[::-1]
        for one, two in pairwise(steps):
            if (leg.net, frozenset((one, two))) in drawn:
                continue
            if (leg.net, one, two) not in begun:
                begun.add((leg.net, one, two))
                yield Cut(leg, one, _along(one, steps[steps.index(one) :]))
            break


def _along(start: Point, steps: Sequence[Point]) -> Point:
    """The end of a stub: as far as it may go before its line turns."""
    way = (_sign(steps[1][0] - start[0]), _sign(steps[1][1] - start[1]))
    length = 0.0
    for one, two in pairwise(steps):
        if (_sign(two[0] - one[0]), _sign(two[1] - one[1])) != way:
            break
        length += abs(two[0] - one[0]) + abs(two[1] - one[1])
    length = min(length, STUB)
    return (start[0] + way[0] * length, start[1] + way[1] * length)


def _sign(value: float) -> int:
    return (value > NEAR) - (value < -NEAR)


def _arrows(whole: Plan, legs: Sequence[Leg], every: Sequence[Run]) -> Iterator[Arrow]:
    """The flow arrows that still stand on a line that is drawn."""
    ours = {id(leg) for leg in legs}
    for arrow in whole.arrows:
        leg = arrow.run.leg
        run = next((run for run in every if run.leg.net == leg.net and _on(arrow.tip, run)), None)
        if id(leg) in ours and run is not None:
            yield replace(arrow, run=run)


def _letters(whole: Plan, every: Sequence[Run], room: Room) -> list[Letters]:
    """The letters of each line where the whole plan has them; elsewhere on the line where that place is not drawn."""
    pipes = Room()
    for run in every:
        pipes.take(run.box(LIVE))
    found: dict[str, Letters] = {}
    for letters in whole.letters:
        middle = ((letters.box.left + letters.box.right) / 2, (letters.box.top + letters.box.bottom) / 2)
        beside = not any(_on(middle, run) for leg_runs in whole.runs for run in leg_runs)
        if beside and any(run.leg.line.id == letters.line for run in every) and room.fits(letters.box, 1.0):
            found[letters.line] = letters
            room.take(letters.box)
        for run in every:
            across, upright = letters_size(letters.text)
            half = (across if run.along else upright) / 2
            position = abs(middle[0] - run.start[0]) + abs(middle[1] - run.start[1])
            same = letters_of(run.leg.line.medium) == letters.text and run.leg.line.id not in found
            if same and _on(middle, run) and run.free(position, half):
                run.gaps.append((position - half, position + half))
                found[run.leg.line.id] = replace(letters, line=run.leg.line.id)
                room.take(letters.box)
                break
    for name in dict.fromkeys(run.leg.line.id for run in every):
        own = [run for run in every if run.leg.line.id == name and not run.leg.to_instrument]
        if own and name not in found:
            letters_set = set_letters(own, letters_of(own[0].leg.line.medium), room, pipes)
            if letters_set is not None:
                room.take(letters_set.box)
                found[name] = letters_set
    return list(found.values())


def slashes(start: Point, end: Point) -> str:
    """Two short strokes aslant at the end of a stub: the line goes on, and is not drawn."""
    (ax, ay), (bx, by) = start, end
    along = abs(bx - ax) > abs(by - ay)
    ahead = 1 if (bx + by) > (ax + ay) else -1
    lean = (SLASH / 2, SLASH) if along else (SLASH, SLASH / 2)
    parts = []
    for off in (1.0, 4.0):
        x, y = (bx + ahead * off, by) if along else (bx, by + ahead * off)
        parts.append(f"M{number(x - lean[0])} {number(y + lean[1])}L{number(x + lean[0])} {number(y - lean[1])}")
    return f'<path class="gw-cut" d="{"".join(parts)}" stroke-width="1"/>'
