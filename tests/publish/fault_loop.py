"""Strike a publish at each of its file calls in turn and see what is left.

``python tests/publish/fault_loop.py`` strikes every call with every fault (about 2000 publishes, a quarter of an
hour of one core); with ``--few`` it makes the runs of the tests. Each publish runs in a fork of one process, and
the kernel itself asks before each of its file calls. A call of a kind that is not known here ends the loop.

After each publish the target, found by its name, must hold the old or the new site byte for byte, whichever the
command said, with nothing left beside it; and the next publish must succeed and leave nothing beside it.
"""
# ruff: noqa: T201 - a command prints

from __future__ import annotations

import argparse
import errno
import shutil
import signal
import sys
import tempfile
from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from fault_points import Counted, Point, few, few_of_each, not_written_through, unknown
from kernel_watch import Answer, Done, FileCall
from sample_manual import names_in, site_files
from watched_publish import BUILD_FILE, TARGET, Ended, Publishing

FAULTS: dict[str, int | signal.Signals] = {
    "ENOSPC": errno.ENOSPC,
    "EACCES": errno.EACCES,
    "EIO": errno.EIO,
    "SIGKILL": signal.SIGKILL,
    "SIGINT": signal.SIGINT,
    "SIGTERM": signal.SIGTERM,
}
_OF_LOOKS = ("EACCES", "EIO")
_TO_END = ("SIGINT", "SIGTERM")
_UNTOUCHED = " What was there before is untouched.\n"
_IN_MEMORY = Path("/dev/shm")  # noqa: S108 - a disk in memory, the quickest, where there is one


@dataclass(frozen=True, slots=True)
class Run:
    """One publish: the fault that strikes it, where, and whether its pages are rendered anew."""

    fault: str
    point: Point
    real: bool


def points_of(publishing: Publishing, real: bool) -> list[Point]:
    """The calls of one publish that nothing strikes, in their order."""
    around = publishing.fresh()
    points: list[Point] = []
    calls: list[FileCall] = []
    counted = Counted(around, TARGET)

    def note(call: FileCall) -> Answer:
        point = counted.point(call)
        if point is not None:
            points.append(point)
            calls.append(call)
        return Done.MADE

    ended = publishing.publish(around, note, real)
    assert (ended.code, ended.err) == (0, ""), ended
    assert site_files(around / TARGET) == publishing.new
    assert not unknown(points), f"not known to change or only to look: {unknown(points)}"
    unsure = not_written_through(calls, around, TARGET)
    assert not unsure, f"not written through when it was relied upon: {unsure}"
    return points


def every_run(real: list[Point]) -> Iterator[Run]:
    """Every fault at every call; a look needs no room and changes nothing that a signal could cut short."""
    for fault in FAULTS:
        yield from (Run(fault, point, True) for point in real if point.changes or fault in _OF_LOOKS)


def few_runs(real: list[Point], short: list[Point]) -> Iterator[Run]:
    """The runs of the tests, of all that ``every_run`` gives.

    Outside the staging folder each fault at every call that changes something, and one at a few of each kind
    that only look; in it each fault at the first, the last and ten other calls of each kind that changes
    something. Pages are rendered anew where the publisher makes the call; where we make it, files rendered
    before are written in their place (``short``), and our calls must be the same as if they were rendered.
    """
    ours = [_by_us(points) for points in (real, short)]
    assert ours[0] == ours[1]
    theirs = [point for point in real if point.changes and point not in ours[0]]
    through = few_of_each(point for point in ours[0] if point.zone == "staging")
    outside = [point for point in ours[0] if point.zone != "staging"]
    for fault in FAULTS:
        if fault in _TO_END:
            yield from (Run(fault, point, True) for point in few([point for point in real if point.changes]))
        else:
            yield from (Run(fault, point, False) for point in outside + through)
            yield from (Run(fault, point, True) for point in few_of_each(theirs))
    looks = few_of_each(point for point in short if point.zone != "staging" and not point.changes)
    yield from (Run(_OF_LOOKS[number % 2], point, False) for number, point in enumerate(looks))


def _by_us(points: Iterable[Point]) -> list[Point]:
    """The calls that change something and are made by us, not by the publisher of the pages."""
    return [point for point in points if point.changes and (point.zone != "staging" or point.kind == "fsync")]


def struck(publishing: Publishing, run: Run) -> tuple[str, list[str]]:
    """Make one run; return how it ended, and what was lost in it, in words."""
    around = publishing.fresh()
    counted = Counted(around, TARGET)
    hit = False

    def strike(call: FileCall) -> Answer:
        nonlocal hit
        if hit or counted.point(call) != run.point:
            return Done.MADE
        hit = True
        return FAULTS[run.fault]

    ended = publishing.publish(around, strike, run.real)
    left, beside = _left(around), sorted({*names_in(around)} ^ {TARGET, BUILD_FILE})
    following = publishing.publish(around)
    lost = [] if hit else ["the call was never made"]
    lost += _told_wrong(run, ended, left == publishing.old, left == publishing.new)
    if beside and run.fault != "SIGKILL" and run.point.zone != "removal":
        lost.append(f"beside it: {beside}")
    if (following.code, _left(around)) != (0, publishing.new):
        lost.append(f"the next publish: {following}")
    if names_in(around) != sorted((TARGET, BUILD_FILE)):
        lost.append(f"after the next publish: {names_in(around)}")
    shutil.rmtree(around)
    outcome = "old" if left == publishing.old else "new" if left == publishing.new else "lost"
    return f"{outcome} site, exit code {ended.code}", lost


def _left(around: Path) -> dict[str, bytes]:
    return site_files(around / TARGET) if (around / TARGET).is_dir() else {}


def _told_wrong(run: Run, ended: Ended, is_old: bool, is_new: bool) -> Iterator[str]:
    """Hold what the command said against what is there."""
    if not (is_old or is_new):
        yield "neither the old nor the new site is there"
    if run.fault in _TO_END:
        codes = {128 + FAULTS[run.fault]: is_old or is_new, 0: is_new}
    elif run.fault == "SIGKILL":
        codes = {-signal.SIGKILL: True}
    else:
        codes = {0: is_new, 2: is_old}
    if not codes.get(ended.code):
        yield f"exit code {ended.code} with the {'old' if is_old else 'new'} site"
    lines = 1 if ended.code > 0 else 0
    if ended.err.count("\n") != lines or "Traceback" in ended.err:
        yield f"stderr: {ended.err}"
    if ended.err.endswith(_UNTOUCHED) and not is_old:
        yield "what was there before is called untouched"


def main() -> None:
    """Run the loop as the command line asks; the exit code is 1 where something was lost."""
    asked = argparse.ArgumentParser(description="Strike a publish at each of its file calls in turn.")
    asked.add_argument("--few", action="store_true", help="only the runs of the tests")
    asked.add_argument("--faults", default=",".join(FAULTS), help="only these, with commas between")
    asked.add_argument(
        "--on", type=Path, default=_IN_MEMORY if _IN_MEMORY.is_dir() else None, metavar="FOLDER"
    )
    chosen = asked.parse_args()
    with tempfile.TemporaryDirectory(dir=chosen.on) as room:
        publishing = Publishing(Path(room))
        real = points_of(publishing, real=True)
        runs = few_runs(real, points_of(publishing, real=False)) if chosen.few else every_run(real)
        sys.exit(_loop(publishing, [run for run in runs if run.fault in chosen.faults.split(",")]))


def _loop(publishing: Publishing, runs: list[Run]) -> int:
    outcomes: Counter[tuple[str, str]] = Counter()
    anything = False
    for run in runs:
        outcome, lost = struck(publishing, run)
        outcomes[run.fault, outcome] += 1
        for words in lost:
            anything = True
            print(f"{run.fault} before {run.point}: {words}", file=sys.stderr)
    for (fault, outcome), count in sorted(outcomes.items()):
        print(f"{fault}: {count} times the {outcome}")
    print(f"{len(runs)} runs")
    return int(anything)


if __name__ == "__main__":
    main()
