"""Which wires go through which hole of the front box, and how full it is: by hand, and by areas counted anew."""

from __future__ import annotations

from math import pi

import pytest

from builder.buildfile.resolving import read_build
from builder.electrics.box_sides import BoxSide, box_sides
from builder.electrics.computing import compute
from builder.electrics.entry_holes import Entries
from builder.trailer.model import FRONT_BOX, Trailer

BUILD = """\
format: 1
build: {name: Reed, country: US}
battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft, size: 8 AWG, frame bond: 8 AWG}
front box: {fuse ways: 6}
tow plug: {pattern: 4-way flat, to front box: 7 ft}
wire: {on the shelf: [16 AWG], outside diameters: {16 AWG: 3.0 mm, 8 AWG: 6.0 mm}}
parts: {lamp: {kind: lamp, draws: 3 W}, fan: {kind: fan, draws: 1 A}}
circuits:
  light: {path: [lamp: 6 ft]}
  air: {path: [fan: 4 ft]}
road lamps:
  rear lamp: {shows: [tail, stop, turn], side: both, wire: 14 ft}
spares: {rear spare: {from: "front box, at the left", to: rear wall, wire: 21 ft, size: 16 AWG}}
"""


def entries(more: str) -> tuple[Trailer, Entries]:
    trailer = read_build((BUILD + more).encode()).trailer
    assert trailer is not None
    return trailer, compute(trailer).entries


def through(more: str) -> dict[str, set[str]]:
    trailer, found = entries(more)
    ends = {wire.number: {wire.start.part, wire.end.part} - {FRONT_BOX} for wire in trailer.wires}
    ends |= {wire.number: {wire.start.pin} for wire in trailer.spares}
    return {one.name: {end for wire in one.wires for end in ends[wire]} for one in found.holes}


def test_a_hole_takes_what_it_names_and_another_the_rest() -> None:
    more = """entry holes:
  front: {bore: 1 in, takes: [battery, frame, tow plug]}
  side: {bore: 1 in, takes: [light, rear lamp]}
  rest: {bore: 1 in}
"""
    assert through(more) == {
        "front": {"main fuse", "battery", "frame", "tow plug"},
        "side": {"lamp", "rear lamp left", "rear lamp right"},
        "rest": {"fan", "rear spare"},
    }


def test_each_wire_that_leaves_the_box_goes_through_one_hole_or_is_told_of() -> None:
    trailer, found = entries("entry holes: {side: {bore: 1 in, takes: [light, rear spare]}}\n")
    leave = {w.number for w in trailer.wires if (w.start.part == FRONT_BOX) != (w.end.part == FRONT_BOX)}
    inside = [wire for one in found.holes for wire in one.wires]
    assert sorted([*inside, *found.without]) == sorted([*leave, "S1"])
    assert "S1" in inside


def test_the_way_through_a_chase_names_its_wires() -> None:
    more = """places: {front box: {back: 1 ft, up: 2 ft}, lamp: {back: 5 ft, up: 2 ft}, fan: {back: 1 ft, up: 6 ft}}
chases: {groove: {through: [front box, lamp]}, upright: {through: [front box, fan]}}
entry holes: {side: {bore: 1 in, takes: groove}, top: {bore: 1 in, takes: upright}}
"""
    assert through(more) == {"side": {"lamp"}, "top": {"fan"}}


def test_how_full_by_areas() -> None:
    """Two wires of 3.0 mm and two of 6.0 mm in 20 mm: 2 × 7.07 and 2 × 28.27 mm² of 314.2 mm² are 22.5 %.

    Four wires are allowed 40 %, 160 in squares of diameters; 90 are taken, so seven more of 3.0 mm go in.
    """
    _, found = entries("entry holes: {front: {bore: 20 mm, takes: [battery, light]}}\n")
    (one,) = found.holes
    assert len(one.wires) == 4
    area = 2 * pi * 1.5**2 + 2 * pi * 3.0**2
    assert one.fill_percent == pytest.approx(100 * area / (pi * 10**2))
    assert (one.limit_percent, one.more, str(one.more_of)) == (40.0, 7, "16 AWG")
    assert one.thickest_mm == 6.0


def test_a_hole_without_wires_is_empty_and_a_build_without_holes_tells_nothing() -> None:
    _, found = entries(
        "entry holes: {front: {bore: 20 mm, takes: [frame]}, side: {bore: 20 mm, takes: tow plug}}\n"
    )
    assert [len(one.wires) for one in found.holes] == [1, 4]
    assert entries("")[1] == Entries()


def test_a_wire_of_no_known_diameter_leaves_the_share_open() -> None:
    build = BUILD.replace("size: 8 AWG, frame", "size: 4 AWG, frame")
    trailer = read_build((build + "entry holes: {front: {bore: 1 in, takes: battery}}\n").encode()).trailer
    assert trailer is not None
    (one,) = compute(trailer).entries.holes
    assert (one.fill_percent, [str(size) for size in one.unsized], one.more) == (None, ["4 AWG"], None)


PLACED = """places:
  front box: {back: 1 ft, up: 2 ft}
  lamp: {back: 5 ft, right: 6 in, up: 2 ft}
  fan: {back: 1 ft, left: 3 ft, up: 4 ft}
  rear lamp left: {back: 1 ft, left: 3 ft, up: 2 ft}
  rear lamp right: {back: 1 ft, right: 3 ft, up: 2 ft}
chases:
  groove: {through: [front box, lamp]}
  upright: {through: [front box, fan]}
  wall: {through: [rear lamp left, front box, rear lamp right]}
"""


def test_wires_come_from_where_their_chase_leads_past_the_box() -> None:
    """The lamp is 4 ft behind and 6 in right, less than half as much; the fan 3 ft left and 2 ft above, more."""
    trailer = read_build(
        (BUILD + PLACED + "entry holes: {side: {bore: 1 in, takes: groove}}\n").encode()
    ).trailer
    assert trailer is not None
    figures = compute(trailer)
    found = box_sides(trailer, figures.runs, figures.entries)
    ends = {wire.number: wire.end.part for wire in trailer.wires} | {
        wire.number: wire.start.part for wire in trailer.wires if wire.end.part == FRONT_BOX
    }

    def told(one: BoxSide) -> tuple[str, str, str, set[str]]:
        return " ".join(one.sides), one.chase, one.hole, {ends[wire] for wire in one.wires}

    assert [told(one) for one in found] == [
        ("behind", "groove", "side", {"lamp"}),
        ("left above", "upright", "", {"fan"}),
        ("left", "wall", "", {"rear lamp left"}),
        ("right", "wall", "", {"rear lamp right"}),
    ]


def test_without_places_no_side_is_told() -> None:
    trailer, found = entries("")
    assert box_sides(trailer, compute(trailer).runs, found) == ()
