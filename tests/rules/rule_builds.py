"""Short builds for the tests of rules, and what the rules find in them."""

from __future__ import annotations

from dataclasses import dataclass

from builder.buildfile.resolving import read_build
from builder.electrics.computing import compute
from builder.electrics.figures import Figures
from builder.rules.finding import Finding, Level
from builder.rules.registry import find
from builder.trailer.model import Trailer

BATTERY = "battery: {chemistry: agm, capacity: 60 Ah, to main fuse: 5 in, to front box: 2 ft}"
FRONT_BOX = "front box: {fuse ways: 4}"

PLUG = "tow plug: {pattern: 7-way blade, to front box: 7 ft}\n"
FAN = "parts: {fan: {kind: fan, draws: 3 A}}\ncircuits:\n  fan: {fuse: 10 A, path: [fan: 6 ft]}\n"
HEATER = (
    "parts: {heater: {kind: heater, draws: 8 A}}\ncircuits:\n  heater: {fuse: 10 A, path: [heater: 2 ft]}\n"
)
LAMP = "parts: {lamp: {kind: lamp, draws: 3 W}}\ncircuits:\n  lamp: {path: [lamp: 6 ft]}\n"
MAIN_30 = (
    "battery: {chemistry: agm, capacity: 60 Ah, path: [main fuse: 5 in, "
    "isolating switch: 6 in, front box: 2 ft], fuse: 30 A, size: 8 AWG}"
)
ALARM = (
    "parts: {alarm: {kind: alarm, "
    "draws: 80 mA}}\ncircuits:\n  alarm: {from: main fuse, size: 10 AWG, path: [alarm: 6 ft]}\n"
)
SHORE = (
    "mains: {what: inlet, "
    "done by: licensed electrician}\nparts: {shore converter: {kind: shore converter, gives: 10 A}}\n"
    "circuits:\n  charging: {from: shore converter, size: 10 AWG, path: [front box: 5 ft]}\n"
)
THICK = "battery: {chemistry: agm, capacity: 60 Ah, size: 8 AWG, to main fuse: 5 in, to front box: 2 ft}"
PUMP = "parts: {pump: {kind: pump, draws: 4 A}}\ncircuits:\n  pump: {path: [pump: 6 ft]}\n"
FRIDGE = (
    "parts: {box: {kind: fridge, draws: 4 A, works from: 9.6 V}}\ncircuits:\n  cool: {path: [box: 8 ft]}\n"
)
TWO = (
    "parts: {fan: {kind: fan, draws: 1 A}, lamp: {kind: lamp, "
    "draws: 3 W}}\ncircuits:\n  fan: {path: [fan: 6 ft]}\n  light: {path: [lamp: 6 ft]}\n"
)
HATCH = (
    "parts: {hatch plug: {kind: connector, ways: 2}, lamp: {kind: lamp, draws: 3 W}}\n"
    "circuits:\n  lamp: {path: [hatch plug: {length: 6 ft, terminal: 1}, lamp: 2 ft]}\n"
)
ROAD = (
    PLUG
    + "road lamps:\n  plate lamp: {shows: plate, wire: 9 ft}\n  front marker: {shows: marker, side: both, wire: 5 ft}\n"
)
FRAMED = (
    "battery: {chemistry: agm, capacity: 60 Ah, to main fuse: 5 in, to front box: 2 ft, frame bond: 8 AWG}"
)
CHARGE = (
    "parts: {charger: {kind: dc charger, gives: 10 A}}\ncircuits:\n  charge: {from: tow plug battery, size: 10 AWG, "
    "path: [charger: 7 ft, battery fuse: 2 ft, battery: 7 in]}\n"
)

PHONE = (
    "parts: {converter: {kind: converter, gives: 3 A, gives at: 5 V}, socket: {kind: socket, draws: 15 W, at: 5 V}}\n"
    "circuits:\n  phone: {path: [converter: 6 ft, socket: 8 in]}\n"
)


def build(
    rest: str,
    *,
    battery: str = BATTERY,
    box: str = FRONT_BOX,
    shelf: str = "16 AWG",
    more: str = "country: US",
) -> str:
    """Return a whole build file: the usual head with the given lines in place, then ``rest``."""
    wire = f"wire: {{on the shelf: [{shelf}]}}" if shelf else ""
    head = ["format: 1", f"build: {{name: Example, {more}}}", battery, box, wire]
    return "\n".join(line for line in head if line) + "\n" + rest


def read(text: str) -> tuple[Trailer, Figures]:
    """Return the trailer of a build that has no problem, with its figures."""
    reading = read_build(text.encode())
    assert reading.trailer is not None, [(p.origin.line, p.message) for p in reading.problems]
    return reading.trailer, compute(reading.trailer)


def findings(text: str, rule: str = "") -> tuple[Finding, ...]:
    """Return what all rules, or one, find in a build that has no problem."""
    return tuple(finding for finding in find(*read(text)) if rule in ("", finding.rule))


def marked(text: str, finding: Finding) -> tuple[int, str]:
    """Return the line of a finding, from 1, and the word it marks there."""
    line = text.splitlines()[finding.origin.line - 1]
    start = finding.origin.column - 1
    return finding.origin.line, line[start : start + finding.origin.length]


def line_of(text: str, start: str) -> int:
    """Return the number of the first line that begins with these words, blanks aside."""
    return next(n for n, line in enumerate(text.splitlines(), start=1) if line.strip().startswith(start))


@dataclass(frozen=True)
class Limit:
    """One limit: a build inside it, the one change that leaves it, what is said then, and the ways out.

    ``breaks`` and each of ``ways_out`` are words of the file and what stands in their place; the second part of
    ``says`` is what the help must print. A way out is applied to the build outside.
    """

    name: str
    rule: str
    inside: str
    breaks: tuple[str, str]
    at: tuple[str, str]
    level: Level
    says: tuple[str, ...]
    ways_out: tuple[tuple[str, str, str], ...]

    @property
    def outside(self) -> str:
        """The build just outside the limit."""
        return changed(self.inside, *self.breaks)


def changed(text: str, old: str, new: str) -> str:
    """Return a text with one word changed, which must be there."""
    assert old in text, old
    return text.replace(old, new, 1)
