"""From the bytes of a ledger's file to the ledger, or to every problem in it: nothing in it is guessed."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any, cast, get_args

from builder.buildfile.ledger_lines import Cell, cells_of, shown_lines
from builder.buildfile.ledger_text import (
    CIRCUITS,
    END,
    FORM_WORD,
    FORMS,
    ISSUED,
    LEFT,
    RETIRED,
    SPARES,
    TRAILER,
    WIRES,
    WIRES_OF_FORM_1,
    counts,
)
from builder.buildfile.loom import LETTERS
from builder.buildfile.problems import Problem, quote, sort_and_merge
from builder.buildfile.value_sizes import read_wire_size
from builder.quantities import Misread
from builder.trailer.ledger import Group, IssuedCircuit, IssuedSpare, IssuedWire, Ledger, Use
from builder.trailer.origin import Origin
from builder.trailer.parts import Terminal
from builder.trailer.size import Size

BRING_BACK = (
    "bring the file back from a copy, such as your backup, your version control, or data/wire_numbers.csv "
    "of a workshop manual that you published"
)
_COUNT = re.compile(r"[1-9][0-9]{0,5}")
_WIRE = re.compile(rf"([1-9][0-9]{{0,5}})[{LETTERS}]{{1,4}}")
_SPARE = re.compile(r"S[1-9][0-9]{0,5}")
MOST_TOLD = 20
"""Problems of one ledger that are told: a file that is none has as many as it has lines."""


@dataclass(frozen=True, slots=True)
class LedgerReading:
    """A ledger's file as read: the ledger, or None and the problems; ``lines`` is the file's text."""

    ledger: Ledger | None
    problems: tuple[Problem, ...]
    lines: tuple[str, ...]


@dataclass(slots=True)
class _Found:
    """What the lines gave so far."""

    lines: tuple[str, ...]
    problems: list[Problem] = field(default_factory=list)
    trailer: tuple[str, str, Origin] | None = None
    form: bool = False
    ended: tuple[str, ...] | None = None
    table: tuple[str, ...] = ()
    circuits: dict[str, tuple[IssuedCircuit, Origin]] = field(default_factory=dict)
    wires: dict[str, tuple[IssuedWire, Origin]] = field(default_factory=dict)
    spares: dict[str, tuple[IssuedSpare, Origin]] = field(default_factory=dict)

    def damaged(self, origin: Origin, message: str, help_: str = "") -> None:
        """Keep the problem of a place that does not say what this file says there."""
        self.problems.append(
            Problem(origin, "numbers file damaged", message, help_ or f"change nothing by hand: {BRING_BACK}")
        )


def read_ledger(data: bytes) -> LedgerReading:
    """Read a ledger from the bytes of its file; never raises for any input."""
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        first = data.count(b"\n", 0, error.start) + 1
        shown = shown_lines(data.decode("utf-8", "replace").split("\n"))
        found = _Found(shown)
        found.damaged(Origin(first, 1), "this line holds bytes that are no text (UTF-8)")
        return LedgerReading(None, tuple(found.problems), shown)
    lines = shown_lines([line.removesuffix("\r") for line in text.split("\n")])
    found = _Found(lines)
    for number, line in enumerate(lines, start=1):
        if line.strip() and not line.startswith("#"):
            _line(found, line, number)
            if len(found.problems) >= MOST_TOLD:
                break
    return _whole(found)


def _line(found: _Found, line: str, number: int) -> None:
    whole = Origin(number, 1, max(1, len(line)))
    if line.startswith(("<<<<<<<", "=======", ">>>>>>>")):
        found.damaged(
            whole,
            "two versions of this file were put together, and this line is left of it",
            "choose one whole version, the one whose numbers are on the wires, then run wiring-manual number again",
        )
        return
    cells = cells_of(line, number)
    if isinstance(cells, Origin):
        found.damaged(cells, "this quote has no partner")
        return
    texts = tuple(cell.text for cell in cells)
    if found.ended is not None:
        found.damaged(whole, "nothing may stand behind the line that begins with “end”")
    elif texts[0] in _HEADS:
        _HEADS[texts[0]](found, cells)
    elif texts in _ROWS:
        found.table = texts
    elif not found.table:
        found.damaged(whole, "this line is no line of a numbers file")
    else:
        _ROWS[found.table](found, cells)


def _trailer(found: _Found, cells: tuple[Cell, ...]) -> None:
    if len(cells) != 3 or not cells[1].text or found.trailer is not None:
        found.damaged(cells[0].origin, "one line “trailer” is wanted, with the trailer's name and its number")
        return
    found.trailer = (cells[1].text, cells[2].text, cells[1].origin)


def _form(found: _Found, cells: tuple[Cell, ...]) -> None:
    found.form = True
    if len(cells) != 2 or cells[1].text not in FORMS:
        known = cells[1].text if len(cells) > 1 else ""
        found.damaged(
            cells[-1].origin,
            f"form {quote(known)} of a numbers file is not known here",
            "use the version of wiring-manual that wrote this file, or a newer one",
        )


def _end(found: _Found, cells: tuple[Cell, ...]) -> None:
    found.ended = tuple(cell.text for cell in cells[1:])


_HEADS: dict[str, Callable[[_Found, tuple[Cell, ...]], None]] = {
    TRAILER: _trailer,
    FORM_WORD: _form,
    END: _end,
}


def _state(found: _Found, cell: Cell, more: tuple[str, ...] = ()) -> bool | None:
    """Return whether a number is retired; None, with a problem kept, where the word is none of those known."""
    if cell.text in (ISSUED, RETIRED, *more):
        return cell.text != ISSUED
    known = ", ".join((ISSUED, *more))
    found.damaged(cell.origin, f"{quote(cell.text)} is no state of a number: it is {known} or {RETIRED}")
    return None


def _new(found: _Found, cell: Cell, pattern: re.Pattern[str], known: dict[str, Any], what: str) -> bool:
    """Tell whether a cell holds a number of the right form that no line before has."""
    if not pattern.fullmatch(cell.text):
        found.damaged(cell.origin, f"{quote(cell.text)} is no number of a {what}")
        return False
    if cell.text in known:
        first = known[cell.text][1]
        found.problems.append(
            Problem(
                cell.origin,
                "number issued twice",
                f"number {cell.text} stands here and in line {first.line}, and a number is for one {what} alone",
                f"look which of the two has {cell.text} on its label; {BRING_BACK}",
                also=first,
            )
        )
        return False
    return True


def _choice(found: _Found, cell: Cell, words: tuple[str, ...]) -> bool:
    if cell.text in words:
        return True
    found.damaged(cell.origin, f"{quote(cell.text)} is not one of: {', '.join(words)}")
    return False


def _cells(found: _Found, cells: tuple[Cell, ...], least: int, most: int) -> bool:
    if least <= len(cells) <= most:
        return True
    found.damaged(cells[-1].origin, f"this line has {len(cells)} cells, and {least} are wanted")
    return False


def _filled(found: _Found, *cells: Cell) -> bool:
    for cell in cells:
        if not cell.text:
            found.damaged(cell.origin, "a cell is empty here that says which wire it is")
    return all(cell.text for cell in cells)


def _circuit(found: _Found, cells: tuple[Cell, ...]) -> None:
    if not _cells(found, cells, 5, 5):
        return
    number, state, group, way, name = cells
    retired = _state(found, state)
    holds = _new(found, number, _COUNT, found.circuits, "circuit") and _choice(found, group, get_args(Group))
    holds = _filled(found, name) and holds
    if way.text and not _COUNT.fullmatch(way.text):
        found.damaged(way.origin, f"{quote(way.text)} is no fuse way")
        return
    if not holds or retired is None:
        return
    made = IssuedCircuit(
        int(number.text), cast("Group", group.text), name.text, int(way.text) if way.text else None, retired
    )
    for other, _ in found.circuits.values():
        if other.way is not None and other.way == made.way and not (other.retired or made.retired):
            found.damaged(
                way.origin, f"circuits {other.number} and {made.number} both have fuse way {made.way}"
            )
    found.circuits[number.text] = (made, number.origin)


def _wire(found: _Found, cells: tuple[Cell, ...]) -> None:
    if not _cells(found, cells, 9, len(cells)):
        return
    number, state, size, *rest = cells
    made = read_wire_size(size.text) if size.text else None
    if isinstance(made, Misread):
        found.damaged(size.origin, f"{quote(size.text)} is no size of a wire")
        return
    _wire_with(found, (number, state, *rest), made, (LEFT,))


def _wire_of_form_1(found: _Found, cells: tuple[Cell, ...]) -> None:
    if _cells(found, cells, 8, len(cells)):
        _wire_with(found, cells, None, ())


def _wire_with(found: _Found, cells: tuple[Cell, ...], size: Size | None, states: tuple[str, ...]) -> None:
    number, state, use, start, start_pin, end, end_pin, *behind = cells
    retired = _state(found, state, states)
    holds = _new(found, number, _WIRE, found.wires, "wire") and _choice(found, use, get_args(Use))
    holds = _filled(found, start, start_pin, end, end_pin) and holds
    if not holds or retired is None:
        return
    circuit = found.circuits.get(number.text.rstrip(LETTERS))
    if circuit is None or (circuit[0].retired and not retired):
        told = "is not among the circuits above" if circuit is None else "is retired"
        found.damaged(number.origin, f"circuit {number.text.rstrip(LETTERS)} of this wire {told}")
        return
    made = IssuedWire(
        number.text,
        cast("Use", use.text),
        Terminal(start.text, start_pin.text),
        Terminal(end.text, end_pin.text),
        tuple(cell.text for cell in behind if cell.text),
        retired,
        size,
        left=state.text == LEFT,
    )
    found.wires[number.text] = (made, number.origin)


def _spare(found: _Found, cells: tuple[Cell, ...]) -> None:
    if not _cells(found, cells, 3, 3):
        return
    number, state, name = cells
    retired = _state(found, state)
    holds = _new(found, number, _SPARE, found.spares, "spare wire")
    if _filled(found, name) and holds and retired is not None:
        found.spares[number.text] = (IssuedSpare(number.text, name.text, retired), number.origin)


_ROWS: dict[tuple[str, ...], Callable[[_Found, tuple[Cell, ...]], None]] = {
    CIRCUITS: _circuit,
    WIRES: _wire,
    WIRES_OF_FORM_1: _wire_of_form_1,
    SPARES: _spare,
}


def _whole(found: _Found) -> LedgerReading:
    """Return the reading once all lines are read: nothing that the file must have may be missing."""
    last = Origin(len(found.lines), 1, max(1, len(found.lines[-1])))
    name, number, origin = found.trailer or ("", "", last)
    ledger = Ledger(
        name,
        number,
        tuple(one for one, _ in found.circuits.values()),
        tuple(one for one, _ in found.wires.values()),
        tuple(one for one, _ in found.spares.values()),
        origin,
    )
    if not found.problems:
        if found.trailer is None or not found.form:
            found.damaged(
                Origin(1, 1), "this is no file of wire numbers: it names neither its form nor a trailer"
            )
        elif found.ended is None:
            found.damaged(last, "this file breaks off: its last line, which begins with “end”, is missing")
        elif found.ended != counts(ledger):
            found.damaged(
                last if found.lines[-1] else _last_filled(found.lines),
                f"the last line counts {', '.join(found.ended)}, and above it stand {', '.join(counts(ledger))}",
            )
    problems = sort_and_merge(found.problems)
    return LedgerReading(None if problems else ledger, problems, found.lines)


def _last_filled(lines: tuple[str, ...]) -> Origin:
    number = max((n for n, line in enumerate(lines, start=1) if line.strip()), default=1)
    return Origin(number, 1, max(1, len(lines[number - 1])))
