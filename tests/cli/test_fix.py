"""``check --fix``: what it offers, what it writes and when, and that a file is never lost over it."""

from __future__ import annotations

import errno
import io
import os
import stat
import sys
from collections.abc import Callable, Iterable
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from builder import cli, console
from builder.buildfile.resolving import read_build
from builder.fixing.saving import SaveError, replace_file

BAD = """\
# my trailer, \u6f22
format: 1
build: {name: Bean Row, country: US}   # keep me
battery: {chemistry: lithuim, capacity: 35, to main fuse: 5 in, to front box: 4 ft}
front box: {fuse ways: 6}
parts:
  fan: {kind: fan,  draws: 3 A}   # it  hums
circuits:
  fan: {path: [fan]}
"""
SPELT = BAD.replace("lithuim", "lithium")


@pytest.fixture
def path(tmp_path: Path) -> Path:
    found = tmp_path / "trailer.yaml"
    found.write_bytes(BAD.encode())
    return found


def run(*arguments: str | Path, text: str | None = None, **environ: str) -> Result:
    return CliRunner(env=environ).invoke(cli.main, ["check", *map(str, arguments)], input=text)


@pytest.fixture
def answers(monkeypatch: pytest.MonkeyPatch) -> Callable[[Iterable[str | None]], list[str]]:
    """Give a function that puts somebody with these answers before the terminal; it returns what was asked."""

    def prepare(said: Iterable[str | None]) -> list[str]:
        asked: list[str] = []
        left = iter(said)

        def ask(question: str) -> str | None:
            asked.append(question)
            return next(left)

        monkeypatch.setattr(cli, "asker", lambda: ask)
        return asked

    return prepare


def test_in_a_pipe_edits_are_shown_and_nothing_is_written(path: Path) -> None:
    result = run("--fix", path)
    assert result.exit_code == 2
    assert path.read_bytes() == BAD.encode()
    assert "  1  write `lithium`\n      4 > battery: {chemistry: lithium, capacity: 35," in result.stdout
    assert "  1  write `35 Ah`\n" in result.stdout
    assert "  1  write `fan: ___`\n      9 >   fan: {path: [fan: ___]}\n" in result.stdout
    assert "Nothing was written." in result.stdout
    assert "\x1b" not in result.output


def test_with_yes_only_spelling_is_written_and_all_else_stays(path: Path) -> None:
    result = run("--fix", "--yes", path)
    assert path.read_bytes() == SPELT.encode()
    assert result.exit_code == 2
    assert result.stdout.splitlines()[-2:] == [
        f"Wrote 1 change to {path}.",
        f"2 problems. To see: wiring-manual check {path}",
    ]
    again = run("--fix", "--yes", path)
    assert "Nothing was written.\n" in again.stdout
    assert path.read_bytes() == SPELT.encode()


@pytest.mark.parametrize("newline", ["\n", "\r\n"])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16"])
def test_encoding_and_line_ends_stay(path: Path, newline: str, encoding: str) -> None:
    path.write_bytes(BAD.replace("\n", newline).encode(encoding))
    run("--fix", "--yes", path)
    assert path.read_bytes() == SPELT.replace("\n", newline).encode(encoding)


def test_spelling_is_mended_in_as_many_rounds_as_it_takes(path: Path) -> None:
    sound = SPELT.replace("35,", "35 Ah,").replace("[fan]", "[fan: 12 ft]")
    path.write_text(
        sound.replace("kind: fan", "kind: fann").replace("draws", "drawss").replace("path", "pth"),
        encoding="utf-8",
    )
    result = run("--fix", "--yes", path)
    assert path.read_text(encoding="utf-8") == sound
    assert result.exit_code == 0
    assert "Wrote 3 changes" in result.stdout


def test_each_problem_is_asked_for_and_the_chosen_edits_are_written_at_the_end(
    path: Path, answers: Callable[..., list[str]]
) -> None:
    asked = answers(["1", "1", "1", "y"])
    result = run("--fix", path)
    wanted = SPELT.replace("35,", "35 Ah,").replace("[fan]", "[fan: ___]")
    assert path.read_bytes() == wanted.encode()
    assert result.exit_code == 2
    assert [question.partition("?")[0] for question in asked] == ["Make which change"] * 3 + [
        f"Write 3 changes to {path}"
    ]
    assert "a blank is left here" in result.stdout
    assert "no edit is known: only the maker knows what belongs there" in result.stdout


@pytest.mark.parametrize(
    "said",
    [
        ["n", "n", "n"],
        ["q"],
        ["1", "q", "n"],
        ["1", "q", ""],
        ["1", "q", None],
        ["1", None],
        [None],
        ["what?", "0", "9", "", "q"],
    ],
)
def test_nothing_is_written_unless_it_is_said(
    path: Path, answers: Callable[..., list[str]], said: list[str | None]
) -> None:
    asked = answers(said)
    result = run("--fix", path)
    assert path.read_bytes() == BAD.encode()
    assert result.exit_code == 2
    assert len(asked) == len(said)
    assert "Nothing was written.\n" in result.stdout


def test_what_is_chosen_before_the_end_may_be_written(path: Path, answers: Callable[..., list[str]]) -> None:
    answers(["n", "1", "q", "yes"])
    run("--fix", path)
    assert path.read_bytes() == BAD.replace("35,", "35 Ah,").encode()


def test_a_file_that_is_read_needs_no_edit(path: Path) -> None:
    sound = SPELT.replace("35,", "35 Ah,").replace("[fan]", "[fan: 12 ft]")
    path.write_text(sound, encoding="utf-8")
    result = run("--fix", "--yes", path)
    assert result.exit_code == 0
    assert result.stdout.startswith("Nothing in this file needs an edit to be read.\n")


def test_a_file_that_somebody_else_changes_meanwhile_is_left_alone(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def ask(question: str) -> str:
        if question.startswith("Write"):
            path.write_text("mine\n")
            return "y"
        return "1"

    monkeypatch.setattr(cli, "asker", lambda: ask)
    result = run("--fix", path)
    assert result.exit_code == 2
    assert path.read_text() == "mine\n"
    assert "was changed by somebody else meanwhile; nothing was written" in result.stderr
    assert list(path.parent.iterdir()) == [path]


@pytest.mark.parametrize("call", ["fsync", "replace", "chmod"])
def test_when_the_disk_refuses_the_file_stays_as_it_was(
    path: Path, monkeypatch: pytest.MonkeyPatch, call: str
) -> None:
    def refuse(*_arguments: object, **_more: object) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(os if call == "fsync" else Path, call, refuse)
    with pytest.raises(SaveError, match="No space left on device"):
        replace_file(path, BAD.encode(), b"new\n")
    monkeypatch.undo()
    assert path.read_bytes() == BAD.encode()
    assert list(path.parent.iterdir()) == [path]


def test_when_it_is_stopped_in_the_middle_nothing_is_left_behind(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def stop(*_arguments: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(os, "fsync", stop)
    result = run("--fix", "--yes", path)
    assert result.exit_code == 130
    assert path.read_bytes() == BAD.encode()
    assert list(path.parent.iterdir()) == [path]


def test_rights_and_a_link_stay(path: Path) -> None:
    path.chmod(0o640)
    link = path.with_name("link.yaml")
    link.symlink_to(path.name)
    run("--fix", "--yes", link)
    assert link.is_symlink()
    assert path.read_bytes() == SPELT.encode()
    assert stat.S_IMODE(path.stat().st_mode) == 0o640


def test_a_file_that_may_not_be_written_is_not(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "access", lambda *_: False)
    result = run("--fix", "--yes", path)
    assert result.exit_code == 2
    assert "may not be written" in result.stderr
    assert path.read_bytes() == BAD.encode()


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["--fix", "--json"], "leave --json and --brief out"),
        (["--fix", "--brief"], "leave --json and --brief out"),
        (["--yes"], "--yes belongs to --fix"),
    ],
)
def test_options_that_do_not_go_together_are_refused(path: Path, arguments: list[str], said: str) -> None:
    result = run(*arguments, path)
    assert result.exit_code == 2
    assert said in result.stderr
    assert path.read_bytes() == BAD.encode()


def test_standard_input_cannot_be_changed() -> None:
    result = run("--fix", "-", text=BAD)
    assert result.exit_code == 2
    assert result.stderr == "--fix changes a file, and standard input is none. Name a build file.\n"


class Terminal(io.StringIO):
    """A stream that says it is a terminal."""

    def isatty(self) -> bool:
        return True


def test_questions_are_put_to_a_terminal_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    assert console.asker() is None
    monkeypatch.setattr(sys, "stdin", Terminal("1\n"))
    monkeypatch.setattr(sys, "stdout", io.StringIO())
    assert console.asker() is None
    monkeypatch.setattr(sys, "stdout", Terminal())
    ask = console.asker()
    assert ask is not None
    assert (ask("which? "), ask("which? ")) == ("1\n", None)


def test_a_shown_edit_moves_no_terminal(path: Path) -> None:
    path.write_text(BAD.replace("# it", "# \u202e\x1b[2J it"), encoding="utf-8")
    result = run("--fix", path)
    assert not {"\x1b", "\u202e"} & set(result.output)
    assert read_build(path.read_bytes()).problems
