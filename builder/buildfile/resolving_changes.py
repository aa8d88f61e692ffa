"""Changes as they are written: which wire, circuit or part each is about, and the trailer as it was built."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace

from builder.buildfile.changing import with_circuit, with_lamps, with_part, with_wire
from builder.buildfile.declared_changes import WHOLE, ChangeWords
from builder.buildfile.laying_out import Layout, unknown_place
from builder.buildfile.problems import Problem, instead, leave_out
from builder.buildfile.suggesting import did_you_mean, near_words
from builder.buildfile.written import Key, fold
from builder.trailer.changes import Change
from builder.trailer.circuits import Circuit
from builder.trailer.model import BATTERY, RoadLamp, Trailer
from builder.trailer.origin import Origin
from builder.trailer.wires import Wire

_NAMED = {"through": "way"}
"""Words of the file that a sentence says otherwise."""
_NUMBER = re.compile(r"(?:\d+[a-z]+|s\d+)", re.IGNORECASE)
"""The form of a wire's number, or of a spare wire's."""
_OF_WIRES = ("length", "size", "color", "through")
_OF_CIRCUITS, _OF_PARTS = ("size", "fuse"), ("draws",)
_ALL = ("length", "size", "color", "through", "fuse", "draws")

Changes = Mapping[Key, ChangeWords]


def check_changes(changes: Changes, trailer: Trailer) -> list[Problem]:
    """Return what is wrong with changes of circuits and parts; those of wires wait until all wires have a number."""
    problems = []
    for key, words in changes.items():
        if _is_number(trailer, key):
            problems += _misfits(key, words, _OF_WIRES, "a wire has a length, a size, a color and a way")
            problems += _unknown_ways(trailer, words)
            continue
        lamps = _lamps(trailer, key)
        if lamps:
            problems += _misfits(key, words, _OF_PARTS, "a road lamp has what it draws for each function")
            problems += _not_shown(key, words, lamps)
            continue
        circuit, part = _circuit(trailer, key), _part(trailer, key)
        if circuit is None and part is None:
            names = [*(c.name for c in trailer.circuits), *trailer.parts, BATTERY]
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
        problems += _misfits(key, words, fits, "length, color and way are of one wire: write its number")
        problems += _not_one_draw(key, words) if "draws" in fits else []
    return problems


def _misfits(key: Key, words: ChangeWords, fits: tuple[str, ...], way_out: str) -> list[Problem]:
    """Return the problem of each word that what is changed does not have."""
    return [
        Problem(
            _place(words, word),
            "change that does not fit",
            f"“{key}” has no {_NAMED.get(word, word)} that could be changed",
            way_out
            if word in ("length", "color", "through") or _NUMBER.fullmatch(key)
            else "write it under the name that has it",
            mends=leave_out(key.origin),
        )
        for word in changed_words(words)
        if word not in fits
    ]


def changed_words(words: ChangeWords) -> tuple[str, ...]:
    """Return the words of a change that say something."""
    return tuple(word for word in _ALL if getattr(words, word) not in (None, [], {}))


def _place(words: ChangeWords, word: str) -> Origin:
    """Return where what a word says is written."""
    value = getattr(words, word)
    first = next(iter(value)) if isinstance(value, list | dict) else value
    origin: Origin = first.origin
    return origin


def _unknown_ways(trailer: Trailer, words: ChangeWords) -> list[Problem]:
    """Return the problem of each name on the way of a wire that no place and no chase has."""
    known = {fold(name): name for name in (*trailer.geometry.places, *trailer.geometry.chases)}
    return [
        unknown_place(Layout(trailer.geometry, known), name, "a place or a chase")
        for name in words.through
        if trailer.geometry and fold(name.value) not in known
    ]


def _not_shown(key: Key, words: ChangeWords, lamps: Sequence[RoadLamp]) -> list[Problem]:
    """Return the problem of a draw that is not for a function of the lamps."""
    shown = sorted({function for lamp in lamps for function in lamp.shows})
    return [
        Problem(
            function.origin,
            "change that does not fit",
            f"“{key}” is a road lamp, and takes something for each function"
            if function == WHOLE
            else f"“{key}” does not show “{function}”",
            f"it shows {', '.join(shown)}: write it as in draws: {{{shown[0]}: 0.5 A}}",
            mends=leave_out(key.origin),
        )
        for function in words.draws
        if fold(function) not in shown
    ]


def _not_one_draw(key: Key, words: ChangeWords) -> list[Problem]:
    """Return the problem of a draw by functions, which only road lamps have."""
    return [
        Problem(
            function.origin,
            "change that does not fit",
            f"“{key}” is no road lamp: it has no “{function}” of its own",
            "write what it takes by itself, as in draws: 2 A",
            mends=leave_out(key.origin),
        )
        for function in words.draws
        if function != WHOLE
    ][:1]


def _is_number(trailer: Trailer, key: str) -> bool:
    """Tell whether a key is meant as a wire's number: it looks like one, and nothing is called so."""
    return bool(_NUMBER.fullmatch(key)) and _circuit(trailer, key) is None and _part(trailer, key) is None


def _circuit(trailer: Trailer, key: str) -> Circuit | None:
    """Return the circuit of a name; the battery's line goes by the name of its heading as well."""
    named = next((c for c in trailer.circuits if fold(c.name) == fold(key)), None)
    return trailer.battery_line if named is None and fold(key) == BATTERY else named


def _lamps(trailer: Trailer, key: str) -> tuple[RoadLamp, ...]:
    """Return the road lamp of a name, or both lamps of a pair by the pair's name."""
    names = {fold(key), f"{fold(key)} left", f"{fold(key)} right"}
    return tuple(lamp for lamp in trailer.road_lamps if fold(lamp.name) in names)


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
            built = with_wire(built, wire, key, words)
            told.append(_change(key.upper(), "wire", words, (wire.circuit,) if wire.circuit else (), key))
            continue
        lamps = {lamp.name for lamp in _lamps(trailer, key)}
        if lamps:
            built = with_lamps(built, lamps, words)
            given = {fold(function) for function in words.draws}
            lit = {
                load.circuit
                for load in trailer.loads
                if load.part in lamps and (not given or given & set(load.what.split(" and ")))
            }
            made = _change(str(key), "lamp", words, tuple(sorted(lit)), key)
            told.append(replace(made, lamps=tuple(sorted(lamps))))
            continue
        circuit, part = _circuit(trailer, key), _part(trailer, key)
        of_part = part is not None and (circuit is None or bool(words.draws))
        if circuit is not None:
            built = with_circuit(built, circuit, words)
        if part is not None and words.draws:
            built = with_part(built, part, words)
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
    date = words.date.value if words.date else ""
    return Change(
        about, kind, changed_words(words), circuits, key.origin, date, words.note.value if words.note else ""
    )


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
