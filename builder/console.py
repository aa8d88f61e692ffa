"""What a command says on a terminal, and how it ends: colour, progress on one line, one sentence where it stops."""

from __future__ import annotations

import json
import os
import re
import signal
import sys
import threading
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager, suppress
from pathlib import Path
from types import FrameType
from typing import IO, Any

import click

from builder.buildfile.problems import visible

REFUSED = 2
NOT_PRINTED = "The answer could not be printed ({reason}). What was printed of it is not whole."

_TO_END = ("SIGTERM", "SIGHUP")
_LEVELS = {"must fix": "red", "should fix": "yellow", "worth knowing": "cyan"}
_HEAD = re.compile(r"^(\S.*?:\d+:\d+:)( must fix:| should fix:| worth knowing:)?", re.MULTILINE)
_MARK = re.compile(r"^( +\| *)(\^+)$", re.MULTILINE)
_LABEL = re.compile(r"^( +)(help:|based on:)", re.MULTILINE)


class Stop(click.ClickException):
    """Ends a command with one plain sentence on stderr."""

    exit_code = REFUSED

    def show(self, file: IO[Any] | None = None) -> None:  # noqa: ARG002 - the library's own signature
        """Print the sentence alone, without a word before it."""
        say("\n".join(map(visible, self.message.splitlines())) + "\n", err=True)


class Stopped(KeyboardInterrupt):
    """A signal has asked to end, as Ctrl-C does; ``number`` is the signal's."""

    def __init__(self, number: int) -> None:
        super().__init__()
        self.number = number


@contextmanager
def stopped_by_signals() -> Iterator[None]:
    """Let the other signals that end a program end the block as Ctrl-C does, so that it clears up.

    A signal that is ignored, or that somebody else waits for, is left to them. Raises ``Stopped``.
    """

    def stop(number: int, _frame: FrameType | None) -> None:
        raise Stopped(number)

    numbers = [getattr(signal, name) for name in _TO_END if hasattr(signal, name)]
    if threading.current_thread() is not threading.main_thread():
        numbers = []  # the system's signals reach the first thread alone
    ours = [number for number in numbers if signal.getsignal(number) is signal.SIG_DFL]
    for number in ours:
        signal.signal(number, stop)
    try:
        yield
    finally:
        for number in ours:
            signal.signal(number, signal.SIG_DFL)


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
    """Print text as it is: results to stdout, messages to stderr.

    A reader that leaves early has seen enough, and the exit code still tells the result; what cannot be printed
    for another reason, such as a full disk, ends the command. Raises ``Stop``.
    """
    try:
        click.echo(text, nl=False, err=err)
    except OSError as error:
        to_nowhere(sys.stderr if err else sys.stdout)
        if not (err or isinstance(error, BrokenPipeError)):
            raise Stop(NOT_PRINTED.format(reason=reason(error))) from error


def open_streams() -> None:
    """Open what was closed when the program was started, to nowhere: input is at its end, and output is not kept."""
    for name, mode in (("stdin", "r"), ("stdout", "w"), ("stderr", "w")):
        if getattr(sys, name) is None:
            setattr(sys, name, Path(os.devnull).open(mode, encoding="utf-8"))  # noqa: SIM115 - open to the end


def to_nowhere(stream: IO[str]) -> None:
    """Let all that is still to be printed there go nowhere; it would only fail once more."""
    with suppress(OSError, ValueError):  # a stream that is no open file
        os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())
