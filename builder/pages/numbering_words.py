"""What the command that issues numbers says: which it issued, which it retired, and what it asks first."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from builder.buildfile.issuing import Issue
from builder.buildfile.ledger_doubts import Doubt
from builder.buildfile.numbering import circuit_number
from builder.buildfile.problems import visible
from builder.trailer.ledger import Ledger, number_order
from builder.trailer.model import Trailer

_LINE = 92
_SHOWN = 20


def issue_text(trailer: Trailer, made: Issue, retired: Sequence[str], *, written: bool) -> str:
    """Return what was issued and retired, circuit by circuit; ``written`` is False where it is only told of."""
    names = _names(trailer, made.ledger)
    text = ""
    if made.new:
        head = "Issued" if written else "Would issue"
        text += f"{head} {_many(len(made.new), 'number')}:\n{_rows(made.new, names)}"
    if retired:
        head = "Retired" if written else "Would retire"
        text += f"{head} {_many(len(retired), 'number')}; no other wire ever gets one of them:\n{_rows(retired, names)}"
    return text


def left_text(ledger: Ledger, retired: Sequence[str]) -> str:
    """Return what to do with wires that were retired once walls were closed; empty where there is none."""
    left = sorted(
        (wire for wire in ledger.wires if wire.left and wire.number in retired),
        key=lambda wire: number_order(wire.number),
    )
    if not left:
        return ""
    one = left[0]
    ends = f"from: {visible(one.start.part)}, to: {visible(one.end.part)}, wire: 10 ft"
    return (
        f"Perhaps still in a closed wall: {_ranges([wire.number for wire in left])}\n"
        "  Where one still lies there, insulate its ends and write it under spares, its number in its name:\n"
        f"    old {one.number}: {{{ends}}}\n"
        f"  Where it was pulled out, run wiring-manual number again with --pulled-out {one.number}\n"
    )


def doubts_text(found: Sequence[Doubt], build: str) -> str:
    """Return what must be said before numbers are issued, each with the words to say it; ``build`` as it is typed."""
    rows = []
    for doubt in found[:_SHOWN]:
        old, new = visible(doubt.old), visible(doubt.new)
        if doubt.what == "number":
            rows.append(
                f"  {old} is retired, and {new} would be issued for the same: to use {old} again, --back {old}\n"
            )
        else:
            rows.append(
                f"  {doubt.what} “{old}” is gone and “{new}” is new in its place: "
                f"if it only got another name, --renamed {_typed(old)} {_typed(new)}\n"
            )
    more = len(found) - len(rows)
    rows += [f"  … and {more} more\n"] if more else []
    return (
        "Nothing was written: a number that is retired never comes back by itself. Say first what these are:\n"
        + "".join(rows)
        + f"Add all that are so to one command:\n  wiring-manual number {build} {_first(found[0])}\n"
        "Where all of them are new things:\n"
        f"  wiring-manual number {build} --as-new\n"
    )


def _first(doubt: Doubt) -> str:
    if doubt.what == "number":
        return f"--back {visible(doubt.old)}"
    return f"--renamed {_typed(visible(doubt.old))} {_typed(visible(doubt.new))}"


def _typed(name: str) -> str:
    return f'"{name}"'


def _names(trailer: Trailer, ledger: Ledger) -> dict[str, str]:
    """Return the names of circuits by their number as a text, and of spare wires by theirs."""
    return {
        **{str(one.number): one.name for one in ledger.circuits},
        **{one.number: one.name for one in ledger.spares},
        **{str(one.number): one.name for one in trailer.circuits},
    }


def _rows(numbers: Iterable[str], names: dict[str, str]) -> str:
    groups: dict[str, list[str]] = {}
    for number in numbers:
        key = number if number.startswith("S") else str(circuit_number(number))
        groups.setdefault(key, []).append(number)
    return "".join(f"  {visible(names.get(key, ''))}: {_ranges(mine)}\n" for key, mine in groups.items())


def _ranges(numbers: Sequence[str]) -> str:
    """Return numbers in a row, cut where they are very many."""
    text = " ".join(numbers)
    if len(text) <= _LINE * 4:
        return text
    return text[: _LINE * 4].rpartition(" ")[0] + f" … {numbers[-1]}"


def _many(count: int, what: str) -> str:
    return f"{count} {what}{'' if count == 1 else 's'}"
