"""Measure how much CPU time the commands take, as ratios that mean the same on every machine.

Run by hand: ``python tests/benchmarks/publishing.py``. It prints, and asserts nothing. Each figure is user and system
time of a child process (only the growth is measured in this one). The two sides of a ratio take turns, so that a
machine that grows warm or busy slows both, and the median of the ratios of the turns counts.
"""

# ruff: noqa: T201 - it is there to print

from __future__ import annotations

import argparse
import os
import resource
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from pathlib import Path

from long_builds import build_of_circuits, build_of_places

from builder.drawings.circuit_drawing import circuit_drawings
from builder.numbers_beside import numbers_beside
from builder.pages.drawing_words import drawing_words
from builder.pages.verdict import judge_build

ROOT = Path(__file__).resolve().parents[2]
EXAMPLE = ROOT / "example_build" / "trailer.yaml"
OURS = (sys.executable, "-m", "builder.cli")
MKDOCS = (sys.executable, "-m", "mkdocs", "build", "--quiet")
ENVIRONMENT = {
    **{name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"},
    "NO_MKDOCS_2_WARNING": "1",
    "PYTHONPATH": os.pathsep.join([str(ROOT), os.environ.get("PYTHONPATH", "")]),
}
"""Both sides run from byte code, as they do where pip installed them; the warm-up writes ours."""
EMPTY_SITE = "site_name: Empty\ntheme: {name: material, font: false}\n"
ROWS = ((1, 3), (10, 4), (50, 9))
"""Circuits and lamps on each, for the growth from about 10 to 100 to 1,000 wires."""

Job = Callable[[], None]


def run(command: Sequence[str], folder: Path) -> None:
    """Run a command to its end; must-fix findings (exit code 1) do not count as failure."""
    done = subprocess.run(command, cwd=folder, env=ENVIRONMENT, capture_output=True, check=False)
    if done.returncode not in (0, 1):
        raise RuntimeError(f"{command}:\n{done.stdout.decode()}{done.stderr.decode()}")


def cpu_s(job: Job) -> float:
    """Return the CPU time of the processes that a job starts, in seconds."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    job()
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def own_cpu_s(job: Callable[[], object]) -> float:
    """Return the CPU time that a job takes in this process, in seconds."""
    before = time.process_time()
    job()
    return time.process_time() - before


def in_turns(first: Job, second: Job, turns: int) -> tuple[float, float, float]:
    """Return the median CPU time of two jobs in seconds, and the median of their ratio; one warm-up each."""
    first(), second()
    pairs = [(cpu_s(first), cpu_s(second)) for _ in range(turns)]
    ours, theirs = (statistics.median(side) for side in zip(*pairs, strict=True))
    return ours, theirs, statistics.median(a / b for a, b in pairs)


def told(name: str, measured: tuple[float, float, float], aim: float) -> None:
    ours, theirs, ratio = measured
    print(f"{name:<58} {ours:7.2f} s {theirs:7.2f} s   {ratio:5.2f}  (aim {aim})", flush=True)


def publish_against_mkdocs(build: Path, folder: Path, turns: int) -> tuple[float, float, float]:
    """Compare ``publish`` with a plain ``mkdocs build`` of the source that ``source --plain`` writes."""
    run([*OURS, "source", str(build), "--plain", "--into", str(folder / "source")], ROOT)
    return in_turns(
        lambda: run([*OURS, "publish", str(build), "--into", str(folder / "manual")], ROOT),
        lambda: run(MKDOCS, folder / "source"),
        turns,
    )


def inline_against_img(build: Path, folder: Path, turns: int) -> tuple[float, float, float]:
    """Compare ``mkdocs build`` of the source with drawings put into the pages and of the one with ``<img>``."""
    run([*OURS, "source", str(build), "--into", str(folder / "inline")], ROOT)
    run([*OURS, "source", str(build), "--plain", "--into", str(folder / "img")], ROOT)
    return in_turns(lambda: run(MKDOCS, folder / "inline"), lambda: run(MKDOCS, folder / "img"), turns)


def check_against_empty_site(build: Path, folder: Path, turns: int) -> tuple[float, float, float]:
    """Compare ``check`` with a ``mkdocs build`` of a site of one empty page."""
    (folder / "docs").mkdir()
    (folder / "docs" / "index.md").write_text("# Empty\n", encoding="utf-8")
    (folder / "mkdocs.yml").write_text(EMPTY_SITE, encoding="utf-8")
    return in_turns(
        lambda: run([*OURS, "check", str(build)], ROOT),
        lambda: run(MKDOCS, folder),
        turns,
    )


def growth(turns: int) -> None:
    """Print the CPU time a wire of all that ``figures`` does before it prints, measured in this process."""
    before = 0.0
    for circuits, lamps in ROWS:
        data = build_of_circuits(circuits, lamps)
        judged = judge_build(data, "trailer.yaml").judged
        if judged is None:
            raise RuntimeError(f"the build file of {circuits} circuits has problems")
        wires = len(judged.trailer.wires)
        taken_s = statistics.median(own_cpu_s(lambda data=data: judge_build(data, "")) for _ in range(turns))
        each_ms = 1000 * taken_s / wires
        grown = f"{each_ms / before:5.2f} times the row above" if before else ""
        print(f"figures, {wires:5d} wires: {taken_s:7.2f} s, {each_ms:6.2f} ms a wire  {grown}", flush=True)
        before = each_ms


def drawings(build: Path, turns: int) -> None:
    """Print time and size of the drawings of a build; the layout engine's time, a child's, is left out."""
    judged = judge_build(build.read_bytes(), build.name, numbers_beside(build)).judged
    if judged is None:
        raise RuntimeError(f"{build} has problems")
    numbers, words = [circuit.number for circuit in judged.trailer.circuits], drawing_words("en")
    args = (judged.trailer, judged.figures, numbers, lambda *_: "", words)
    taken_s = statistics.median(own_cpu_s(lambda: circuit_drawings(*args)) for _ in range(turns))
    sizes = [
        len(svg.encode()) / 1000
        for d in circuit_drawings(*args).circuits.values()
        for svg in (*d.narrow, *d.wide)
    ]
    each_ms = 1000 * taken_s / len(numbers)
    print(
        f"drawings of {len(numbers)} circuits, both forms: {each_ms:.1f} ms a circuit; {len(sizes)} strips,"
        f" {statistics.median(sizes):.1f} kB each, the largest {max(sizes):.1f} kB",
        flush=True,
    )


def main() -> None:
    """Print all ratios."""
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--turns", type=int, default=5, help="runs of each side (default 5)")
    turns = options.parse_args().turns
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        hundred = folder / "hundred.yaml"
        hundred.write_bytes(build_of_circuits(100))
        placed = folder / "placed.yaml"
        placed.write_bytes(build_of_places())
        places = [folder / word for word in ("example", "hundred", "empty", "pictures", "placed")]
        for place in places:
            place.mkdir()
        print(f"{'CPU time, median of ' + str(turns):<58} {'ours':>9} {'mkdocs':>9}   ratio")
        told(
            "publish the example : mkdocs build of its source",
            publish_against_mkdocs(EXAMPLE, places[0], turns),
            1.4,
        )
        told(
            "publish 100 circuits : mkdocs build of its source",
            publish_against_mkdocs(hundred, places[1], turns),
            1.2,
        )
        told(
            "publish 60 wires and 40 places : mkdocs build of it",
            publish_against_mkdocs(placed, places[4], turns),
            1.5,
        )
        told(
            "check the example : mkdocs build of an empty site",
            check_against_empty_site(EXAMPLE, places[2], turns),
            0.8,
        )
        told(
            "pages with drawings in them : pages with <img>",
            inline_against_img(EXAMPLE, places[3], turns),
            1.1,
        )
        growth(turns)
        drawings(EXAMPLE, turns)


if __name__ == "__main__":
    main()
