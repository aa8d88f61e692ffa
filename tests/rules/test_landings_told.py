"""Whatever is built: no stud has more wires than it takes, no ring goes on another stud, without a finding."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

from generated_builds import GeneratedBuild, builds
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from builder.buildfile.resolving import read_build
from builder.electrics.computing import compute
from builder.rules.registry import find
from builder.tables.studs import stud_sizes
from builder.trailer.landing_points import StudSize
from builder.trailer.model import BATTERY, GROUND_BAR, Trailer

SIZES = st.sampled_from(sorted(stud_sizes()))
QUIET = settings(max_examples=30, deadline=None, suppress_health_check=[HealthCheck.filter_too_much])


def read(data: bytes, more: str) -> Trailer:
    trailer = read_build(data + more.encode()).trailer
    assume(trailer is not None)
    assert trailer is not None
    return trailer


def at(trailer: Trailer, part: str, pin: str) -> int:
    return sum((end.part, end.pin) == (part, pin) for w in trailer.wires for end in (w.start, w.end))


@QUIET
@given(builds(), st.integers(1, 4), st.integers(1, 5))
def test_more_wires_than_the_studs_take_are_told_and_no_fewer(
    build: GeneratedBuild, count: int, most: int
) -> None:
    more = f"terminal studs: {{battery: {{count: {count}, most on each: {most}}}}}\n"
    trailer = read(build.data, more)
    figures = compute(trailer)
    worst = max(at(trailer, BATTERY, "+"), at(trailer, BATTERY, "−"))
    found = [one for one in find(trailer, figures) if one.rule == "stud too full"]
    assert bool(found) == (worst > count * most)
    for pin in ("+", "−"):
        on_each = [len(one.wires) for one in figures.landings if (one.part, one.pin) == (BATTERY, pin)]
        assert sum(on_each) == at(trailer, BATTERY, pin)
        assert len(on_each) <= count
        assert max(on_each, default=0) - min(on_each, default=0) <= 1


@QUIET
@given(builds(), SIZES, st.lists(SIZES, min_size=1, max_size=3, unique=True))
def test_rings_that_fit_no_screw_of_the_ground_bar_are_told_once_for_each_size_of_wire(
    build: GeneratedBuild, stud: str, rings: list[str]
) -> None:
    trailer = read(build.data, f"terminal studs: {{ground bar: {{size: {stud}}}}}\n")
    figures = compute(trailer)
    ring = {name: StudSize(name, number) for name, (number, _) in stud_sizes().items()}
    sizes = Counter(
        figures.wires[wire.number].size
        for wire in trailer.wires
        for end in (wire.start, wire.end)
        if end == GROUND_BAR
    )
    assume(sizes)
    size = min(sizes, key=str)
    shelf = replace(trailer.shelf, rings={size: tuple(ring[name] for name in rings)})
    trailer = replace(trailer, shelf=shelf)
    found = [one for one in find(trailer, figures) if one.rule == "ring of another size"]
    fits = stud_sizes()[stud][0] in {stud_sizes()[name][0] for name in rings}
    assert len(found) == (0 if fits else 1)
    for one in found:
        assert str(size) in one.message
        off_by = [stud_sizes()[name][0] - stud_sizes()[stud][0] for name in rings]
        assert ("do not go on" in one.message) == any(inches < 0 for inches in off_by)
        assert ("too wide" in one.message) == any(inches > 0 for inches in off_by)
