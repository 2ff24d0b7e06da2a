"""A part of a plan: some of its items where the whole plan has them, so that drawings of parts compare at a glance."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from diagrams.cuts import Beyond, Cut, cuts_of, labelled
from diagrams.layout import Plan
from diagrams.lettering import Room, letters_size
from diagrams.pipes import Arrow, Letters, Point, Run, bridge, dots_of, runs_of, set_letters
from diagrams.places import Box
from diagrams.proportions import DOT, HOP, LIVE, MARGIN, SLASH
from diagrams.routes import Leg
from diagrams.words import letters_of

__all__ = ["part_of"]

NEAR = 0.01


def part_of(
    whole: Plan, tags: Iterable[str], flags: Iterable[str], beyond: Beyond | None = None
) -> tuple[Plan, tuple[Cut, ...]]:
    """
    The plan of some items of a plan, each where it stood, and where lines go on beyond them.

    Parameters
    ----------
    whole : Plan
    tags : iterable of str
        The items that are kept.
    flags : iterable of str
        Names of the flags that are kept.
    beyond : callable, optional
        How the place is said at which a line goes on, from its tags and whether the line leads there; unsaid without.
    """
    kept, named = set(tags), set(flags)
    legs = [leg for leg in whole.legs if leg.start.item.tag in kept and leg.end.item.tag in kept]
    cuts = cuts_of(whole, legs, kept)
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
    if beyond is not None:
        for box in (*(run.box(LIVE) for run in every), *(cut.ink for cut in cuts)):
            room.take(box)
        cuts = labelled(cuts, beyond, room)
    boxes = [one.box for one in placed.values()] + [run.box(LIVE) for run in every]
    boxes += [block.box for _, block in blocks] + [flag.box for flag in shown] + [text.box for text in letters]
    boxes += [Box(*cut.end, *cut.end).grown(SLASH + 3) for cut in cuts] + [cut.box for cut in cuts if cut.box]
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
    (ax, ay), (bx, by) = run.start, run.end
    return min(ax, bx) - NEAR <= point[0] <= max(ax, bx) + NEAR and min(ay, by) - NEAR <= point[1] <= max(ay, by) + NEAR


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
            if not _on(middle, run):
                continue
            across, upright = letters_size(letters.text)
            half = (across if run.along else upright) / 2
            position = abs(middle[0] - run.start[0]) + abs(middle[1] - run.start[1])
            same = letters_of(run.leg.line.medium) == letters.text and run.leg.line.id not in found
            if same and run.free(position, half):
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
