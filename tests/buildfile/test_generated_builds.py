"""What must hold for every valid build file: it reads without a problem, and its wires say what its paths say."""

from __future__ import annotations

import dataclasses
import math
import os
import re
from collections import Counter
from collections.abc import Iterator

import pytest
from generated_builds import FORMS, KINDS, SECTION_KINDS, GeneratedBuild, GeneratedCircuit, Leg, builds
from hypothesis import Phase, given, settings

from builder.buildfile.resolving import read_build
from builder.buildfile.resolving_circuits import FUSE_LEAD_M
from builder.electrics.computing import compute
from builder.electrics.network import LoadPath, load_paths, neighbours, reach
from builder.trailer.circuits import Circuit, CircuitKind
from builder.trailer.model import BATTERY, TOW_PLUG, Trailer
from builder.trailer.origin import NOWHERE
from builder.trailer.wires import Role, Wire

EXAMPLES = 500 if os.environ.get("WIRING_CI") == "1" else 150
LEAST_SHARE = 0.05


def trailer_of(build: GeneratedBuild) -> Trailer:
    """Return the trailer of a build that must read without a problem."""
    reading = read_build(build.data)
    assert not reading.problems
    assert reading.trailer is not None
    return reading.trailer


def numbered(build: GeneratedBuild) -> list[GeneratedCircuit]:
    """Return the circuits in the order of their numbers: as written, those that start elsewhere after the others."""
    return sorted(build.circuits, key=lambda circuit: circuit.start != "")


def pairs(trailer: Trailer, build: GeneratedBuild) -> Iterator[tuple[Circuit, GeneratedCircuit]]:
    """Return each circuit beside its description."""
    return zip(trailer.circuits, numbered(build), strict=False)


def folded(text: str) -> str:
    """Return a name as names are compared."""
    return " ".join(text.casefold().split())


def kind_of(build: GeneratedBuild, part: str) -> str:
    """Return the declared kind of a part, or nothing for one that is not declared."""
    return str(build.parts.get(part, {}).get("kind", "")).casefold()


def has_short_fuse(circuit: GeneratedCircuit) -> bool:
    """Tell whether ``fuse:`` puts a fuse at the start of a circuit that does not start at the fuse block."""
    return bool(circuit.start) and "fuse" in circuit.words


def distances(build: GeneratedBuild, circuit: GeneratedCircuit) -> list[tuple[Leg, float]]:
    """Return each item with its distance from where its supply begins, as the written lengths add up to."""
    first = FUSE_LEAD_M if has_short_fuse(circuit) else 0.0
    behind = {"fuse": first}
    found: list[tuple[Leg, float]] = []
    for start, path in [("fuse", tuple(circuit.path)), *((b.start, b.path) for b in circuit.branches)]:
        far = behind[start]
        for leg in path:
            far += leg.length.metres
            found.append((leg, far))
            far = 0.0 if kind_of(build, leg.part) in SECTION_KINDS else far
            if not leg.coil:
                behind[leg.part] = far
    return found


def length_m(trailer: Trailer, wires: tuple[int, ...], circuits: set[int]) -> float:
    """Return how long the wires of some circuits are among those of a load's way."""
    return sum(trailer.wires[index].length_m for index in wires if trailer.wires[index].circuit in circuits)


def wire_numbers_are_unique_and_letters_never_look_like_digits(
    build: GeneratedBuild, trailer: Trailer
) -> None:
    numbers = [wire.number for wire in (*trailer.wires, *trailer.spares)]
    assert len(set(numbers)) == len(numbers)
    circuits = [circuit.number for circuit in trailer.circuits]
    assert circuits == list(range(1, len(circuits) + 1))
    for wire in trailer.wires:
        number = re.fullmatch(r"(\d+)([A-HJ-NP-Z]+)", wire.number)
        assert number is not None
        assert int(number[1]) == wire.circuit


def feeds_are_numbered_before_returns(build: GeneratedBuild, trailer: Trailer) -> None:
    assert [wire.circuit for wire in trailer.wires] == sorted(wire.circuit for wire in trailer.wires)
    for circuit in trailer.circuits:
        roles = [
            wire.role in (Role.RETURN, Role.BOND) for wire in trailer.wires if wire.circuit == circuit.number
        ]
        assert roles == sorted(roles)


def circuits_stand_as_written_then_the_plug_then_the_battery(build: GeneratedBuild, trailer: Trailer) -> None:
    own = [c.name for c in trailer.circuits if c.kind in (CircuitKind.HOUSE, CircuitKind.FROM)]
    assert own == [circuit.name for circuit in numbered(build)]
    kinds = [circuit.kind for circuit in trailer.circuits]
    assert kinds == sorted(kinds, key=list(CircuitKind).index)
    ways = [circuit.way for circuit in trailer.circuits if circuit.way is not None]
    assert len(set(ways)) == len(ways)
    for circuit, written in pairs(trailer, build):
        if "way" in written.words:
            assert circuit.way == int(str(written.words["way"]))


def every_item_is_a_stop_and_every_leg_a_feed(build: GeneratedBuild, trailer: Trailer) -> None:
    for circuit, written in pairs(trailer, build):
        stops = [(stop.part, stop.as_coil) for stop in circuit.stops]
        expected = [(leg.part, leg.coil) for leg in written.legs]
        assert stops[1 if has_short_fuse(written) else 0 :] == expected
        feeds = [w.length_m for w in trailer.wires if w.circuit == circuit.number and w.role is Role.FEED]
        legs = [leg.length.metres for leg in written.legs if not _doubled(build, written, leg)]
        legs += [FUSE_LEAD_M] if has_short_fuse(written) else []
        assert sorted(feeds) == pytest.approx(sorted(legs))
        doubled = [
            w.length_m for w in trailer.wires if w.circuit == circuit.number and w.role is Role.TRAVELLER
        ]
        twice = [leg.length.metres for leg in written.legs if _doubled(build, written, leg) for _ in range(2)]
        assert sorted(doubled) == pytest.approx(sorted(twice))


def _doubled(build: GeneratedBuild, circuit: GeneratedCircuit, leg: Leg) -> bool:
    """Tell whether a leg lies between the first and the last two-way switch of its path."""
    ends = [n for n, item in enumerate(circuit.path) if kind_of(build, item.part) == "two-way switch"]
    return len(ends) == 2 and any(leg is item for item in circuit.path[ends[0] + 1 : ends[1] + 1])


def every_load_reaches_both_poles(build: GeneratedBuild, trailer: Trailer) -> None:
    reached = {(path.load.part, path.load.what) for path in load_paths(trailer)}
    behind_rest = {
        part for part, what in ((load.part, load.what) for load in trailer.loads) if part in build.behind_rest
    }
    assert behind_rest == build.behind_rest
    missing = {load.part for load in trailer.loads if (load.part, load.what) not in reached}
    assert not missing  # both positions of a change-over count


def feed_and_return_of_a_load_are_as_long_as_its_path(build: GeneratedBuild, trailer: Trailer) -> None:
    paths = load_paths(trailer)
    contacts: dict[str, list[float]] = {}
    for _, written in pairs(trailer, build):
        for leg, metres in distances(build, written):
            if not leg.coil:
                contacts.setdefault(leg.part, []).append(metres)
    for circuit, written in pairs(trailer, build):
        far = {(leg.part, leg.coil): metres for leg, metres in distances(build, written)}
        before = build.battery_reach_m.get(written.start, 0.0)
        for path in (path for path in paths if path.load.circuit == circuit.number):
            if path.load.what == "idle" and kind_of(build, path.load.part) in SECTION_KINDS[1:]:
                continue  # at night a charger is fed from where it charges
            expected = far.get((path.load.part, path.load.what == "coil"))
            if expected is None:
                assert path.load.part == BATTERY or path.load.part.endswith(" fuse")
                continue
            assert length_m(trailer, path.feeds, {circuit.number}) == pytest.approx(expected)
            if written.returns_named:
                continue
            back_m = length_m(trailer, path.returns, {circuit.number})
            if path.load.what == "coil":  # by the contact's way, where that is the shorter one
                ways = [before + expected, *contacts.get(path.load.part, ())]
                assert back_m <= before + expected + 1e-6
                assert any(back_m == pytest.approx(way) for way in ways)
            else:
                assert back_m == pytest.approx(before + expected)


def road_lamps_are_fed_from_the_plug_and_return_to_it(build: GeneratedBuild, trailer: Trailer) -> None:
    tow = {circuit.number for circuit in trailer.circuits if circuit.kind is CircuitKind.TOW}
    far = {
        folded(lamp): sum(leg.length.metres for leg in road.path) + build.cable_m
        for road in build.road_lamps
        for lamp in road.lamps
    }
    by_lamp: dict[str, list[LoadPath]] = {}
    for path in load_paths(trailer):
        if folded(path.load.part) in far and path.load.circuit in tow:
            by_lamp.setdefault(folded(path.load.part), []).append(path)
    assert set(by_lamp) == set(far)
    for name, paths in by_lamp.items():
        for path in paths:
            assert length_m(trailer, path.feeds, tow) == pytest.approx(far[name])
            assert length_m(trailer, path.returns, tow) == pytest.approx(far[name])


def no_feed_is_joined_to_a_return_and_no_contact_to_another(build: GeneratedBuild, trailer: Trailer) -> None:
    graph = neighbours(trailer)
    minus = {section.minus for section in trailer.sections}
    tow = [section for section in trailer.sections if section.plus.part == TOW_PLUG]
    for section in trailer.sections:
        assert not minus & set(reach(graph, section.plus))
    for section in tow:
        others = {other.plus for other in tow} - {section.plus}
        assert not others & set(reach(graph, section.plus))


def all_figures_are_finite_and_lengths_positive(build: GeneratedBuild, trailer: Trailer) -> None:
    for wire in (*trailer.wires, *trailer.spares):
        assert wire.length_m > 0
        assert math.isfinite(wire.length_m)
    figures = compute(trailer)
    assert set(figures.wires) == {wire.number for wire in trailer.wires}
    for number in _numbers(figures):
        assert math.isfinite(number)


def _numbers(value: object) -> Iterator[float]:
    """Return every number in a tree of dataclasses."""
    if isinstance(value, float | int):
        yield value
    elif dataclasses.is_dataclass(value):
        for name in (field.name for field in dataclasses.fields(value)):
            yield from _numbers(getattr(value, name))
    elif isinstance(value, dict):
        for one in value.values():
            yield from _numbers(one)
    elif isinstance(value, tuple | list):
        for one in value:
            yield from _numbers(one)


def reading_twice_gives_the_same_trailer(build: GeneratedBuild, trailer: Trailer) -> None:
    again = trailer_of(build)
    assert again == trailer
    assert repr(again) == repr(trailer)


def the_order_of_headings_and_parts_does_not_matter(build: GeneratedBuild, trailer: Trailer) -> None:
    turned = dict(reversed(build.tree.items()))
    if build.parts:
        turned["parts"] = dict(reversed(build.parts.items()))
    other = trailer_of(dataclasses.replace(build, tree=turned))
    assert [_without_place(wire) for wire in other.wires] == [_without_place(wire) for wire in trailer.wires]


def _without_place(wire: Wire) -> Wire:
    return dataclasses.replace(wire, origin=NOWHERE)


CHECKS = (
    wire_numbers_are_unique_and_letters_never_look_like_digits,
    feeds_are_numbered_before_returns,
    circuits_stand_as_written_then_the_plug_then_the_battery,
    every_item_is_a_stop_and_every_leg_a_feed,
    every_load_reaches_both_poles,
    feed_and_return_of_a_load_are_as_long_as_its_path,
    road_lamps_are_fed_from_the_plug_and_return_to_it,
    no_feed_is_joined_to_a_return_and_no_contact_to_another,
    all_figures_are_finite_and_lengths_positive,
    reading_twice_gives_the_same_trailer,
    the_order_of_headings_and_parts_does_not_matter,
)
"""What holds for every valid build; all are asked of each build, so that each is read once."""


def test_every_kind_and_form_is_generated_reads_without_a_problem_and_holds() -> None:
    shown: Counter[str] = Counter()
    total = 0

    @settings(max_examples=EXAMPLES, deadline=None, derandomize=True, database=None, phases=[Phase.generate])
    @given(builds())
    def read_and_check(build: GeneratedBuild) -> None:
        nonlocal total
        total += 1
        shown.update(f"form {form}" for form in build.forms)
        shown.update(f"kind {kind}" for kind in build.kinds)
        trailer = trailer_of(build)
        for check in CHECKS:
            check(build, trailer)

    read_and_check()
    wanted = [f"form {form}" for form in FORMS] + [f"kind {kind}" for kind in KINDS]
    assert total >= EXAMPLES
    assert {word: shown[word] / total for word in wanted if shown[word] / total < LEAST_SHARE} == {}
    assert set(shown) == set(wanted)
