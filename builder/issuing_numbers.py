"""What the command that issues numbers does with files: the ledger as the maker says it is, and as it is written."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from builder.buildfile.issuing import out_of_walls
from builder.buildfile.ledger_changes import Changes, changed
from builder.buildfile.ledger_reading import read_ledger
from builder.buildfile.ledger_text import ledger_text
from builder.buildfile.numbered import NumbersFile
from builder.buildfile.problems import visible
from builder.buildfile.resolving import read_build
from builder.console import Stop, reason
from builder.fixing.saving import SaveError, replace_file
from builder.numbers_beside import numbers_path
from builder.publish.new_file import write_new_file
from builder.trailer.ledger import Ledger
from builder.trailer.model import Trailer


def with_changes(data: bytes, numbers: NumbersFile | None, changes: Changes) -> NumbersFile | None:
    """Return the file of numbers with what the maker says of it, not written yet.

    Arguments: ``data``, the build file; ``numbers``, the file beside it; ``changes``. Returns ``numbers`` as it is
    where one of the two files has problems, which are told later. Raises ``Stop`` where a name or number that the
    maker gives is not in it.
    """
    if changes == Changes():
        return numbers
    if numbers is None:
        raise Stop("No number was issued for this build yet, so nothing can be renamed or come back.")
    ledger, trailer = read_ledger(numbers.data).ledger, read_build(data).trailer
    if ledger is None or trailer is None:
        return numbers
    made = changed(ledger, changes, trailer.identity)
    if made.no_names:
        raise Stop(f"Nothing that has a number is called “{visible(made.no_names[0])}”; nothing was written.")
    if made.no_numbers:
        raise Stop(
            f"{visible(made.no_numbers[0])} is no retired number of this trailer; nothing was written."
        )
    return replace(numbers, data=ledger_text(made.ledger).encode())


def refuse_gone(trailer: Trailer, back: tuple[str, ...]) -> None:
    """Raise ``Stop`` where a number is to come back, and no wire of the build is the one that had it."""
    there = {wire.number for wire in (*trailer.wires, *trailer.spares)}
    there |= {str(circuit.number) for circuit in trailer.circuits}
    for one in back:
        if one.upper() not in there:
            raise Stop(f"No wire of this build runs as {visible(one)} did; nothing was written.")


def without_pulled_out(ledger: Ledger, numbers: tuple[str, ...]) -> Ledger:
    """Return a ledger in which some wires lie in no wall any more; raise ``Stop`` where one was not left in one."""
    made, unknown = out_of_walls(ledger, numbers)
    if unknown:
        raise Stop(f"{visible(unknown[0])} is no wire that was left in a wall; nothing was written.")
    return made


def newly_retired(retired: tuple[str, ...], numbers: NumbersFile | None) -> tuple[str, ...]:
    """Return the numbers that are retired now and were not in the file before."""
    ledger = _ledger(numbers)
    old = {wire.number for wire in ledger.wires if wire.retired}
    old |= {spare.number for spare in ledger.spares if spare.retired}
    return tuple(one for one in retired if one not in old)


def write_numbers(build: Path, numbers: NumbersFile | None, ledger: Ledger, *, tell: bool) -> str:
    """Write the file of numbers beside a build file, unless it says the same already; return a sentence on it.

    Arguments: ``build``, the build file's place; ``numbers``, the file as it was read; ``tell`` writes nothing.
    Raises ``Stop`` where it cannot be written; the file is then as it was. Source: own work.
    """
    path = numbers_path(build)
    after = ledger_text(ledger)
    if not (ledger.wires or ledger.spares):
        return "There is no wire that could get a number; nothing was written.\n"
    if numbers is not None and ledger_text(_ledger(numbers)) == after:
        return f"{visible(str(path))} is as it must be; nothing was written.\n"
    if tell:
        return "Nothing was written.\n"
    try:
        if numbers is None:
            write_new_file(path, after.encode())
        else:
            replace_file(path, numbers.data, after.encode())
    except SaveError as error:
        raise Stop(str(error)) from error
    except FileExistsError as error:
        raise Stop(
            f"{path} was written by somebody else meanwhile. Nothing was written; start again."
        ) from error
    except (OSError, ValueError) as error:
        raise Stop(f"{path} could not be written ({reason(error)}).") from error
    return f"Wrote {visible(str(path))}. Keep it beside the build file, and keep a copy.\n"


def _ledger(numbers: NumbersFile | None) -> Ledger:
    """Return the ledger of a file that was read already; an empty one where there is none."""
    return (read_ledger(numbers.data).ledger if numbers else None) or Ledger("", "")
