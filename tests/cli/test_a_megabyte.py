"""A megabyte of anything is answered by a process that may take 10 s of the processor and 500 MB of memory, no more.

The system holds the process to both: one that wants more is killed, and its test fails.
"""

from __future__ import annotations

import multiprocessing
import resource
from collections.abc import Callable
from pathlib import Path

import pytest

SECONDS = 10
MEMORY_BYTES = 500_000_000
MEGABYTE = 1_000_000

HEAD = """\
format: 1
build: {name: Alder, country: US}
battery: {chemistry: agm, capacity: 90 Ah, to main fuse: 5 in, to front box: 4 ft}
front box: {fuse ways: 12, fuses: blade regular}
tow plug: {pattern: 7-way blade, to front box: 7 ft}
"""


def repeated(line: str, count: int = MEGABYTE) -> str:
    """Return a line as often as it fits into a megabyte, or less often; ``#`` in it is its number."""
    room = MEGABYTE - len(HEAD) - 1_000
    made, size = [], 0
    for number in range(count):
        made.append(line.replace("#", str(number)))
        size += len(made[-1].encode())
        if size > room:
            break
    return "".join(made)


def circuits(circuit: str, parts: str, count: int) -> str:
    """Return a build of so many circuits, each with its own parts."""
    return f"{HEAD}parts:\n{repeated(parts, count)}circuits:\n{repeated(circuit, count)}"


def legs(count: int, end: str = "lamp #: 1 ft") -> str:
    """Return a circuit whose path runs through ``count`` legs of its own fuses to its lamp."""
    way = ", ".join(f"w{n} # fuse: 1 ft" for n in range(count - 1))
    return f"  circuit #: {{path: [{way}, {end}]}}\n"


def returns(count: int) -> str:
    """Return a build of so many circuits, each of which returns to the splice of the one before."""
    parts = repeated(LAMP + "  splice #: {kind: splice}\n", count)
    rows = "".join(
        f"  c{n}: {{path: [splice {n}: 1 ft, lamp {n}: 1 in]"
        + (f", return: splice {n - 1}}}\n" if n else "}\n")
        for n in range(count)
    )
    return f"{HEAD}parts:\n{parts}circuits:\n{rows}"


LAMP = "  lamp #: {kind: lamp, draws: 1 W}\n"

FILES: dict[str, Callable[[], str]] = {
    "brackets in a list": lambda: "a: [" + "x: [y], " * 100_000,
    "brackets never closed": lambda: "a: [\n" * 200_000,
    "two colons in a line": lambda: "a: b: c\n" * 120_000,
    "quotes that end nowhere": lambda: 'a: "\n' * 200_000,
    "quotes of two kinds": lambda: "a: " + "'\"" * 400_000,
    "empty lines": lambda: "\n" * 900_000 + "a: [",
    "comments in a list": lambda: "a: [x\n" + "# c\n" * 200_000,
    "anchors": lambda: "&a " * 300_000,
    "missing spaces": lambda: "a:\n" + " fuse:3 A\n" * 90_000,
    "invisible characters": lambda: "\u200b" * 300_000,
    "tabs": lambda: "a\tb: c\n\n" * 120_000,
    "blanks": lambda: " " * 900_000 + "a: [",
    "a text of many lines": lambda: "a: |\n" + " x\n" * 300_000 + "b: [",
    "a name": lambda: "x" * 900_000 + ": 3",
    "a number": lambda: HEAD.replace("90 Ah", "9" * 990_000 + " Ah"),
    "emoji": lambda: HEAD.replace("Alder", "🔥" * 240_000),
    "escapes": lambda: HEAD.replace("Alder", '"' + "\\U0001F525" * 99_000 + '"'),
    "aliases": lambda: HEAD + "x: &a y\n" + repeated("x#: *a\n"),
    "comments": lambda: HEAD + repeated("# a comment with: a colon, [brackets] and “quotes”\n"),
    "notes": lambda: HEAD + "parts:\n" + repeated("  lamp #: {kind: lamp, note: '" + "x y " * 490 + "'}\n"),
    "words that are not used here": lambda: (
        HEAD + "parts:\n" + repeated("  p#: {knid: lmap, darws: 5 W}\n", 3_200)
    ),
    "headings that are not used here": lambda: HEAD + repeated("circiuts #: x\n", 9_900),
    "assumptions that are none": lambda: HEAD + "assume:\n" + repeated("  coper temperature #: 5\n", 9_900),
    "parts that are not there": lambda: (
        HEAD
        + "parts:\n"
        + repeated(LAMP, 1_000)
        + "circuits:\n"
        + repeated("  c#: {path: [kamp #: 1 ft, lamb #: 1 ft]}\n", 900)
    ),
    "parts that wait and are not there": lambda: (
        HEAD + "waiting:\n" + repeated("  step lamp #: soon\n", 9_900)
    ),
    "parts without a wire": lambda: HEAD + "parts:\n" + repeated(LAMP, 3_200),
    "names that differ by one letter of another alphabet": lambda: (
        HEAD + "waiting:\n" + repeated("  lamp #: x\n  l\u0430mp #: x\n", 4_900)
    ),
    "spares": lambda: HEAD + "spares:\n" + repeated("  s#: {from: a, to: b, wire: 1 ft}\n", 2_400),
    "300 circuits of 3,000 legs": lambda: circuits(legs(10), LAMP, 300),
    "1,300 circuits": lambda: circuits("  c#: {path: [lamp #: 1 ft]}\n", LAMP, 1_300),
    "one circuit of 6,000 legs": lambda: HEAD + "circuits:\n" + legs(6_000),
    "300 circuits that all break every rule": lambda: circuits(
        "  c#: {path: [fan #: 90 ft], size: 18 AWG, fuse: 30 A}\n",
        "  fan #: {kind: fan, draws: 25 A}\n",
        300,
    ),
    "300 circuits that each return through the one before": lambda: returns(300),
    "600 relays that switch each other in a ring": lambda: circuits(
        "  c#: {path: [r#: {length: 1 in, as: contact}, r@: {length: 1 in, as: coil}]}\n",
        "  r#: {kind: relay, draws: 1 W}\n",
        600,
    ).replace("r@", "r1"),
    "800 road lamps": lambda: (
        HEAD + "road lamps:\n" + repeated("  r#: {shows: [tail, stop], side: both, wire: 14 ft}\n", 400)
    ),
}
"""What a file is made of, and the file: most of them a megabyte, the others as much as may be read."""


def check_within_limits(path: str) -> None:
    """Run the command in this process, held to the limits."""
    resource.setrlimit(resource.RLIMIT_CPU, (SECONDS, SECONDS))
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY_BYTES, MEMORY_BYTES))
    from click.testing import CliRunner  # noqa: PLC0415 - loaded ahead, once for all such processes

    from builder.cli import main  # noqa: PLC0415 - as before

    done = CliRunner().invoke(main, ["check", path])
    assert isinstance(done.exception, SystemExit | None), repr(done.exception)
    assert done.exit_code in (0, 1, 2), done.exit_code
    assert done.output


@pytest.fixture(scope="module")
def server() -> multiprocessing.context.ForkServerContext:
    """Return what forks a process that has loaded the program already, and little else."""
    context = multiprocessing.get_context("forkserver")
    context.set_forkserver_preload(["builder.cli", "builder.pages.verdict", "click.testing", __name__])
    return context


@pytest.mark.parametrize("what", FILES)
def test_a_megabyte_is_answered_within_time_and_memory(
    what: str, tmp_path: Path, server: multiprocessing.context.ForkServerContext
) -> None:
    path = tmp_path / "trailer.yaml"
    path.write_text(FILES[what](), encoding="utf-8")
    assert path.stat().st_size <= MEGABYTE
    process = server.Process(target=check_within_limits, args=(str(path),))
    process.start()
    process.join()
    assert process.exitcode == 0, "a number below 0 is the signal that ended it: the time was over"
