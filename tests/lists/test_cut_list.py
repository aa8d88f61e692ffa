"""The cut list: each wire once, no spool overdrawn, the same sums as the shopping list, and a maker's own allowance."""

from __future__ import annotations

import json
from collections import Counter
from random import Random
from statistics import median

import pytest
from generated_builds import GeneratedBuild, builds
from hypothesis import given, settings
from hypothesis import strategies as st
from listed import BUILDS, EXAMPLE, HEAD, METRIC, SMALLEST, Listed, listed

from builder.buildfile.issuing import issue
from builder.buildfile.ledger_text import ledger_text
from builder.buildfile.numbered import NumbersFile, numbered_build
from builder.buildfile.resolving import read_build
from builder.electrics.computing import compute
from builder.electrics.pairs import paired
from builder.lists.cut_list import ENOUGH_WIRES, Spool
from builder.lists.making import make_lists
from builder.trailer.already_in import already_in

FOOT_M = 0.3048
LAMPS = (
    HEAD
    + "wire: {on the shelf: [16 AWG, 8 AWG], sold as: pair}\n"
    + "parts:\n  door switch: {kind: switch}\n  door lamp: {kind: lamp, draws: 3 W}\n"
    + "  desk lamp: {kind: lamp, draws: 3 W}\n"
    + "circuits:\n  door: {path: [door switch: 14 ft, door lamp: 6 ft]}\n  desk: {path: [desk lamp: 9 ft]}\n"
)


def spools(build: Listed, words: str) -> dict[str, Spool]:
    return {spool.id: spool for spool in build.lists.cuts.spools if spool.sort.words == words}


def check_cut_list(build: Listed) -> None:
    wires = {wire.number: wire for wire in (*build.trailer.wires, *build.trailer.spares)}
    known, cuts = already_in(build.trailer), build.lists.cuts
    still = [(spool.sort, piece) for spool in cuts.spools for piece in spool.pieces]
    there = [(piece.sort, piece) for piece, _ in cuts.already]
    assert Counter(n for _, piece in (*still, *there) for n in piece.wires) == Counter(wires.keys())
    assert all(set(piece.wires) <= set(known) for _, piece in there)
    assert not any(set(piece.wires) <= set(known) for _, piece in still)
    for spool in cuts.spools:
        assert sum(piece.cut_m for piece in spool.pieces) <= spool.length_m + 1e-5
        assert spool.rest_m == pytest.approx(spool.length_m - spool.cut_m, abs=1e-5)
    for sort, piece in (*still, *there):
        mine = [wires[number] for number in piece.wires]
        assert piece.length_m >= max(wire.length_m for wire in mine) - 1e-9
        assert sort.other or len(mine) == 1
        for color in {wire.color for wire in mine}:
            one_side = sum(wire.length_m for wire in mine if wire.color == color)
            assert one_side == pytest.approx(piece.length_m)
    for item in build.lists.shopping.wire:
        mine_ = spools(build, item.id).values()
        in_m = sum(piece.cut_m for sort, piece in there if sort.words == item.id)
        assert item.in_m == pytest.approx(in_m)
        assert item.need_m - item.in_m == pytest.approx(sum(spool.cut_m for spool in mine_), abs=1e-9)
        assert item.buy_m == pytest.approx(sum(spool.length_m for spool in mine_ if spool.bought))
        assert item.buy_m + item.stock_m >= item.need_m - item.in_m - 1e-5


@pytest.mark.parametrize("text", BUILDS.values(), ids=BUILDS)
def test_each_wire_is_cut_once_and_the_shopping_list_counts_the_same(text: str) -> None:
    check_cut_list(listed(text))


@given(builds())
@settings(max_examples=40, deadline=None)
def test_it_holds_for_any_build(generated: GeneratedBuild) -> None:
    check_cut_list(listed(generated.text))


def test_a_pair_past_a_switch_is_one_piece() -> None:
    """14 ft and 6 ft of feed beside 20 ft of return: four tails of 6 in, a tenth more: 24.2 ft."""
    first, second = spools(listed(LAMPS), "pair 16 AWG")["pair 16 AWG bought"].pieces
    assert first.wires == ("1A", "1B", "1C")
    assert (first.start, first.end) == ("front box", "door lamp")
    assert first.cut_m == pytest.approx(24.2 * FOOT_M)
    assert second.wires == ("2A", "2B")
    assert second.cut_m == pytest.approx((9 + 1) * 1.1 * FOOT_M)


LEFT_AND_RIGHT = (
    HEAD
    + "wire: {on the shelf: [16 AWG, 8 AWG], sold as: pair}\nparts: {lamp: {kind: lamp, draws: 3 W}}\n"
    + "circuits: {light: {path: [lamp: {length: 12 ft, through: OUT}], return: {to: ground bar, length: BACK}}}\n"
    + "places:\n  front box: {back: 1 ft, up: 2 ft}\n  left: {back: 3 ft, left: 2 ft, up: 2 ft}\n"
    + "  right: {back: 3 ft, right: 18 in, up: 2 ft}\n  lamp: {back: 6 ft, up: 2 ft}\n"
    + "chases:\n  left way: {through: [front box, left, lamp], kind: conduit, bore: 1 in}\n"
    + "  right way: {through: [front box, right, lamp], kind: conduit, bore: 1 in}\n"
)


@pytest.mark.parametrize(
    ("out", "back", "cut"),
    [
        ("left way", "12 ft", [("1A",), ("1B",)]),
        ("right way", "11 ft", [("1A",), ("1B",)]),
        ("right way", "12 ft", [("1A", "1B")]),
    ],
)
def test_a_pair_has_one_length_and_one_way(out: str, back: str, cut: list[tuple[str, ...]]) -> None:
    """A return to the ground bar takes the shortest way, which is the right one."""
    build = listed(LEFT_AND_RIGHT.replace("OUT", out).replace("BACK", back))
    pieces = [
        piece.wires for spool in build.lists.cuts.spools for piece in spool.pieces if piece.circuit == 1
    ]
    assert sorted(pieces) == cut
    assert paired(build.trailer, build.figures) == {n for wires in cut for n in wires if len(wires) > 1}
    ways = {one.piece.wires: pull.chases for pull in build.lists.pulls.pulls for one in pull.drawn}
    assert [ways[wires] for wires in cut] == [(way,) for way in (out, "right way")][: len(cut)]


def test_where_no_way_is_known_a_pair_has_one_length() -> None:
    """The lamp stands nowhere, so that nobody can tell where its wires run."""
    text = LEFT_AND_RIGHT.replace("BACK", "12 ft").replace(", through: OUT", "")
    build = listed(text.replace("  lamp: {back: 6 ft, up: 2 ft}\n", "").replace(", lamp], kind", "], kind"))
    assert paired(build.trailer, build.figures) == {"1A", "1B"}


def test_two_short_spools_are_not_one_long_one() -> None:
    """24.2 ft do not fit on 15 ft, nor on 12 ft; 11 ft fit on one of them: 25 ft are bought, and 27 ft lie there."""
    build = listed(LAMPS + "in stock: {wire: {pair 16 AWG: [15 ft, 12 ft]}}\n")
    found = spools(build, "pair 16 AWG")
    assert [len(spool.pieces) for spool in found.values()] == [1, 0, 1]
    assert found["pair 16 AWG bought"].length_m == pytest.approx(25 * FOOT_M)
    assert found["pair 16 AWG 1"].rest_m == pytest.approx(4 * FOOT_M)


def test_one_length_and_a_list_of_one_read_the_same() -> None:
    one, other = (
        listed(LAMPS + f"in stock: {{wire: {{pair 16 AWG: {n}}}}}\n").lists for n in ("15 ft", "[15 ft]")
    )
    assert one == other


def test_what_fits_no_wire_is_told_apart() -> None:
    build = listed(LAMPS + "in stock: {wire: {pair 16 AWG: 5 ft, green 10 AWG: 8 ft}}\n")
    assert {spool.id for spool in build.lists.cuts.spools if spool.too_short} == {"pair 16 AWG 1"}
    assert {spool.id for spool in build.lists.cuts.spools if not spool.needed} == {"green 10 AWG 1"}
    assert "green 10 AWG" not in {item.id for item in build.lists.shopping.wire}


IN_STOCK = "in stock: {wire: {pair 16 AWG: 25 ft}}\n"


def test_what_is_in_already_takes_nothing_from_the_stock_and_is_not_bought() -> None:
    """The door's 24.2 ft are in; of the 25 ft that lie there now the desk takes its 11 ft, and nothing is bought."""
    build = listed(LAMPS + IN_STOCK + "pulled: {door: 2 May}\n")
    check_cut_list(build)
    (spool,) = spools(build, "pair 16 AWG").values()
    assert (spool.bought, [piece.wires for piece in spool.pieces]) == (False, [("2A", "2B")])
    assert spool.rest_m == pytest.approx(14 * FOOT_M)
    assert [(piece.wires, why) for piece, why in build.lists.cuts.already] == [(("1A", "1B", "1C"), "pulled")]
    pair = next(item for item in build.lists.shopping.wire if item.other)
    assert (pair.need_m, pair.in_m, pair.stock_m, pair.buy_m) == pytest.approx(
        [metres * FOOT_M for metres in (35.2, 24.2, 11, 0)]
    )


def test_of_wire_that_is_in_nothing_is_bought_and_its_spool_in_stock_is_no_remark() -> None:
    build = listed(LAMPS + IN_STOCK.replace("25 ft", "2 ft") + "pulled: {everything: 2 May}\n")
    check_cut_list(build)
    assert [item.buy_m for item in build.lists.shopping.wire] == [0] * len(build.lists.shopping.wire)
    (spool,) = build.lists.cuts.spools
    assert (spool.needed, spool.too_short, spool.pieces) == (True, False, ())


@given(builds(), st.randoms(use_true_random=False))
@settings(max_examples=30, deadline=None)
def test_it_holds_for_any_build_that_is_partly_pulled(generated: GeneratedBuild, chance: Random) -> None:
    plain = listed(generated.text)
    if plain.trailer.pulled or "\nin stock:" in generated.text:
        return
    names = [circuit.name for circuit in plain.trailer.circuits if chance.random() < 0.5]
    some = "".join(f"  {json.dumps(name)}: 2 May\n" for name in names)
    wire = "".join(
        f"    {item.id}: {max(0.1, item.need_m * chance.random()):.3f} m\n"
        for item in plain.lists.shopping.wire
    )
    build = listed(
        generated.text
        + (f"pulled:\n{some}" if some else "")
        + (f"in stock:\n  wire:\n{wire}" if wire else "")
    )
    check_cut_list(build)


def test_an_edit_moves_only_the_lines_of_its_own_kind_of_wire() -> None:
    before = listed(METRIC)
    longer = listed(METRIC.replace("wire: 4 m", "wire: 5 m"))
    moved = {old.sort.words for old in before.lists.cuts.spools if old not in longer.lists.cuts.spools}
    changed = {
        str(wire.color)
        for wire, now in zip(before.trailer.wires, longer.trailer.wires, strict=True)
        if wire.length_m != now.length_m
    }
    assert moved
    assert {words.rsplit(" ", 2)[0] for words in moved} == changed


def measured(changes: str) -> Listed:
    """Return the lists of the pair build with its issued numbers and some changes."""
    trailer = read_build(LAMPS.encode()).trailer
    assert trailer is not None
    numbers = NumbersFile("trailer.numbers.csv", ledger_text(issue(trailer).ledger).encode())
    built = numbered_build(read_build((LAMPS + changes).encode()), numbers).trailer
    assert built is not None
    figures = compute(built)
    return Listed(built, figures, make_lists(built, figures))


LONGER = (
    "changes:\n  1A: {length: 15.4 ft}\n  1B: {length: 6 ft}\n  1C: {length: 24 ft}\n  2A: {color: blue}\n"
)


def test_measured_lengths_give_the_makers_own_allowance() -> None:
    """14 ft came to 15.4 ft, 6 ft to 6 ft, 20 ft to 24 ft: 10, 0 and 20 % more; a change of colour is no length."""
    own = measured(LONGER).lists.cuts.own
    assert own is not None
    assert own.wires == ("1A", "1B", "1C")
    assert own.median_percent == pytest.approx(median([10.0, 0.0, 20.0]))
    assert own.most_percent == pytest.approx(20.0)
    assert own.counted_percent == 10
    assert len(own.wires) < ENOUGH_WIRES
    assert not own.enough


def test_a_handful_is_enough() -> None:
    own = measured(LONGER.replace("color: blue", "length: 8.1 ft") + "  2B: {length: 9 ft}\n").lists.cuts.own
    assert own is not None
    assert own.enough
    assert own.median_percent == pytest.approx(0.0)


def test_cable_that_was_measured_is_cut_by_its_longer_side_and_stays_cable() -> None:
    build = measured(LONGER)
    (first,) = (piece for piece, _ in build.lists.cuts.already if "1C" in piece.wires)
    assert first.wires == ("1A", "1B", "1C")
    assert first.length_m == pytest.approx(24 * FOOT_M)


@pytest.mark.parametrize(
    ("length", "told"),
    [("2 ft 8 in", []), ("3 ft", ["1A", "1B"]), ("3 ft 6 in", ["1A", "1B"]), ("4 ft", []), ("9 ft", [])],
)
def test_a_length_for_the_way_alone_is_told_to_lack_the_loop(length: str, told: list[str]) -> None:
    """3 ft of way and the foot of loop that is assumed at the box; what is shorter than the way is a finding."""
    build = listed(
        HEAD
        + "places: {front box: {back: 1 ft, up: 2 ft}, lamp: {back: 4 ft, up: 2 ft}}\n"
        + "chases: {groove: {through: [front box, lamp]}}\n"
        + f"parts: {{lamp: {{kind: lamp, draws: 3 W}}}}\ncircuits: {{light: {{path: [lamp: {length}]}}}}\n"
    )
    assert list(build.lists.cuts.no_loop) == told


def test_nothing_is_told_where_nothing_was_measured() -> None:
    assert listed(EXAMPLE).lists.cuts.own is None
    assert listed(SMALLEST).lists.cuts.own is None
