"""Screw limits of panels: no screw within them reaches a wire, and none is told where not all is recorded."""

from __future__ import annotations

import random
from dataclasses import replace

import pytest
from lined_build import LINED, changed, lining, read
from measuring import Point, from_fastener, samples_behind
from shells import Shell, shell

from builder.buildfile.resolving import read_build
from builder.routes.edges import edge_names, from_edges
from builder.routes.faces import Unclear, laid_faces
from builder.routes.fill import wire_diameter_mm
from builder.routes.network import Stretch
from builder.routes.panels import Open, PanelView, chases_behind, panel_views, printed_screw_m
from builder.routes.runs import NoRun, Runs, bundle
from builder.routes.skins import clearances
from builder.routes.standing import DEEPEST_M
from builder.routes.tubes import tubes_of
from builder.trailer.places import Geometry, Place

TAPE_M = 0.01
INCH_M = 0.0254
SHELLS = 200


def panel_of(made: Shell) -> PanelView:
    """Return the panel of a shell with all chases behind it named, so that nothing is missing."""
    geometry = made.geometry
    panel = geometry.panels["panel"]
    faces = laid_faces(geometry, panel.corners, TAPE_M, away=True)
    assert not isinstance(faces, Unclear)
    named = replace(panel, behind=chases_behind(geometry, faces, TAPE_M), also_behind="")
    trailer = replace(read(LINED)[0], geometry=replace(geometry, panels={"panel": named}))
    (view,) = panel_views(trailer, made.runs, tubes_of(geometry, made.runs, made.sizes), TAPE_M)
    return view


@pytest.mark.parametrize("units", ["feet", "metric"])
def test_no_printed_screw_reaches_a_wire_widened_by_the_tolerance(units: str) -> None:
    limits = 0
    for seed in range(SHELLS):
        made = shell(seed)
        view = panel_of(made)
        if view.screw_m is None:
            continue
        face = made.faces["lining"][0]
        longest_m = printed_screw_m(view.screw_m, units)
        assert longest_m <= max(view.screw_m, 0.0) + 1e-9
        for tube in tubes_of(made.geometry, made.runs, made.sizes):
            assert tube.radius_m is not None
            wide_m = tube.radius_m + TAPE_M
            for point in samples_behind(tube.piece, face, wide_m, DEEPEST_M):
                if longest_m > 0:
                    assert from_fastener(point, face, longest_m) >= wide_m - 1e-5, seed
        limits += longest_m > 0
    assert limits > 15


def test_a_panel_whose_whole_record_is_there_has_its_limit() -> None:
    """Two inches, half of four wires of 3 mm side by side (12 mm), and 10 mm for the tape: 1.37 in."""
    view = lining(LINED)
    assert view.is_whole
    assert view.screw_m == pytest.approx(2 * INCH_M - 0.012 / 2 - 0.01, abs=1e-5)
    assert printed_screw_m(view.screw_m or 0.0, "feet") == pytest.approx(1.25 * INCH_M)
    assert {one.tube.stretch.chase for one in view.behind} == {"groove", "riser"}


@pytest.mark.parametrize(
    ("kind", "left_m"),
    [("", 0.018 / 2), (", kind: conduit, bore: 1 in", INCH_M / 2)],
    ids=["groove", "conduit"],
)
def test_a_wire_that_goes_out_and_back_lies_there_twice(kind: str, left_m: float) -> None:
    """Two wires of the fan and two of the lamp that pass twice: six of 3 mm, 18 mm in a row."""
    text = changed("lamp: {path: [lamp: 8 ft]}", "lamp: {path: [lamp: {through: [fan]}]}")
    text = text.replace("[post, fan]}", f"[post, fan]{kind}}}")
    trailer, figures = read(text)
    (view,) = figures.panels
    riser = Stretch("riser", 0)
    assert sorted(figures.runs.laid(riser)) == ["1A", "1A", "1B", "1B", "2A", "2B"]
    assert sorted(figures.runs.inside[riser]) == ["1A", "1B", "2A", "2B"]
    assert bundle(figures.runs, ["1A", "1B", "2A", "2B"])["2A"] == 6
    assert view.screw_m == pytest.approx(2 * INCH_M - left_m - 0.01, abs=1e-4)
    for one in figures.fills:
        six_mm2 = 6 * (wire_diameter_mm(figures.wires["1A"].size, trailer.shelf) or 0.0) ** 2
        assert one.fill_percent == pytest.approx(100 * six_mm2 / 25.4**2)


@pytest.mark.parametrize("chase", ["groove", "riser"])
def test_taking_out_a_recorded_chase_takes_the_limit(chase: str) -> None:
    """As a name that is unknown in the file, and where only the measures are changed."""
    line = next(line for line in LINED.splitlines() if line.strip().startswith(f"{chase}:"))
    reading = read_build(changed(line + "\n", "").encode())
    assert "unknown chase" in {problem.name for problem in reading.problems}
    trailer, figures = read(LINED)
    geometry = trailer.geometry
    fewer = {name: one for name, one in geometry.chases.items() if name != chase}
    without = replace(trailer, geometry=replace(geometry, chases=fewer))
    inside = Runs(inside=figures.runs.inside)
    (view,) = panel_views(
        without, inside, tubes_of(without.geometry, inside, sizes_of(figures.wires)), TAPE_M
    )
    assert view.screw_m is None
    assert (Open.NOT_THERE, (chase,)) in view.missing


def sizes_of(wires: dict) -> dict:  # type: ignore[type-arg]
    return {number: wire.size for number, wire in wires.items()}


@pytest.mark.parametrize("through", ["[corner, post]", "[post, lamp]"])
def test_taking_out_one_stretch_of_a_chase_takes_the_limit(through: str) -> None:
    view = lining(changed("[corner, post, lamp]", through))
    assert view.screw_m is None
    assert Open.NO_RUN in dict(view.missing)


@pytest.mark.parametrize(
    ("old", "new", "why", "names"),
    [
        (", behind: [groove, riser]", "", Open.UNSAID, ()),
        ("[groove, riser]", "[groove]", Open.NOT_NAMED, ("riser",)),
        ("[groove, riser]", "nothing", Open.NOT_NAMED, ("groove", "riser")),
        ("[groove, riser]", "[groove, riser, cross]", Open.NOT_THERE, ("cross",)),
        ("also behind: nothing", "also behind: gas pipe", Open.ALSO, ("gas pipe",)),
        ("parts: {lamp: {", "parts: {lamp: {rise: 8 in, place: post, ", Open.LOOSE, ("lamp",)),
        ("high front: {back: 2 ft,", "high front: {back: 2 ft, right: 1 ft,", Open.NOT_LAID, ()),
        ("[16 AWG, 10 AWG]", "[6 AWG]", Open.NO_DIAMETER, ("groove", "riser")),
        ("up: 3 ft 4 in}", "up: 2 ft 8 in}", Open.PART, ("fan",)),
        ("[post, fan]", "[post, fan], kind: open bay", Open.FREE, ("riser",)),
        ("fan: 8 ft", "fan: 12 ft", Open.NO_FIT, ("2A", "2B")),
        ("fan: 8 ft", "fan: 6 ft", Open.NO_FIT, ("2A", "2B")),
    ],
)
def test_what_is_not_recorded_takes_the_limit(old: str, new: str, why: Open, names: tuple[str, ...]) -> None:
    text = changed(old, new)
    if why is Open.NOT_LAID:
        text = text.replace("right: 1 ft, left: 2 ft 3 in", "left: 1 ft")
    view = lining(text)
    assert view.screw_m is None
    assert dict(view.missing)[why] == names


@pytest.mark.parametrize(
    ("old", "new", "names"),
    [
        ("parts: {", "parts: {pump: {kind: pump, draws: 4 A}, ", ("pump",)),
        ("wire: {", "brakes: {kind: electric}\nwire: {", ("brakes",)),
        ("wire: {", "brakes: {kind: surge}\nwire: {", ()),
    ],
)
def test_what_has_no_wires_in_the_file_takes_the_limit(old: str, new: str, names: tuple[str, ...]) -> None:
    view = lining(changed(old, new))
    assert dict(view.missing).get(Open.NO_WIRES, ()) == names
    assert (view.screw_m is None) == bool(names)


def test_an_end_of_a_spare_wire_behind_the_panel_takes_the_limit_and_is_no_part() -> None:
    """At the post, a foot from two edges and 2 in deep; an end in the front box or beyond the panel is none."""
    spare = "spares: {later: {from: front box, to: END, size: 16 AWG}}\n"
    view = lining(LINED + spare.replace("END", "post"))
    assert view.missing == ((Open.END, ("S1",)),)
    assert view.screw_m is None
    assert view.parts == ()
    assert lining(LINED + spare.replace("END", "lamp")).is_whole


def test_a_part_behind_the_panel_has_its_place_by_the_edges_and_its_depth() -> None:
    """The fan in the middle of the panel's length, 4 in under its upper edge, 2 in behind it; its wires rise 8 in."""
    text = changed("up: 3 ft 4 in}", "up: 2 ft 8 in}").replace(
        "fan: {kind: fan", "fan: {rise: 8 in, kind: fan"
    )
    view = lining(text)
    (fan,) = view.parts
    assert (fan.name, fan.place, fan.face) == ("fan", "fan", 0)
    assert fan.depth_m == pytest.approx(2 * INCH_M)
    assert fan.rise_m == pytest.approx(8 * INCH_M)
    names = edge_names(view.faces[0])
    at, _ = from_edges(view.faces[0], (fan.at, fan.at))
    assert {names[one.edge]: one.far_m for one in at} == pytest.approx(
        {"upper edge": 4 * INCH_M, "rear edge": 12 * INCH_M}
    )


def test_a_chase_without_a_wire_takes_the_limit() -> None:
    """Whoever pulls a wire through it later, or pulled it there and not by the shorter way, is met by the screw."""
    empty = changed("[post, fan]}", "[post, fan]}\n  high: {through: [fan, high rear]}")
    view = lining(empty.replace("[groove, riser]", "[groove, riser, high]"))
    assert view.missing == ((Open.EMPTY, ("high",)),)
    assert view.screw_m is None


@pytest.mark.parametrize(
    ("long", "names"), [("3 ft", ()), ("5 ft", ("fan switch", "fan"))], ids=["short of it", "behind it"]
)
def test_a_wire_between_two_parts_at_one_place_may_hang_behind_the_panel(
    long: str, names: tuple[str, ...]
) -> None:
    """The two parts are 2 ft above the panel: half of 3 ft does not get there, half of 5 ft does."""
    text = changed("up: 3 ft 4 in}", "up: 5 ft}")
    text = text.replace("fan: {path: [fan: 8 ft]}", f"fan: {{path: [fan switch: 9 ft, fan: {long}]}}")
    view = lining(text.replace("parts: {", "parts: {fan switch: {kind: switch, place: fan}, "))
    assert dict(view.missing).get(Open.LOOSE, ()) == names
    assert (view.screw_m is None) == bool(names)


@pytest.mark.parametrize(("low", "names"), [("2 ft 7 in", ()), ("2 ft 6 in", ("front box",))])
def test_a_loop_at_the_front_box_may_hang_behind_the_panel(low: str, names: tuple[str, ...]) -> None:
    """The box is 7 in or 6 in above the panel; half of the loop of a foot and the tape reach 6.4 in."""
    text = changed("left: 2 ft 3 in, up: 3 ft}", "left: 2 ft 3 in, up: 2 ft}")
    text = text.replace("left: 2 ft 3 in, up: 3 ft}", "left: 2 ft 3 in, up: 2 ft}")
    text = text.replace(
        "front box: {back: 10 in, up: 2 ft}", f"front box: {{back: 4 ft, left: 2 ft 4 in, up: {low}}}"
    )
    view = lining(text)
    assert dict(view.missing).get(Open.LOOSE, ()) == names


BODY = """body:
  width: 5 ft 2 in
  profile: [{back: 0 in, up: 0 in}, {back: 8 ft, up: 0 in}, {back: 8 ft, up: 4 ft}, {back: 0 in, up: 4 ft}]
"""
OUTER = """skins:
  left wall: {corners: [out low, out rear, out high], fasteners go in: 1 in}
"""


def test_the_body_tells_the_inside_where_only_one_side_of_the_trailer_has_corners() -> None:
    """A cabinet's front 11 in before the wall: the middle of both is behind it, and the trailer's own is not."""
    text = LINED.replace("left: 2 ft 3 in", "left: 1 ft 8 in").replace("2 ft 5 in", "1 ft 10 in")
    text = text.replace(
        "chases:",
        "  out low: {back: 0 in, left: 2 ft 7 in, up: 0 in}\n"
        "  out rear: {back: 8 ft, left: 2 ft 7 in, up: 0 in}\n"
        "  out high: {back: 8 ft, left: 2 ft 7 in, up: 4 ft}\nchases:",
        1,
    )
    view = lining(text + OUTER + BODY)
    assert view.is_whole
    assert view.screw_m == pytest.approx(2 * INCH_M - 0.012 / 2 - 0.01, abs=1e-5)


def test_a_bent_panel_has_no_limit() -> None:
    """Where its two pieces of about 2 ft are chords of a circle, it bulges by 2.4 in: 12 in times tan(45° / 4)."""
    bent = changed(
        "high rear: {back: 5 ft, left: 2 ft 3 in, up: 3 ft}", "high rear: {back: 5 ft, left: 1 ft, up: 4 ft}"
    )
    bent = bent.replace(
        "high front: {back: 2 ft, left: 2 ft 3 in, up: 3 ft}",
        "high front: {back: 2 ft, left: 1 ft, up: 4 ft}",
    )
    bent = bent.replace(
        "chases:",
        "  fold rear: {back: 5 ft, left: 2 ft 3 in, up: 3 ft}\n"
        "  fold front: {back: 2 ft, left: 2 ft 3 in, up: 3 ft}\nchases:",
        1,
    )
    bent = bent.replace(
        "low rear, high rear, high front]", "low rear, fold rear, high rear, high front, fold front]"
    )
    view = lining(bent)
    assert len(view.faces) == 2
    assert dict(view.missing)[Open.BENT] == ()
    assert view.screw_m is None


def test_mains_takes_the_limit_where_the_file_does_not_say_what_else_is_there() -> None:
    mains = "mains: {what: inlet, done by: licensed electrician}\n"
    assert lining(LINED + mains).is_whole
    view = lining(changed(", also behind: nothing", "") + mains)
    assert dict(view.missing)[Open.MAINS] == ()
    assert view.screw_m is None


def galley(old: str, new: str) -> PanelView:
    """Return the lining two inches further out than its wires, as a panel that is seen from under an open hatch."""
    text = changed("left: 2 ft 3 in", "left: 2 ft 7 in").replace("left: 2 ft 3 in", "left: 2 ft 7 in")
    assert old in text
    return lining(text.replace(old, new, 1))


@pytest.mark.parametrize("named", ["[groove, riser]", "nothing"])
def test_wires_close_before_a_panel_take_the_limit_until_the_file_says_its_side(named: str) -> None:
    view = galley("[groove, riser]", named)
    assert dict(view.missing)[Open.BEFORE] == ("groove", "riser")
    assert not view.is_whole
    inside = galley("[groove, riser]", f"{named}, from: inside")
    assert Open.BEFORE not in dict(inside.missing)
    assert inside.is_whole == (named == "nothing")
    assert inside.behind == ()


def test_a_panel_that_comes_off_from_outside_has_behind_it_what_is_towards_the_middle() -> None:
    """The same two inches as from inside, and so the same screw."""
    view = galley("also behind: nothing", "also behind: nothing, from: outside")
    assert view.is_whole
    assert view.screw_m == pytest.approx(lining(LINED).screw_m)
    assert {one.tube.stretch.chase for one in view.behind} == {"groove", "riser"}


def test_a_wire_that_nobody_can_follow_takes_the_limit() -> None:
    trailer, figures = read(LINED)
    runs = replace(figures.runs, unknown={"9A": NoRun("9A", ("pump",))})
    tubes = tubes_of(trailer.geometry, runs, sizes_of(figures.wires))
    (view,) = panel_views(trailer, runs, tubes, TAPE_M)
    assert dict(view.missing)[Open.NO_RUN] == ("9A",)
    assert view.screw_m is None


def test_edges_are_called_by_the_side_they_are_on_and_measured_from() -> None:
    view = lining(LINED)
    assert edge_names(view.faces[0]) == ("lower edge", "rear edge", "upper edge", "front edge")
    riser = next(one for one in view.behind if one.tube.stretch.chase == "riser")
    start, end = from_edges(view.faces[0], (riser.part.start[:2], riser.part.end[:2]))
    names = edge_names(view.faces[0])
    assert {names[one.edge]: one.far_m for one in start} == pytest.approx(
        {"upper edge": 12 * INCH_M, "rear edge": 12 * INCH_M}
    )
    assert {names[one.edge]: one.far_m for one in end} == pytest.approx(
        {"upper edge": 0.0, "rear edge": 12 * INCH_M}, abs=1e-9
    )


def moved(made: Shell, shift: Point, *, mirrored: bool) -> Geometry:
    side = -1.0 if mirrored else 1.0
    return replace(
        made.geometry,
        places={
            name: Place(
                name,
                place.back_m + shift[0],
                side * (place.right_m + shift[1]),
                place.up_m + shift[2],
                place.origin,
            )
            for name, place in made.places.items()
        },
    )


@pytest.mark.parametrize("mirrored", [False, True])
def test_another_origin_or_the_other_side_changes_no_distance(mirrored: bool) -> None:
    rng = random.Random(7)  # noqa: S311 - it draws places
    for seed in range(SHELLS):
        made = shell(seed)
        shift = rng.uniform(-5, 5), rng.uniform(-5, 5), rng.uniform(-5, 5)
        there = moved(made, shift, mirrored=mirrored)
        one, other = (
            clearances(geometry, tubes_of(geometry, made.runs, made.sizes), TAPE_M)
            for geometry in (made.geometry, there)
        )
        assert one.unclear == other.unclear == ()
        assert len(one.found) == len(other.found)
        for a, b in zip(one.found, other.found, strict=True):
            assert (a.skin, a.tube.stretch, a.reaches) == (b.skin, b.tube.stretch, b.reaches)
            assert (a.left_m, a.line_m) == pytest.approx((b.left_m, b.line_m), abs=1e-9)
