"""Write long build files, as even as a ruler: so many circuits, or so many wires."""

from __future__ import annotations

WIRES_OF_A_CIRCUIT = 3
"""A feed to the switch, a feed to the lamp, a return."""
WIRES_OF_THE_BATTERY = 3
"""Main fuse, front box, return."""

HEAD = """\
format: 1
build: {{name: Long Bench, number: 1, country: US, stage: walls open}}
battery: {{chemistry: agm, capacity: 200 Ah, to main fuse: 5 in, to front box: 3 ft}}
front box: {{fuse ways: {ways}, fuses: blade regular}}
wire: {{on the shelf: [16 AWG, 14 AWG, 12 AWG, 8 AWG, 2 AWG, 4/0 AWG], sold as: pair, feed: red, return: black}}
"""


def build_of_circuits(count: int) -> bytes:
    """Return a build file of so many circuits, each a switch and a lamp of half a watt."""
    numbers = range(1, count + 1)
    parts = "".join(
        f"  switch {n}: {{kind: switch}}\n  lamp {n}: {{kind: lamp, draws: 0.5 W}}\n" for n in numbers
    )
    circuits = "".join(
        f"  light {n}: {{path: [switch {n}: {3 + n % 17} ft, lamp {n}: {2 + n % 7} ft]}}\n" for n in numbers
    )
    return f"{HEAD.format(ways=count)}parts:\n{parts}circuits:\n{circuits}".encode()


def build_of_wires(count: int) -> bytes:
    """Return a build file of about so many wires."""
    return build_of_circuits(max(1, round((count - WIRES_OF_THE_BATTERY) / WIRES_OF_A_CIRCUIT)))
