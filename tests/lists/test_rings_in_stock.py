"""Terminals in stock: a ring with a stud serves that stud alone, forks and ferrules are only told of."""

from __future__ import annotations

import pytest
from listed import listed

from builder.buildfile.resolving import read_build

BUILD = (
    "format: 1\nbuild: {name: Bean Row, country: GB}\n"
    "battery: {chemistry: lithium, capacity: 35 Ah, path: [main fuse: 10 cm, front box: 1.2 m], return: 1 m}\n"
    "front box: {fuse ways: 6, ground bar: 8, strip: 8}\n"
    "terminal studs: {battery: {size: M8}, ground bar: {size: M5}, supply bar: {size: M6}}\n"
    "wire: {on the shelf: [4 mm²], sold as: single}\n"
    "parts: {fan: {kind: fan, draws: 2 A}, oven: {kind: heater, draws: 7 A}}\n"
    "circuits: {fan: {path: [fan: 2 m]}, oven: {path: [oven: 2 m]}}\n"
)


def rings(stock: str) -> dict[str, tuple[int, int]]:
    """Return what is needed and taken from stock for each stud."""
    found: dict[str, tuple[int, int]] = {}
    build = listed(BUILD + (f"in stock: {{terminals: {{{stock}}}}}\n" if stock else ""))
    for item in build.lists.shopping.section("terminals"):
        if item.kind == "ring":
            need, there = found.get(item.stud, (0, 0))
            found[item.stud] = need + item.need, there + item.stock
    return found


def test_a_ring_with_a_stud_serves_that_stud_alone() -> None:
    need = {stud: count for stud, (count, _) in rings("").items()}
    assert set(need) == {"M5", "M6", "M8"}
    there = rings("ring 4 mm² M5: 2, ring 4 mm² M10: 50")
    assert {stud: taken for stud, (_, taken) in there.items()} == {"M5": min(2, need["M5"]), "M6": 0, "M8": 0}


def test_rings_of_one_hole_count_by_either_name() -> None:
    assert rings("ring 4 mm² No. 10: 2") == rings("ring 4 mm² M5: 2")


@pytest.mark.parametrize("any_stud", [1, 3, 100])
def test_those_without_a_stud_serve_any_behind_those_with_one(any_stud: int) -> None:
    need = {stud: count for stud, (count, _) in rings("").items()}
    taken = sum(there for _, there in rings(f"ring 4 mm²: {any_stud}, ring 4 mm² M8: 2").values())
    assert taken == min(2, need["M8"]) + min(any_stud, sum(need.values()) - min(2, need["M8"]))


def test_forks_and_ferrules_are_read_and_taken_off_nothing() -> None:
    there = listed(BUILD + "in stock: {terminals: {fork 4 mm²: 9, ferrule 4 mm²: 9, ferrules 2.5 mm²: 9}}\n")
    assert [(one.kind, str(one.size)) for one in there.trailer.stock.terminals] == [
        ("fork", "4 mm²"),
        ("ferrule", "4 mm²"),
        ("ferrule", "2.5 mm²"),
    ]
    assert not any(item.stock for item in there.lists.shopping.items)


@pytest.mark.parametrize(
    ("name", "help_has"),
    [
        ("push-on 4 mm² M5", "push-on 4 mm²"),
        ("eyelid 4 mm²", "fork, ferrule"),
        ("ring M5", "ring 1.5 mm²: 20"),
    ],
)
def test_other_names_are_told_of_with_all_kinds(name: str, help_has: str) -> None:
    (problem,) = read_build((BUILD + f"in stock: {{terminals: {{{name}: 3}}}}\n").encode()).problems
    assert help_has in problem.help
