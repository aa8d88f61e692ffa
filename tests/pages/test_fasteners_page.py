"""The page of fasteners and wires: what it says of a hinge loop."""

from __future__ import annotations

import pytest
from owner_pages import page_of, table, view_of

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
