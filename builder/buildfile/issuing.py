"""Issuing numbers: the ledger as it is after every wire of a build got its number for good."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from builder.buildfile.ledger_wires import USES, group_of, kept_end, parts_behind
from builder.buildfile.written import fold
from builder.trailer.ledger import IssuedCircuit, IssuedSpare, IssuedWire, Ledger, number_order
from builder.trailer.model import Trailer
from builder.trailer.parts import Terminal
from builder.trailer.size import Size


@dataclass(frozen=True, slots=True)
class Issue:
    """The new ledger, and the numbers of wires and spare wires that were issued and retired for it."""

    ledger: Ledger
    new: tuple[str, ...]
    retired: tuple[str, ...]


def issue(trailer: Trailer, sizes: Mapping[str, Size] | None = None) -> Issue:
    """Issue all numbers of a trailer that are drafts, and retire those whose wires are no more.

    Arguments: ``trailer``, numbered by its ledger, or as written where it has none; ``sizes``, which size each wire
    has by its figures. A wire that is retired once walls are closed may still lie in one of them.
    Returns the whole ledger: what was issued before stays in it for ever. Source: own work.
    """
    old = trailer.ledger or Ledger("", "")
    ledger = replace(
        old,
        name=tidy(trailer.identity.name),
        number=tidy(trailer.identity.number),
        circuits=_circuits(trailer, old),
        wires=_wires(trailer, old, sizes or {}),
        spares=_spares(trailer, old),
    )
    return Issue(ledger, trailer.draft_numbers, tuple(sorted(trailer.gone, key=number_order)))


def tidy(text: str) -> str:
    """Return a text on one line with single blanks."""
    return " ".join(text.split())


def _circuits(trailer: Trailer, old: Ledger) -> tuple[IssuedCircuit, ...]:
    now = {
        circuit.number: IssuedCircuit(circuit.number, group_of(circuit), tidy(circuit.known_as), circuit.way)
        for circuit in trailer.circuits
    }
    rest = (replace(one, retired=True) for one in old.circuits if one.number not in now)
    return tuple(sorted((*now.values(), *rest), key=lambda one: one.number))


def _wires(trailer: Trailer, old: Ledger, sizes: Mapping[str, Size]) -> tuple[IssuedWire, ...]:
    """Return the wires of the ledger in the order in which they were issued; those of one day by number."""
    behind = parts_behind(trailer.parts, trailer.wires)
    now = {
        wire.number: IssuedWire(
            wire.number,
            USES[wire.role],
            _tidy_end(kept_end(trailer.parts, wire.start)),
            _tidy_end(kept_end(trailer.parts, wire.end)),
            tuple(map(tidy, behind.get(place, ()))),
            size=sizes.get(wire.number, wire.issued_size),
        )
        for place, wire in enumerate(trailer.wires)
    }
    closed = trailer.identity.walls_closed
    kept = (
        now[one.number]
        if one.number in now
        else replace(one, retired=True, left=one.left or (closed and not one.retired))
        for one in old.wires
    )
    before = {one.number for one in old.wires}
    new = (one for one in now.values() if one.number not in before)
    return (*kept, *sorted(new, key=lambda one: number_order(one.number)))


def _tidy_end(at: Terminal) -> Terminal:
    return Terminal(tidy(at.part), tidy(at.pin))


def _spares(trailer: Trailer, old: Ledger) -> tuple[IssuedSpare, ...]:
    now = {wire.number: IssuedSpare(wire.number, tidy(wire.start.pin)) for wire in trailer.spares}
    rest = (replace(one, retired=True) for one in old.spares if one.number not in now)
    return tuple(sorted((*now.values(), *rest), key=lambda one: number_order(one.number)))


def renamed(ledger: Ledger, names: Sequence[tuple[str, str]]) -> tuple[Ledger, tuple[str, ...]]:
    """Return a ledger with parts, circuits and spare wires under their new names, and the old names it has not.

    What is retired keeps the name it had. All names change at once, so that two things can change names.
    """
    new = {fold(old): tidy(name) for old, name in names}
    met: set[str] = set()

    def named(name: str) -> str:
        if fold(name) not in new:
            return name
        met.add(fold(name))
        return new[fold(name)]

    def at(end: Terminal) -> Terminal:
        return Terminal(named(end.part), end.pin)

    changed = replace(
        ledger,
        circuits=tuple(one if one.retired else replace(one, name=named(one.name)) for one in ledger.circuits),
        wires=tuple(
            one
            if one.retired
            else replace(
                one, start=at(one.start), end=at(one.end), behind=tuple(named(name) for name in one.behind)
            )
            for one in ledger.wires
        ),
        spares=tuple(one if one.retired else replace(one, name=named(one.name)) for one in ledger.spares),
    )
    return changed, tuple(old for old, _ in names if fold(old) not in met)


def taken_back(ledger: Ledger, numbers: Sequence[str]) -> tuple[Ledger, tuple[str, ...]]:
    """Return a ledger in which some retired numbers wait for their wires again, and the numbers not retired in it.

    The number of a circuit takes all its wires with it.
    """
    wanted = {number.upper() for number in numbers}
    whole = {one.number for one in ledger.circuits if one.retired and str(one.number) in wanted}
    met: set[str] = {str(number) for number in whole}

    def back(number: str, retired: bool) -> bool:
        asked = number in wanted or (number_order(number)[0] in whole and not number.startswith("S"))
        if asked and retired:
            met.add(number)
        return retired and not asked

    changed = replace(
        ledger,
        circuits=tuple(
            replace(one, retired=one.retired and one.number not in whole) for one in ledger.circuits
        ),
        wires=tuple(
            one if (retired := back(one.number, one.retired)) else replace(one, retired=retired, left=False)
            for one in ledger.wires
        ),
        spares=tuple(replace(one, retired=back(one.number, one.retired)) for one in ledger.spares),
    )
    return changed, tuple(number for number in numbers if number.upper() not in met)


def out_of_walls(ledger: Ledger, numbers: Sequence[str]) -> tuple[Ledger, tuple[str, ...]]:
    """Return a ledger in which some retired wires lie in no wall any more, and the numbers that are not left in one.

    A wire that is still in use is retired first, and its number given then.
    """
    wanted = {number.upper() for number in numbers}
    left = {wire.number for wire in ledger.wires if wire.left}
    wires = tuple(replace(one, left=one.left and one.number not in wanted) for one in ledger.wires)
    return replace(ledger, wires=wires), tuple(number for number in numbers if number.upper() not in left)
