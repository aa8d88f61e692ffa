"""Changes as they are written: which wire, circuit or part each is about, and the trailer as it was built."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping
from dataclasses import replace

from builder.buildfile.declared_changes import ChangeWords
from builder.buildfile.problems import Problem, instead, leave_out
from builder.buildfile.suggesting import did_you_mean, near_words
from builder.buildfile.written import Key, fold
from builder.trailer.changes import Change
from builder.trailer.circuits import Circuit
from builder.trailer.model import Trailer
from builder.trailer.wires import Role, Wire

_NUMBER = re.compile(r"(?:\d+[a-z]+|s\d+)", re.IGNORECASE)
"""The form of a wire's number, or of a spare wire's."""
_OF_WIRES, _OF_CIRCUITS, _OF_PARTS = ("length", "size", "color"), ("size", "fuse"), ("draws",)
_ALL = ("length", "size", "color", "fuse", "draws")

Changes = Mapping[Key, ChangeWords]


def check_changes(changes: Changes, trailer: Trailer) -> list[Problem]:
    """Return what is wrong with changes of circuits and parts; those of wires wait until all wires have a number."""
    problems = []
    for key, words in changes.items():
        if _is_number(trailer, key):
            problems += _misfits(key, words, _OF_WIRES, "a wire has a length, a size and a color")
            continue
        circuit, part = _circuit(trailer, key), _part(trailer, key)
        if circuit is None and part is None:
            names = [*(c.name for c in trailer.circuits), *trailer.parts]
            near = near_words(key, dict.fromkeys(names))
            problems.append(
                Problem(
                    key.origin,
                    "change of nothing",
                    f"“{key}” is no circuit and no part of this file, and no number of a wire",
                    did_you_mean(near)
                    or "write a wire's number, such as 4A, or the name of a circuit or a part",
                    mends=(*instead(*near), *leave_out(key.origin)),
                )
            )
            continue
        fits = (*(_OF_CIRCUITS if circuit else ()), *(_OF_PARTS if part and trailer.parts[part].draw else ()))
        problems += _misfits(key, words, fits, "length and color are of one wire: write its number")
    return problems


def _misfits(key: Key, words: ChangeWords, fits: tuple[str, ...], way_out: str) -> list[Problem]:
    """Return the problem of each word that what is changed does not have."""
    return [
        Problem(
            value.origin,
            "change that does not fit",
            f"“{key}” has no {word} that could be changed",
            way_out
            if word in ("length", "color") or _NUMBER.fullmatch(key)
            else "write it under the name that has it",
            mends=leave_out(key.origin),
        )
        for word in _ALL
        if (value := getattr(words, word)) is not None and word not in fits
    ]


def _is_number(trailer: Trailer, key: str) -> bool:
    """Tell whether a key is meant as a wire's number: it looks like one, and nothing is called so."""
    return bool(_NUMBER.fullmatch(key)) and _circuit(trailer, key) is None and _part(trailer, key) is None


def _circuit(trailer: Trailer, key: str) -> Circuit | None:
    return next((c for c in trailer.circuits if fold(c.name) == fold(key)), None)


def _part(trailer: Trailer, key: str) -> str | None:
    return next((name for name in trailer.parts if fold(name) == fold(key)), None)


def as_built(trailer: Trailer, changes: Changes) -> tuple[Trailer | None, tuple[Problem, ...]]:
    """Return the trailer as it was built, with its plan beside it; or None and what is wrong with changes of wires."""
    if not changes:
        return trailer, ()
    wires = {wire.number: wire for wire in (*trailer.wires, *trailer.spares)}
    built, problems, told = trailer, [], []
    for key, words in changes.items():
        if _is_number(trailer, key):
            wire = wires.get(key.upper())
            problem = _not_to_change(key, wire, trailer)
            if problem is not None or wire is None:
                problems += [problem] if problem else []
                continue
            built = _with_wire(built, wire, key, words)
            told.append(_change(key.upper(), "wire", words, (wire.circuit,) if wire.circuit else (), key))
            continue
        circuit, part = _circuit(trailer, key), _part(trailer, key)
        of_part = part is not None and (circuit is None or words.draws is not None)
        if circuit is not None:
            built = _with_circuit(built, circuit, words)
        if part is not None and words.draws is not None:
            built = _with_part(built, part, words)
        numbers = {circuit.number} if circuit is not None else set()
        if of_part:
            numbers |= {c.number for c in trailer.circuits if any(stop.part == part for stop in c.stops)}
        name = circuit.name if circuit is not None else part or ""
        told.append(_change(name, "circuit" if circuit else "part", words, tuple(sorted(numbers)), key))
    if problems:
        return None, tuple(problems)
    return replace(built, changes=tuple(told), plan=trailer), ()


def changes_that_fit(trailer: Trailer, changes: Changes, besides: Collection[str]) -> Changes:
    """Return the changes whose wire, circuit or part a trailer has; ``besides`` are folded names left out."""
    numbers = {wire.number for wire in (*trailer.wires, *trailer.spares)}
    return {
        key: words
        for key, words in changes.items()
        if (key.upper() in numbers if _is_number(trailer, key) else fold(key) not in besides)
    }


def _change(about: str, kind: str, words: ChangeWords, circuits: tuple[int, ...], key: Key) -> Change:
    changed = tuple(word for word in _ALL if getattr(words, word) is not None)
    date = words.date.value if words.date else ""
    return Change(about, kind, changed, circuits, key.origin, date, words.note.value if words.note else "")


def _not_to_change(key: Key, wire: Wire | None, trailer: Trailer) -> Problem | None:
    if wire is None:
        every = [one.number for one in (*trailer.wires, *trailer.spares)]
        retired = key.upper() in trailer.gone
        near = near_words(key.upper(), every) or _same_circuit(key.upper(), every)
        return Problem(
            key.origin,
            "change of an unknown wire",
            f"{key.upper()} was retired: no wire has it any more"
            if retired
            else f"no wire of this trailer has the number {key.upper()}",
            did_you_mean(near) or "look the number up on the wire's label, or on the page of wires",
        )
    if wire.draft:
        return Problem(
            key.origin,
            "change of a draft",
            f"the number {wire.number} is a draft: it can still change, and this change would go to another wire",
            "run wiring-manual number first, then write changes by the numbers that it gives",
        )
    return None


def _same_circuit(number: str, every: list[str]) -> tuple[str, ...]:
    """Return numbers of the same circuit, as far as a sentence has room for them."""
    digits = number.rstrip("ABCDEFGHIJKLMNOPQRSTUVWXYZ")
    return (
        tuple(one for one in every if one.rstrip("ABCDEFGHIJKLMNOPQRSTUVWXYZ") == digits)[:3]
        if digits
        else ()
    )


def _with_wire(trailer: Trailer, wire: Wire, key: Key, words: ChangeWords) -> Trailer:
    new = next(one for one in (*trailer.wires, *trailer.spares) if one.number == wire.number)
    if words.length is not None:
        new = replace(new, length_m=words.length.value, length_source="written", origin=key.origin)
    if words.size is not None:
        new = replace(new, size=words.size.value)
    if words.color is not None:
        new = replace(new, color=words.color.value)

    def changed(wires: tuple[Wire, ...]) -> tuple[Wire, ...]:
        return tuple(new if one.number == wire.number else one for one in wires)

    circuits = tuple(_stops_moved(c, wire, new) if c.number == wire.circuit else c for c in trailer.circuits)
    return replace(trailer, wires=changed(trailer.wires), spares=changed(trailer.spares), circuits=circuits)


def _stops_moved(circuit: Circuit, old: Wire, new: Wire) -> Circuit:
    """Return a circuit whose leg to the end of a feed is as long as that feed, where it was so long before."""
    if old.role is not Role.FEED or old.length_m == new.length_m:
        return circuit
    stops = tuple(
        replace(stop, length_m=new.length_m)
        if stop.part == old.end.part and abs(stop.length_m - old.length_m) < 1e-9
        else stop
        for stop in circuit.stops
    )
    return replace(circuit, stops=stops)


def _with_circuit(trailer: Trailer, circuit: Circuit, words: ChangeWords) -> Trailer:
    now = trailer.circuit(circuit.number)
    if words.fuse is not None:
        now = replace(now, given_fuse_a=words.fuse.value, fuse_origin=words.fuse.origin)
    wires, parts = trailer.wires, dict(trailer.parts)
    holder = parts.get(circuit.fuse_part)
    if words.fuse is not None and holder is not None and holder.rating_a is not None:
        parts[holder.name] = replace(holder, rating_a=words.fuse.value)
    if words.size is not None:
        size = words.size.value
        wires = tuple(
            replace(w, size=size) if w.circuit == now.number and w.size in (None, circuit.size) else w
            for w in wires
        )
        now = replace(now, size=size)
    circuits = tuple(now if one.number == now.number else one for one in trailer.circuits)
    return replace(trailer, circuits=circuits, wires=wires, parts=parts)


def _with_part(trailer: Trailer, name: str, words: ChangeWords) -> Trailer:
    """Return a trailer in which a part draws what was fitted; it is stated now, and no longer assumed."""
    part = trailer.parts[name]
    if part.draw is None or words.draws is None:
        return trailer
    takes = words.draws.value
    value = takes.value * ((part.lit_length_m or 1.0) if takes.per_m else 1.0)
    draw = replace(part.draw, value=value, unit=takes.unit, assumption="")
    loads = tuple(
        replace(load, draw=draw) if load.part == name and load.draw == part.draw else load
        for load in trailer.loads
    )
    assumed = tuple(
        made for made in trailer.assumed if made.id != part.draw.assumption or not part.draw.assumption
    )
    return replace(
        trailer, parts={**trailer.parts, name: replace(part, draw=draw)}, loads=loads, assumed=assumed
    )
