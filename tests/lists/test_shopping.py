"""The shopping list: every quantity summed again from the wires, and nothing bought that falls short of them."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator

import pytest
from generated_builds import GeneratedBuild, builds
from hypothesis import given, settings
from hypothesis import strategies as st
from listed import BUILDS, EXAMPLE, HEAD, METRIC, SMALLEST, Listed, listed

from builder.lists.pieces import SPARE_FUSES
from builder.lists.shopping import Item, WireItem
from builder.trailer.color import Color
from builder.trailer.model import SUPPLY_BAR
from builder.trailer.parts import Form

FOOT_M = 0.3048
TAIL_M = 6 * 0.0254
"""The tail that is assumed: six inches."""


def conductors(build: Listed) -> Iterator[tuple[Color, str, float]]:
    """Yield every conductor there is, spare ones too: colour, size and length."""
    for wire in build.trailer.wires:
        yield wire.color, str(build.figures.wires[wire.number].size), wire.length_m
    for wire in build.trailer.spares:
        yield wire.color, str(wire.size), wire.length_m


def wired_m(build: Listed, tail_m: float = TAIL_M) -> dict[tuple[Color, str], float]:
    """Return the metres of each colour and size in the trailer with a tail at both ends, by a sum of its own."""
    found: dict[tuple[Color, str], float] = {}
    for color, size, length_m in conductors(build):
        found[color, size] = found.get((color, size), 0.0) + length_m + 2 * tail_m
    return found


def there_m(build: Listed) -> dict[tuple[Color, str], float]:
    """Return the metres of each colour and size once all is bought; pair cable holds both colours."""
    found: dict[tuple[Color, str], float] = {}
    for item in build.lists.shopping.wire:
        for color in filter(None, (item.color, item.other)):
            key = color, str(item.size)
            found[key] = found.get(key, 0.0) + item.buy_m + item.stock_m + item.in_m
    return found


def unit_m(build: Listed) -> float:
    return FOOT_M if build.trailer.identity.units == "feet" else 1.0


@pytest.mark.parametrize("text", BUILDS.values(), ids=BUILDS)
def test_wire_bought_and_in_stock_covers_what_is_wired(text: str) -> None:
    build = listed(text)
    there = there_m(build)
    for key, length_m in wired_m(build).items():
        assert there[key] >= length_m - 1e-9, key
    assert set(there) == set(wired_m(build))


@pytest.mark.parametrize("text", [EXAMPLE, SMALLEST.replace("sold as: pair", "sold as: single")])
def test_single_wire_is_the_sum_of_its_wires(text: str) -> None:
    build = listed(text)
    assert all(item.other is None for item in build.lists.shopping.wire)
    for item in build.lists.shopping.wire:
        mine = [m for color, size, m in conductors(build) if (color, size) == (item.color, str(item.size))]
        assert item.wired_m == pytest.approx(sum(mine))
        assert item.tails_m == pytest.approx(2 * TAIL_M * len(mine))
        assert item.need_m == pytest.approx((sum(mine) + 2 * TAIL_M * len(mine)) * 1.1)


def check_rounding(build: Listed, item: WireItem) -> None:
    steps = item.buy_m / unit_m(build)
    assert steps == pytest.approx(round(steps))
    short_m = item.need_m - item.in_m - item.stock_m
    assert item.buy_m >= short_m - 1e-5
    assert item.buy_m < short_m + unit_m(build)


@pytest.mark.parametrize("text", BUILDS.values(), ids=BUILDS)
def test_lengths_to_buy_are_whole_feet_or_metres_and_less_than_one_more_than_needed(text: str) -> None:
    build = listed(text)
    for item in build.lists.shopping.wire:
        check_rounding(build, item)


def test_a_switched_lamp_on_pair_cable_by_hand() -> None:
    """14 ft and 6 ft of feed beside 20 ft of return: 20 ft of pair, and the tails of the feed's four ends.

    20 ft + 4 x 6 in = 22 ft; a tenth more is 24.2 ft; 25 ft are bought, and no single wire.
    """
    build = listed(
        HEAD
        + "wire: {on the shelf: [16 AWG, 8 AWG], sold as: pair}\n"
        + "parts: {step switch: {kind: switch}, step lamp: {kind: lamp, draws: 3 W}}\n"
        + "circuits: {step light: {path: [step switch: 14 ft, step lamp: 6 ft]}}\n"
    )
    pair, *others = (item for item in build.lists.shopping.wire if str(item.size) == "16 AWG")
    assert (pair.id, str(pair.color), str(pair.other)) == ("pair 16 AWG", "red", "black")
    assert pair.wired_m == pytest.approx(20 * FOOT_M)
    assert pair.tails_m == pytest.approx(2 * FOOT_M)
    assert pair.need_m == pytest.approx(24.2 * FOOT_M)
    assert pair.buy_m == pytest.approx(25 * FOOT_M)
    assert [item for item in others if item.stretches[0].circuit == 1] == []


def test_a_longer_return_is_single_wire_of_its_colour() -> None:
    """10 ft of feed, 11 ft of returns: 10 ft of pair and 1 ft of black, each with its own tails.

    1 ft and two tails of 6 in are 2 ft; a tenth more is 2.2 ft: 3 ft are bought.
    """
    build = listed(SMALLEST)
    wire = {item.id: item for item in build.lists.shopping.wire}
    assert wire["black 16 AWG"].wired_m == pytest.approx(1 * FOOT_M)
    assert wire["black 16 AWG"].buy_m == pytest.approx(3 * FOOT_M)
    assert [stretch.circuit for stretch in wire["black 16 AWG"].stretches] == [2]


def test_the_batterys_line_is_never_a_pair_and_tow_colours_are_single() -> None:
    build = listed(SMALLEST)
    line = build.trailer.battery_line
    assert line is not None
    pairs = [item for item in build.lists.shopping.wire if item.other]
    assert pairs
    assert not any(stretch.circuit == line.number for item in pairs for stretch in item.stretches)
    assert {str(item.color) for item in pairs} == {"red"}


def crimped(build: Listed) -> int:
    """Return how many wire ends the counted items account for, without that of the link to the fuse block."""
    shopping = build.lists.shopping
    ends = sum(item.used for item in (*shopping.section("terminals"), *shopping.open_ends))
    at: Counter[tuple[str, str]] = Counter()
    for wire in build.trailer.wires:
        for terminal in (wire.start, wire.end):
            part = build.trailer.parts.get(terminal.part)
            joined = part is not None and (
                part.form is Form.THROUGH or part.kind == "splice" or part.lead_length_m is not None
            )
            at[terminal.part, terminal.pin] += joined
    link = any(SUPPLY_BAR in (wire.start, wire.end) for wire in build.trailer.wires)
    return ends + at.total() - (link and "front box" not in build.trailer.stock.parts)


@pytest.mark.parametrize("text", BUILDS.values(), ids=BUILDS)
def test_every_wire_end_gets_something_once(text: str) -> None:
    build = listed(text)
    assert crimped(build) == 2 * len(build.trailer.wires)


def test_terminals_of_one_lamp_by_hand() -> None:
    """One lamp behind a switch, with leads: each end by itself."""
    build = listed(
        HEAD
        + "parts: {step switch: {kind: switch}, step lamp: {kind: lamp, draws: 3 W, leads: 4 in}}\n"
        + "circuits: {step light: {path: [step switch: 14 ft, step lamp: 6 ft], size: 16 AWG}}\n"
    )
    shopping = build.lists.shopping
    used = {item.id: (item.used, item.buy) for item in shopping.items}
    assert used["push-on 16 AWG fuse block"] == (1, 2)
    assert used["push-on 16 AWG switch or relay"] == (2, 3)
    assert used["ring 16 AWG ground bar"] == (2, 3)  # its return, and the battery's
    assert used["splice for 2 16 AWG"] == (2, 3)  # feed and return, each to a lead
    assert used["labels"] == (2 * 6, 2 * 6)  # 1A 1B 1C, and three of the battery's line
    # the circuit goes into the front box by its feed and return, two of 3.0 mm: 3.0 √(2 / 0.31) = 7.6 mm, so 3/8 in
    assert used["grommet for 9.525 mm"] == (2, 2)
    boxes = [item for item in shopping.items if item.kind == "grommet"]
    names = {name for item in boxes for name in item.names}
    assert sum(item.used for item in boxes) == 2
    assert names == {"front box: battery line", "front box: step light"}


def test_contacts_and_ways_of_a_connector() -> None:
    build = listed(SMALLEST)
    items = {item.id: item for item in build.lists.shopping.items}
    plug = items["connector hatch plug"]
    assert (plug.ways, plug.ways_used) == (6, 6)
    sides = {
        end for wire in build.trailer.wires for end in (wire.start, wire.end) if end.part == "hatch plug"
    }
    contacts = [item for item in items.values() if item.kind == "contact"]
    assert sum(item.used for item in contacts) == len(sides) == 12
    # tail and ground part to three lamps behind the hinge: three wires and a short piece to the contact
    assert items["splice for 4 12 AWG"].used == 2


@pytest.mark.parametrize("text", BUILDS.values(), ids=BUILDS)
def test_fuses_are_those_in_use_and_two_of_each(text: str) -> None:
    build = listed(text)
    in_use = Counter(
        (fuse.series, fuse.rating_a)
        for fuse in build.figures.fuses
        if fuse.device == "fuse" and fuse.rating_a is not None
    )
    items = {(item.series, item.rating_a): item for item in build.lists.shopping.section("fuses")}
    assert set(items) == set(in_use)
    for key, item in items.items():
        assert item.used == in_use[key]
        assert item.spare == SPARE_FUSES == 2
        assert item.buy + item.stock == item.used + 2


@pytest.mark.parametrize("text", BUILDS.values(), ids=BUILDS)
def test_every_part_is_bought_once_and_a_bar_of_both_poles_twice(text: str) -> None:
    build = listed(text)
    shopping = build.lists.shopping
    named = Counter(name for item in shopping.section("parts") for name in item.names)
    named.update(n for item in shopping.section("connectors") if item.kind == "connector" for n in item.names)
    parts = {part.name for part in build.trailer.parts.values() if part.kind != "splice"}
    bars = {name for name in parts if build.trailer.parts[name].kind == "bar"}
    both = [name for name in bars if len({at.pin for at in build.figures.landings if at.part == name}) > 1]
    assert named == Counter([*parts, *both])
    headings = {item.kind for item in shopping.section("box")}
    assert ("battery" in headings) == (build.trailer.battery is not None)
    assert ("tow plug" in headings) == (build.trailer.tow_plug is not None)
    assert ("fuse block" in headings) == (build.trailer.front_box is not None)


def test_ids_are_unlike_each_other() -> None:
    for text in BUILDS.values():
        shopping = listed(text).lists.shopping
        ids = [one.id for one in shopping.wire] + [i.id for i in (*shopping.items, *shopping.open_ends)]
        assert len(ids) == len(set(ids))


def test_assumptions_are_replaced_by_the_file() -> None:
    text = METRIC + "assume: {tail at each end: 20 cm, wire to spare: 0 %, terminals to spare: 50 %}\n"
    build = listed(text)
    fan = next(item for item in build.lists.shopping.wire if item.other)
    assert (fan.wired_m, fan.tails_m, fan.spare_m) == (pytest.approx(3.0), pytest.approx(0.4), 0.0)
    assert fan.buy_m == pytest.approx(4.0)
    for item in build.lists.shopping.section("terminals"):
        assert item.spare == math.ceil(item.used / 2)


def stock_lines(build: Listed, share: float) -> str:
    """Return a heading that has a share of everything on the list in stock."""
    shopping = build.lists.shopping
    wire = "".join(f"    {item.id}: {max(0.001, item.need_m * share):.4f} m\n" for item in shopping.wire)
    kinds: Counter[str] = Counter()
    fuses: Counter[str] = Counter()
    for item in shopping.items:
        count = math.floor(item.need * share)
        if item.kind in ("ring", "push-on", "push-on for two", "contact") or (
            item.kind == "splice" and item.conductors == 2
        ):
            kinds[f"{item.kind} {item.size}"] += count
        if item.section == "fuses":
            fuses[f"{item.rating_a:g} A {item.series}"] += count
    parts = [name for item in shopping.section("parts") for name in item.names] if share >= 1 else []
    lines = ["in stock:", *(["  wire:\n" + wire.rstrip("\n")] if wire else []), "  labels: 3"]
    for word, counts in (("terminals", kinds), ("fuses", fuses)):
        entries = [f"    {key}: {count}" for key, count in counts.items() if count]
        lines += [f"  {word}:", *entries] if entries else []
    lines += ["  parts:", *(f"    - '{name}'" for name in parts if "'" not in name)] if parts else []
    return "\n".join(lines) + "\n"


def check_stock(build: Listed, item: Item) -> None:
    assert 0 <= item.stock <= item.need
    assert item.buy == item.need - item.stock
    assert item.need == item.used + item.spare


@given(builds(), st.sampled_from([0.3, 1.0, 2.5]))
@settings(max_examples=40)
def test_what_is_there_is_taken_off_and_no_more(generated: GeneratedBuild, share: float) -> None:
    before = listed(generated.text)
    after = listed(generated.text + stock_lines(before, share))
    there, wired = there_m(after), wired_m(after)
    for key, length_m in wired.items():
        assert there[key] >= length_m - 1e-3
    for old, new in zip(before.lists.shopping.wire, after.lists.shopping.wire, strict=True):
        assert old.need_m == pytest.approx(new.need_m)
        assert 0 <= new.buy_m <= old.buy_m + 1e-9
        assert 0 <= new.stock_m <= new.need_m + 1e-9
        if share > 1:
            assert new.buy_m == 0
    for old, new in zip(before.lists.shopping.items, after.lists.shopping.items, strict=True):
        check_stock(after, new)
        assert new.need == old.need
        if share > 1 and new.section in ("terminals", "fuses"):
            assert new.buy == 0


@given(builds(), st.sampled_from([3, 6, 14]), st.sampled_from([0, 10, 25]))
@settings(max_examples=60)
def test_nothing_bought_is_less_than_what_is_wired(generated: GeneratedBuild, tail: int, spare: int) -> None:
    own = f"assume: {{tail at each end: {tail} in, wire to spare: {spare} %}}\n"
    may = "assume" not in generated.forms
    build = listed(generated.text + own if may else generated.text)
    there = there_m(build)
    for key, length_m in wired_m(build, tail * 0.0254 if may else TAIL_M).items():
        assert there[key] >= length_m - 1e-9
    for item in build.lists.shopping.wire:
        check_rounding(build, item)
    assert crimped(build) == 2 * len(build.trailer.wires)
    for item in build.lists.shopping.section("terminals"):
        assert item.spare >= 1
        assert item.buy >= item.used


def test_rings_in_stock_are_used_once() -> None:
    """Ten rings for 16 AWG lie there; they serve bar, battery and ground bar together, not each."""
    rings = [
        item
        for item in listed(EXAMPLE).lists.shopping.section("terminals")
        if (item.kind, item.size) == ("ring", "16 AWG")
    ]
    assert len(rings) == 3
    assert sum(item.stock for item in rings) == 10
    assert sum(item.need for item in rings) == sum(item.buy for item in rings) + 10


@pytest.mark.parametrize(
    ("first", "second", "cut_m"), [("2 m", "3 m", (2.53,)), ("3 m", "5 m", (2.53, 4.73))], ids=["one", "both"]
)
def test_two_entries_of_one_wire_are_two_spools(first: str, second: str, cut_m: tuple[float, ...]) -> None:
    """2 m and 4 m, 15 cm at each end and a tenth more: 2.53 m and 4.73 m; each is cut whole."""
    one = listed(METRIC + f"in stock: {{wire: {{yellow 1.5 mm²: {first}, yellow 1.5 mm2: {second}}}}}\n")
    yellow = next(item for item in one.lists.shopping.wire if item.id == "yellow 1.5 mm²")
    assert yellow.stock_m == pytest.approx(sum(cut_m))


def test_what_a_converter_a_controller_a_receiver_and_a_relay_must_bear_is_told() -> None:
    """10 W at 5 V is 2 A; 100 W at the 18 V of a module, carried over to 14.4 V with 10 % lost, is 6.25 A.

    Behind the receiver lies a lamp of 6 W (0.5 A) and 5 ft of strip at 1.5 W a foot: 7.5 W at 12 V are 0.625 A.
    """
    parts = {item.names[0]: item for item in listed(EXAMPLE).lists.shopping.section("parts")}

    def told(name: str) -> tuple[float | None, ...]:
        item = parts[name]
        return item.gives_v, item.gives_least_a, item.for_v, item.module_w

    assert told("phone converter") == (5.0, pytest.approx(2.0), None, None)
    assert told("charge controller") == (None, pytest.approx(6.25), None, 100.0)
    assert told("awning receiver") == (None, pytest.approx(0.625), 12.0, None)
    assert parts["awning receiver"].ways_used == 2
    assert told("pump relay") == (None, None, 12.0, None)
    assert parts["pump relay"].least_rating_a == pytest.approx(8.0)
    assert told("plate lamp") == (None, None, 12.0, None)
    assert told("cabin lamp") == (None, None, None, None)
    assert (parts["shore converter"].gives_a, told("shore converter")) == (15.0, (13.8, None, None, None))


def test_the_modules_of_a_controller_are_counted_behind_splices_and_only_where_all_are_known() -> None:
    """A module whose amperes alone are on record has no watts to add up."""
    known, at_module = "gives: 100 W", "path: [charge controller: 12 ft"
    spliced = EXAMPLE.replace(at_module, "path: [roof splice: 1 ft, charge controller: 11 ft")
    spliced = spliced.replace("  solar module: {kind", "  roof splice: {kind: splice}\n  solar module: {kind")
    for build, watts in ((EXAMPLE, 100.0), (spliced, 100.0), (EXAMPLE.replace(known, "gives: 5 A"), None)):
        parts = {item.names[0]: item for item in listed(build).lists.shopping.section("parts")}
        assert parts["charge controller"].module_w == watts


def test_two_wires_on_one_blade_have_a_terminal_that_takes_a_second_one() -> None:
    """Ways 1 and 6 of the example have two wires each: 9 + 1 blades by size before, of which two are of that kind."""
    shopping = listed(EXAMPLE).lists.shopping
    two = {item.id: (item.used, item.wires) for item in shopping.items if item.kind == "push-on for two"}
    assert two == {
        "push-on for two 16 AWG fuse block": (1, ("1C",)),
        "push-on for two 14 AWG fuse block": (1, ("6C",)),
    }
    blades = [item for item in shopping.items if item.place == "fuse block"]
    landed = [
        at
        for at in listed(EXAMPLE).figures.landings
        if at.place.startswith("way ") and at.part == "front box"
    ]
    assert sum(item.used for item in blades) == sum(len(at.wires) for at in landed)
    assert sum(item.used for item in blades if item.kind == "push-on") == len(landed)


def test_a_wire_alone_at_the_plug_that_is_no_core_wants_a_splice_to_a_bought_cable() -> None:
    """14A and 14E are no cores; 14E shares contact 1 with 17A, where a splice for three is counted already."""
    shopping = listed(EXAMPLE).lists.shopping
    alone = [number for item in shopping.open_ends for number in item.alone]
    assert alone == ["14A"]
    assert [item.used for item in shopping.items if item.id == "splice for 3 10 AWG"] == [1]


def test_rings_are_bought_for_the_stud_that_the_file_tells_of() -> None:
    text = HEAD.replace(
        "to main fuse: 5 in, to front box: 4 ft", "path: [main fuse: 5 in, front box: 4 ft], size: 8 AWG"
    ) + (
        "terminal studs: {ground bar: {size: No. 8}, battery: {size: M8}, main fuse: {size: 5/16 in}}\n"
        "parts: {main fuse: {kind: fuse}, lamp: {kind: lamp, draws: 3 W}}\n"
        "circuits:\n  light: {path: [lamp: 6 ft], size: 16 AWG}\n"
    )
    used = {
        (item.size, item.place, item.stud): item.used
        for item in listed(text).lists.shopping.items
        if item.kind == "ring"
    }
    assert used == {
        ("8 AWG", "battery post", "M8"): 2,
        ("8 AWG", "ground bar", "No. 8"): 1,
        ("16 AWG", "ground bar", "No. 8"): 1,
        ("8 AWG", "stud", "5/16 in"): 2,
        ("8 AWG", "supply bar", ""): 2,  # its wire, and the link to the fuse block
    }
    there = listed(text + "in stock: {parts: [front box]}\n").lists.shopping.items
    assert [item.used for item in there if (item.kind, item.place) == ("ring", "supply bar")] == [1]


BAR = HEAD + (
    "parts: {bar: {kind: bar}, ash: {kind: lamp, draws: 3 W}, elm: {kind: lamp, draws: 3 W}}\n"
    "circuits:\n  light:\n    path: [bar: 6 ft, ash: 1 ft]\n    branches: [{from: bar, path: [elm: 2 ft]}]\n"
)


def test_feed_and_return_on_one_bar_are_two_bars() -> None:
    """One feed comes to the bar and two leave it, two returns come back and one goes on: three ends on each."""
    bars = [item for item in listed(BAR).lists.shopping.section("parts") if item.kind == "bar"]
    assert [(item.place, item.ways_used, item.buy) for item in bars] == [("feed", 3, 1), ("return", 3, 1)]


@pytest.mark.parametrize(("fuse_a", "size"), [(40, "8 AWG"), (15, "12 AWG")])
def test_what_stands_in_the_batterys_line_bears_what_its_fuse_lets_pass(fuse_a: int, size: str) -> None:
    text = HEAD.replace(
        "to main fuse: 5 in, to front box: 4 ft",
        f"path: [main fuse: 5 in, isolating switch: 1 ft, front box: 4 ft], fuse: {fuse_a} A, size: {size}",
    ) + ("parts: {lamp: {kind: lamp, draws: 3 W}}\ncircuits: {light: {path: [lamp: 6 ft]}}\n")
    found = {item.kind: item for item in listed(text).lists.shopping.section("parts")}
    assert found["isolating switch"].least_rating_a == fuse_a
    assert (found["fuse"].rating_a, found["fuse"].size) == (fuse_a, size)
