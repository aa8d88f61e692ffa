"""What looks as though it only got another name, or came back: asked before a number is retired for ever."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from builder.buildfile.ledger_wires import Run, group_of
from builder.buildfile.numbering import circuit_number, run_of, runs
from builder.buildfile.written import fold
from builder.trailer.ledger import Ledger, number_order
from builder.trailer.model import Trailer


@dataclass(frozen=True, slots=True)
class Doubt:
    """Something new that may be something the ledger has.

    ``what`` is part, circuit or spare wire for another name (``old`` and ``new`` are names), and number for what came
    back (``old`` is the retired number, ``new`` the draft's).
    """

    what: Literal["part", "circuit", "spare wire", "number"]
    old: str
    new: str


def doubts(trailer: Trailer) -> tuple[Doubt, ...]:
    """Return what must be asked before the numbers of a trailer, numbered by its ledger, are issued."""
    ledger = trailer.ledger
    if ledger is None:
        return ()
    return (
        *_circuits(trailer, ledger),
        *_parts(trailer, ledger),
        *_spares(trailer, ledger),
        *_back(trailer, ledger),
    )


def _best(pairs: Iterable[tuple[str, str]]) -> list[tuple[str, str]]:
    """Return pairs of an old and a new name, each name once: those that have most in common first."""
    chosen: dict[str, str] = {}
    taken: set[str] = set()
    for (old, new), _ in sorted(Counter(pairs).items(), key=lambda item: (-item[1], item[0])):
        if old not in chosen and new not in taken:
            chosen[old] = new
            taken.add(new)
    return list(chosen.items())


def _circuits(trailer: Trailer, ledger: Ledger) -> list[Doubt]:
    """Return circuits that are gone while a new one has wires between the same ends."""
    there = {circuit.number for circuit in trailer.circuits}
    gone = {one.number: one for one in ledger.circuits if not one.retired and one.number not in there}
    new = {one.number: one for one in trailer.circuits if one.draft}
    found: dict[tuple[str, Run], list[str]] = {}
    for wire, run in zip(trailer.wires, runs(trailer), strict=True):
        if wire.circuit in new:
            circuit = new[wire.circuit]
            found.setdefault((group_of(circuit), run), []).append(circuit.known_as)
    pairs = [
        (gone[circuit_number(one.number)].name, name)
        for one in ledger.wires
        if not one.retired and circuit_number(one.number) in gone
        for name in found.get((gone[circuit_number(one.number)].group, run_of(one)), ())
    ]
    alike = _best(pairs) or _only(
        [one.name for one in gone.values() if one.group == "circuits"],
        [one.name for one in new.values() if group_of(one) == "circuits"],
    )
    return [Doubt("circuit", old, name) for old, name in alike]


def _only(gone: list[str], new: list[str]) -> list[tuple[str, str]]:
    """Return the pair of the only thing that is gone and the only one that is new; none where there are more."""
    return [(gone[0], new[0])] if len(gone) == len(new) == 1 else []


def _parts(trailer: Trailer, ledger: Ledger) -> list[Doubt]:
    """Return parts that are gone while a new one stands at the other end of the same wires."""
    gone = frozenset(trailer.gone)
    there = {fold(name) for name in trailer.parts}
    known = {fold(end.part) for one in ledger.wires if not one.retired for end in (one.start, one.end)}
    names: dict[str, str] = {fold(name): name for name in trailer.parts}
    ends: dict[tuple[int, str, str, str], set[str]] = {}
    for wire, run in zip(trailer.wires, runs(trailer), strict=True):
        if wire.draft:
            for side, here, far in (("start", run.start, run.end), ("end", run.end, run.start)):
                if here.part in there and here.part not in known:
                    ends.setdefault((wire.circuit, run.use, side, far.part), set()).add(here.part)
    pairs = []
    for one in ledger.wires:
        if one.number not in gone:
            continue
        run = run_of(one)
        for side, here, far, name in (
            ("start", run.start, run.end, one.start.part),
            ("end", run.end, run.start, one.end.part),
        ):
            if here.part not in there:
                names.setdefault(here.part, name)
                here_now = ends.get((circuit_number(one.number), run.use, side, far.part), set())
                pairs += [(here.part, part) for part in sorted(here_now)]
    return [Doubt("part", names[old], names[new]) for old, new in _best(pairs)]


def _spares(trailer: Trailer, ledger: Ledger) -> list[Doubt]:
    """Return the doubt of a spare wire that is gone while one is new."""
    there = {wire.number for wire in trailer.spares}
    gone = [one.name for one in ledger.spares if not one.retired and one.number not in there]
    new = [wire.start.pin for wire in trailer.spares if wire.draft]
    return [Doubt("spare wire", old, name) for old, name in _only(gone, new)]


def _back(trailer: Trailer, ledger: Ledger) -> list[Doubt]:
    """Return wires, circuits and spare wires that are new and the same as one whose number is retired."""
    circuits = {(one.group, fold(one.name)): str(one.number) for one in ledger.circuits if one.retired}
    found = [
        Doubt("number", circuits[group_of(one), fold(one.known_as)], str(one.number))
        for one in trailer.circuits
        if one.draft and (group_of(one), fold(one.known_as)) in circuits
    ]
    retired: dict[tuple[int, Run], list[str]] = {}
    for wire in sorted(ledger.wires, key=lambda one: number_order(one.number)):
        if wire.retired:
            retired.setdefault((circuit_number(wire.number), run_of(wire)), []).append(wire.number)
    for new, run in zip(trailer.wires, runs(trailer), strict=True):
        same = retired.get((new.circuit, run)) if new.draft else None
        found += [Doubt("number", same.pop(0), new.number)] if same else []
    spares = {fold(one.name): one.number for one in ledger.spares if one.retired}
    return found + [
        Doubt("number", spares[fold(wire.start.pin)], wire.number)
        for wire in trailer.spares
        if wire.draft and fold(wire.start.pin) in spares
    ]
