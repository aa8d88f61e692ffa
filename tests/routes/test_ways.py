"""The shortest way through the chases against every way there is, and what must hold for all geometries."""

from __future__ import annotations

from itertools import pairwise, product
from math import dist, inf

import pytest
from drawn_geometry import geometries, geometry_of, moved
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.routes.network import lengths_of, network_of
from builder.routes.ways import NoWay, Way, shortest_way
from builder.trailer.origin import NOWHERE
from builder.trailer.places import Chase, ChaseKind, Geometry, Place

Edges = list[tuple[str, str, float, str]]
FLOOR = {"box": (0.0, 0.0, 0.0), "left": (0.0, -1.0, 0.0), "rear": (3.0, -1.0, 0.0), "lamp": (3.0, 0.0, 0.0)}


def edges_of(geometry: Geometry) -> Edges:
    return [
        (start, end, length_m, chase.name)
        for chase in geometry.chases.values()
        for start, end, length_m in lengths_of(geometry, chase)
    ]


def every_simple_way(edges: Edges, start: str, end: str, seen: tuple[str, ...] = ()) -> list[float]:
    """Return the length of every way that passes no place twice."""
    if start == end:
        return [0.0]
    found = []
    for a, b, length_m, _ in edges:
        for here, there in ((a, b), (b, a)):
            if here == start and there not in seen:
                found += [length_m + rest for rest in every_simple_way(edges, there, end, (*seen, start))]
    return found


def all_pairs(geometry: Geometry, edges: Edges) -> dict[tuple[str, str], float]:
    """Return the shortest way between all pairs of places by the algorithm of Floyd and Warshall."""
    names = list(geometry.places)
    far = {(a, b): 0.0 if a == b else inf for a, b in product(names, names)}
    for a, b, length_m, _ in edges:
        far[a, b] = min(far[a, b], length_m)
        far[b, a] = min(far[b, a], length_m)
    for via, a, b in product(names, names, names):
        far[a, b] = min(far[a, b], far[a, via] + far[via, b])
    return far


def shortest_past(geometry: Geometry, start: str, end: str, past: list[str]) -> float:
    """Return the shortest way past places and stretches of chases, by trying every stretch of each chase."""
    edges = edges_of(geometry)
    far = all_pairs(geometry, edges)
    reached = {start: 0.0}
    for name in past:
        if name in geometry.places:
            reached = {name: min(length_m + far[at, name] for at, length_m in reached.items())}
            continue
        after: dict[str, float] = {}
        for a, b, length_m, chase in edges:
            for here, there in ((a, b), (b, a)):
                if chase == name:
                    least = min(before_m + far[at, here] for at, before_m in reached.items())
                    after[there] = min(after.get(there, inf), least + length_m)
        reached = after
    return min(length_m + far[at, end] for at, length_m in reached.items())


@given(geometries(), st.data())
@settings(max_examples=150, deadline=None)
def test_no_way_is_shorter_than_the_one_found(geometry: Geometry, data: st.DataObject) -> None:
    start, end = (data.draw(st.sampled_from(list(geometry.places))) for _ in range(2))
    way = shortest_way(network_of(geometry), start, end)
    every = every_simple_way(edges_of(geometry), start, end)
    if isinstance(way, NoWay):
        assert every == []
    else:
        assert way.length_m == pytest.approx(min(every))


@given(geometries(), st.data())
@settings(max_examples=150, deadline=None)
def test_a_way_past_names_is_the_shortest_that_passes_them_in_order(
    geometry: Geometry, data: st.DataObject
) -> None:
    names = st.sampled_from([*geometry.places, *geometry.chases])
    start, end = (data.draw(st.sampled_from(list(geometry.places))) for _ in range(2))
    past = data.draw(st.lists(names, max_size=3))
    way = shortest_way(network_of(geometry), start, end, past)
    wanted = shortest_past(geometry, start, end, past)
    if isinstance(way, NoWay):
        assert wanted == inf
    else:
        assert way.length_m == pytest.approx(wanted)
        chases = [step.stretch.chase for step in way.steps]
        points = [start, *(step.end for step in way.steps)]
        assert set(past) <= {*chases, *points}


@given(geometries(), st.data())
@settings(max_examples=100, deadline=None)
def test_a_way_leads_from_place_to_place_without_a_gap(geometry: Geometry, data: st.DataObject) -> None:
    start, end = (data.draw(st.sampled_from(list(geometry.places))) for _ in range(2))
    way = shortest_way(network_of(geometry), start, end)
    if isinstance(way, Way) and way.steps:
        assert (way.steps[0].start, way.steps[-1].end) == (start, end)
        assert all(one.end == other.start for one, other in pairwise(way.steps))
        assert way.length_m >= geometry.places[start].distance_m(geometry.places[end]) - 1e-9
        for step in way.steps:
            through = geometry.chases[step.stretch.chase].through
            both = {through[step.stretch.number], through[step.stretch.number + 1]}
            assert both == {step.start, step.end}


@given(geometries(), st.tuples(*[st.floats(-5, 5)] * 3), st.booleans())
@settings(max_examples=100, deadline=None)
def test_another_origin_or_a_mirror_changes_no_length(
    geometry: Geometry, by: tuple[float, float, float], mirrored: bool
) -> None:
    one, other = network_of(geometry), network_of(moved(geometry, by, mirrored=mirrored))
    for start, end in product(geometry.places, geometry.places):
        here, there = shortest_way(one, start, end), shortest_way(other, start, end)
        assert type(here) is type(there)
        if isinstance(here, Way) and isinstance(there, Way):
            assert here.length_m == pytest.approx(there.length_m)


@given(geometries(), st.floats(0.01, 5))
@settings(max_examples=100, deadline=None)
def test_more_slack_shortens_no_way_and_another_chase_lengthens_none(
    geometry: Geometry, slack_m: float
) -> None:
    names = list(geometry.places)
    more = {
        **geometry.chases,
        "more": Chase("more", (names[0], names[-1]), ChaseKind.HINGE, NOWHERE, slack_m=0.0),
    }
    slacker = {**more, "more": Chase("more", more["more"].through, ChaseKind.HINGE, NOWHERE, slack_m=slack_m)}
    plain, joined, slack = (
        all_of(Geometry(geometry.places, chases)) for chases in (geometry.chases, more, slacker)
    )
    for pair in plain:
        assert joined[pair] <= slack[pair] + 1e-9
        assert slack[pair] <= plain[pair] + 1e-9


def all_of(geometry: Geometry) -> dict[tuple[str, str], float]:
    network = network_of(geometry)
    ways = {pair: shortest_way(network, *pair) for pair in product(geometry.places, geometry.places)}
    return {pair: way.length_m if isinstance(way, Way) else inf for pair, way in ways.items()}


@given(geometries())
@settings(max_examples=100, deadline=None)
def test_back_is_as_far_as_out_and_no_detour_is_shorter(geometry: Geometry) -> None:
    far = all_of(geometry)
    for a, b, c in product(geometry.places, geometry.places, geometry.places):
        assert far[a, b] == pytest.approx(far[b, a])
        assert far[a, c] <= far[a, b] + far[b, c] + 1e-9


@given(geometries())
@settings(max_examples=100, deadline=None)
def test_where_there_is_no_way_the_two_nearest_places_are_told(geometry: Geometry) -> None:
    network, far = network_of(geometry), all_of(geometry)
    for start, end in product(geometry.places, geometry.places):
        way = shortest_way(network, start, end)
        if isinstance(way, NoWay):
            here = [name for name in geometry.places if far[start, name] < inf]
            there = [name for name in geometry.places if far[end, name] < inf]
            gaps = [dist(geometry.places[a].point_m, geometry.places[b].point_m) for a in here for b in there]
            assert way.gap_m == pytest.approx(min(gaps))
            assert way.near_start in here
            assert way.near_end in there


def test_wires_leave_a_chase_at_its_named_places_only() -> None:
    """The groove passes the lamp at a hand's breadth, and the way does not end there."""
    points = FLOOR | {"lamp": (1.5, -0.9, 0.0)}
    way = shortest_way(network_of(geometry_of(points, {"groove": ["box", "left", "rear"]})), "box", "lamp")
    assert isinstance(way, NoWay)
    assert (way.near_start, way.near_end) == ("left", "lamp")
    assert way.gap_m == pytest.approx(1.5033296)


def test_two_names_of_one_point_are_one_place() -> None:
    points = FLOOR | {"corner": FLOOR["rear"]}
    geometry = geometry_of(points, {"one": ["box", "left", "rear"], "other": ["corner", "lamp"]})
    way = shortest_way(network_of(geometry), "box", "lamp")
    assert isinstance(way, Way)
    assert way.length_m == pytest.approx(1 + 3 + 1)
    assert shortest_way(network_of(geometry), "rear", "corner") == Way(())


def test_what_cannot_be_passed_is_named() -> None:
    geometry = geometry_of(FLOOR, {"one": ["box", "left"], "two": ["rear", "lamp"]})
    way = shortest_way(network_of(geometry), "box", "left", ["two"])
    assert isinstance(way, NoWay)
    assert (way.past, way.near_start, way.near_end) == ("two", "box", "lamp")
    past = shortest_way(network_of(geometry), "box", "left", ["lamp"])
    assert isinstance(past, NoWay)
    assert (past.past, past.near_start, past.near_end) == ("lamp", "box", "lamp")


def test_ten_thousand_places_are_gone_through() -> None:
    """A ladder of two long grooves with rungs: the way is along one of them and over one rung."""
    side = 5_000
    places = {
        f"{row} {n}": Place(f"{row} {n}", n * 0.01, 0.5 * row, 0.0, NOWHERE)
        for row in (0, 1)
        for n in range(side)
    }
    chases = {
        f"groove {row}": Chase(
            f"groove {row}", tuple(f"{row} {n}" for n in range(side)), ChaseKind.GROOVE, NOWHERE
        )
        for row in (0, 1)
    } | {
        f"rung {n}": Chase(f"rung {n}", (f"0 {n}", f"1 {n}"), ChaseKind.GROOVE, NOWHERE)
        for n in range(0, side, 7)
    }
    network = network_of(Geometry(places, chases))
    way = shortest_way(network, "0 3", "1 4998")
    assert isinstance(way, Way)
    assert way.length_m == pytest.approx(49.95 + 0.5)
