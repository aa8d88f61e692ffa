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
