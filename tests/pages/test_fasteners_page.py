"""The page of fasteners and wires: what it says of a hinge loop."""

from __future__ import annotations

import pytest
from owner_pages import page_of, table, view_of, words_of

LOOPED = """format: 1
build: {name: Example, country: US}
battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
front box: {fuse ways: 4}
wire: {on the shelf: [16 AWG], outside diameters: {16 AWG: 2.54 mm}}
places:
  front box: {back: 1 ft, right: 2 ft, up: 2 ft}
  hinge: {back: 6 ft, right: 2 ft, up: 4 ft}
  hatch side: {back: 6 ft 4 in, right: 2 ft, up: 4 ft}
  lamp: {back: 7 ft, right: 2 ft, up: 3 ft}
chases:
  groove: {through: [front box, hinge]}
  loop: {through: [hinge, hatch side], kind: hinge loop}
  hatch groove: {through: [hatch side, lamp]}
parts: {lamp: {kind: lamp, draws: 3 W}}
circuits:
  lamp: {path: [lamp]}
"""


UNLOOPED = (
    LOOPED.replace("hatch side, lamp]", "hatch side, light]")
    .replace("  lamp: {back: 7 ft", "  light: {back: 7 ft")
    .replace("path: [lamp]", "path: [lamp: 12 ft]")
)


@pytest.mark.parametrize(("text", "says"), [(UNLOOPED, "no wire recorded in it"), (LOOPED, "1 in")])
def test_a_loop_without_wire_says_so_where_its_least_bend_would_stand(text: str, says: str) -> None:
    view = view_of(text.encode())
    ((name, *_, least),) = table(page_of(view, "fasteners"), "Hinge loops")
    assert name == "loop"
    assert least == says
    (loop,) = view.figures.hinges
    assert loop.empty == (says == "no wire recorded in it")
    assert (loop.allowed_m is None) == loop.empty


WALLED = """format: 1
build: {name: Weir Lane, country: US}
battery: {chemistry: agm, capacity: 60 Ah, to main fuse: 5 in, to front box: 2 ft}
front box: {fuse ways: 4}
parts: {lamp: {kind: lamp, draws: 3 W}}
circuits: {light: {path: [lamp]}}
places:
  front box: {back: 1 ft, left: 29 in, up: 1 ft}
  lamp: {back: 6 ft, left: 29 in, up: 1 ft}
body:
  width: 5 ft
  profile: [{back: 0 in, up: 0 in}, {back: 9 ft, up: 0 in}, {back: 9 ft, up: 4 ft}, {back: 0 in, up: 4 ft}]
frames: {studs: {in: left wall, back: [2 ft, 4 ft]}}
chases: {groove: {through: [front box, lamp], SAID}}
skins: {left side: {lies on: left wall, fasteners go in: 1/4 in}}
"""


@pytest.mark.parametrize(
    ("said", "holes", "along"),
    [
        ("plate: 1/16 in", True, True),
        ("plate: 1/16 in, holes: 3/4 in", True, False),
        ("plate: 1/16 in, holes: 3/4 in, from the edge: 1/2 in", True, False),
        ("holes: 3/4 in", False, False),
    ],
)
def test_a_plate_over_bored_holes_alone_covers_no_stretch_between_them(
    said: str, holes: bool, along: bool
) -> None:
    """Fasteners, closing list and chases to build in call a stretch covered or not, all alike; its holes are."""
    view = view_of(WALLED.replace("SAID", said).encode())
    (behind,) = table(page_of(view, "fasteners"), "Wires behind left side")
    assert ("behind a steel plate" in behind[-1]) == along
    closing = words_of(page_of(view, "closing"))
    assert ("steel plates over it" in closing) == along
    (built,) = table(page_of(view, "building-in"), "Chases to build in")
    assert ("steel plate over all of it" in built[0]) == along
    bored = table(page_of(view, "building-in"), "Holes through frames and studs")
    assert [("steel plates over it" in row[3]) for row in bored] == [holes] * 2
    told = {one.rule for one in view.findings}
    assert ("fastener near wire" in told) != along


LINING = """
  low front: {back: 2 ft, left: 26 in, up: 6 in}
  low rear: {back: 5 ft, left: 26 in, up: 6 in}
  high rear: {back: 5 ft, left: 26 in, up: 2 ft}
  high front: {back: 2 ft, left: 26 in, up: 2 ft}
body:"""
CORNERS = "corners: [low front, low rear, high rear, high front]"


def lined(panel: str = "", skin: str = "") -> bytes:
    """Return a build with a groove 3 in behind a panel or a lining, and what is said of these."""
    text = WALLED.replace("SAID", "pull string: yes").replace("\nbody:", LINING, 1)
    text = text.replace(
        "go in: 1/4 in}", "go in: 1/4 in}" + (f", lining: {{{CORNERS}, {skin}}}" if skin else "")
    )
    return (text + (f"panels: {{lid: {{{CORNERS}, {panel}}}}}\n" if panel else "")).encode()


def test_without_a_skin_from_inside_it_says_that_nothing_is_told_of_a_lining() -> None:
    assert "nothing is told of the screws of an inner lining" in words_of(
        page_of(view_of(lined()), "fasteners")
    )
    told = words_of(page_of(view_of(lined(skin="from: inside, fasteners go in: 1/2 in")), "fasteners"))
    assert "Of a lining that is not listed above nothing is told." in told
    assert "Wires behind lining" in told


@pytest.mark.parametrize(
    ("said", "screw"),
    [
        ("held by: 6 screws, behind: groove, also behind: nothing", "in"),
        (
            "held by: 6 screws, behind: groove, also behind: a water pipe",
            "measure at each: not all behind it",
        ),
        ("held by: 6 screws", "measure at each: not all behind it"),
    ],
)
def test_a_panels_own_screws_have_their_longest_or_are_to_be_measured(said: str, screw: str) -> None:
    view = view_of(lined(said))
    ((name, held, longest),) = table(page_of(view, "fasteners"), "Panels and their own screws")
    assert (name, held) == ("lid", "6 screws")
    assert screw in longest
    (panel,) = view.figures.panels
    assert ("measure" in longest) is not panel.is_whole
