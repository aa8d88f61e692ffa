"""Options as they are written: what is wrong with each, and the trailer as it would be with it in."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass, replace
from typing import TypeVar

from builder.buildfile.declared import OptionWords
from builder.buildfile.declared_landings import EntryHoleWords
from builder.buildfile.issuing import issue
from builder.buildfile.numbering import number_trailer
from builder.buildfile.problems import Problem, instead, leave_out
from builder.buildfile.resolving_changes import Changes, as_built, changes_that_fit
from builder.buildfile.suggesting import did_you_mean, near_words
from builder.buildfile.validating import Declared
from builder.buildfile.written import Key, fold
from builder.trailer.model import Option, Trailer
from builder.trailer.wires import Wire

MOST = 12
"""So many options are judged; each is a whole trailer more to work out."""

W = TypeVar("W")
Resolve = Callable[[Declared], tuple[Trailer | None, list[Problem]]]
"""What makes a trailer of what is declared, or tells what is wrong with it."""


@dataclass(frozen=True, slots=True)
class OptionsReading:
    """The options of a build file as read, and what is wrong with them."""

    options: tuple[Option, ...]
    problems: tuple[Problem, ...]


def read_options(
    declared: Declared, today: Trailer | None, told: Collection[Problem], resolve: Resolve
) -> OptionsReading:
    """Return each option with the trailer that has it in, or what is wrong with it.

    Arguments: ``today`` is the trailer without any, None where it has problems; ``told`` are these problems, which no
    option tells again.
    """
    problems: list[Problem] = []
    options: list[Option] = []
    places = {(problem.origin.line, problem.origin.column) for problem in told}
    for number, (key, words) in enumerate(declared.options.items(), start=1):
        wrong = _too_many(key) if number > MOST else _misfits(declared, key, words)
        problems += wrong
        if wrong:
            continue
        trailer, more = resolve(with_option(declared, words))
        problems += [one for one in more if (one.origin.line, one.origin.column) not in places]
        if trailer is not None and today is not None:
            options.append(_option(key, words, trailer, today))
    return OptionsReading(tuple(options), tuple(problems))


def with_option(declared: Declared, words: OptionWords) -> Declared:
    """Return what is declared with an option in it: its entries behind the others, or in their namesakes' place."""
    circuits = _put_in(declared.circuits, words.circuits)
    for key, branches in words.branches.items():
        for name in [name for name in circuits if fold(name) == fold(key)]:
            update = {"branches": [*circuits[name].branches, *branches]}
            circuits[name] = circuits[name].model_copy(update=update)
    taken = {fold(name.value) for name in words.spares}
    holes = {key: _without(hole, taken) for key, hole in declared.entry_holes.items()}
    return replace(
        declared,
        pulled={key: when for key, when in declared.pulled.items() if fold(key) not in taken},
        entry_holes={key: hole for key, hole in holes.items() if hole.takes != []},
        parts=_put_in(declared.parts, words.parts),
        circuits=circuits,
        spares={key: spare for key, spare in declared.spares.items() if fold(key) not in taken},
        changes={},
        options={},
    )


def _without(hole: EntryHoleWords, taken: Collection[str]) -> EntryHoleWords:
    """Return a hole of the front box that no longer takes spare wires which are put to use."""
    if hole.takes is None:
        return hole
    return hole.model_copy(update={"takes": [name for name in hole.takes if fold(name.value) not in taken]})


def _put_in(there: Mapping[Key, W], new: Mapping[Key, W]) -> dict[Key, W]:
    """Return entries with new ones behind them; one whose name is there already takes that one's place."""
    names = {fold(key): (key, value) for key, value in new.items()}
    kept = dict(names.pop(fold(key), (key, value)) for key, value in there.items())
    return kept | dict(names.values())


def _option(key: Key, words: OptionWords, trailer: Trailer, today: Trailer) -> Option:
    taken = {fold(name.value) for name in words.spares}
    return Option(
        name=str(key),
        origin=key.origin,
        trailer=trailer,
        parts=tuple(map(str, words.parts)),
        circuits=tuple(map(str, words.circuits)),
        spares=tuple(wire for wire in today.spares if fold(wire.start.pin) in taken),
        note=words.note.value if words.note else "",
    )


def with_options_numbered(trailer: Trailer, options: tuple[Option, ...]) -> Trailer:
    """Return a trailer with its options, in which each wire that is there has the number that it has today."""
    whole = replace(trailer, options=options)
    return replace(whole, options=numbered_options(whole, {}, trailer.spares).options) if options else trailer


def numbered_options(trailer: Trailer, changes: Changes, spares: Collection[Wire]) -> OptionsReading:
    """Return the options of a numbered trailer: what is there has the same numbers in them, and is as it was built.

    ``spares`` are its spare wires as they were built. What an option adds gets numbers that nothing has; they are
    issued once it is really built.
    """
    ledger = issue(trailer).ledger if trailer.options else None
    options: list[Option] = []
    problems: list[Problem] = []
    for option in trailer.options:
        problems += _ways_taken(trailer, option)
        numbered = number_trailer(option.trailer, ledger).trailer if ledger else option.trailer
        own = {fold(name) for name in (*option.parts, *option.circuits)}
        built, _ = as_built(numbered, changes_that_fit(numbered, changes, own))
        made = replace(built or numbered, plan=None, changes=(), gone=(), optional=option.parts)
        taken = {wire.start.pin for wire in option.spares}
        own_spares = tuple(wire for wire in spares if wire.start.pin in taken)
        options.append(replace(option, trailer=made, spares=own_spares))
    return OptionsReading(tuple(options), tuple(problems))


def _ways_taken(trailer: Trailer, option: Option) -> list[Problem]:
    """Return the problem of each fuse way that an option asks for while another circuit has it."""
    own = {fold(name) for name in option.circuits}
    there = {one.way: one for one in trailer.circuits if one.way is not None and fold(one.name) not in own}
    return [
        Problem(
            circuit.way_origin,
            "way taken",
            f"fuse way {circuit.way} has “{there[circuit.way].name}” in it",
            f"give “{circuit.name}” another way, or leave it out: the next that is free is taken then",
        )
        for circuit in option.trailer.circuits
        if circuit.way_origin is not None and fold(circuit.name) in own and circuit.way in there
    ]


def _too_many(key: Key) -> list[Problem]:
    return [
        Problem(
            key.origin,
            "too many options",
            f"“{key}” is one option more than the {MOST} that are judged",
            "leave out what is no longer thought of",
            mends=leave_out(key.origin),
        )
    ]


def _misfits(declared: Declared, key: Key, words: OptionWords) -> list[Problem]:
    """Return what is wrong with the words of an option alone: nothing in it, or a name that nothing has."""
    if not (words.parts or words.circuits or words.branches):
        return [
            Problem(
                key.origin,
                "empty option",
                f"the option “{key}” has neither a part nor a circuit",
                "write its parts and circuits as they would stand under their headings, or leave it out",
                mends=leave_out(key.origin),
            )
        ]
    circuits = [*declared.circuits, *words.circuits]
    found = [
        _unknown(name, "circuit", circuits)
        for name in words.branches
        if not _is_there(name, circuits, declared.broken, "circuits")
    ]
    found += [
        _unknown(Key.of(name.value, name.origin), "spare wire", list(declared.spares))
        for name in words.spares
        if not _is_there(name.value, declared.spares, declared.broken, "spares")
    ]
    return found


def _is_there(name: str, names: Collection[str], broken: frozenset[str], heading: str) -> bool:
    return fold(name) in {fold(one) for one in names} or fold(name) in broken or heading in broken


def _unknown(key: Key, what: str, names: list[Key]) -> Problem:
    near = near_words(key, dict.fromkeys(map(str, names)))
    return Problem(
        key.origin,
        "option of nothing",
        f"“{key}” is no {what} of this file",
        did_you_mean(near) or f"write the name of a {what} as it stands there",
        mends=(*instead(*near), *leave_out(key.origin)),
    )
