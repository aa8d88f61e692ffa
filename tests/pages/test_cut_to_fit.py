"""Grooves as wide as their wires, and conduits in pieces that end where a wire goes in or out."""

from __future__ import annotations

import pytest
from generated_builds import GeneratedBuild, builds
from hypothesis import given, settings
from owner_pages import page_of, table, view_of, words_of
from placed_builds import placed

from builder.buildfile.resolving import read_build
from builder.electrics.computing import compute
from builder.pages.rounding import Reader
from builder.pages.shopping_csv import shopping_csv
from builder.pages.view import Edition, View
from builder.routes.bundle import bundle_diameter_mm
from builder.routes.network import Stretch, lengths_of
from builder.trailer.places import ChaseKind

BUILD = """format: 1
build: {name: Weir Lane, country: US}
battery: {chemistry: agm, capacity: 60 Ah, to main fuse: 5 in, to front box: 2 ft}
front box: {fuse ways: 4}
wire: {on the shelf: [16 AWG, 12 AWG], outside diameters: {16 AWG: 3 mm, 12 AWG: 4.1 mm}}
parts: {lamp: {kind: lamp, draws: 3 W}, fan: {kind: fan, draws: 1 A}}
circuits:
  light: {path: [lamp], size: 16 AWG}
  air: {path: [fan], size: 12 AWG}
places:
  front box: {ahead: 6 in, up: 1 ft}
  bend: {back: 1 ft 6 in, up: 1 ft}
  lamp: {back: 3 ft, right: 2 ft, up: 1 ft}
  fan: {back: 3 ft, right: 2 ft, up: 4 ft}
chases: {way: {through: [front box, bend, lamp, fan] KIND}}
"""


def view(kind: str) -> View:
    owner = view_of(BUILD.replace(" KIND", kind).encode())
    return View(owner.trailer, owner.figures, owner.findings, Edition(Reader.WORKSHOP, "TEST-TEST"))


def test_a_groove_is_as_wide_as_its_wires_side_by_side() -> None:
    """2 x 3 mm and 2 x 4.1 mm are 14.2 mm, 0.56 in, so 5/8 in; 4.1 mm are 0.16 in, so 1/4 in.

    Beyond the lamp the fan's two are left, 8.2 mm: the most is told with where it is.
    """
    (row,) = table(page_of(view(""), "building-in"), "Chases to build in")
    assert row[2] == "5/8 in wide, 1/4 in deep the most, front box to bend"


def test_a_groove_of_wires_whose_thickness_nobody_knows_has_no_width() -> None:
    text = BUILD.replace(", outside diameters: {16 AWG: 3 mm, 12 AWG: 4.1 mm}", "").replace("12 AWG", "6 AWG")
    owner = view_of(text.replace(" KIND", "").encode())
    (row,) = table(
        page_of(
            View(owner.trailer, owner.figures, owner.findings, Edition(Reader.WORKSHOP, "TEST")),
            "building-in",
        ),
        "Chases to build in",
    )
    assert row[2] == "not known: no diameter for 6 AWG"


def test_a_conduit_ends_where_a_wire_goes_out() -> None:
    """Straight on past the bend, 2 ft and then 2 ft 6 in (1 ft 6 in back, 2 ft across); 3 ft up from lamp to fan."""
    page = page_of(view(", kind: conduit, bore: 1 in"), "building-in")
    rows = table(page, "Pieces of conduit")
    assert rows == [
        [
            "1",
            "way",
            "front box 6 in ahead of the front, 1 ft up, in the middle",
            "lamp 3 ft from the front, 1 ft up, 2 ft right of the middle",
            "4 ft 6 in",
            "",
        ],
        [
            "2",
            "way",
            "lamp 3 ft from the front, 1 ft up, 2 ft right of the middle",
            "fan 3 ft from the front, 4 ft up, 2 ft right of the middle",
            "3 ft",
            "",
        ],
    ]
    assert "wide" not in words_of(page).partition("Pieces of conduit")[0]


def test_steel_plate_over_a_whole_way_is_told_where_it_is_built_in() -> None:
    (row,) = table(page_of(view(", plate: 1/16 in"), "building-in"), "Chases to build in")
    assert row[0] == "way groove; steel plate over all of it, 1/16 in thick, 1 5/8 in wide or more"


def test_a_channel_tells_its_least_inside_and_is_bought_by_it_and_so_is_flat_steel() -> None:
    """14.2 mm side by side are 5/8 in, 4.1 mm 1/4 in. A plate has 1/2 in more on each side: 39.6 mm, so 1 5/8 in."""
    made = view(", kind: channel, plate: 1/16 in")
    (row,) = table(page_of(made, "building-in"), "Chases to build in")
    assert row[2] == "inside 5/8 in wide, 1/4 in deep or more the most, front box to bend"
    page = page_of(made, "shopping")
    (channel,) = table(page, "Conduit and channel")
    # 2 ft back to the bend, then 1 ft 6 in back and 2 ft across, then 3 ft up
    assert channel[0] == "channel inside 5/8 in wide, 1/4 in deep or more; for: way 7 ft 6 in"
    (steel,) = table(page, "Pull string and flat steel")
    assert steel[0] == "flat steel 1/16 in thick, 1 5/8 in wide or more"
    assert "inside 5/8 in by 1/4 in or more" in shopping_csv(made)
    unknown = view_of(
        BUILD.replace(", outside diameters: {16 AWG: 3 mm, 12 AWG: 4.1 mm}", "")
        .replace("12 AWG", "6 AWG")
        .replace(" KIND", ", kind: channel")
        .encode()
    )
    (channel,) = table(page_of(unknown, "shopping"), "Conduit and channel")
    assert channel[0] == "channel"


def test_the_hole_of_a_channel_is_told_for_one_piece_and_for_its_wires_alone() -> None:
    """Four wires, 2 x 3 mm and 2 x 4.1 mm, fill 40 % of a bore of 11.4 mm, so 1/2 in."""
    text = BUILD.replace(" KIND", ", kind: channel") + (
        "body: {width: 5 ft, profile: [{back: 0 in, up: 0 in}, {back: 9 ft, up: 0 in}, {back: 9 ft, up: 4 ft}, "
        "{back: 0 in, up: 4 ft}]}\nframes: {beam: {in: floor, back: 1 ft}}\n"
    )
    owner = view_of(text.replace("up: 1 ft", "up: 4 in").encode())
    told = "in one piece as wide as the channel outside its wires alone: 1/2 in or more"
    (row,) = table(page_of(owner, "building-in"), "Holes through frames and studs")
    assert row[2] == told
    (hole,) = table(page_of(owner, "frames"), "Holes of frame no. 1")
    assert hole[4].startswith(told)


@pytest.mark.parametrize(
    ("count", "diameters"), [(1, 1.0), (2, 2.0), (3, 2.155), (4, 2.415), (7, 3.0), (19, 4.864)]
)
def test_a_bundle_of_wires_alike_goes_round_as_tightly_as_they_can_be_packed(
    count: int, diameters: float
) -> None:
    """The least circles round equal circles: known values. What is told is no less, and a sixth more at most."""
    assert diameters - 1e-9 <= bundle_diameter_mm([1.0] * count) <= diameters * 7 / 6


OPEN = ", kind: open bay"


def held(text: str) -> str:
    """Return what each support of the one chase holds, as the page tells it."""
    (row,) = table(page_of(view_of(text.encode()), "building-in"), "Clips and other supports")
    return row[4]


def test_clips_tell_how_wide_their_loop_is_from_place_to_place() -> None:
    """All four: 1.25 √(2 x 9 + 2 x 16.81) = 8.98 mm, so 3/8 in. The fan's two beyond the lamp: 8.2 mm, 3/8 in too.

    With one wire of 3 mm round the lamp's end they are one size. Stretches of 2 ft, 2 ft 6 in and 3 ft have no more
    than 450 mm between two: one in each of them besides the four at the places, and two in the last, 914 mm.
    """
    assert held(BUILD.replace(" KIND", OPEN)) == "loop of 3/8 in"
    thick = BUILD.replace("12 AWG: 4.1 mm", "12 AWG: 5.5 mm").replace(" KIND", OPEN)
    # 1.25 √(2 x 9 + 2 x 30.25) = 11.07 mm, so 1/2 in; two of 5.5 mm are 11 mm, 1/2 in
    assert held(thick) == "loop of 1/2 in"
    thin = BUILD.replace("12 AWG: 4.1 mm", "12 AWG: 3 mm").replace(" KIND", OPEN)
    # 1.25 √(4 x 9) = 7.5 mm, so 3/8 in; two of 3 mm are 6 mm, so 1/4 in; that at the lamp holds all four
    assert held(thin) == "front box – lamp: 5 × loop of 3/8 in · lamp – fan: 3 × loop of 1/4 in"


def test_in_a_groove_wires_are_held_flat_and_bought_for_by_their_width() -> None:
    """14.2 mm side by side are 5/8 in, and the fan's 8.2 mm 3/8 in: as wide as the groove is told there."""
    text = BUILD.replace(" KIND", "")
    assert held(text) == "front box – lamp: 5 × flat, 5/8 in across · lamp – fan: 3 × flat, 3/8 in across"
    assert held(BUILD.replace(" KIND", ", kind: channel, supports every: 3 ft")).startswith(
        "front box – lamp: 3 × flat"
    )
    made = view("")
    rows = table(page_of(made, "shopping"), "Clips and straps")
    assert [row[:3] for row in rows] == [
        ["flat strap or tape 5/8 in across", "5", "5"],
        ["flat strap or tape 3/8 in across", "3", "3"],
    ]
    assert "supports,flat strap,,,5/8 in across,5" in shopping_csv(made)
    round_ = view(OPEN)
    (row,) = table(page_of(round_, "shopping"), "Clips")
    assert row[:3] == ["clip for wires loop of 3/8 in", "8", "8"]
    unknown = BUILD.replace(", outside diameters: {16 AWG: 3 mm, 12 AWG: 4.1 mm}", "").replace(
        "12 AWG", "6 AWG"
    )
    assert held(unknown.replace(" KIND", "")) == "flat: measure it across"


def test_prices_name_clips_and_straps_as_the_list_prints_them() -> None:
    text = (
        BUILD.replace(" KIND", "")
        + "prices: {flat strap or tape 5/8 in across: 2 USD, strap: 1 USD, clip: 9 USD}\n"
    )
    costs = view_of(text.encode()).lists.costs
    assert [(line.count, line.sum) for line in costs.lines] == [(5, 10.0), (3, 3.0)]
    assert costs.unused == ("clip",)


@given(builds())
@settings(max_examples=25)
def test_pieces_add_up_and_hold_the_same_wires_from_end_to_end(generated: GeneratedBuild) -> None:
    trailer = read_build(placed(generated).encode()).trailer
    assert trailer is not None
    figures = compute(trailer)
    geometry, runs, laid = trailer.geometry, figures.runs, figures.laid
    for chase in geometry.chases.values():
        pieces = [one for one in laid.pieces if one.chase == chase.name]
        if chase.kind is not ChaseKind.CONDUIT or not chase.takes_wires:
            assert pieces == []
            continue
        whole_m = sum(length_m for _, _, length_m in lengths_of(geometry, chase))
        assert sum(one.length_m for one in pieces) == pytest.approx(whole_m)
        assert [one.end for one in pieces[:-1]] == [one.start for one in pieces[1:]]
        for one in pieces:
            first, last = chase.through.index(one.start), chase.through.index(one.end)
            held = {tuple(sorted(runs.laid(Stretch(chase.name, n)))) for n in range(first, last)}
            assert len(held) == 1
    for groove in laid.grooves:
        held = [
            runs.laid(Stretch(groove.chase, n)) for n in range(len(geometry.chases[groove.chase].through) - 1)
        ]
        assert groove.wide_m is None or groove.wide_m * 1000 >= 1.6 * max(map(len, held))
