"""A small trailer with a lined left wall, all of whose wires have places: a screw limit is told for its lining."""

from __future__ import annotations

from builder.buildfile.resolving import read_build
from builder.electrics.computing import compute
from builder.electrics.figures import Figures
from builder.routes.panels import PanelView
from builder.trailer.model import Trailer

LINED = """format: 1
build: {name: Example, country: US}
battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
front box: {fuse ways: 4}
wire: {on the shelf: [16 AWG, 10 AWG]}
places:
  battery: {back: 0 in, up: 2 ft}
  main fuse: {back: 3 in, up: 2 ft}
  front box: {back: 10 in, up: 2 ft}
  corner: {back: 10 in, left: 2 ft 5 in, up: 2 ft}
  post: {back: 4 ft, left: 2 ft 5 in, up: 2 ft}
  lamp: {back: 6 ft, left: 2 ft 5 in, up: 2 ft}
  fan: {back: 4 ft, left: 2 ft 5 in, up: 3 ft 4 in}
  low front: {back: 2 ft, left: 2 ft 3 in, up: 1 ft}
  low rear: {back: 5 ft, left: 2 ft 3 in, up: 1 ft}
  high rear: {back: 5 ft, left: 2 ft 3 in, up: 3 ft}
  high front: {back: 2 ft, left: 2 ft 3 in, up: 3 ft}
chases:
  battery line: {through: [battery, main fuse, front box]}
  cross: {through: [front box, corner]}
  groove: {through: [corner, post, lamp]}
  riser: {through: [post, fan]}
panels:
  lining: {corners: [low front, low rear, high rear, high front], behind: [groove, riser], also behind: nothing}
parts: {lamp: {kind: lamp, draws: 3 W}, fan: {kind: fan, draws: 2 A}}
circuits:
  lamp: {path: [lamp: 8 ft]}
  fan: {path: [fan: 8 ft]}
"""


def read(text: str) -> tuple[Trailer, Figures]:
    reading = read_build(text.encode())
    assert reading.trailer is not None, [(p.origin.line, p.message) for p in reading.problems]
    return reading.trailer, compute(reading.trailer)


def lining(text: str) -> PanelView:
    (view,) = read(text)[1].panels
    return view


def changed(old: str, new: str) -> str:
    assert old in LINED, old
    return LINED.replace(old, new, 1)
