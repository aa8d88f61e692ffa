"""Places and chases as they are read: signs and sides, where parts stand, and lengths that nobody wrote."""

from __future__ import annotations

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.buildfile.resolving import read_build
from builder.electrics.computing import compute
from builder.rules.registry import find
from builder.trailer.model import Trailer
from builder.trailer.places import ChaseKind, Stand

FOOT_M = 0.3048
HEAD = """format: 1
build: {name: Example, country: US}
front box: {fuse ways: 6}
"""
BATTERY = "battery: {chemistry: agm, capacity: 60 Ah, path: [main fuse, front box], size: 8 AWG}\n"
SHORT = "battery: {chemistry: agm, capacity: 60 Ah, to main fuse: 5 in, to front box: 4 ft}\n"
PLACES = """places:
  battery: {ahead: 2 ft, up: 0 in}
  main fuse: {ahead: 1 ft, up: 0 in}
  front box: {back: 1 ft, up: 0 in}
  tow plug: {ahead: 5 ft, up: 0 in}
  left: {back: 1 ft, left: 2 ft, up: 0 in}
  right: {back: 1 ft, right: 2 ft, up: 0 in}
  fan: {back: 4 ft, left: 2 ft, up: 0 in}
  rear lamp left: {back: 9 ft, left: 2 ft, down: 1 ft}
  rear lamp right: {back: 9 ft, right: 2 ft, down: 2 ft}
chases:
  middle: {through: [tow plug, battery, main fuse, front box]}
  cross: {through: [left, front box, right]}
  left wall: {through: [left, fan, rear lamp left]}
  right wall: {through: [right, rear lamp right]}
"""
FAN = "parts: {fan: {kind: fan, draws: 2 A}}\ncircuits: {fan: {path: [fan]}}\n"


def trailer_of(text: str) -> Trailer:
    reading = read_build(text.encode())
    assert reading.problems == ()
    assert reading.trailer is not None
    return reading.trailer


def feet(trailer: Trailer) -> dict[tuple[str, str], float]:
    """Return the length in feet of every feed by the parts at its ends."""
    feeds = (wire for wire in trailer.wires if wire.role.value == "feed")
    return {(wire.start.part, wire.end.part): wire.length_m / FOOT_M for wire in feeds}


def test_back_right_and_up_count_up_and_their_opposites_down() -> None:
    places = trailer_of(HEAD + SHORT + PLACES + FAN).geometry.places
    assert places["battery"].point_m == pytest.approx((-2 * FOOT_M, 0, 0))
    assert places["left"].point_m == pytest.approx((FOOT_M, -2 * FOOT_M, 0))
    assert places["rear lamp right"].point_m == pytest.approx((9 * FOOT_M, 2 * FOOT_M, -2 * FOOT_M))


def test_every_way_of_writing_a_path_takes_bare_names() -> None:
    """Line of the battery, road lamps in pairs, and circuits: a foot of loop wherever a wire lands in the front box."""
    road = (
        "tow plug: {pattern: 4-way flat, to front box: 7 ft}\n"
        "road lamps: {rear lamp: {shows: tail, side: both, path: [rear lamp]}}\n"
    )
    found = feet(trailer_of(HEAD + BATTERY + PLACES + FAN + road))
    side = (25 + 1) ** 0.5, (64 + 4) ** 0.5
    assert found["battery", "main fuse"] == pytest.approx(1)
    assert found["main fuse", "front box"] == pytest.approx(2 + 1)
    assert found["front box", "fan"] == pytest.approx(2 + 3 + 1)
    assert found["front box", "rear lamp left"] == pytest.approx(2 + 3 + side[0] + 1)
    assert found["front box", "rear lamp right"] == pytest.approx(2 + side[1] + 1)


def test_a_circuit_from_elsewhere_begins_where_its_source_stands() -> None:
    charge = (
        "tow plug: {pattern: 7-way blade, to front box: 7 ft}\nparts: {charger: {kind: dc charger, place: fan}}\n"
        "circuits: {charge: {from: tow plug battery, path: [charger, last fuse: 1 ft, battery: 6 in]}}\n"
    )
    found = feet(trailer_of(HEAD + BATTERY + PLACES + charge))
    assert found["tow plug", "charger"] == pytest.approx(6 + 2 + 3)


def test_a_branch_begins_where_its_item_stands() -> None:
    two = (
        "parts: {fan: {kind: fan, draws: 2 A}, lamp: {kind: lamp, draws: 3 W, place: left}}\n"
        "circuits: {fan: {path: [fan], branches: [{from: fan, path: [lamp]}, {from: fuse, path: [bell: 2 ft]}]}}\n"
    )
    found = feet(
        trailer_of(HEAD + SHORT + PLACES + two.replace("lamp: {kind", "bell: {kind: alarm}, lamp: {kind"))
    )
    assert found["fan", "lamp"] == pytest.approx(3)
    assert found["front box", "bell"] == pytest.approx(2)


def test_a_part_stands_at_its_own_place_or_at_the_one_it_names() -> None:
    named = FAN.replace("draws: 2 A", "draws: 2 A, place: Right, rise: 6 in")
    assert trailer_of(HEAD + SHORT + PLACES + FAN).geometry.stands["fan"] == Stand("fan")
    stand = trailer_of(HEAD + SHORT + PLACES + named).geometry.stands["fan"]
    assert (stand.place, stand.rise_m) == ("right", pytest.approx(FOOT_M / 2))


def test_capitals_and_blanks_do_not_count_in_names_of_places() -> None:
    other = PLACES.replace("  fan: {back", "  Roof  Fan: {back").replace("[left, fan,", "[LEFT, roof fan,")
    part = FAN.replace("fan: {kind", "roof FAN: {kind").replace("[fan]", "[Roof Fan]")
    trailer = trailer_of(HEAD + SHORT + other + part)
    assert trailer.geometry.chases["left wall"].through == ("left", "Roof Fan", "rear lamp left")
    assert feet(trailer)["front box", "roof FAN"] == pytest.approx(6)


def test_a_hinge_loop_takes_the_slack_of_the_file_or_the_assumed_one() -> None:
    hinge = PLACES.replace(
        "  left wall: {through: [left, fan, rear lamp left]}",
        "  left wall: {kind: hinge loop, through: [left, fan]}",
    )
    assumed = trailer_of(HEAD + SHORT + hinge + FAN)
    given = trailer_of(HEAD + SHORT + hinge.replace("loop,", "loop, slack: 0 in,") + FAN)
    replaced = trailer_of(HEAD + SHORT + hinge + FAN + "assume: {slack of a hinge loop: 2 ft}\n")
    assert assumed.geometry.chases["left wall"].kind is ChaseKind.HINGE
    lengths = [feet(trailer)["front box", "fan"] for trailer in (assumed, given, replaced)]
    assert lengths == pytest.approx([6 + 8 / 12, 6, 8])
    ids = [[one.id for one in compute(trailer).assumptions] for trailer in (assumed, given)]
    assert [found.count("slack of a hinge loop") for found in ids] == [1, 0]
    assert [found.count("loop at the front box") for found in ids] == [1, 1]


def test_a_wrong_place_is_told_and_nothing_that_rests_on_it() -> None:
    """The fan's wire has no length and its way is broken; only the measure is told."""
    text = HEAD + SHORT + PLACES.replace("fan: {back: 4 ft", "fan: {back: 4 fet") + FAN
    assert [(one.name, one.origin.line) for one in read_build(text.encode()).problems] == [
        ("misread value", 12)
    ]
    torn = HEAD + SHORT + PLACES.replace("places:", "places: [").replace("chases:\n", "]\nchases:\n") + FAN
    assert "missing length" not in {one.name for one in read_build(torn.encode()).problems}


def test_without_any_place_a_bare_name_asks_for_its_length() -> None:
    (problem,) = read_build((HEAD + SHORT + FAN).encode()).problems
    assert (problem.name, problem.help) == (
        "missing length",
        "write how long it is from the item before, as in fan: 12 ft",
    )


def test_metric_measures_are_read_and_told_in_metres() -> None:
    text = HEAD.replace("US", "DE") + SHORT + "places: {fan: {back: 1.2 m, left: 40 cm, up: 350 mm}}\n" + FAN
    (problem,) = read_build(text.encode()).problems
    assert "has no place" in problem.message
    assert " ft" not in problem.help


@given(
    st.lists(
        st.tuples(st.integers(0, 60), st.integers(-30, 30), st.integers(0, 40)),
        min_size=3,
        max_size=6,
        unique=True,
    )
)
@settings(max_examples=40, deadline=None)
def test_a_mirrored_trailer_has_wires_of_the_same_lengths(points: list[tuple[int, int, int]]) -> None:
    """Left for right in every place of the file: not one figure of a wire changes."""
    names = ["front box", "lamp", *(f"corner {n}" for n in range(len(points) - 2))]
    order = [names[0], *names[2:], names[1]]
    lines = [
        f"  {name}: {{back: {back} in, {'left' if right < 0 else 'right'}: {abs(right)} in, up: {up} in}}\n"
        for name, (back, right, up) in zip(names, points, strict=True)
    ]
    lamp = "parts: {lamp: {kind: lamp, draws: 3 W}}\ncircuits: {lamp: {path: [lamp]}}\n"
    text = (
        f"{HEAD}{SHORT}places:\n{''.join(lines)}chases: {{groove: {{through: [{', '.join(order)}]}}}}\n{lamp}"
    )
    swapped = re.sub(r"\b(left|right):", lambda side: {"left:": "right:", "right:": "left:"}[side[0]], text)
    one, other = compute(trailer_of(text)), compute(trailer_of(swapped))
    assert {n: (m.size, m.resistance_ohm, m.drop_v) for n, m in one.wires.items()} == {
        n: (m.size, m.resistance_ohm, m.drop_v) for n, m in other.wires.items()
    }


def test_thousands_of_places_in_a_file_are_read() -> None:
    count = 2_000
    lines = "".join(f"  spot {n}: {{back: {n % 200} in, up: {n // 200} ft}}\n" for n in range(count))
    chases = "".join(
        f"  row {row}: {{through: [{', '.join(f'spot {row * 200 + n}' for n in range(200))}]}}\n"
        for row in range(10)
    )
    ends = "parts: {fan: {kind: fan, draws: 2 A, place: spot 199}}\ncircuits: {fan: {path: [fan]}}\n"
    text = (
        HEAD.replace("fuse ways: 6", "fuse ways: 6, place: spot 0")
        + SHORT
        + f"places:\n{lines}chases:\n{chases}{ends}"
    )
    assert feet(trailer_of(text))["front box", "fan"] == pytest.approx(199 / 12 + 1)


FOUND = ("front box", "fan", "left", "right", "battery")
NAMES = st.sampled_from([*FOUND * 8, "nowhere", "groove", "Left"])
MEASURE = st.sampled_from([*("0 in", "3 ft", "7 in", "1.2 m") * 25, "200 ft", "12", "-1 ft", "three"])
SHORT_MEASURE = st.sampled_from([*("1/2 in", "7 in", "50 mm") * 10, "3 ft", "0 in", "half"])
SIDES = ("back", "ahead"), ("left", "right"), ("up", "down")


def braces(words: dict[str, str]) -> str:
    return "{" + ", ".join(f"{key}: {value}" for key, value in words.items()) + "}"


def listed(names: list[str]) -> str:
    return "[" + ", ".join(names) + "]"


@st.composite
def drawn_places(draw: st.DrawFn) -> dict[str, str]:
    """Draw places, now and then with a side too many."""
    places = {}
    for name in draw(st.lists(st.sampled_from([*FOUND, "corner"]), min_size=3, max_size=6, unique=True)):
        sides = [draw(st.sampled_from(pair)) for pair in SIDES]
        slip = [draw(st.sampled_from(["left", "up", "across"]))] if draw(st.integers(0, 40)) == 0 else []
        places[name] = braces({side: draw(MEASURE) for side in dict.fromkeys([*sides, *slip])})
    return places


@st.composite
def drawn_chases(draw: st.DrawFn, places: list[str]) -> dict[str, str]:
    """Draw chases among places, now and then with a word too many."""
    chases = {}
    for number in range(draw(st.integers(0, 4))):
        kind = draw(st.sampled_from(["groove", "conduit", "channel", "open bay", "hinge loop"]))
        among = draw(st.lists(st.sampled_from(places), min_size=min(2, len(places)), max_size=4, unique=True))
        words = {"through": listed(among[:2] if kind == "hinge loop" else among), "kind": kind}
        words |= {"bore": draw(SHORT_MEASURE)} if kind == "conduit" or draw(st.integers(0, 30)) == 0 else {}
        words |= {"slack": draw(SHORT_MEASURE)} if kind == "hinge loop" and draw(st.booleans()) else {}
        chases[f"chase {number}" if draw(st.integers(0, 30)) else "fan"] = braces(words)
    return chases


@st.composite
def any_geometry(draw: st.DrawFn) -> str:
    """Draw a build with places and chases as they come, some of them right."""
    places = draw(drawn_places())
    chases = draw(drawn_chases(list(places))) if draw(st.integers(0, 5)) else {}
    part = {"kind": "fan", "draws": "2 A"}
    part |= {"place": draw(st.sampled_from([*places, "attic"]))} if draw(st.integers(0, 3)) == 0 else {}
    part |= {"rise": draw(SHORT_MEASURE)} if draw(st.integers(0, 3)) == 0 else {}
    through = draw(st.sampled_from([*places, *chases, "attic"]))
    items = [
        "fan",
        *["fan: 4 ft"] * 4,
        f"fan: {{through: {through}}}",
        f"fan: {{length: 9 ft, through: {through}}}",
    ]
    skin = braces(
        {"fasteners go in": draw(SHORT_MEASURE), "corners": listed(draw(st.lists(NAMES, min_size=3)))}
    )
    lines = [
        HEAD.rstrip(),
        SHORT.rstrip(),
        f"places: {braces(places)}" if places else "",
        f"chases: {braces(chases)}" if chases else "",
        f"skins: {{wall: {skin}}}" if draw(st.integers(0, 8)) == 0 else "",
        f"parts: {{fan: {braces(part)}}}",
        f"circuits: {{fan: {{path: [{draw(st.sampled_from(items))}]}}}}",
        "spares: {spare: {from: front box, to: left, wire: 2 ft}}",
    ]
    return "\n".join(line for line in lines if line) + "\n"


@given(any_geometry())
@settings(max_examples=150, deadline=None)
def test_any_geometry_is_answered(text: str) -> None:
    """By problems that each mark a word of the file, or by figures whose runs add up."""
    reading = read_build(text.encode())
    lines = text.splitlines()
    for problem in reading.problems:
        assert problem.message
        assert problem.help
        assert problem.origin.column <= len(lines[problem.origin.line - 1]) + 1
    assert (reading.trailer is None) == bool(reading.problems)
    if reading.trailer is not None:
        figures = compute(reading.trailer)
        find(reading.trailer, figures)
        numbers = {wire.number for wire in (*reading.trailer.wires, *reading.trailer.spares)}
        known = set(figures.runs.runs) | set(figures.runs.unknown)
        assert known == (numbers if reading.trailer.geometry else set())
        for run in figures.runs.runs.values():
            assert run.length_m == pytest.approx(run.way_m + run.rise_m + run.slack_m + run.loop_m)


PLACED = """format: 1
build: {name: Example, country: US}
battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
front box: {fuse ways: 4}
parts: {lamp: {kind: lamp, draws: 3 W}, fan: {kind: fan}}
circuits:
  lamp: {path: [lamp]}
  fan: {path: [fan: {through: tube}]}
places:
  front box: {back: 1 ft, right: 2 ft, up: 2 ft}
  lamp: {back: 7 ft, right: 2 ft, up: 2 ft}
  fan: {back: 7 ft, right: 1 ft, up: 4 ft}
  rear: {back: 7 ft, right: 2 ft, up: 4 ft}
chases:
  groove: {through: [front box, lamp]}
  tube: {through: [front box, fan], kind: conduit, bore: 1/2 in}
panels: {lining: {corners: [front box, lamp, rear], behind: groove}}
frames: {studs: {in: right wall, back: [1 ft, 2 ft], thick: 3/4 in}}
body:
  profile: [{back: 0 in, up: 0 in}, {back: 8 ft, up: 0 in}, {back: 8 ft, up: 5 ft}, {back: 0 in, up: 5 ft}]
  width: 5 ft
"""


def told_of(old: str, new: str) -> list[tuple[str, str]]:
    assert read_build(PLACED.encode()).problems == ()
    assert old in PLACED
    return [(one.message, one.help) for one in read_build(PLACED.replace(old, new, 1).encode()).problems]


@pytest.mark.parametrize(
    ("heading", "wrong"), [("places", "place"), ("chases", "chase"), ("chases", "conduits")]
)
def test_a_misspelt_heading_is_told_once_and_not_with_each_wire_that_needs_it(
    heading: str, wrong: str
) -> None:
    assert told_of(f"\n{heading}:", f"\n{wrong}:") == [
        (f"“{wrong}” is not a word used in the build file", f"did you mean “{heading}”?")
    ]


@pytest.mark.parametrize(
    ("old", "new", "message", "way_out"),
    [
        (
            "behind: groove",
            "behind: [nothing, groove]",
            "“nothing” stands beside other names",
            "take it out, or write behind: nothing alone",
        ),
        (
            "back: [1 ft, 2 ft]",
            "back: 1 ft, 2 ft",
            "a comma parts two things inside braces, and “2 ft” is a name without a value",
            "put the words of a list in brackets: back: [1 ft, 2 ft]",
        ),
        (
            "[front box, lamp, rear]",
            "front box, lamp, rear",
            "a comma parts two things inside braces, and “lamp” is a name without a value",
            "put the words of a list in brackets: corners: [front box, lamp, rear]",
        ),
    ],
)
def test_slips_of_lists_are_told_with_the_list_that_is_meant(
    old: str, new: str, message: str, way_out: str
) -> None:
    assert told_of(old, new) == [(message, way_out)]


def test_two_lengths_of_a_place_are_no_list() -> None:
    ((message, way_out),) = told_of("lamp: {back: 7 ft, right", "lamp: {back: 7 ft, 2 in, right")
    assert "“2 in” is a name without a value" in message
    assert "brackets" not in way_out
