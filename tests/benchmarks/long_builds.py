"""Write long build files, as even as a ruler: so many circuits, each a switch and a row of lamps."""

from __future__ import annotations

MOST_FROM_THE_BOX = 50
"""Circuits above this number start at the main fuse, with a fuse of their own: a front box has no more ways."""

HEAD = """\
format: 1
build: {{name: Long Bench, number: 1, country: US, stage: walls open}}
battery: {{chemistry: agm, capacity: 200 Ah, to main fuse: 5 in, to front box: 3 ft}}
front box: {{fuse ways: {ways}, fuses: blade regular}}
wire: {{on the shelf: [16 AWG, 14 AWG, 12 AWG, 8 AWG, 4 AWG, 2 AWG], sold as: pair, feed: red, return: black}}
"""


def build_of_circuits(circuits: int, lamps: int = 1) -> bytes:
    """Return a build file of so many circuits; each has one wire more than twice its lamps."""
    numbers, rows = range(1, circuits + 1), range(1, lamps + 1)
    parts = [f"  switch {n}: {{kind: switch}}\n" for n in numbers]
    parts += [f"  lamp {n} {row}: {{kind: lamp, draws: 0.1 W}}\n" for n in numbers for row in rows]
    lines = []
    for n in numbers:
        path = ", ".join(
            [f"switch {n}: {3 + n % 17} ft", *(f"lamp {n} {row}: {2 + n % 7} ft" for row in rows)]
        )
        start = "" if n <= MOST_FROM_THE_BOX else "from: main fuse, fuse: 3 A, "
        lines.append(f"  light {n}: {{{start}path: [{path}]}}\n")
    head = HEAD.format(ways=min(circuits, MOST_FROM_THE_BOX))
    return f"{head}parts:\n{''.join(parts)}circuits:\n{''.join(lines)}".encode()


PLACED_HEAD = """\
format: 1
build: {name: Placed Bench, number: 1, country: US, stage: walls open}
battery: {chemistry: agm, capacity: 200 Ah, to main fuse: 5 in, to front box: 3 ft}
front box: {fuse ways: 12, fuses: blade regular}
wire: {on the shelf: [16 AWG, 14 AWG, 12 AWG, 10 AWG, 8 AWG], sold as: single, feed: red, return: black}
body:
  width: 5 ft
  profile:
    - {back: 0 in, up: 0 in}
    - {back: 9 ft, up: 0 in}
    - {back: 9 ft, up: 3 ft}
    - {back: 5 ft, up: 4 ft 6 in, radius: 8 ft}
    - {back: 0 in, up: 3 ft, radius: 8 ft}
openings: {left door: {in: left wall, back: 3 ft, up: 6 in, width: 26 in, height: 28 in}}
skins:
  left side: {lies on: left wall, fasteners go in: 3/4 in}
  right side: {lies on: right wall, fasteners go in: 3/4 in}
  roof: {lies on: roof, fasteners go in: 1/2 in}
"""


def build_of_places() -> bytes:
    """Return a build file of 60 wires and 40 places: twelve lamps with a switch each, their ways along both sides."""
    numbers = range(1, 13)
    places = ["  front box: {back: 1 ft, up: 1 ft}"]
    ways = []
    for side in ("left", "right"):
        names = ["front box"]
        for n in range(1, 7):
            at = n if side == "left" else n + 6
            for what, up in (("switch", 20), ("lamp", 30)):
                places.append(f"  {what} {at}: {{back: {12 + 14 * n} in, {side}: 27 in, up: {up} in}}")
            names.append(f"post {at}")
            places.append(f"  post {at}: {{back: {12 + 14 * n} in, {side}: 27 in, up: 8 in}}")
            ways.append(f"  upright {at}: {{through: [post {at}, switch {at}, lamp {at}]}}")
        ways.append(f"  {side} foot: {{through: [{', '.join(names)}], kind: channel}}")
    places += [f"  corner {n}: {{back: {2 + n} ft, up: 3 ft}}" for n in range(1, 4)]
    parts = [f"  switch {n}: {{kind: switch}}\n  lamp {n}: {{kind: lamp, draws: 2 W}}" for n in numbers]
    circuits = [f"  light {n}: {{path: [switch {n}, lamp {n}]}}" for n in numbers]
    ends = [*(f"lamp {n}" for n in numbers), *(f"switch {n}" for n in range(1, 10))]
    spares = [f"  to {end}: {{from: front box, to: {end}, size: 16 AWG}}" for end in ends]
    lists = (
        ("places", places),
        ("chases", ways),
        ("parts", parts),
        ("circuits", circuits),
        ("spares", spares),
    )
    return (PLACED_HEAD + "".join(f"{name}:\n" + "\n".join(lines) + "\n" for name, lines in lists)).encode()
