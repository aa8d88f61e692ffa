"""A trailer with the numbers of its ledger: issued ones stay, new ones are drafts that were never issued."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field, replace

from builder.buildfile.ledger_matching import match
from builder.buildfile.ledger_wires import USES, Run, folded, group_of, kept_end, parts_behind
from builder.buildfile.loom import letter
from builder.buildfile.problems import Problem
from builder.buildfile.written import fold
from builder.trailer.circuits import Circuit, CircuitKind
from builder.trailer.ledger import Group, IssuedCircuit, IssuedWire, Ledger, number_order
from builder.trailer.model import FRONT_BOX, Trailer
from builder.trailer.parts import Terminal
from builder.trailer.wires import Wire


@dataclass(frozen=True, slots=True)
class Numbered:
    """A trailer with its numbers, and the problems that its build file and its ledger have with each other."""

    trailer: Trailer
    problems: tuple[Problem, ...]


@dataclass(slots=True)
class _Circuits:
    """What each circuit of the build becomes, by the number that it has as a draft."""

    numbers: dict[int, int] = field(default_factory=dict)
    issued: dict[int, IssuedCircuit] = field(default_factory=dict)
    ways: dict[int, int] = field(default_factory=dict)
    moved: dict[str, str] = field(default_factory=dict)
    problems: list[Problem] = field(default_factory=list)


def number_trailer(trailer: Trailer, ledger: Ledger) -> Numbered:
    """Give a trailer, numbered as it is written, the numbers that its ledger has for it.

    Every wire that the ledger knows has its number; every other one gets a letter, or its circuit a number, that was
    never issued. Circuits keep the fuse way they were issued with unless ``way:`` says else.
    """
    made = _circuits(trailer, ledger)
    issued = _wire_numbers(trailer, ledger, made)
    spares = _spares(trailer, ledger)
    sizes = {one.number: one.size for one in ledger.wires}
    wires = [
        replace(
            wire,
            number=number,
            circuit=made.numbers[wire.circuit],
            start=_moved(wire.start, made),
            end=_moved(wire.end, made),
            draft=number not in sizes,
            issued_size=sizes.get(number),
        )
        for wire, number in zip(trailer.wires, issued, strict=True)
    ]
    there = {wire.number for wire in (*wires, *spares)}
    kept = [one.number for one in ledger.wires if not one.retired]
    kept += [one.number for one in ledger.spares if not one.retired]
    new = replace(
        trailer,
        circuits=tuple(sorted((_circuit(one, made) for one in trailer.circuits), key=lambda c: c.number)),
        wires=tuple(sorted(wires, key=lambda wire: number_order(wire.number))),
        loads=tuple(replace(load, circuit=made.numbers[load.circuit]) for load in trailer.loads),
        links=tuple(replace(link, a=_moved(link.a, made), b=_moved(link.b, made)) for link in trailer.links),
        spares=spares,
        ledger=ledger,
        gone=tuple(number for number in kept if number not in there),
    )
    return Numbered(new, tuple(made.problems))


def runs(trailer: Trailer) -> tuple[Run, ...]:
    """Return the wires of a trailer as they are known again, in their order."""
    behind = parts_behind(trailer.parts, trailer.wires)
    return tuple(
        Run(
            USES[wire.role],
            folded(kept_end(trailer.parts, wire.start)),
            folded(kept_end(trailer.parts, wire.end)),
            frozenset(map(fold, behind.get(place, ()))),
        )
        for place, wire in enumerate(trailer.wires)
    )


def run_of(wire: IssuedWire) -> Run:
    """Return a wire of the ledger as it is known again."""
    return Run(wire.use, folded(wire.start), folded(wire.end), frozenset(map(fold, wire.behind)))


def circuit_number(wire: str) -> int:
    """Return the number of a wire's circuit."""
    return number_order(wire)[0]


def unused(taken: Iterable[int], first: int = 1) -> Iterator[int]:
    """Yield the whole numbers from ``first`` on that are not taken."""
    kept = frozenset(taken)
    number = first
    while True:
        if number not in kept:
            yield number
        number += 1


def _circuits(trailer: Trailer, ledger: Ledger) -> _Circuits:
    made = _Circuits()
    known: dict[tuple[Group, str], list[IssuedCircuit]] = {}
    for one in ledger.circuits:
        if not one.retired:
            known.setdefault((one.group, fold(one.name)), []).append(one)
    free = unused(one.number for one in ledger.circuits)
    for circuit in trailer.circuits:
        same = known.get((group_of(circuit), fold(circuit.known_as)))
        if same:
            made.issued[circuit.number] = same.pop(0)
            made.numbers[circuit.number] = made.issued[circuit.number].number
        else:
            made.numbers[circuit.number] = next(free)
    _ways(trailer, made)
    return made


def _ways(trailer: Trailer, made: _Circuits) -> None:
    """Keep each circuit on the fuse way it was issued with; what is new takes its own number's, or the next free."""
    house = [one for one in trailer.circuits if one.kind is CircuitKind.HOUSE and one.way is not None]
    asked = {one.way: one for one in house if one.way_origin is not None}
    taken: dict[int | None, Circuit] = dict(asked)
    rest = [one for one in house if one.way_origin is None]
    for circuit in rest:
        issued = made.issued.get(circuit.number)
        if issued is None or issued.way is None:
            continue
        if issued.way in asked:
            made.problems.append(_way_taken(asked[issued.way], circuit, issued.way))
        taken[issued.way] = circuit
        made.ways[circuit.number] = issued.way
    most = trailer.front_box.fuse_ways if trailer.front_box else 0
    for circuit in rest:
        if circuit.number not in made.ways:
            own = made.numbers[circuit.number]
            way = own if own <= most and own not in taken else next(unused(way for way in taken if way))
            taken[way] = circuit
            made.ways[circuit.number] = way
    made.moved = {f"way {one.way}": f"way {made.ways[one.number]}" for one in rest}


def _way_taken(asking: Circuit, issued: Circuit, way: int) -> Problem:
    return Problem(
        asking.way_origin or asking.origin,
        "way taken",
        f"fuse way {way} was issued to “{issued.name}”, which has no way: of its own here",
        f"give “{asking.name}” another way, or write the new way of “{issued.name}” too",
    )


def _moved(at: Terminal, made: _Circuits) -> Terminal:
    """Return a terminal where it is now: a fuse way where its circuit is on another one."""
    return Terminal(FRONT_BOX, made.moved.get(at.pin, at.pin)) if at.part == FRONT_BOX else at


def _circuit(circuit: Circuit, made: _Circuits) -> Circuit:
    issued = made.issued.get(circuit.number)
    return replace(
        circuit,
        number=made.numbers[circuit.number],
        way=made.ways.get(circuit.number, circuit.way),
        start=_moved(circuit.start, made),
        issued_way=issued.way if issued else None,
        draft=issued is None,
    )


def _wire_numbers(trailer: Trailer, ledger: Ledger, made: _Circuits) -> list[str]:
    """Return the number of each wire of the build, in its order."""
    every = runs(trailer)
    parts = frozenset(map(fold, trailer.parts))
    mine: dict[int, list[int]] = {}
    for place, wire in enumerate(trailer.wires):
        mine.setdefault(wire.circuit, []).append(place)
    kept: dict[int, dict[str, Run]] = {}
    letters: dict[int, set[str]] = {}
    for one in sorted(ledger.wires, key=lambda issued: number_order(issued.number)):
        letters.setdefault(circuit_number(one.number), set()).add(one.number)
        if not one.retired:
            kept.setdefault(circuit_number(one.number), {})[one.number] = run_of(one)
    numbers = [""] * len(trailer.wires)
    for draft, places in mine.items():
        circuit = made.numbers[draft]
        found = match(kept.get(circuit, {}), [every[place] for place in places], parts)
        free = _letters(circuit, letters.get(circuit, set()))
        for rank, place in enumerate(places):
            numbers[place] = found.get(rank) or next(free)
    return numbers


def _letters(circuit: int, taken: set[str]) -> Iterator[str]:
    """Yield the numbers of a circuit's wires that were never issued, in their order."""
    index = 0
    while True:
        number = f"{circuit}{letter(index)}"
        if number not in taken:
            yield number
        index += 1


def _spares(trailer: Trailer, ledger: Ledger) -> tuple[Wire, ...]:
    """Return the spare wires with their numbers: by their names in the build file."""
    known = {fold(one.name): one.number for one in ledger.spares if not one.retired}
    free = unused(number_order(one.number)[0] for one in ledger.spares)
    found = []
    for wire in trailer.spares:
        number = known.get(fold(wire.start.pin))
        found.append(replace(wire, number=number or f"S{next(free)}", draft=number is None))
    return tuple(sorted(found, key=lambda wire: number_order(wire.number)))
