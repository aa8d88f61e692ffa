"""A build file together with the file of its numbers: a trailer, or what is wrong in one of the two."""

from __future__ import annotations

from dataclasses import dataclass, replace

from builder.buildfile.issuing import tidy
from builder.buildfile.ledger_reading import BRING_BACK, read_ledger
from builder.buildfile.numbering import number_trailer
from builder.buildfile.problems import Problem, quote, sort_and_merge
from builder.buildfile.resolving import BuildReading
from builder.buildfile.resolving_changes import as_built
from builder.buildfile.resolving_options import numbered_options
from builder.buildfile.written import fold
from builder.trailer.ledger import Ledger
from builder.trailer.model import Identity, Trailer
from builder.trailer.origin import NOWHERE

ENDING = ".numbers.csv"
"""How the name of the file of numbers ends: it begins like the build file's."""


@dataclass(frozen=True, slots=True)
class NumbersFile:
    """The file of the numbers that were issued for a build: its name as it is shown, and its bytes.

    ``trouble`` tells why it could not be read, where it could not.
    """

    name: str
    data: bytes = b""
    trouble: str = ""


@dataclass(frozen=True, slots=True)
class NumberedReading:
    """A build file read with its numbers: the trailer, or None and the problems.

    ``of_numbers`` tells whose the problems and the ``lines`` are: the file of numbers, or the build file.
    """

    trailer: Trailer | None
    problems: tuple[Problem, ...]
    lines: tuple[str, ...]
    of_numbers: bool = False


def numbers_name(build: str) -> str:
    """Return the name of the file of numbers that belongs to a build file's name: it stands beside it.

    >>> numbers_name("trailer.yaml")
    'trailer.numbers.csv'
    """
    stem, point, _ = build.rpartition(".")
    return (stem if point and stem else build) + ENDING


def numbered_build(reading: BuildReading, numbers: NumbersFile | None) -> NumberedReading:
    """Give the trailer of a build file the numbers that were issued for it; without a file of them all are drafts.

    What was done otherwise than planned is then in it, and in what may come later.
    """
    read = _numbered(reading, numbers)
    if read.trailer is None:
        return read
    built, problems = as_built(read.trailer, reading.changes)
    later = numbered_options(read.trailer, reading.changes, (built or read.trailer).spares)
    every = sort_and_merge((*problems, *later.problems))
    if built is None or every:
        return NumberedReading(None, every, reading.lines)
    return NumberedReading(replace(built, options=later.options), (), reading.lines)


def _numbered(reading: BuildReading, numbers: NumbersFile | None) -> NumberedReading:
    trailer = reading.trailer
    if trailer is None:
        return NumberedReading(None, reading.problems, reading.lines)
    if numbers is None:
        lost = _lost(trailer.identity)
        return NumberedReading(None if lost else trailer, lost, reading.lines)
    if numbers.trouble:
        told = Problem(
            NOWHERE,
            "numbers file damaged",
            f"the file of wire numbers could not be read: {numbers.trouble}",
            f"give yourself the right to read it, or {BRING_BACK}",
        )
        return NumberedReading(None, (told,), ("",), of_numbers=True)
    read = read_ledger(numbers.data)
    problems = read.problems or (_strangers(trailer.identity, read.ledger) if read.ledger else ())
    if read.ledger is None or problems:
        return NumberedReading(None, problems, read.lines, of_numbers=True)
    made = number_trailer(trailer, read.ledger)
    return NumberedReading(None if made.problems else made.trailer, made.problems, reading.lines)


def _lost(identity: Identity) -> tuple[Problem, ...]:
    """Return the problem of numbers that are said to be issued where no file has them."""
    if identity.numbers_issued is None:
        return ()
    return (
        Problem(
            identity.numbers_issued,
            "numbers file missing",
            "the wire numbers of this trailer are issued, and the file that holds them is not beside the build file",
            f"{BRING_BACK}; where no wire has a label yet, take “numbers: issued” out",
        ),
    )


def is_same_trailer(identity: Identity, ledger: Ledger) -> bool:
    """Tell whether a ledger is of the trailer of a build file: by the trailer's name and number."""
    return fold(ledger.name) == fold(identity.name) and fold(ledger.number) == fold(identity.number)


def _strangers(identity: Identity, ledger: Ledger) -> tuple[Problem, ...]:
    if is_same_trailer(identity, ledger):
        return ()
    return (
        Problem(
            ledger.origin,
            "numbers of another trailer",
            f"these numbers are of {_called(ledger.name, ledger.number)}, "
            f"and the build file is of {_called(identity.name, identity.number)}",
            "for another trailer take this file away, and its numbers begin as drafts; where this trailer only got "
            "another name or number, run wiring-manual number with --same-trailer",
        ),
    )


def _called(name: str, number: str) -> str:
    return f"{quote(tidy(name))}" + (
        f", number {quote(tidy(number))}" if number.strip() else " without a number"
    )
