"""Where a way goes from one side of a frame to the other."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import groupby
from typing import Literal

from builder.routes.vectors import Vector, along
from builder.trailer.body import ENDS, FLATS, SIDES, Opening

AXES = {**dict.fromkeys(SIDES, (0, 2)), **dict.fromkeys(ENDS, (1, 2)), **dict.fromkeys(FLATS, (0, 1))}
"""By the wall: which of back, right and up a rectangle in it is measured by, along and across."""
BESIDE_M = 0.1
"""What is open nearer to a frame than this leaves no room to lead wires along between the two (common practice)."""
Along = Literal["before", "behind"] | None
"""On which side of a frame wires run along it: before it, behind it, or nobody knows."""


def crossings(
    points: Sequence[Vector],
    axis: int,
    at_m: float,
    half_m: float = 0.0,
    led: Callable[[Sequence[Vector]], Along] = lambda _points: None,
) -> Iterator[tuple[int, Vector]]:
    """Yield where a way goes from one side of a frame to the other, and the number of the step that leads there.

    The frame reaches ``half_m`` metres to both sides of ``at_m``. A way that ends at it, or comes back on the same
    side, passes nothing. One that runs along it before it goes on passes it at one end of that part: where it comes
    from the front or from below, since one bores where the wires come and leads them on behind the frame (common
    practice). Where ``led`` tells of that part that wires run before the frame, it is the other end; and where it
    tells one of both, what only begins or ends on the frame after running along it passes it too, if it goes on to
    the other side. Both directions of a way have the same hole, and the step is that before it as seen from there.
    """
    sides = [_side(point[axis] - at_m, half_m) for point in points]
    spans = [(side, [n for n, _ in run]) for side, run in groupby(enumerate(sides), key=lambda one: one[1])]
    for place, (side, here) in enumerate(spans):
        if side:
            follows = spans[place + 1] if place + 1 < len(spans) else (0, [])
            if follows[0] == -side:
                first, second = sorted((here[-1], follows[1][0]))
                low, high = (first, second) if sides[first] < 0 else (second, first)
                share = (at_m - points[low][axis]) / (points[high][axis] - points[low][axis])
                yield min(low, high), along(points[low], points[high], share)
            continue
        before = spans[place - 1][0] if place else 0
        after = spans[place + 1][0] if place + 1 < len(spans) else 0
        end = _passed_at(before, after, led([points[n] for n in here]) if len(here) > 1 else None)
        if end is not None:
            at_start = before == end
            yield _step(here, at_start=at_start, low=end < 0), points[here[0] if at_start else here[-1]]


def _side(beyond_m: float, half_m: float) -> int:
    """Return on which side of a frame a point is: -1 before it, 1 behind it, 0 on it."""
    return 0 if abs(beyond_m) <= half_m else 1 if beyond_m > 0 else -1


def _passed_at(before: int, after: int, led: Along) -> int | None:
    """Return on which side the end lies at which a part on a frame passes it; None where it passes nothing.

    ``before`` and ``after`` are the sides that the way comes from and goes on to, 0 where it begins or ends.
    """
    if before and after:
        return None if before == after else 1 if led == "before" else -1
    other = before or after
    known = {"before": 1, "behind": -1}.get(led or "", 0)
    return other if other and other == known else None


def _step(here: Sequence[int], *, at_start: bool, low: bool) -> int:
    """Return the number of the step on the near side of the end of a part on a frame: the step that leads there."""
    if low or len(here) == 1:
        return here[0] - 1 if at_start else here[-1]
    return here[0] if at_start else here[-1] - 1


def led_by_openings(openings: Sequence[Opening], axis: int, at_m: float, points: Sequence[Vector]) -> Along:
    """Return on which side of a frame wires run along it at some points: not where an opening lies close beside it.

    The openings are those of the frame's wall; ``axis`` is the one that the frame stands across, at ``at_m`` metres.
    """
    open_before = open_behind = False
    for one in openings:
        along_axis, across_axis = AXES[one.wall]
        across, beside = (one.along_m, one.wide_m), (one.across_m, one.high_m)
        other = across_axis
        if axis == across_axis:
            across, beside, other = beside, across, along_axis
        low, high = min(p[other] for p in points), max(p[other] for p in points)
        if min(high, sum(beside)) > max(low, beside[0]):
            open_behind |= 0 <= across[0] - at_m < BESIDE_M
            open_before |= 0 <= at_m - sum(across) < BESIDE_M
    return None if open_before == open_behind else "before" if open_behind else "behind"
