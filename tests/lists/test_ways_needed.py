"""Conduit and channel, rings by their studs, clips and grommets: what is bought covers what is built in."""

from __future__ import annotations

from math import dist

import pytest
from generated_builds import GeneratedBuild, builds
from hypothesis import given, settings
from listed import EXAMPLE, HEAD, ROOT, Listed, listed
from placed_builds import placed

from builder.lists.shopping import Item
from builder.lists.ways_needed import WayItem

FOOT_M = 0.3048
NO_CLIPS = EXAMPLE.replace("  clips: 30\n", "")
TUBES = (
    HEAD
    + """parts: {lamp: {kind: lamp, draws: 1 W}, fan: {kind: fan, draws: 1 A}}
circuits: {light: {path: [lamp]}, air: {path: [fan]}}
places:
  front box: {back: 1 ft, up: 1 ft}
  lamp: {back: 6 ft, up: 1 ft}
  fan: {back: 1 ft, right: 4 ft, up: 4 ft}
  inlet: {back: 1 ft, left: 2 ft, up: 1 ft}
  outlet: {back: 6 ft, left: 2 ft, up: 1 ft}
chases:
  long tube: {through: [front box, lamp], kind: conduit, bore: 1 in}
  short tube: {through: [front box, fan], kind: conduit, bore: 25.4 mm}
  rail: {through: [front box, lamp], kind: channel}
  groove: {through: [front box, fan]}
  cable: {through: [inlet, outlet], kind: conduit, bore: 1 in, carries: mains}
"""
)


def ways(build: Listed) -> dict[str, WayItem]:
    return {item.id: item for item in chases_bought(build)}


def chases_bought(build: Listed) -> list[WayItem]:
    """Conduit and channel; string and flat steel have tests of their own."""
    return [item for item in build.lists.shopping.ways if item.section == "conduit"]


def test_conduit_of_one_bore_is_added_up_and_mains_has_its_own() -> None:
    """5 ft from box to lamp, and 5 ft (4 across, 3 up) from box to fan."""
    found = ways(listed(TUBES))
    assert list(found) == ["conduit 25.4 mm", "channel"]
    tube = found["conduit 25.4 mm"]
    assert tube.used_m == pytest.approx(10 * FOOT_M)
    assert (tube.stock_m, tube.buy_m) == (0, pytest.approx(10 * FOOT_M))
    assert tube.names == ("long tube", "short tube")
    assert found["channel"].names == ("rail",)


@pytest.mark.parametrize(
    ("there", "stock_ft", "buy_ft"),
    [("[4 ft, 4 ft]", 0, 10), ("6 ft", 5, 5), ("[6 ft, 5 ft]", 10, 0), ("20 ft", 10, 0)],
)
def test_each_chase_is_cut_whole_from_what_is_there(there: str, stock_ft: float, buy_ft: float) -> None:
    tube = ways(listed(TUBES + f"in stock: {{conduit: {{1 in: {there}, 2 in: 30 ft}}}}\n"))["conduit 25.4 mm"]
    assert tube.stock_m == pytest.approx(stock_ft * FOOT_M)
    assert tube.buy_m == pytest.approx(buy_ft * FOOT_M)


def check_ways(build: Listed) -> None:
    """Add up all chases again, by the distances of their places."""
    geometry = build.trailer.geometry
    for item in chases_bought(build):
        assert item.buy_m + item.stock_m >= item.used_m - 1e-6
        long_m = sum(
            dist(geometry.places[one].point_m, geometry.places[other].point_m)
            for name in item.names
            for one, other in zip(
                geometry.chases[name].through, geometry.chases[name].through[1:], strict=False
            )
        )
        assert item.used_m == pytest.approx(long_m)
        assert {geometry.chases[name].kind.value for name in item.names} == {item.kind}
    named = sorted(name for item in chases_bought(build) for name in item.names)
    assert named == sorted(
        chase.name
        for chase in geometry.chases.values()
        if chase.kind.value in ("conduit", "channel") and chase.takes_wires
    )


def test_the_example_buys_what_its_chases_take() -> None:
    check_ways(listed(EXAMPLE))


@given(builds())
@settings(deadline=None, max_examples=20)
def test_no_generated_build_buys_less_than_its_chases_take(build: GeneratedBuild) -> None:
    check_ways(listed(placed(build)))


def test_rings_are_told_apart_by_the_stud_they_go_on() -> None:
    text = HEAD + "parts: {lamp: {kind: lamp, draws: 3 W}}\ncircuits: {light: {path: [lamp: 6 ft]}}\n"
    bare = [item for item in listed(text).lists.shopping.section("terminals") if item.kind == "ring"]
    told = listed(text + "terminal studs: {ground bar: {size: No. 8}, battery: {size: 3/8 in}}\n")
    rings = [item for item in told.lists.shopping.section("terminals") if item.kind == "ring"]
    assert {item.stud for item in bare} == {""}
    studs = {"ground bar": "No. 8", "battery post": "3/8 in"}
    assert {item.place for item in rings} >= set(studs)
    assert all(item.stud == studs.get(item.place, "") for item in rings)
    assert [(item.place, item.size, item.need) for item in rings] == [
        (item.place, item.size, item.need) for item in bare
    ]


def test_each_hole_of_the_box_has_a_grommet_of_its_bore() -> None:
    holes = "entry holes: {upper: {bore: 1 in, in: upper wall, takes: [light]}, side: {bore: 1 in, in: left wall}}\n"
    build = listed(
        HEAD
        + holes
        + "in stock: {grommets: 9}\nparts: {lamp: {kind: lamp, draws: 3 W}}\n"
        + "circuits: {light: {path: [lamp: 6 ft]}}\n"
    )
    (item,) = (item for item in build.lists.shopping.items if item.kind == "grommet")
    assert (item.used, item.buy, item.bore_m) == (2, 2, pytest.approx(0.0254))
    assert item.names == ("front box: upper", "front box: side")


def test_the_batterys_box_has_a_grommet_for_every_circuit_whose_wires_leave_it() -> None:
    """Five leave that of the example; the gas alarm's wire leaves from its fuse, which lies in the box.

    One wire of 16 AWG, 3.0 mm (GXL data sheet), may fill 53 %: 3.0 / √0.53 = 4.1 mm, so 1/4 in.
    """
    boxes = [
        item
        for item in listed(EXAMPLE).lists.shopping.items
        if item.kind == "grommet" and item.place == "box"
    ]
    sizes = {name: item.bore_m for item in boxes for name in item.names}
    assert set(sizes) == {
        "battery: battery line",
        "battery: gas alarm",
        "battery: battery meter",
        "battery: charge line",
        "battery: solar",
    }
    assert sizes["battery: gas alarm"] == pytest.approx(0.25 * 0.0254)
    assert sum(item.used for item in boxes) == 5


def supports(text: str) -> dict[str, Item]:
    return {item.id: item for item in listed(text).lists.shopping.section("supports")}


def test_clips_in_stock_are_taken_off_the_smallest_first_and_hold_nothing_flat() -> None:
    bare = supports(NO_CLIPS)
    clips = [item for item in bare.values() if item.kind == "clip"]
    assert [item.loop_m for item in clips] == sorted((item.loop_m or 0.0 for item in clips), reverse=True)
    need = sum(item.need for item in clips)
    some = supports(NO_CLIPS.replace("  labels: 60\n", f"  labels: 60\n  clips: {need - 1}\n"))
    assert {id_: item.buy for id_, item in some.items() if item.kind == "clip" and item.buy} == {
        clips[0].id: 1
    }
    more = supports(NO_CLIPS.replace("  labels: 60\n", "  labels: 60\n  clips: 999\n"))
    assert sum(item.stock for item in more.values()) == need
    straps = {id_: item.need for id_, item in bare.items() if item.kind == "flat strap"}
    assert straps
    assert {id_: item.buy for id_, item in more.items() if item.kind == "flat strap"} == straps


def test_grommets_in_stock_are_taken_off_once() -> None:
    bare = {item.id: item for item in listed(EXAMPLE).lists.shopping.items}
    boxes = sum(item.need for item in bare.values() if item.kind == "grommet" and item.place == "box")
    holes = bare["hole grommet"].need
    text = EXAMPLE.replace("  labels: 60\n", f"  labels: 60\n  grommets: {boxes + 1}\n")
    some = {item.id: item for item in listed(text).lists.shopping.items}
    taken = sum(item.buy for item in some.values() if item.kind == "grommet" and item.place == "box")
    assert (taken, some["hole grommet"].buy) == (0, holes - 1)


def test_a_hole_that_has_its_grommet_gets_no_other() -> None:
    """The file says so of the tongue, whose hole is at the isolating switch."""
    (item,) = (one for one in listed(EXAMPLE).lists.shopping.items if one.kind == "hole grommet")
    assert "isolating switch" not in item.names
    text = EXAMPLE.replace("    grommets: yes\n", "")
    assert text != EXAMPLE
    (more,) = (one for one in listed(text).lists.shopping.items if one.kind == "hole grommet")
    assert set(more.names) == {*item.names, "isolating switch"}
    assert (item.used, more.used) == (len(item.names), len(item.names) + 1)


def test_channel_is_bought_by_the_width_that_its_wires_ask_for() -> None:
    """Two wires of 3 mm are 6 mm, 1/4 in (6.35 mm) up to an eighth; two of 4.1 mm are 8.2 mm, 3/8 in (9.525 mm).

    Both ways are 5 ft long. A price by the width is closer than one of channel alone.
    """
    text = (
        TUBES.replace(", kind: conduit, bore: 1 in}\n  short", "}\n  short")
        .replace("kind: conduit, bore: 25.4 mm", "kind: channel")
        .replace(
            "long tube: {through: [front box, lamp]}",
            "long tube: {through: [front box, lamp], kind: channel}",
        )
        .replace("  rail: {through: [front box, lamp], kind: channel}\n", "")
        .replace("  groove: {through: [front box, fan]}\n", "")
        .replace("air: {path: [fan]}", "air: {path: [fan], size: 12 AWG}")
        + "wire: {on the shelf: [16 AWG, 12 AWG], outside diameters: {16 AWG: 3 mm, 12 AWG: 4.1 mm}}\n"
        + "prices: {channel 3/8 in: 2 USD per ft, channel: 1 USD per ft}\n"
    )
    build = listed(text)
    found = ways(build)
    assert {item.names: item.wide_m for item in found.values()} == {
        ("short tube",): pytest.approx(0.009525),
        ("long tube",): pytest.approx(0.00635),
    }
    assert all(item.buy_m == pytest.approx(5 * FOOT_M) for item in found.values())
    assert {line.price.name: line.sum for line in build.lists.costs.lines} == {
        "channel 3/8 in": pytest.approx(10),
        "channel": pytest.approx(5),
    }


SPARES = """\
spares:
  light: {from: front box, to: rear wall, wire: 21 ft}
  thick spare: {from: roof, to: "Front Box, tied to the left", wire: 21 ft, size: 10 AWG}
  post spare: {from: Battery, to: roof, wire: 21 ft, size: 10 AWG}
  both: {from: front box, to: "battery, tied to the box", wire: 4 ft}
  no box: {from: front boxes on the shelf, to: rear wall, wire: 21 ft}
"""


def test_every_spare_wire_has_a_grommet_where_it_enters_a_box() -> None:
    """One of 16 AWG, 3.0 mm, wants 1/4 in as above; one of 10 AWG, 4.7 mm (GXL data sheet), 6.5 mm, so 3/8 in."""
    build = HEAD.replace("to front box: 4 ft", "to front box: 4 ft, box: plastic") + SPARES
    text = build + "parts: {lamp: {kind: lamp, draws: 3 W}}\ncircuits: {light: {path: [lamp: 6 ft]}}\n"
    boxes = [item for item in listed(text).lists.shopping.items if item.kind == "grommet"]
    names = [name for item in boxes for name in item.names]
    assert sorted(names) == sorted(
        (
            "front box: light", "front box: light", "front box: battery line", "battery: battery line",
            "front box: thick spare", "battery: post spare", "front box: both", "battery: both",
        )
    )  # fmt: skip
    assert sum(item.used for item in boxes) == len(names)
    bores = {name: item.bore_m for item in boxes for name in item.names}
    assert bores["battery: both"] == pytest.approx(0.25 * 0.0254)
    assert bores["battery: post spare"] == bores["front box: thick spare"] == pytest.approx(0.375 * 0.0254)


def test_each_of_two_plugs_has_a_grommet_for_its_own_cable() -> None:
    build = listed((ROOT / "example_build" / "two_plugs" / "trailer.yaml").read_text(encoding="utf-8"))
    plug = build.trailer.tow_plug
    assert plug is not None
    boxes = [item for item in build.lists.shopping.items if item.kind == "grommet"]
    names = [name for item in boxes for name in item.names]
    assert names.count("front box: tow plug") == names.count("front box: second plug") == 1
    bores = {name: item.bore_m or 0.0 for item in boxes for name in item.names}
    ends = [{w.start.part: w.start.pin, w.end.part: w.end.pin} for w in build.trailer.wires]
    pins = [end["tow plug"] for end in ends if end.keys() == {"tow plug", "front box"}]
    second = sum(bool(plug.pattern.contact(pin).plug) for pin in pins)
    assert 0 < second < len(pins) / 2
    assert bores["front box: second plug"] < bores["front box: tow plug"]
