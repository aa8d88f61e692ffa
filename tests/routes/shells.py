"""Generated shells of trailers: walls with bent tops, roofs of flat strips, floors and linings, wires near all of them.

Each skin comes with the flat faces that it was made of and the direction of its fasteners, for who measures by himself.
"""

from __future__ import annotations

import random
from dataclasses import dataclass, field
from math import cos, pi, sin

from builder.routes.network import Stretch
from builder.routes.runs import Runs
from builder.trailer.origin import NOWHERE
from builder.trailer.places import Chase, ChaseKind, Geometry, Panel, Place, Skin
from builder.trailer.size import Size

Point = tuple[float, float, float]
SIZES = (Size("AWG", "18"), Size("AWG", "16"), Size("AWG", "10"), Size("mm2", "1.5"), Size("mm2", "4"))


@dataclass
class Shell:
    """A geometry with its runs and sizes; ``faces`` has each skin's flat faces and where its fasteners point."""

    places: dict[str, Place] = field(default_factory=dict)
    chases: dict[str, Chase] = field(default_factory=dict)
    skins: dict[str, Skin] = field(default_factory=dict)
    panels: dict[str, Panel] = field(default_factory=dict)
    faces: dict[str, list[tuple[list[Point], Point]]] = field(default_factory=dict)
    inside: dict[Stretch, tuple[str, ...]] = field(default_factory=dict)
    sizes: dict[str, Size] = field(default_factory=dict)

    @property
    def geometry(self) -> Geometry:
        return Geometry(self.places, self.chases, self.skins, self.panels)

    @property
    def runs(self) -> Runs:
        return Runs(inside=self.inside)

    def corner(self, point: Point) -> str:
        name = f"p{len(self.places)}"
        self.places[name] = Place(name, *point, NOWHERE)
        return name

    def skin(self, name: str, ring: list[Point], fasteners_m: float, *, outside: bool = True) -> None:
        self.skins[name] = Skin(name, fasteners_m, outside, tuple(map(self.corner, ring)), NOWHERE)

    def chase(self, name: str, points: list[Point], wires: list[Size], bore_m: float | None = None) -> None:
        kind = ChaseKind.CONDUIT if bore_m else ChaseKind.GROOVE
        self.chases[name] = Chase(name, tuple(map(self.corner, points)), kind, NOWHERE, bore_m=bore_m)
        numbers = tuple(f"{name}-{n}" for n in range(len(wires)))
        self.sizes |= dict(zip(numbers, wires, strict=True))
        for stretch in range(len(points) - 1):
            self.inside[Stretch(name, stretch)] = numbers


def shell(seed: int) -> Shell:
    """Return one shell: its side is a half ellipse in straight pieces over a flat floor."""
    rng = random.Random(seed)  # noqa: S311 - it draws shells
    long, wide, high = rng.uniform(2, 4), rng.uniform(1.2, 2.0), rng.uniform(0.9, 1.6)
    steps = rng.randint(4, 9)
    arc = [(long / 2 - long / 2 * cos(pi * i / steps), high * sin(pi * i / steps)) for i in range(steps + 1)]
    made = Shell()
    _walls(made, rng, arc, wide)
    _roof(made, rng, arc, wide)
    _floor_and_lining(made, rng, (long, wide, high))
    for number in range(rng.randint(3, 5)):
        wires = [rng.choice(SIZES) for _ in range(rng.randint(1, 4))]
        bore_m = rng.choice([None, None, 0.02])
        made.chase(f"chase {number}", _piece(made, rng), wires, bore_m)
    return made


def _go(rng: random.Random) -> float:
    return rng.uniform(0.004, 0.045)


def _walls(made: Shell, rng: random.Random, arc: list[tuple[float, float]], wide: float) -> None:
    for name, side in (("left wall", -1.0), ("right wall", 1.0)):
        ring = [(back, side * wide / 2, up) for back, up in arc]
        if rng.random() < 0.5:
            ring.reverse()
        made.skin(name, ring, _go(rng))
        made.faces[name] = [(ring, (0.0, -side, 0.0))]


def _roof(made: Shell, rng: random.Random, arc: list[tuple[float, float]], wide: float) -> None:
    """Lay the front piece as a skin of its own, and the others as one bent skin that begins at any of its corners."""
    left = [(back, -wide / 2, up) for back, up in arc]
    right = [(back, wide / 2, up) for back, up in arc]
    made.skin("front", [left[0], left[1], right[1], right[0]], _go(rng))
    made.faces["front"] = [_strip(arc, 0, wide)]
    ring = [*left[1:], *right[:0:-1]]
    turn = rng.randrange(len(ring))
    made.skin("roof", [*ring[turn:], *ring[:turn]], _go(rng))
    made.faces["roof"] = [_strip(arc, i, wide) for i in range(1, len(arc) - 1)]


def _strip(arc: list[tuple[float, float]], i: int, wide: float) -> tuple[list[Point], Point]:
    (b0, u0), (b1, u1) = arc[i], arc[i + 1]
    long = ((b1 - b0) ** 2 + (u1 - u0) ** 2) ** 0.5
    ring = [(b0, -wide / 2, u0), (b1, -wide / 2, u1), (b1, wide / 2, u1), (b0, wide / 2, u0)]
    return ring, ((u1 - u0) / long, 0.0, -(b1 - b0) / long)


def _floor_and_lining(made: Shell, rng: random.Random, size: tuple[float, float, float]) -> None:
    long, wide, high = size
    ring = [(0.0, -wide / 2, 0.0), (long, -wide / 2, 0.0), (long, wide / 2, 0.0), (0.0, wide / 2, 0.0)]
    made.skin("floor", ring, _go(rng))
    made.faces["floor"] = [(ring, (0.0, 0.0, 1.0))]
    at = wide / 2 - rng.uniform(0.03, 0.08)
    low, top = high * 0.1, high * 0.6
    a, b = long * 0.3, long * 0.7
    # a shape with a notch: not every line between two of its points stays in it
    lining = [(a, at, low), (b, at, low), (b, at, top), ((a + b) / 2, at, (low + top) / 2), (a, at, top)]
    made.skin("lining", lining, _go(rng), outside=False)
    made.faces["lining"] = [(lining, (0.0, 1.0, 0.0))]
    made.panels["panel"] = Panel("panel", tuple(map(made.corner, lining)), "", NOWHERE)


def _piece(made: Shell, rng: random.Random) -> list[Point]:
    """Return a piece behind some face, along it or slanting, often out over its edge."""
    name = rng.choice(list(made.faces))
    ring, towards = rng.choice(made.faces[name])
    points = []
    for _ in range(2):
        shares = [rng.random() for _ in ring]
        all_ = sum(shares)
        foot = [sum(s * p[i] for s, p in zip(shares, ring, strict=True)) / all_ for i in range(3)]
        depth = rng.choice([rng.uniform(-0.01, 0.06), rng.uniform(0.0, 0.2)])
        out = rng.choice([0.0, 0.0, rng.uniform(0.0, 0.3)])
        centre = [sum(p[i] for p in ring) / len(ring) for i in range(3)]
        points.append(tuple(foot[i] + depth * towards[i] + out * (foot[i] - centre[i]) for i in range(3)))
    (ax, ay, az), (bx, by, bz) = points
    far = ((bx - ax) ** 2 + (by - ay) ** 2 + (bz - az) ** 2) ** 0.5
    short = min(1.0, 0.8 / far)  # a metre is enough to measure along
    return [points[0], (ax + short * (bx - ax), ay + short * (by - ay), az + short * (bz - az))]
