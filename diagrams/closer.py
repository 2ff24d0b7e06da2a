"""A plan drawn closer together: strips in which nothing stands shrink, so that a part of a plan holds little white."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import reduce

from diagrams.cuts import Cut
from diagrams.flags import Flag
from diagrams.layout import Plan
from diagrams.lettering import Block
from diagrams.pipes import Arrow, Letters, Point, Run
from diagrams.places import Box, Placed
from diagrams.proportions import DOT, HOP, LIVE, MARGIN, RING
from diagrams.squeeze import Squeeze

__all__ = ["closer"]

KEEP = 30.0
"""White that is left of an empty strip."""


def closer(plan: Plan, cuts: Sequence[Cut] = ()) -> tuple[Plan, tuple[Cut, ...]]:
    """
    A plan and its cuts without wide empty strips.

    Whatever is drawn keeps its shape: each box lies whole within a stretch that only moves. Lines across an empty strip
    become shorter, and no order changes, so nothing comes to lie on anything else.
    """
    boxes = list(_boxes(plan, cuts))
    every = [run for leg in plan.runs for run in leg]
    standing = [run.box(LIVE) for run in every if not run.along]
    level = [run.box(LIVE) for run in every if run.along]
    moved = _Moved(
        Squeeze.of([(box.left, box.right) for box in (*boxes, *standing)], KEEP),
        Squeeze.of([(box.top, box.bottom) for box in (*boxes, *level)], KEEP),
    )
    runs = [[moved.run(run) for run in leg] for leg in plan.runs]
    of = {id(old): new for olds, news in zip(plan.runs, runs, strict=True) for old, new in zip(olds, news, strict=True)}
    made = replace(
        plan,
        placed={tag: moved.placed(one) for tag, one in plan.placed.items()},
        runs=runs,
        hops=[moved.point(point) for point in plan.hops],
        dots=[(moved.point(point), leg) for point, leg in plan.dots],
        arrows=[moved.arrow(arrow, of.get(id(arrow.run), arrow.run)) for arrow in plan.arrows],
        letters=[moved.letters(letters) for letters in plan.letters],
        line_labels=[replace(label, box=moved.box(label.box)) for label in plan.line_labels],
        blocks=[(moved.placed(one), moved.block(block)) for one, block in plan.blocks],
        flags=tuple(moved.flag(flag) for flag in plan.flags),
        box=reduce(Box.joined, (*map(moved.box, boxes), *(run.box(LIVE) for leg in runs for run in leg))).grown(MARGIN),
    )
    return made, tuple(moved.cut(cut) for cut in cuts)


def _boxes(plan: Plan, cuts: Sequence[Cut]) -> Iterator[Box]:
    """All that may not change its shape; of a line, what it covers across its way."""
    yield from (placed.box.grown(RING + 1) for placed in plan.placed.values())
    yield from plan.text_boxes()
    yield from (flag.stem_box for flag in plan.flags)
    yield from (arrow.box for arrow in plan.arrows)
    yield from (Box(x, y, x, y).grown(max(HOP, DOT) + 1) for x, y in (*plan.hops, *(point for point, _ in plan.dots)))
    yield from (cut.ink for cut in cuts)
    yield from (cut.box for cut in cuts if cut.box is not None)


@dataclass(frozen=True)
class _Moved:
    """Where everything comes to lie."""

    x: Squeeze
    y: Squeeze

    def point(self, point: Point) -> Point:
        return self.x(point[0]), self.y(point[1])

    def box(self, box: Box) -> Box:
        left, top = self.point((box.left, box.top))
        return box.moved(left - box.left, top - box.top)

    def placed(self, one: Placed) -> Placed:
        x, y = self.point((one.x, one.y))
        by = (x - one.x, y - one.y)
        ports = {
            name: tuple(replace(spot, x=spot.x + by[0], y=spot.y + by[1]) for spot in spots)
            for name, spots in one.ports.items()
        }
        return replace(one, x=x, y=y, box=one.box.moved(*by), ports=ports)

    def run(self, run: Run) -> Run:
        start = self.point(run.start)

        def along(position: float) -> float:
            x, y = self.point(run.at(position))
            return abs(x - start[0]) + abs(y - start[1])

        gaps = [(along(low), along(high)) for low, high in run.gaps]
        return Run(run.leg, start, self.point(run.end), [along(hop) for hop in run.hops], gaps)

    def arrow(self, arrow: Arrow, run: Run) -> Arrow:
        return replace(arrow, run=run, tip=self.point(arrow.tip))

    def letters(self, letters: Letters) -> Letters:
        return replace(letters, box=self.box(letters.box))

    def block(self, block: Block) -> Block:
        return replace(block, box=self.box(block.box))

    def flag(self, flag: Flag) -> Flag:
        start, end = (self.point(point) for point in flag.stem)
        return replace(flag, box=self.box(flag.box), stem=(start, end))

    def cut(self, cut: Cut) -> Cut:
        box = self.box(cut.box) if cut.box is not None else None
        return replace(cut, start=self.point(cut.start), end=self.point(cut.end), box=box)
