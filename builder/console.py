"""What a command says on a terminal: colour, progress on one line, and text that no terminal trips over."""

from __future__ import annotations

import json
import os
import re
import sys
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path

import click

from builder.buildfile.problems import visible

_LEVELS = {"must fix": "red", "should fix": "yellow", "worth knowing": "cyan"}
_HEAD = re.compile(r"^(\S.*?:\d+:\d+:)( must fix:| should fix:| worth knowing:)?", re.MULTILINE)
_MARK = re.compile(r"^( +\| *)(\^+)$", re.MULTILINE)
_LABEL = re.compile(r"^( +)(help:|based on:)", re.MULTILINE)


@contextmanager
def progress() -> Iterator[Callable[[str], None] | None]:
    """Give a function that shows how far the work is, on one line of a terminal and nowhere else."""
    if not sys.stderr.isatty():
        yield None
        return
    width = 0

    def tell(words: str) -> None:
        nonlocal width
        say("\r" + words.ljust(width), err=True)
        width = len(words)

    tell("getting ready")
    try:
        yield tell
    finally:
        say("\r" + " " * width + "\r", err=True)


def colour_wanted(environ: Mapping[str, str]) -> bool | None:
    """Return whether to colour; None leaves it to each stream: yes on a terminal."""
    if environ.get("NO_COLOR") or environ.get("TERM") == "dumb":
        return False
    return True if environ.get("FORCE_COLOR") else None


def painted(text: str) -> str:
    """Colour problems and findings; click takes the colour out again where it is not wanted."""

    def head(found: re.Match[str]) -> str:
        level = found[2] or ""
        return click.style(found[1], bold=True) + click.style(
            level, fg=_LEVELS.get(level.strip(" :")), bold=True
        )

    text = _HEAD.sub(head, text)
    text = _MARK.sub(lambda found: found[1] + click.style(found[2], fg="red", bold=True), text)
    return _LABEL.sub(lambda found: found[1] + click.style(found[2], bold=True), text)


def asker() -> Callable[[str], str | None] | None:
    """Return what asks the user on the terminal and gives the answer; None where there is no terminal.

    The answer is None where nobody answers any more.
    """
    if not (sys.stdin.isatty() and sys.stdout.isatty()):
        return None

    def ask(question: str) -> str | None:
        say(question)
        sys.stdout.flush()
        return sys.stdin.readline() or None

    return ask


def typed(path: Path | str) -> str:
    """Return a path as it is typed in a command: in quotes where it holds a blank."""
    shown = visible(str(path))
    return f'"{shown}"' if " " in shown else shown


def did_you_mean(near: str | None) -> str:
    """Return the question that follows a misspelt word, or nothing."""
    return f" Did you mean “{near}”?" if near else ""


def reason(error: Exception) -> str:
    """Return what the system says of an error."""
    return getattr(error, "strerror", None) or str(error)


def print_json(made: Mapping[str, object]) -> None:
    """Print a record as JSON."""
    print_bytes(json.dumps(made, ensure_ascii=False, indent=1, allow_nan=False) + "\n")


def print_bytes(text: str) -> None:
    """Print JSON: UTF-8 with bare line ends on every system, whatever the terminal speaks."""
    say(text.encode("utf-8", "backslashreplace"))


def say(text: str | bytes, err: bool = False) -> None:
    """Print text as it is: results to stdout, messages to stderr."""
    try:
        click.echo(text, nl=False, err=err)
    except BrokenPipeError:
        # The reader has seen enough; what is left goes nowhere, and the exit code still tells the result.
        os.dup2(os.open(os.devnull, os.O_WRONLY), (sys.stderr if err else sys.stdout).fileno())
