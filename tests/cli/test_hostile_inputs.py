"""Build files with bad intentions: each is refused in a sentence at its place, or read as what it says.

Whatever comes, the command ends in 2, 1 or 0 without a traceback, writes nothing but the folder it was asked for, and
leaves the last good manual as it was when the file has a problem.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
import unicodedata
from collections.abc import Sequence
from pathlib import Path

import pytest
from click.testing import CliRunner

from builder.cli import main

ROOT = Path(__file__).parents[2]

HEAD = """\
format: 1
build: {name: Alder, country: US}
battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 4 ft}
front box: {fuse ways: 8}
parts:
  lamp: {kind: lamp, draws: 3 W}
circuits:
  light: {path: [lamp: 6 ft]}
"""
"""A build without a problem; what is hostile goes behind it, from line 9 on, or takes the place of a value."""

Place = tuple[int, int, str]
"""Line, column, and words of the sentence."""


def behind(text: str) -> bytes:
    """Return the sound build with more text behind it."""
    return (HEAD + text).encode()


def instead(old: str, new: str) -> bytes:
    """Return the sound build with one value changed."""
    assert HEAD.count(old) == 1
    return HEAD.replace(old, new).encode("utf-8", "surrogatepass")


def note(value: str) -> bytes:
    """Return the sound build with a note in it, at line 8, column 36."""
    return instead("{path: [lamp: 6 ft]}", "{path: [lamp: 6 ft], note: " + value + "}")


BOMB = "".join(f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 9) if n else 'x'}]\n" for n in range(10))

REFUSED: dict[str, tuple[bytes, Sequence[Place]]] = {
    "aliases that grow ninefold ten times": (
        behind(BOMB),
        [
            place
            for n in range(10)
            for place in (
                (9 + n, 1, f"“a{n}” is not a word"),
                (9 + n, 5, "anchors and aliases are not used here" if n < 9 else "may not start with &"),
            )
        ],
    ),
    "a list that holds itself": (
        note("&a [*a]"),
        [(8, 37, "a list stands where a text is wanted"), (8, 41, "the very thing that it stands in")],
    ),
    "500 brackets that are never closed": (behind("log: " + "[" * 500), [(9, 45, "more than 40")]),
    "more entries than anybody writes": (
        behind("spares: [" + "x," * 20_000 + "]"),
        [(9, 39_926, "20,000 entries")],
    ),
    "a whole book in one value": (note("x" * 900_000), [(8, 37, "900,000 characters")]),
    "a number of 5,000 digits": (instead("3 W", "9" * 5_000 + " W"), [(6, 29, "5,002 characters")]),
    "a number of 1,900 digits": (instead("3 W", "9" * 1_900 + " W"), [(6, 29, "too long a number")]),
    "infinity": (instead("3 W", ".inf"), [(6, 29, "not a number that can be measured")]),
    "infinitely many watts": (instead("3 W", "inf W"), [(6, 29, "not a number that can be measured")]),
    "what is not a number": (instead("3 W", ".nan"), [(6, 29, "not a number that can be measured")]),
    "more watts than a float holds": (instead("3 W", "1e400 W"), [(6, 29, "too large a number")]),
    "a wire thinner than nothing": (
        instead("path: [lamp: 6 ft]", "path: [lamp: 6 ft], size: -1 mm²"),
        [(8, 37, "below zero")],
    ),
    "a lamp for no voltage": (instead("3 W", "3 W, at: 0 V"), [(6, 38, "a voltage above zero")]),
    "a tag that would run a program": (
        note('!!python/object/apply:os.system "touch run"'),
        [(8, 37, "tags are not used here")],
    ),
    "a tag of bytes": (note("!!binary aGVsbG8="), [(8, 37, "tags are not used here")]),
    "half a character as an escape": (note('"\\ud800"'), [(8, 38, "half of a character (U+D800)")]),
    "half a character in the bytes": (note("\ud800"), [(8, 37, "not UTF-8")]),
    "a bell": (note("ring\x07"), [(8, 41, "a control character here (U+0007)")]),
    "a bell as an escape": (note('"\\x07"'), [(8, 38, "a control character here (U+0007)")]),
    "a colour for the terminal": (note("\x1b[31mred"), [(8, 37, "a control character here (U+001B)")]),
    "a byte of nothing": (note("a\x00b"), [(8, 38, "a control character here (U+0000)")]),
    "Latin-1": (HEAD.replace("Alder", "Alén").encode("latin-1"), [(2, 17, "not UTF-8 (byte 26, 0xE9)")]),
    "UTF-16 that ends in the middle of a sign": (
        HEAD.encode("utf-16")[:-1],
        [(8, 30, "not UTF-16 (byte 466, 0x0A)")],
    ),
    "UTF-8 behind the mark of UTF-16": (
        b"\xff\xfe" + HEAD.encode(),
        [(1, 117, "not UTF-16 (byte 234, 0x0A)")],
    ),
    "lines that end as on an old Mac": (
        behind("zzz: 1\n").replace(b"\n", b"\r"),
        [(9, 1, "“zzz” is not a word")],
    ),
    "lines that end in two ways": (
        HEAD.replace("\n", "\r\n", 3).encode() + b"zzz: 1\r",
        [(9, 1, "“zzz” is not a word")],
    ),
    "a name that turns the text round": (
        instead("light:", "li\u202eght:"),
        [(8, 5, "U+202E, right-to-left")],
    ),
    "a name that turns the text round, as an escape": (
        instead("light:", '"li\\u202eght":'),
        [(8, 6, "U+202E, right-to-left")],
    ),
    "a word with a gap that nobody sees": (
        instead("draws:", "dra\u200bws:"),
        [(6, 25, "U+200B, zero width space")],
    ),
    "a name with a letter of another alphabet": (
        instead("parts:\n", "parts:\n  l\u0430mp: {kind: lamp, draws: 3 W}\n"),
        [(7, 3, "look the same but are written with different letters: U+0061 here, U+0430 there")],
    ),
    "a name composed and taken apart": (
        instead("parts:\n", "parts:\n  caf\u00e9: {kind: lamp}\n  cafe\u0301: {kind: lamp}\n"),
        [(7, 3, "`café` is written twice, first at line 6")],
    ),
    "a name in capitals and in small letters": (
        behind("  LIGHT: {path: [lamp: 6 ft]}\n"),
        [(9, 3, "`LIGHT` is written twice, first at line 8 as `light`")],
    ),
    "a name of dots": (instead("light:", '"..":'), [(8, 3, "holds no letter or number")]),
    "a name that is a stroke": (instead("light:", '"/":'), [(8, 3, "holds no letter or number")]),
    "a name of nothing": (instead("light:", '"":'), [(8, 3, "a name is missing")]),
    "a name of blanks": (instead("light:", '"   ":'), [(8, 3, "a name is missing")]),
    "a part that is called as a place for a fuse": (
        instead("parts:\n  lamp", "parts:\n  Way 1"),
        [(6, 3, "“Way 1” is a place in the fuse block"), (8, 18, "“lamp” is not a part")],
    ),
    "a name of 300 letters": (instead("light:", "x" * 300 + ":"), [(8, 3, "300 characters")]),
    "a circuit that feeds itself": (
        instead("[lamp: 6 ft]", "[lamp: 6 ft, lamp: 2 ft]"),
        [(8, 30, "already on the path of this circuit at line 8")],
    ),
    "a circuit that starts at its own end": (
        instead("[lamp: 6 ft]", "[lamp: 6 ft], from: lamp"),
        [(8, 37, "cannot start from “lamp”")],
    ),
    "a circuit of 101 items": (
        instead("[lamp: 6 ft]", "[" + ", ".join(f"lamp {n}: 1 ft" for n in range(101)) + "]"),
        [(8, 1_508, "this circuit has 101 items")],
    ),
    "a leg of 10 km": (instead("6 ft", "10 km"), [(8, 27, "km is not a unit")]),
    "a leg of 10,000 m": (instead("6 ft", "10000 m"), [(8, 24, "longer than any wire here")]),
}
"""What a file holds, the file, and the problems that are told of it, all of them."""

READ: dict[str, bytes] = {
    "UTF-16": HEAD.encode("utf-16"),
    "UTF-8 behind a byte-order mark": HEAD.encode("utf-8-sig"),
    "lines that end as on an old Mac": HEAD.replace("\n", "\r").encode(),
    "no circuit": HEAD.split("circuits:", maxsplit=1)[0].encode(),
    "a circuit called con": instead("light:", "con:"),
    "a circuit called aux.": instead("light:", "aux.:"),
    "a circuit called lamp: left?": instead("light:", '"lamp: left?":'),
    "a circuit called ../../x": instead("light:", "../../x:"),
    "a circuit called as a formula": instead("light:", '"=1+1":'),
}
"""What a file holds, and the file, which is read as any other."""


def contents(folder: Path) -> dict[str, bytes]:
    """Return every file below a folder."""
    return {str(path.relative_to(folder)): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


@pytest.fixture(scope="module")
def last_good(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a folder with the last good manual in it, and nothing else."""
    folder = tmp_path_factory.mktemp("published")
    build = folder / "trailer.yaml"
    build.write_text(HEAD, encoding="utf-8")
    done = CliRunner().invoke(main, ["publish", str(build), "--into", str(folder / "manual")])
    assert done.exit_code == 0, done.output
    return folder


@pytest.mark.parametrize("what", REFUSED)
def test_what_is_refused_is_told_at_its_place(what: str, last_good: Path) -> None:
    data, told = REFUSED[what]
    done = CliRunner().invoke(main, ["check", "-", "--json"], input=data)
    assert done.exit_code == 2
    assert isinstance(done.exception, SystemExit)
    problems = json.loads(done.stdout)["problems"]
    assert [(problem["line"], problem["column"]) for problem in problems] == [place[:2] for place in told]
    for problem, (_, _, words) in zip(problems, told, strict=True):
        assert words in problem["message"]
        assert problem["help"]


@pytest.mark.parametrize("what", REFUSED)
def test_what_is_refused_leaves_the_last_good_manual(what: str, last_good: Path) -> None:
    before = contents(last_good)
    for command in ("publish", "source"):
        done = CliRunner().invoke(
            main, [command, "-", "--into", str(last_good / "manual")], input=REFUSED[what][0]
        )
        assert done.exit_code == 2
        assert "Nothing was written." in done.stderr
        assert not {char for char in done.output if unicodedata.category(char) in ("Cc", "Cf")} - {"\n"}
    assert contents(last_good) == before


@pytest.mark.parametrize("what", READ)
def test_what_is_read_is_judged_like_any_other_build(what: str) -> None:
    done = CliRunner().invoke(main, ["check", "-", "--json"], input=READ[what])
    assert json.loads(done.stdout)["problems"] == []
    assert done.exit_code == 0


def test_a_file_that_is_far_too_large_is_not_read() -> None:
    done = CliRunner().invoke(main, ["check", "-"], input=b"#" * 2_100_000)
    assert done.exit_code == 2
    assert "larger than 2 MB" in done.stderr


WITHOUT_LIBYAML = """
import sys
sys.modules["yaml._yaml"] = None
import yaml
assert not yaml.__with_libyaml__
"""
ANSWERS = """
import json, sys
sys.path.insert(0, sys.argv[1])
from test_hostile_inputs import READ, REFUSED
from builder.pages.verdict import answer_record, judge_build
for data in [*READ.values(), *(data for data, _ in REFUSED.values())]:
    if len(data) < 20_000:
        print(json.dumps(answer_record(judge_build(data, "trailer.yaml"))))
"""


def test_the_answers_are_the_same_without_the_fast_yaml_library() -> None:
    told = [
        subprocess.run(
            [sys.executable, "-c", first + ANSWERS, str(Path(__file__).parent)],
            env={**os.environ, "PYTHONPATH": str(ROOT)},
            capture_output=True,
            check=True,
        ).stdout
        for first in ("", WITHOUT_LIBYAML)
    ]
    assert told[0] == told[1]
    assert len(told[0].splitlines()) > 40
