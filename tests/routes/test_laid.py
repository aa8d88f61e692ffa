"""How wires are laid: turns, supports, holes and mains beside them, against hand-worked builds and plain counting."""

from __future__ import annotations

from math import cos, dist, inf, radians

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.buildfile.resolving import read_build
from builder.electrics.computing import compute
from builder.electrics.figures import Figures
from builder.routes.bends import angle_deg
from builder.routes.laid import Laid
from builder.routes.supports import spans
from builder.trailer.model import Trailer

FOOT_M = 0.3048
HEAD = (
    "format: 1\nbuild: {name: Sloe Bank, country: US}\n"
    "battery: {chemistry: agm, capacity: 60 Ah, to main fuse: 5 in, to front box: 2 ft}\n"
    "front box: {fuse ways: 4}\nwire: {on the shelf: [16 AWG, 12 AWG]}\n"
)
LAMP = "parts: {lamp: {kind: lamp, draws: 3 W}}\ncircuits:\n  light: {path: [lamp]}\n"
BOX = (
    "body: {width: 5 ft, profile: [{back: 0 in, up: 0 in}, {back: 8 ft, up: 0 in}, {back: 8 ft, up: 4 ft}, "
    "{back: 0 in, up: 4 ft}]}\n"
)


def read(text: str) -> tuple[Trailer, Figures]:
    reading = read_build((HEAD + text).encode())
    assert reading.trailer is not None, [(p.origin.line, p.message) for p in reading.problems]
    return reading.trailer, compute(reading.trailer)


def laid(text: str) -> Laid:
    return read(text)[1].laid


CORNERS = (
    "places:\n  front box: {back: 1 ft, up: 1 ft}\n  corner: {back: 1 ft, left: 2 ft, up: 1 ft}\n"
    "  side: {back: 4 ft, left: 2 ft, up: 1 ft}\n  lamp: {back: 4 ft, left: 2 ft, up: 3 ft}\n"
)


def test_wires_turn_where_their_way_does_within_a_chase_and_from_one_into_another() -> None:
    """Three straight pieces at right angles: two turns of 90°; ten times 3.0 mm (GXL 16 AWG) is 30 mm."""
    found = laid(
        CORNERS
        + "chases:\n  low: {through: [front box, corner, side]}\n  post: {through: [side, lamp]}\n"
        + LAMP
    )
    told = {turn.place: (round(turn.angle_deg), len(turn.wires)) for turn in found.turns}
    assert told == {"corner": (90, 2), "side": (90, 2)}
    assert [turn.least_m for turn in found.turns] == pytest.approx([0.03, 0.03])
    assert {bends.chase.name: round(bends.turned_deg) for bends in found.bends} == {"low": 90, "post": 0}


LEADS_OUT = (
    "places:\n  front box: {back: 1 ft, up: 1 ft}\n  lamp: {back: 4 ft, up: 1 ft}\n"
    "  knee: {back: 6 ft, right: 1 ft, up: 1 ft}\n  fan: {back: 7 ft, right: 2 ft, up: UP}\n"
    "chases: {pipe: {through: [front box, lamp, knee, fan], kind: KIND}}\n"
    "parts: {lamp: {kind: lamp, draws: 3 W}, fan: {kind: fan, draws: 1 A}}\n"
    "circuits: {light: {path: [lamp]}, air: {path: [fan]}}\n"
)


@pytest.mark.parametrize(("kind", "open_deg", "bent_deg"), [("conduit", 27, 18), ("channel", 0, 45)])
def test_a_conduit_turns_in_its_pieces_or_where_it_is_open(kind: str, open_deg: int, bent_deg: int) -> None:
    """1 in 2 is 27° to the side, 1 in 1 another 18°; at the lamp its wires go out, at the knee the piece bends."""
    found = laid(LEADS_OUT.replace("KIND", kind).replace("UP", "1 ft"))
    (bends,) = found.bends
    assert (bends.open_deg, bends.bent_deg, bends.turned_deg) == (open_deg, bent_deg, 45)
    assert sum(round(turn.angle_deg) for turn in found.turns) == bends.turned_deg


def test_what_a_tape_does_not_find_is_no_turn_of_a_chase_either() -> None:
    straight = LEADS_OUT.replace("back: 6 ft, right: 1 ft", "back: 6 ft, right: 2 in").replace(
        "back: 7 ft, right: 2 ft", "back: 7 ft, right: 3 in"
    )
    found = laid(straight.replace("KIND", "conduit").replace("UP", "1 ft"))
    assert (found.bends[0].turned_deg, found.turns) == (0, ())


def test_a_wire_that_turns_round_at_a_part_is_no_bend() -> None:
    """The return of the lamp passes the switch beyond it and comes back: it lies there in a loop."""
    found = laid(
        "places: {front box: {back: 1 ft, up: 1 ft}, lamp: {back: 3 ft, up: 1 ft}, switch: {back: 5 ft, up: 1 ft}}\n"
        "chases: {groove: {through: [front box, lamp, switch]}}\n"
        "parts: {switch: {kind: switch}, lamp: {kind: lamp, draws: 3 W}}\n"
        "circuits:\n  light: {path: [switch, lamp]}\n"
    )
    assert found.turns == ()


POINTS = st.tuples(*[st.floats(-5.0, 5.0)] * 3)


@given(POINTS, POINTS, POINTS)
def test_an_angle_is_that_of_the_triangle_of_its_three_points(
    a: tuple[float, float, float], b: tuple[float, float, float], c: tuple[float, float, float]
) -> None:
    """The law of cosines, by the three sides alone."""
    one, two, three = dist(a, b), dist(b, c), dist(a, c)
    if one < 0.1 or two < 0.1:
        return
    turn = radians(angle_deg(a, b, c))
    assert one**2 + two**2 + 2 * one * two * cos(turn) == pytest.approx(three**2, abs=1e-6)


@given(st.floats(0.01, 10.0), st.floats(0.05, 1.0))
def test_so_many_spans_are_short_enough_and_one_fewer_is_not(length_m: float, spacing_m: float) -> None:
    count = spans(length_m, spacing_m)
    assert length_m / count <= spacing_m * (1 + 1e-8)
    assert count == 1 or length_m / (count - 1) > spacing_m


def test_supports_stand_at_both_places_and_between_them_as_far_apart_as_the_table_allows() -> None:
    """6 ft are 1,829 mm: five spans of at most 450 mm (ISO 10133:2012 7.3), so four between and two at the ends."""
    way = (
        "places: {front box: {back: 1 ft, up: 1 ft}, lamp: {back: 7 ft, up: 1 ft}}\n"
        "chases: {way: {through: [front box, lamp]"
    )
    (plain,) = laid(way + "}}\n" + LAMP).supports
    assert (plain.between, plain.count, plain.given) == ({0: 4}, 6, False)
    (written,) = laid(way + ", supports every: 1 ft}}\n" + LAMP).supports
    assert (written.between, written.count, written.given) == ({0: 5}, 7, True)
    assert laid(way + ", kind: channel}}\n" + LAMP).supports == ()
    assert laid(way + ", kind: conduit, bore: 1 in}}\n" + LAMP).supports == ()


SKIN = (
    "places:\n  front box: {back: 1 ft, up: 1 ft}\n  wall: {back: 0 in, up: 1 ft}\n"
    "  lamp: {ahead: 2 ft, up: 1 ft}\n"
)


def test_wires_pass_the_skin_at_the_place_that_stands_on_it() -> None:
    (hole,) = laid(SKIN + "chases: {way: {through: [front box, wall, lamp]}}\n" + BOX + LAMP).passings
    assert (hole.places, hole.chases, hole.skin, hole.sheet, hole.plug) == (
        ("wall",),
        ("way",),
        True,
        False,
        False,
    )
    assert len(hole.wires) == 2


def test_of_a_part_on_the_skin_with_wires_on_both_sides_those_from_inside_pass() -> None:
    """Battery, switch and box in a row: the line's feed is two wires that meet at the switch, its return one."""
    text = (
        HEAD.replace(
            "to main fuse: 5 in, to front box: 2 ft", "path: [main fuse: 5 in, isolating switch, front box]"
        )
        + "parts: {isolating switch: {kind: isolating switch}, lamp: {kind: lamp, draws: 3 W}}\n"
        "places: {front box: {back: 1 ft, up: 1 ft}, isolating switch: {back: 0 in, up: 1 ft}, battery: {ahead: 2 ft, up: 1 ft}, main fuse: {ahead: 1 ft, up: 1 ft}}\n"  # noqa: E501
        "chases: {tongue: {through: [battery, main fuse, isolating switch, front box]SHEET}}\n"
        "circuits: {light: {path: [lamp: 3 ft]}}\n" + BOX
    )
    for sheet in ("", ", passes sheet at: isolating switch"):
        reading = read_build(text.replace("SHEET", sheet).encode())
        assert reading.trailer is not None, [(p.origin.line, p.message) for p in reading.problems]
        figures = compute(reading.trailer)
        (hole,) = figures.laid.passings
        ends = {wire.number: (wire.start.part, wire.end.part) for wire in reading.trailer.wires}
        assert sorted(ends[number] for number in hole.wires) == [
            ("front box", "battery"),
            ("isolating switch", "front box"),
        ]
        held = [figures.runs.laid(stretch) for stretch in figures.runs.inside if stretch.number == 2]
        assert [len(wires) for wires in held] == [len(hole.wires)]


def test_wires_pass_the_skin_between_two_places_where_none_stands_on_it() -> None:
    (hole,) = laid(SKIN + "chases: {way: {through: [front box, lamp]}}\n" + BOX + LAMP).passings
    assert hole.places == ("front box", "lamp")


def test_two_chases_that_meet_on_the_skin_have_one_hole_there() -> None:
    (hole,) = laid(
        SKIN + "chases:\n  one: {through: [front box, wall], passes sheet at: wall}\n"
        "  other: {through: [wall, lamp]}\n" + BOX + LAMP
    ).passings
    assert hole.places == ("wall",)
    assert set(hole.chases) == {"one", "other"}
    assert hole.skin
    assert hole.sheet


def test_what_stays_inside_or_ends_on_the_skin_passes_no_hole() -> None:
    inside = SKIN.replace("ahead: 2 ft", "back: 6 ft")
    assert laid(inside + "chases: {way: {through: [front box, lamp]}}\n" + BOX + LAMP).passings == ()
    on_it = SKIN.replace("ahead: 2 ft", "back: 0 in")
    assert laid(on_it + "chases: {way: {through: [front box, lamp]}}\n" + BOX + LAMP).passings == ()


BOND = "frame bond: 12 AWG"
SUN = (
    "parts: {lamp: {kind: lamp, draws: 3 W}, panel: {kind: solar module, gives: 50 W}}\n"
    "circuits:\n  light: {path: [lamp: 3 ft]}\n  sun: {from: panel, path: [front box: 5 ft]}\n"
)


def test_a_wire_to_the_frame_or_to_a_module_passes_the_skin_where_it_ends() -> None:
    bonded = HEAD.replace("front box: 2 ft}", f"front box: 2 ft, {BOND}}}")
    text = bonded + (
        "places: {front box: {back: 1 ft, up: 1 ft}, frame: {AT}, lamp: {back: 2 ft, up: 1 ft}}\n"
        "chases: {bolt: {through: [front box, frame]}, way: {through: [front box, lamp]}}\n"
    )

    def holes(at: str) -> list[tuple[tuple[str, ...], tuple[str, ...], int]]:
        reading = read_build((text.replace("AT", at) + BOX + LAMP).encode())
        assert reading.trailer is not None, [(p.origin.line, p.message) for p in reading.problems]
        return [(h.places, h.chases, len(h.wires)) for h in compute(reading.trailer).laid.passings]

    assert holes("back: 1 ft, up: 0 in") == [(("frame",), ("bolt",), 1)]
    assert holes("back: 1 ft, up: 6 in") == []
    assert holes("ahead: 1 ft, up: 0 in") == [(("frame", "front box"), ("bolt",), 1)]

    roof = "places: {front box: {back: 1 ft, up: 1 ft}, panel: {back: 3 ft, up: AT}, lamp: {back: 5 ft, up: 44 in}, battery: {back: 1 ft, up: 6 in}}\n"  # noqa: E501
    way = "chases: {low: {through: [battery, front box]}, high: {through: [front box, panel, lamp]}}\n"
    for at in ("44 in", "4 ft"):
        (hole,) = laid(roof.replace("AT", at) + way + BOX + SUN).passings
        assert (hole.places, hole.chases, hole.skin) == (("panel",), ("high",), True)
        assert hole.point_m == pytest.approx((3 * FOOT_M, 0.0, 4 * FOOT_M))
        assert hole.above_m == pytest.approx(4 * FOOT_M - (44 / 12 * FOOT_M if at == "44 in" else 4 * FOOT_M))
        assert len(hole.wires) == 2


def test_sheet_metal_is_a_hole_without_an_outline_and_an_empty_chase_has_none() -> None:
    way = (
        "chases:\n  way: {through: [front box, lamp]}\n"
        "  empty: {through: [front box, wall], passes sheet at: [wall]}\n"
    )
    assert laid(SKIN + way + LAMP).passings == ()
    (hole,) = laid(SKIN + way.replace("lamp]}", "lamp], passes sheet at: lamp}") + LAMP).passings
    assert (hole.places, hole.sheet, hole.skin) == (("lamp",), True, False)


def test_frames_are_passed_by_what_runs_in_their_wall() -> None:
    """Studs at 2 ft and 4 ft in the left wall: the groove along it passes both, the one in the middle none."""
    places = (
        "places:\n  front box: {back: 1 ft, left: 2 ft 4 in, up: 1 ft}\n"
        "  lamp: {back: 6 ft, left: 2 ft 4 in, up: 1 ft}\n"
        "frames: {studs: {in: left wall, back: [2 ft, 4 ft, 7 ft]}, rails: {in: [left wall, right wall], up: 2 ft}}\n"
    )
    way = "chases: {way: {through: [front box, lamp]}}\n" + BOX + LAMP
    passed = [(one.frame, one.back_m, one.up_m) for one in laid(places + way).frames]
    assert passed == [("studs", pytest.approx(2 * 0.3048), None), ("studs", pytest.approx(4 * 0.3048), None)]
    assert laid(places.replace("left: 2 ft 4 in, ", "") + way).frames == ()
    steep = places.replace("back: 6 ft, left: 2 ft 4 in, up: 1 ft", "back: 1 ft, left: 2 ft 4 in, up: 3 ft")
    assert [(one.frame, one.up_m) for one in laid(steep + way).frames] == [("rails", pytest.approx(0.6096))]


def test_a_place_on_a_frame_is_a_hole_where_the_way_goes_on_and_none_where_it_ends() -> None:
    text = (
        "places:\n  front box: {back: 1 ft, left: 2 ft 4 in, up: 1 ft}\n"
        "  stud: {back: 4 ft, left: 2 ft 4 in, up: 1 ft}\n"
        "  lamp: {back: FAR, left: 2 ft 4 in, up: 1 ft}\n"
        "frames: {studs: {in: left wall, back: 4 ft}}\nchases: {way: {through: [front box, THROUGH]}}\n"
        + BOX
        + LAMP
    )

    def passed(far: str, through: str) -> int:
        return len(laid(text.replace("FAR", far).replace("THROUGH", through)).frames)

    assert passed("6 ft", "stud, lamp") == 1
    assert passed("4 ft", "lamp") == 0
    assert passed("2 ft", "stud, lamp") == 0


def test_wires_that_change_their_chase_at_a_frame_pass_it_there() -> None:
    """The stud stands where one groove ends and the next begins: one hole, in which the first of them is named.

    Where both grooves stay on one side of it there is none, and a groove through it has the hole to itself.
    """
    text = (
        "places:\n  front box: {back: 1 ft, left: 2 ft 4 in, up: 1 ft}\n"
        "  stud: {back: 4 ft, left: 2 ft 4 in, up: 1 ft}\n"
        "  lamp: {back: FAR, left: 2 ft 4 in, up: 2 ft}\n  sill: {back: 6 ft, left: 2 ft 4 in, up: 1 ft}\n"
        "frames: {studs: {in: left wall, back: 4 ft}}\n"
        "chases: {first: {through: [front box, FIRST]}, second: {through: [stud, lamp]}}\n" + BOX + LAMP
    )

    def holes(far: str, first: str = "stud") -> list[tuple[str, tuple[str, ...], tuple[float, ...]]]:
        frames = laid(text.replace("FAR", far).replace("FIRST", first)).frames
        return [(one.chase, one.wires, one.point_m) for one in frames]

    at = pytest.approx((4 * 0.3048, -28 * 0.0254, 0.3048))
    assert holes("6 ft") == [("first", ("1A", "1B"), at)]
    assert holes("2 ft") == []
    assert holes("6 ft", "stud, sill") == [("first", ("1A", "1B"), at)]


MAINS = (
    "places:\n  front box: {back: 1 ft, up: 1 ft}\n  lamp: {back: 7 ft, up: 1 ft}\n"
    "  inlet: {INLET}\n  outlet: {OUTLET}\n"
)


def test_no_wire_is_led_through_a_chase_that_carries_mains_alone() -> None:
    ways = (
        "places:\n  front box: {back: 1 ft, up: 1 ft}\n  lamp: {back: 4 ft, up: 1 ft}\n"
        "  corner: {back: 1 ft, left: 2 ft, up: 1 ft}\n"
        "chases:\n  short: {through: [front box, lamp]CARRIES}\n  long: {through: [front box, corner, lamp]}\n"
        + LAMP
    )
    for said, chase in (("", "short"), (", carries: mains", "long"), (", carries: both", "short")):
        runs = read(ways.replace("CARRIES", said))[1].runs
        assert {step.stretch.chase for run in runs.runs.values() for step in run.steps} == {chase}


MEASURES = st.tuples(st.integers(0, 60), st.integers(-20, 20), st.integers(0, 30))


@given(MEASURES, MEASURES)
def test_mains_is_as_near_as_two_pieces_walked_along_in_small_steps(
    start: tuple[int, int, int], end: tuple[int, int, int]
) -> None:
    """An oracle for the distance: points along both pieces, each from each; only what is nearer than 1/2 in is told."""
    if dist(start, end) < 2:
        return

    def place(at: tuple[int, int, int]) -> str:
        side = f"right: {at[1]} in" if at[1] >= 0 else f"left: {-at[1]} in"
        return f"back: {at[0]} in, {side}, up: {at[2]} in"

    text = MAINS.replace("INLET", place(start)).replace("OUTLET", place(end))
    found = laid(
        text
        + "chases:\n  way: {through: [front box, lamp]}\n  cable: {through: [inlet, outlet], carries: mains}\n"
        + LAMP
    ).beside_mains
    near = inf
    for n in range(201):
        point = [a + n / 200 * (b - a) for a, b in zip(start, end, strict=True)]
        along = min(max(point[0], 12.0), 84.0)
        near = min(near, dist(point, (along, 0.0, 12.0)) * 0.0254)
    gap_m = near - 0.0015  # half of a wire of 3.0 mm
    if gap_m < 0.0127 - 0.005:
        assert [one.gap_m for one in found] == pytest.approx([max(gap_m, 0.0)], abs=0.005)
    elif gap_m > 0.0127:
        # a step of the walk may miss the nearest point by a hundredth of the way
        assert not found or found[0].gap_m > gap_m - 0.15


def test_mains_and_low_voltage_may_come_together_at_the_converter_and_nowhere_else() -> None:
    """Both end at the shore converter; from there they part at a right angle, or run side by side."""
    text = (
        "places:\n  front box: {back: 1 ft, up: 1 ft}\n  converter: {back: 4 ft, up: 1 ft}\n"
        "  converter fuse: {back: 4 ft, up: 1 ft}\n  inlet: {INLET}\n"
        "chases:\n  way: {through: [front box, converter]}\n  cable: {through: [inlet, converter], carries: mains}\n"
        "mains: {what: inlet, done by: licensed electrician}\n"
        "parts: {converter: {kind: shore converter, gives: 10 A}}\n"
        "circuits:\n  charging: {from: converter, path: [converter fuse: 6 in, front box: 4 ft]}\n"
    )
    assert laid(text.replace("INLET", "back: 4 ft, right: 2 ft, up: 1 ft")).beside_mains == ()
    (beside,) = laid(text.replace("INLET", "back: 2 ft, up: 1 ft")).beside_mains
    assert beside.gap_m == 0.0


def test_a_mains_chase_behind_a_panel_leaves_it_without_a_screw_length() -> None:
    text = (
        "places:\n  front box: {AT}\n  battery: {AT}\n  main fuse: {AT}\n"
        "  far side: {back: 4 ft, right: 2 ft, up: 1 ft}\n"
        "  lamp: {back: 7 ft, left: 2 ft 4 in, up: 2 ft}\n"
        "  a: {back: 2 ft, left: 2 ft, up: 1 ft}\n  b: {back: 6 ft, left: 2 ft, up: 1 ft}\n"
        "  c: {back: 6 ft, left: 2 ft, up: 3 ft}\n  d: {back: 2 ft, left: 2 ft, up: 3 ft}\n"
        "  inlet: {back: 1 ft, left: 2 ft 4 in, up: 1 ft 6 in}\n"
        "  outlet: {back: 7 ft, left: 2 ft 4 in, up: 1 ft 6 in}\n"
        "mains: {what: inlet, done by: licensed electrician}\n"
        "chases:\n  way: {through: [front box, lamp]}\n  cable: {through: [inlet, outlet]CARRIES}\n"
        "panels: {lining: {corners: [a, b, c, d], behind: [way, cable], also behind: nothing}}\n"
        "skins: {left: {corners: [a, b, c, d], fasteners go in: 1/4 in}}\n" + LAMP
    ).replace("AT", "back: 1 ft, left: 2 ft 4 in, up: 2 ft")
    ((empty,), (mains,)) = (
        read(text.replace("CARRIES", said))[1].panels for said in ("", ", carries: mains")
    )
    told = [{(why.name, names) for why, names in one.missing} for one in (empty, mains)]
    assert told[1] - told[0] == {("MAINS_HERE", ("cable",))}
    assert told[0] - told[1] == {("EMPTY", ("cable",))}
    assert mains.screw_m is None
