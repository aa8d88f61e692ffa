"""The ends of a spare wire lie at a place: the test sheet names that place and no terminal, whatever its name."""

from __future__ import annotations

import pytest
from owner_pages import page_of, view_of, words_of

BUILD = """\
format: 1
build: {name: Loose Ends, country: US}
battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 4 ft}
front box: {fuse ways: 4}
tow plug: {pattern: 4-way flat, to front box: 7 ft}
parts:
  lamp: {kind: lamp, draws: 3 W}
circuits:
  light: {path: [lamp: 6 ft]}
spares:
  NAME: {from: FROM, to: lamp, wire: 9 ft}
"""


@pytest.mark.parametrize("place", ["tow plug", "front box", "battery", "rear wall"])
@pytest.mark.parametrize("name", ["rear spare", "2", "way 3"])
def test_the_test_sheet_names_the_places_of_a_spare_wire(place: str, name: str) -> None:
    page = page_of(view_of(BUILD.replace("NAME", f'"{name}"').replace("FROM", place).encode()), "tests")
    row, *ends = (words_of(tag) for tag in page.find_all("tr") if "S1" in words_of(tag).split())
    assert f" 16 AWG {place} lamp " in row
    assert [end.partition(" 16 AWG ")[2].strip() for end in ends] == [place, "lamp"]


@pytest.mark.parametrize(
    ("place", "inside"),
    [
        ("front box", True),
        ("Front Box", True),
        ("Front  box, tied to the left", True),
        ("front boxes on the shelf", False),
        ("front box lid", False),
        ("behind the front box", False),
    ],
)
def test_an_end_in_the_front_box_is_told_by_its_hole_its_grommet_and_the_pages_alike(
    place: str, inside: bool
) -> None:
    text = (
        BUILD.replace("NAME", "rear spare").replace("FROM", f'"{place}"').replace("to: lamp", "to: rear wall")
    )
    bare, holed = view_of(text.encode()), view_of((text + "entry holes: {a: {bore: 1 in}}\n").encode())
    (hole,) = holed.figures.entries.holes
    assert ("S1" in hole.wires) is inside
    names = [name for item in bare.lists.shopping.items if item.kind == "grommet" for name in item.names]
    assert ("front box: rear spare" in names) is inside
    for page in ("fuses", "landings"):
        assert ("S1, its other end: rear wall" in words_of(page_of(bare, page))) is inside, page
