"""What lies in which bay: against points along each stretch, measured one by one in a box."""

from __future__ import annotations

from collections.abc import Sequence

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.buildfile.problems import render_text
from builder.buildfile.resolving import read_build
from builder.electrics.computing import compute
from builder.routes.bays_held import BayHeld
from builder.trailer.bays import bays_of, photo_name
from builder.trailer.model import Trailer

LONG, HALF, HIGH = 3000, 800, 1400
DEEPEST, TAPE = 150, 10
HEAD = f"""format: 1
build: {{name: Reed Bank, country: DE}}
battery: {{chemistry: agm, capacity: 60 Ah, to main fuse: 10 cm, to front box: 1 m}}
front box: {{fuse ways: 4}}
body:
  width: {2 * HALF} mm
  profile: [{{back: 0 mm, up: 0 mm}}, {{back: {LONG} mm, up: 0 mm}}, {{back: {LONG} mm, up: {HIGH} mm}}, {{back: 0 mm, up: {HIGH} mm}}]
frames:
  studs: {{in: [left wall, right wall], back: [1 m, 2 m]}}
  rails: {{in: [front wall, left wall], up: 700 mm}}
"""  # noqa: E501
WAITS = """parts:
  lamp: {kind: lamp, draws: 3 W}
  fan: {kind: fan, draws: 1 A}
circuits: {light: {path: [lamp]}, air: {path: [fan]}}
waiting: {fan: ordered}
spares: {rear spare: {from: front box, to: lamp}}
places:
  front box: {back: 500 mm, left: 750 mm, up: 1 m}
  lamp: {back: 1500 mm, left: 750 mm, up: 1 m}
  fan: {back: 2500 mm, left: 750 mm, up: 1 m}
chases: {groove: {through: [front box, lamp, fan]}}
"""


def read(text: str) -> tuple[Trailer, dict[str, BayHeld]]:
    reading = read_build(text.encode())
    assert reading.trailer is not None, render_text(reading.problems, "trailer.yaml", reading.lines)
    return reading.trailer, {held.bay.name: held for held in compute(reading.trailer).bays}


def test_walls_are_parted_by_their_frames_and_skins_with_corners_come_last() -> None:
    trailer, _ = read(
        HEAD
        + "places: {a: {back: 1 m, up: 1 m}, b: {back: 2 m, up: 1 m}, c: {back: 2 m, up: 1200 mm}}\n"
        + "skins: {lining: {corners: [a, b, c], fasteners go in: 10 mm}}\n"
    )
    assert [bay.name for bay in bays_of(trailer.geometry)] == [
        "left wall bay 1",
        "left wall bay 2",
        "left wall bay 3",
        "right wall bay 1",
        "right wall bay 2",
        "right wall bay 3",
        "front wall bay 1",
        "front wall bay 2",
        "rear wall",
        "roof",
        "floor",
        "lining",
    ]
    second = bays_of(trailer.geometry)[1]
    assert (second.from_m, second.to_m) == pytest.approx((1.0, 2.0))
    assert (second.from_frame, second.to_frame) == ("studs", "studs")


def test_a_skin_with_corners_that_is_called_like_a_wall_has_a_bay_of_another_name() -> None:
    """The wall keeps its name, parted by frames or not; each of the two bays is closed by its own."""
    corners = (
        "places: {a: {back: 0 m, left: 800 mm, up: 0 m}, b: {back: 3 m, left: 800 mm, up: 0 m}, "
        "c: {back: 3 m, left: 800 mm, up: 1 m}}\n"
    )
    skin = "{corners: [a, b, c], fasteners go in: 10 mm}"
    named = f"skins: {{rear wall: {skin}, Left Wall: {skin}, floor skin: {skin}, floor: {skin}}}\n"
    trailer, held = read(
        HEAD + corners + named + "closed bays: {rear wall: {photo: one.jpg}, left wall skin: {}}\n"
    )
    names = [bay.name for bay in bays_of(trailer.geometry)]
    assert names[-4:] == ["rear wall skin", "Left Wall skin", "floor skin", "floor skin skin"]
    assert len(set(names)) == len(names) == len(held)
    assert [bay.skin for bay in bays_of(trailer.geometry)][-4:] == [
        "rear wall",
        "Left Wall",
        "floor skin",
        "floor",
    ]
    assert [one.bay for one in trailer.closed_bays] == ["rear wall", "Left Wall skin"]
    bare, _ = read(HEAD[: HEAD.index("body:")] + corners + named)
    assert [bay.name for bay in bays_of(bare.geometry)] == ["rear wall", "Left Wall", "floor skin", "floor"]


def test_without_body_and_skins_there_are_no_bays() -> None:
    trailer, held = read(HEAD[: HEAD.index("body:")])
    assert bays_of(trailer.geometry) == ()
    assert held == {}


def test_ends_wait_in_the_bay_in_which_they_end() -> None:
    _, held = read(HEAD + WAITS)
    ends = {name: [(end.name, len(end.wires)) for end in one.ends] for name, one in held.items() if one.ends}
    assert ends == {"left wall bay 2": [("rear spare", 1)], "left wall bay 3": [("fan", 2)]}
    assert len(held["left wall bay 1"].wires) == 5
    assert len(held["left wall bay 3"].wires) == 2


def test_a_skin_with_corners_is_a_bay_of_its_own_with_what_its_fasteners_leave() -> None:
    text = HEAD[: HEAD.index("body:")] + WAITS.replace(
        "chases:",
        "  battery: {back: 500 mm, right: 800 mm, up: 0 mm}\n"
        "  a: {back: 0 mm, left: 800 mm, up: 0 mm}\n  b: {back: 3 m, left: 800 mm, up: 0 mm}\n"
        "  c: {back: 3 m, left: 800 mm, up: 1400 mm}\n  d: {back: 0 mm, left: 800 mm, up: 1400 mm}\nchases:",
    )
    _, held = read(text + "skins: {left skin: {corners: [a, b, c, d], fasteners go in: 20 mm}}\n")
    assert list(held) == ["left skin"]
    one = held["left skin"].inside[-1]
    assert one.depth_m == pytest.approx(0.050)
    # 50 mm deep, fasteners of 20 mm, two wires of 2.0 mm in a bundle no wider than both side by side
    assert one.left_m is not None
    assert 0.020 <= one.left_m <= 0.030
    assert [end.name for end in held["left skin"].ends] == ["fan", "rear spare"]
    shorter = text.replace("back: 3 m, left", "back: 2 m, left")
    _, held = read(shorter + "skins: {left skin: {corners: [a, b, c, d], fasteners go in: 20 mm}}\n")
    assert [end.name for end in held["left skin"].ends] == ["rear spare"], "the fan waits beyond the skin"


def test_mains_behind_a_skin_with_corners_lies_in_the_skins_bay() -> None:
    """A mains cable 50 mm behind the skin, and one in the middle of the body, which no skin is near."""
    text = HEAD[: HEAD.index("body:")] + WAITS.replace(
        "chases:",
        "  battery: {back: 500 mm, right: 800 mm, up: 0 mm}\n"
        "  inlet: {back: 500 mm, left: 750 mm, up: 300 mm}\n  heater: {back: 2 m, left: 750 mm, up: 300 mm}\n"
        "  other: {back: 500 mm, right: 0 mm, up: 300 mm}\n  end: {back: 2 m, right: 0 mm, up: 300 mm}\n"
        "  a: {back: 0 mm, left: 800 mm, up: 0 mm}\n  b: {back: 3 m, left: 800 mm, up: 0 mm}\n"
        "  c: {back: 3 m, left: 800 mm, up: 1400 mm}\n  d: {back: 0 mm, left: 800 mm, up: 1400 mm}\nchases:",
    ).replace(
        "chases: {",
        "chases: {mains: {through: [inlet, heater], carries: mains}, "
        "far mains: {through: [other, end], carries: mains}, ",
    )
    _, held = read(text + "skins: {left skin: {corners: [a, b, c, d], fasteners go in: 20 mm}}\n")
    assert [stretch.chase for stretch in held["left skin"].mains] == ["mains"]


def test_a_photo_is_named_by_its_bay() -> None:
    assert photo_name("left wall bay 2") == "left-wall-bay-2"
    assert photo_name("Über – der Tür") == "über-der-tür"
    assert photo_name("–") == "bay"


Point = tuple[float, float, float]


@st.composite
def chases(draw: st.DrawFn) -> list[tuple[Point, Point]]:
    def point() -> Point:
        near = draw(st.sampled_from(["left", "right", "roof", "floor", "front", "rear", "deep"]))
        back = draw(st.integers(20, LONG - 20))
        right = draw(st.integers(-HALF + 20, HALF - 20))
        up = draw(st.integers(20, HIGH - 20))
        off = draw(st.integers(20, 120))
        places = {
            "left": (back, -HALF + off, up),
            "right": (back, HALF - off, up),
            "roof": (back, right, HIGH - off),
            "floor": (back, right, off),
            "front": (off, right, up),
            "rear": (LONG - off, right, up),
            "deep": (back, right, up),
        }
        return places[near]

    return [(point(), point()) for _ in range(draw(st.integers(1, 4)))]


def depths_at(at: Point) -> dict[str, float]:
    """Return how deep a point lies behind each wall of the box, in mm."""
    back, right, up = at
    return {
        "left wall": right + HALF,
        "right wall": HALF - right,
        "front wall": back,
        "rear wall": LONG - back,
        "roof": HIGH - up,
        "floor": up,
    }


CUTS = {"left wall": (0, [1000, 2000]), "right wall": (0, [1000, 2000]), "front wall": (2, [700])}


def bays_at(at: Point, slack: float) -> set[str]:
    """Return the bays that a point lies in, by ``slack`` mm to all sides: more of them, or below nothing fewer."""
    depths = depths_at(at)
    found = set()
    for wall, depth in depths.items():
        others = min(deep for name, deep in depths.items() if name != wall)
        if depth > DEEPEST + slack or depth > others + TAPE + slack:
            continue
        axis, edges = CUTS.get(wall, (0, []))
        for number, (low, high) in enumerate(zip([-1e9, *edges], [*edges, 1e9], strict=True), start=1):
            if low - slack <= at[axis] <= high + slack:
                found.add(f"{wall} bay {number}" if edges else wall)
    return found


def along(one: Point, other: Point, share: float) -> Point:
    a, b, c = (x + (y - x) * share for x, y in zip(one, other, strict=True))
    return a, b, c


def text_of(pieces: Sequence[tuple[Point, Point]]) -> str:
    """Return a build with a lamp at the far end of each piece, and the front box at the near end of the first."""
    lines, lamps, ways = [], [], []
    for number, piece in enumerate(pieces):
        for end, (back, right, up) in zip(("near", "far"), piece, strict=True):
            side = "right" if right >= 0 else "left"
            lines.append(f"  {end} {number}: {{back: {back} mm, {side}: {abs(right)} mm, up: {up} mm}}")
        lamps += [
            f"  first {number}: {{kind: lamp, draws: 1 W, place: near {number}}}",
            f"  second {number}: {{kind: lamp, draws: 1 W, place: far {number}}}",
        ]
        ways.append(f"  way {number}: {{through: [near {number}, far {number}]}}")
    circuits = [f"  light {n}: {{path: [first {n}: 2 m, second {n}]}}" for n in range(len(pieces))]
    return "\n".join(
        [HEAD + "parts:", *lamps, "circuits:", *circuits, "places:", *lines, "chases:", *ways, ""]
    )


@given(chases())
@settings(deadline=None, max_examples=60)
def test_a_bay_lists_a_stretch_where_a_point_of_it_lies_in_that_bay(
    pieces: list[tuple[Point, Point]],
) -> None:
    if any(one == other for one, other in pieces):
        return
    _, held = read(text_of(pieces))
    for number, (one, other) in enumerate(pieces):
        listed = {
            name for name, bay in held.items() if any(i.stretch.chase == f"way {number}" for i in bay.inside)
        }
        points = [along(one, other, n / 400) for n in range(401)]
        assert listed <= {name for at in points for name in bays_at(at, 15)}
        assert {name for at in points for name in bays_at(at, -15)} <= listed
