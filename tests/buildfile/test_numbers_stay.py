"""Issued numbers stay: for any edits of any build every other wire keeps its number, and none is used twice."""

from __future__ import annotations

import os
import re
from collections import Counter
from collections.abc import Mapping
from itertools import permutations
from typing import Any

import pytest
from edited_builds import EDITS, Tree, edited
from generated_builds import GeneratedBuild, builds
from generated_layout import lay_out
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from builder.buildfile.issuing import issue
from builder.buildfile.ledger_matching import match
from builder.buildfile.ledger_reading import read_ledger
from builder.buildfile.ledger_text import ledger_text
from builder.buildfile.ledger_wires import Run
from builder.buildfile.numbering import Numbered, number_trailer
from builder.buildfile.resolving import read_build
from builder.electrics.computing import compute
from builder.trailer.circuits import CircuitKind
from builder.trailer.ledger import Ledger
from builder.trailer.model import Trailer
from builder.trailer.parts import Form, Terminal
from builder.trailer.wires import Role, Wire

EXAMPLES = 100 if os.environ.get("WIRING_CI") == "1" else 20
PHASES = (Phase.explicit, Phase.reuse, Phase.generate)
ISSUED = re.compile(r"([1-9]\d*)([A-HJ-NP-Z]+)")


def read(tree: Mapping[str, Any], seed: int) -> Trailer | None:
    """Return the trailer of a tree, None where an edit left no sound build."""
    return read_build(("\n".join(lay_out(tree, seed).lines) + "\n").encode()).trailer


def through_its_file(ledger: Ledger) -> Ledger:
    """Return a ledger as it is after it was written and read."""
    reading = read_ledger(ledger_text(ledger).encode())
    assert not reading.problems
    assert reading.ledger is not None
    return reading.ledger


def issued(trailer: Trailer) -> Ledger:
    return through_its_file(issue(trailer).ledger)


def with_numbers(trailer: Trailer, ledger: Ledger) -> Trailer:
    made: Numbered = number_trailer(trailer, ledger)
    assert made.problems == ()
    return made.trailer


def plain(trailer: Trailer, at: Terminal) -> tuple[str, str]:
    """Return a terminal without the numbers that other wires decide: this test's own way of seeing it."""
    part = trailer.parts.get(at.part)
    if at.part in ("front box", "tow plug") or (part is not None and part.form is Form.THROUGH):
        word = "strip" if at.pin.startswith("strip") else re.sub(r"\d+", "", at.pin)
        return at.part, word
    if part is not None and part.kind == "road lamp":
        return at.part, "return" if at.pin == "−" else "feed"
    return at.part, at.pin


def seen(trailer: Trailer, wire: Wire) -> tuple[Any, ...]:
    """Return what a maker would say of a wire: its circuit, its purpose, its ends, and what is one step beyond."""
    circuit = trailer.circuit(wire.circuit)
    kind = "file" if circuit.kind in (CircuitKind.HOUSE, CircuitKind.FROM) else circuit.kind.value
    purpose = {Role.TRAVELLER: Role.FEED}.get(wire.role, wire.role).value
    here = wire.start if wire.role is Role.RETURN else wire.end
    beyond = Terminal(here.part, here.pin.replace(" in", " out"))
    next_ones = frozenset(
        other.start.part if wire.role is Role.RETURN else other.end.part
        for other in trailer.wires
        if beyond != here and (other.end if wire.role is Role.RETURN else other.start) == beyond
    )
    return kind, circuit.known_as, purpose, plain(trailer, wire.start), plain(trailer, wire.end), next_ones


def only_ones(trailer: Trailer, short: bool) -> dict[tuple[Any, ...], str]:
    """Return the numbers of the wires that can be told from all others; ``short`` leaves out what is beyond."""
    keys = [seen(trailer, wire)[: 5 if short else 6] for wire in trailer.wires]
    counts = Counter(keys)
    return {key: wire.number for key, wire in zip(keys, trailer.wires, strict=True) if counts[key] == 1}


def check_that_all_stay(before: Trailer, after: Trailer) -> None:
    """Check that what is the same wire before and after has its number, and the same circuit its number and way."""
    for short in (True, False):
        old, new = only_ones(before, short), only_ones(after, short)
        far = {name for name, part in after.parts.items() if part.form is Form.THROUGH}
        for key in old.keys() & new.keys():
            if short or not key[5] & far:
                assert old[key] == new[key], key
    circuits = {(c.kind in (CircuitKind.HOUSE, CircuitKind.FROM), c.known_as): c for c in before.circuits}
    for circuit in after.circuits:
        known = circuits.get((circuit.kind in (CircuitKind.HOUSE, CircuitKind.FROM), circuit.known_as))
        if known is not None:
            assert circuit.number == known.number
            assert circuit.way == known.way
    spares = {wire.start.pin: wire.number for wire in before.spares}
    assert all(spares.get(wire.start.pin, wire.number) == wire.number for wire in after.spares)


def check_that_it_holds_together(trailer: Trailer, ledger: Ledger) -> None:
    """Check that each number is there once, and what is a draft was never issued."""
    numbers = [wire.number for wire in (*trailer.wires, *trailer.spares)]
    assert len(set(numbers)) == len(numbers)
    ways = [circuit.way for circuit in trailer.circuits if circuit.way is not None]
    assert len(set(ways)) == len(ways)
    assert [c.number for c in trailer.circuits] == sorted({c.number for c in trailer.circuits})
    ever = {one.number: one for one in (*ledger.wires, *ledger.spares)}
    for wire in (*trailer.wires, *trailer.spares):
        assert wire.draft == (wire.number not in ever)
        assert wire.draft or not ever[wire.number].retired
    assert {c.number for c in trailer.circuits if c.draft}.isdisjoint(one.number for one in ledger.circuits)
    for wire in trailer.wires:
        parts = ISSUED.fullmatch(wire.number)
        assert parts is not None
        assert int(parts[1]) == wire.circuit
        assert wire.circuit in {circuit.number for circuit in trailer.circuits}
    starts = {circuit.start for circuit in trailer.circuits if circuit.way is not None}
    assert {c.start.pin for c in trailer.circuits if c.way is not None} == {f"way {way}" for way in ways}
    fed = [
        wire.start
        for wire in trailer.wires
        if wire.start.part == "front box" and wire.start.pin[:4] == "way "
    ]
    assert set(fed) <= starts


@given(
    builds(),
    st.lists(st.tuples(st.sampled_from(EDITS), st.integers(0, 10**6), st.booleans()), min_size=1, max_size=8),
)
@settings(max_examples=EXAMPLES, phases=PHASES, deadline=None)
def test_any_edits_leave_the_numbers_of_all_other_wires(
    build: GeneratedBuild, edits: list[tuple[Any, int, bool]]
) -> None:
    tree: Tree = dict(build.tree)
    trailer = read(tree, build.seed)
    assert trailer is not None
    ledger = issued(trailer)
    before = with_numbers(trailer, ledger)
    check_that_all_stay(trailer, before)
    ever: dict[str, bool] = {}
    for turn, (edit, seed, is_issued) in enumerate(edits):
        after = edited(tree, edit, seed, turn)
        trailer = read(after, build.seed)
        if trailer is None:
            continue  # an edit that leaves no sound build is told of, and the maker takes it back
        tree = after
        now = with_numbers(trailer, ledger)
        check_that_all_stay(before, now)
        check_that_it_holds_together(now, ledger)
        if not is_issued:
            continue
        ledger = issued(now)
        for one in (*ledger.wires, *ledger.spares):
            assert one.retired or not ever.get(one.number, False), "a retired number came back"
            ever[one.number] = one.retired
        again = with_numbers(trailer, ledger)
        assert [w.number for w in again.wires] == [w.number for w in now.wires]
        assert again.draft_numbers == again.gone == ()
        assert ledger_text(issued(again)) == ledger_text(ledger)
        before = again
    assert ever.keys() <= {one.number for one in (*ledger.wires, *ledger.spares)}


@given(builds())
@settings(max_examples=EXAMPLES, phases=PHASES, deadline=None)
def test_the_first_numbers_issued_are_those_of_the_drafts(build: GeneratedBuild) -> None:
    trailer = read(build.tree, build.seed)
    assert trailer is not None
    now = with_numbers(trailer, issued(trailer))
    assert [(w.number, w.start, w.end) for w in now.wires] == [
        (w.number, w.start, w.end) for w in trailer.wires
    ]
    assert now.loads == trailer.loads
    assert now.links == trailer.links
    assert now.draft_numbers == ()


@given(builds(), st.sampled_from(EDITS), st.integers(0, 10**6))
@settings(max_examples=EXAMPLES // 2, phases=PHASES, deadline=None)
def test_a_number_changes_no_figure(build: GeneratedBuild, edit: Any, seed: int) -> None:
    """Whatever its number is, a wire carries and drops the same, and is of the same size."""
    first = read(build.tree, build.seed)
    drafts = read(edited(dict(build.tree), edit, seed, 0), build.seed)
    if first is None or drafts is None:
        return
    now = with_numbers(drafts, issued(first))
    worked = []
    for trailer in (drafts, now):
        figures = compute(trailer)
        rows = []
        for wire in trailer.wires:
            made, circuit = figures.wires[wire.number], trailer.circuit(wire.circuit)
            fuse = figures.circuits[wire.circuit].fuse
            rating = fuse.rating_a if fuse and fuse.rating_a else 0.0
            ends = (seen(trailer, wire)[:5], str(wire.start) if circuit.way is None else "", str(wire.end))
            looks = (str(made.size), f"{made.current_a:.6g}", f"{made.drop_v:.6g}", made.bundle, rating)
            rows.append(repr((ends, looks)))
        worked.append(sorted(rows))
    assert worked[0] == worked[1]


# ------------------------------------------------------------------ matching against all ways to match

PARTS = ("box", "a", "b", "c")
ENDS = st.builds(Terminal, st.sampled_from(PARTS), st.sampled_from(["in", "in", "out"]))
SERVED = st.frozensets(st.sampled_from(PARTS), max_size=3)
RUNS = st.builds(Run, st.sampled_from(["feed", "return"]), ENDS, ENDS, SERVED) | st.builds(
    Run,
    st.just("feed"),
    st.sampled_from([Terminal("box", "in"), Terminal("box", "out")]),
    st.just(Terminal("a", "in")),
    SERVED,
)


def leads(run: Run, pieces: tuple[Run, ...]) -> bool:
    """Whether pieces lead one after the other from a wire's start to its end."""
    ends = [run.start.part, *(piece.end.part for piece in pieces)]
    starts = [*(piece.start.part for piece in pieces), run.end.part]
    return starts == ends and all(piece.use == run.use for piece in pieces)


@given(st.lists(RUNS, max_size=5), st.lists(RUNS, max_size=5))
@settings(max_examples=EXAMPLES * 5, phases=PHASES, deadline=None)
def test_matching_is_as_good_as_the_best_of_all_ways_to_match(old: list[Run], new: list[Run]) -> None:
    numbers = {f"1{letter}": run for letter, run in zip("ABCDE", old, strict=False)}
    found = match(numbers, new, PARTS)
    assert len(set(found.values())) == len(found)
    pairs = [(numbers[number], new[place]) for place, number in found.items()]
    exact = sum((Counter(old) & Counter(new)).values())
    assert sum(one == other for one, other in pairs) == exact
    ends = [[(run.use, run.start, run.end) for run in runs] for runs in (old, new)]
    assert sum((a.use, a.start, a.end) == (b.use, b.start, b.end) for a, b in pairs) == sum(
        (Counter(ends[0]) & Counter(ends[1])).values()
    )
    between = [[(run.use, run.start.part, run.end.part) for run in runs] for runs in (old, new)]
    same = sum((Counter(between[0]) & Counter(between[1])).values())
    assert (
        sum((a.use, a.start.part, a.end.part) == (b.use, b.start.part, b.end.part) for a, b in pairs) == same
    )
    for one, other in pairs:
        if (one.start.part, one.end.part) != (other.start.part, other.end.part):
            others = [run for run in new if run is not other]
            assert any(
                leads(one, way)
                for count in range(1, len(new))
                for rest in permutations(others, count)
                for cut in range(count + 1)
                for way in [(*rest[:cut], other, *rest[cut:])]
            ), (one, other)
    kept = set(found.values())
    for number, run in numbers.items():
        if number not in kept:  # nothing that is left could have had it
            left = [one for place, one in enumerate(new) if place not in found]
            assert all(
                (run.use, run.start.part, run.end.part) != (x.use, x.start.part, x.end.part) for x in left
            )


@pytest.mark.parametrize(("use", "keeps"), [("feed", 0), ("return", 1)])
def test_of_a_cut_wire_the_half_towards_the_supply_keeps_the_number(use: Any, keeps: int) -> None:
    whole = Run(use, Terminal("a", "out"), Terminal("b", "in"), frozenset())
    halves = [
        Run(use, Terminal("a", "out"), Terminal("c", "in"), frozenset()),
        Run(use, Terminal("c", "out"), Terminal("b", "in"), frozenset()),
    ]
    assert match({"7C": whole}, halves, PARTS) == {keeps: "7C"}
    assert match({"7C": whole}, halves[:1], PARTS) == {}
