"""The command as the system runs it: what it loads, what a pipe, a poor terminal and a signal do to it."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
EXAMPLE = ROOT / "example_build" / "trailer.yaml"
COMMAND = [sys.executable, "-m", "builder.cli"]
SMALLEST = ROOT / "example_build" / "smallest" / "trailer.yaml"
PUBLISHERS = ("mkdocs", "jinja2", "graphviz", "markdown")
CONVERTERS = ("pint", "babel")
"""What turns a number into a length that a reader expects: no finding of the smallest build tells one."""


def environment(**more: str) -> dict[str, str]:
    return {**os.environ, "PYTHONPATH": str(ROOT), **more}


def run(*arguments: str | Path, **environ: str) -> subprocess.CompletedProcess[bytes]:
    return subprocess.run(
        [*COMMAND, *map(str, arguments)],
        capture_output=True,
        env=environment(**environ),
        check=False,
        timeout=120,
    )


@pytest.mark.parametrize(
    ("arguments", "slow"),
    [
        (["check", str(EXAMPLE)], PUBLISHERS),
        (["figures", str(EXAMPLE)], PUBLISHERS),
        (["check", str(SMALLEST)], PUBLISHERS + CONVERTERS),
        (["figures", str(SMALLEST)], PUBLISHERS + CONVERTERS),
        (["words"], PUBLISHERS + CONVERTERS),
        (["schema"], PUBLISHERS + CONVERTERS),
        (["explain"], PUBLISHERS + CONVERTERS),
    ],
)
def test_a_quick_command_loads_no_publisher(arguments: list[str], slow: tuple[str, ...]) -> None:
    code = (
        "import sys\nfrom builder.cli import main\n"
        f"main({arguments!r}, standalone_mode=False)\n"
        f"print([name for name in {slow!r} if name in sys.modules], file=sys.stderr)"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, env=environment(), check=True, timeout=60
    )
    assert done.stderr.decode().splitlines()[-1] == "[]"


def test_the_module_runs_as_the_command() -> None:
    done = run("check", EXAMPLE)
    assert done.returncode == 0
    assert done.stderr == b""


def test_publish_shows_no_other_tool_s_words(tmp_path: Path) -> None:
    done = run("publish", EXAMPLE, "--into", tmp_path / "manual")
    assert done.returncode == 0
    assert done.stderr == b""
    assert len(done.stdout.splitlines()) == 1
    assert b"\x1b" not in done.stdout


@pytest.mark.parametrize("encoding", ["latin-1", "ascii", "cp1252", "utf-8"])
def test_a_terminal_of_few_signs_gets_the_answer_without_a_traceback(tmp_path: Path, encoding: str) -> None:
    path = tmp_path / "trailer.yaml"
    path.write_text("format: 1\nbuild: {name: 灯 Lantern, контрy: US}\n", encoding="utf-8")
    done = run("check", path, PYTHONIOENCODING=encoding, PYTHONUTF8="0")
    assert done.returncode == 2
    assert b"Traceback" not in done.stderr
    assert done.stdout.count(b"help:") >= 1
    assert b"\x1b" not in done.stdout


def test_json_is_utf_8_with_bare_line_ends_on_any_terminal(tmp_path: Path) -> None:
    path = tmp_path / "trailer.yaml"
    path.write_text("format: 1\nbuild: {name: 灯 Lantern, zzz: 1}\n", encoding="utf-8")
    told = [
        run("check", "--json", path, PYTHONIOENCODING=encoding).stdout for encoding in ("latin-1", "utf-8")
    ]
    assert told[0] == told[1]
    assert b"\r" not in told[0]
    assert json.loads(told[0].decode("utf-8"))["exit"] == 2


@pytest.mark.parametrize("arguments", [["words"], ["figures", str(EXAMPLE)], ["check", str(EXAMPLE)]])
def test_a_reader_that_leaves_early_is_no_fault(arguments: list[str]) -> None:
    reader, writer = os.pipe()
    os.close(reader)
    try:
        done = subprocess.run(
            [*COMMAND, *arguments],
            stdout=writer,
            stderr=subprocess.PIPE,
            env=environment(),
            check=False,
            timeout=60,
        )
    finally:
        os.close(writer)
    assert (done.returncode, done.stderr) == (0, b"")


NO_MORE_ROOM = (
    b"The answer could not be printed (No space left on device). What was printed of it is not whole.\n"
)


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no such device")
@pytest.mark.parametrize(
    "arguments",
    [["figures", EXAMPLE], ["check", EXAMPLE], ["schema"], ["begin", "new"], ["publish", "--help"]],
    ids=lambda arguments: arguments[0],
)
def test_an_answer_that_finds_no_room_ends_in_a_sentence(
    arguments: list[str | Path], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    with Path("/dev/full").open("wb") as full:
        done = subprocess.run(
            [*COMMAND, *arguments],
            stdout=full,
            stderr=subprocess.PIPE,
            env=environment(),
            check=False,
            timeout=60,
        )
    assert (done.returncode, done.stderr) == (2, NO_MORE_ROOM)


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no such device")
@pytest.mark.parametrize("arguments", [["check", "nowhere"], ["check", "--nothing"]])
def test_a_complaint_that_finds_no_room_keeps_its_exit_code(arguments: list[str]) -> None:
    with Path("/dev/full").open("wb") as full:
        done = subprocess.run(
            [*COMMAND, *arguments],
            stdout=subprocess.PIPE,
            stderr=full,
            env=environment(),
            check=False,
            timeout=60,
        )
    assert (done.returncode, done.stdout) == (2, b"")


def test_a_file_name_that_is_no_text_is_printed_all_the_same(tmp_path: Path) -> None:
    name = os.fsdecode(b"trailer-\xff.yaml")
    done = run("check", tmp_path / name)
    assert done.returncode == 2
    assert b"Traceback" not in done.stderr
    assert done.stderr.count(b"\n") == 1


@pytest.mark.skipif(os.name != "posix", reason="closed by a shell of another kind")
@pytest.mark.parametrize(
    ("arguments", "closed", "code", "told"),
    [
        (["check", "-"], "<&-", 2, b"this file is empty"),
        (["check", "-"], "0> out", 2, b"Standard input could not be read (Bad file descriptor)."),
        (["check", "--fix", "trailer.yaml"], "<&-", 2, b"Nothing was written."),
        (["check", "trailer.yaml"], "<&- >&- 2>&-", 2, b""),
    ],
)
def test_what_a_shell_has_closed_is_no_traceback(
    arguments: list[str], closed: str, code: int, told: bytes, tmp_path: Path
) -> None:
    (tmp_path / "trailer.yaml").write_text("format: 1\nlampz: 3\n", encoding="utf-8")
    done = subprocess.run(
        ["/bin/sh", "-c", f'exec "$@" {closed}', "sh", *COMMAND, *arguments],
        capture_output=True,
        env=environment(),
        cwd=tmp_path,
        check=False,
        timeout=120,
    )
    assert done.returncode == code
    assert told in done.stdout + done.stderr
    assert b"Traceback" not in done.stderr
