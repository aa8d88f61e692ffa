"""Feed the program build files that nobody would write, and stop at the first that it does not answer.

    python tests/fuzzing.py 10000

Half of the cases are drawn from the JSON Schema of the build file, half are the examples and the tests' builds spoiled
byte by byte or value by value; ``schema`` or ``bytes`` behind the number runs one half alone. Each case must be told
its problems, or be read, computed, judged and written as pages, within the time and memory that a build file may take.
The same number gives the same cases on every run, and ``--seed`` with another number gives others. A case that fails is
made as small as it can be and printed.
"""

from __future__ import annotations

import argparse
import csv
import json
import resource
import signal
import sys
import xml.etree.ElementTree as ET
import zlib
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from types import FrameType

from hostile_build import NAMES, TEXTS, build
from hypothesis import HealthCheck, Phase, given, seed, settings
from hypothesis import strategies as st
from ordinary_builds import ordinary_build
from schema_builds import from_schema, spoiled, values_changed

from builder.pages.manual import content_number, manual_source
from builder.pages.record import record, to_text
from builder.pages.verdict import Judgement, answer_brief, answer_record, answer_text, counted, judge_build

ROOT = Path(__file__).parents[1]
MEMORY_BYTES = 500_000_000
SECONDS = 10
PAGES_FOR_ALL = 1_000
"""From this many cases on, the pages of every build are written; below, those of one build in eight."""

WRITTEN = [
    *(path.read_bytes() for path in sorted((ROOT / "example_build").rglob("trailer.yaml"))),
    *(ordinary_build(seed).text.encode() for seed in range(8)),
    build(NAMES, TEXTS),
]
SOUND = sorted(WRITTEN, key=len)[:4]
"""Short files, of which a change leaves more that can be read."""
BROKEN = [path.read_bytes() for path in sorted((ROOT / "tests" / "broken").glob("*.yaml"))]
KINDS: dict[str, Callable[[], st.SearchStrategy[bytes]]] = {
    "schema": from_schema,
    "bytes": lambda: st.one_of(
        spoiled(WRITTEN),
        spoiled([*WRITTEN, *BROKEN]),
        values_changed(WRITTEN),
        values_changed(SOUND),
        values_changed(BROKEN),
    ),
}
_HIDDEN = {*map(chr, range(32)), "\x7f", "\u202e", "\u2066", "\u200b", "\u2028"} - {"\n"}


class TooSlowError(AssertionError):
    """A case took more of the processor's time than a build file may."""


@contextmanager
def within_time() -> Iterator[None]:
    """Raise when what is done inside takes longer than it may, in time of the processor."""

    def stop(signum: int, frame: FrameType | None) -> None:
        raise TooSlowError(f"more than {SECONDS} s of the processor's time")

    signal.signal(signal.SIGPROF, stop)
    signal.setitimer(signal.ITIMER_PROF, SECONDS)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)


def answer(data: bytes) -> Judgement | None:
    """Have a build file answered in every form, and hold the answer to what every answer must be."""
    verdict = judge_build(data, "trailer.yaml")
    assert verdict.exit_code in (0, 1, 2)
    assert (verdict.judged is None) == bool(verdict.problems) == (verdict.exit_code == 2)
    told = answer_text(verdict) + answer_text(verdict, 50) + answer_brief(verdict) + counted(verdict, 50)
    told.encode()
    assert not set(told) & _HIDDEN
    json.dumps(answer_record(verdict), allow_nan=False).encode()
    findings = verdict.judged.findings if verdict.judged else ()
    for told_of in (*verdict.problems, *findings):
        assert told_of.message
        assert told_of.help
        assert 1 <= told_of.origin.line <= len(verdict.lines)
        assert 1 <= told_of.origin.column <= len(verdict.lines[told_of.origin.line - 1]) + 1
    return verdict.judged


def pages(judged: Judgement, content: str) -> None:
    """Write both editions; every drawing must be XML, every record JSON, every list a table."""
    for edition in ("workshop", "owner"):
        for path, file in manual_source(judged, content, edition).files.items():
            if path.endswith(".svg"):
                ET.fromstring(file)
            elif path.endswith(".json"):
                json.loads(file)
            elif path.endswith(".csv"):
                assert len({len(row) for row in csv.reader(str(file).splitlines())}) == 1, path


def answered(data: bytes, with_pages: bool) -> int:
    """Run one case; returns its exit code."""
    with within_time():
        judged = answer(data)
    if judged is None:
        return 2
    to_text(record(judged.trailer, judged.figures, judged.findings)).encode()
    if with_pages:
        with within_time():
            pages(judged, content_number(data))
    return judged.exit_code


def run(kind: str, cases: int, seeded: int | None = None) -> dict[int, int]:
    """Run this many cases of a kind, the usual ones or those of a seed; returns how many ended in each exit code."""
    ended = {0: 0, 1: 0, 2: 0}

    @settings(
        max_examples=cases,
        deadline=None,
        derandomize=True,
        database=None,
        suppress_health_check=list(HealthCheck),
        phases=[phase for phase in Phase if phase is not Phase.explain],  # its tracing makes every case slow
    )
    @given(KINDS[kind]())
    def each(data: bytes) -> None:
        ended[answered(data, cases >= PAGES_FOR_ALL or zlib.crc32(data) % 8 == 0)] += 1

    (each if seeded is None else seed(seeded)(each))()
    return ended


def main() -> None:
    """Run what the command line asks for, in a process that may take no more memory than a build file."""
    asked = argparse.ArgumentParser(description="Feed the program build files that nobody would write.")
    asked.add_argument("cases", type=int)
    asked.add_argument("kind", nargs="?", choices=tuple(KINDS), help="one half alone")
    asked.add_argument("--seed", type=int, help="other cases than the usual ones")
    chosen = asked.parse_args()
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY_BYTES, MEMORY_BYTES))
    kinds = [chosen.kind] if chosen.kind else list(KINDS)
    for kind in kinds:
        ended = run(kind, chosen.cases // len(kinds), chosen.seed)
        told = ", ".join(f"{count} ended in {code}" for code, count in ended.items())
        sys.stdout.write(f"{kind}: {told}\n")


if __name__ == "__main__":
    main()
