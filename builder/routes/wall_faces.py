"""The faces of the body's own walls, by its outline: what a skin has that lies on them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise
from math import acos, atan2, ceil, cos, sin

from builder.routes.faces import Face, flat_face, turned
from builder.routes.vectors import Vector, dot
from builder.trailer.body import SIDES, Body, Wall
from builder.trailer.outline import Piece, Point, pieces_of, turns_to_up

SAGITTA_M = 0.002
"""How far an arc may lie beside the straight pieces that stand for it."""


def wall_of(piece: Piece, *, to_up: bool) -> Wall:
    """Return the wall that a piece of the profile is of: the one that it faces most, by its two ends.

    ``to_up`` tells whether the profile goes round the body from its front over its rear to its roof.
    """
    turn = 1.0 if to_up else -1.0
    behind, above = (piece.end[1] - piece.start[1]) * turn, (piece.start[0] - piece.end[0]) * turn
    if abs(above) >= abs(behind):
        return Wall.ROOF if above > 0 else Wall.FLOOR
    return Wall.REAR if behind > 0 else Wall.FRONT


def faces_on(body: Body, walls: Sequence[Wall]) -> tuple[Face, ...]:
    """Return the faces of some walls of a body, each with its depth counted inwards.

    A side wall is one flat face; a bent one is a strip of them, each as unsure as its arc lies beside it.
    """
    to_up = turns_to_up(body.profile)
    laid = [(piece, wall_of(piece, to_up=to_up)) for piece in pieces_of(body.profile)]
    found: list[Face] = []
    for wall in walls:
        if wall in SIDES:
            outline = [point for piece, _ in laid for point in _steps(piece)[:-1]]
            found += _side(outline, body.width_m / 2, wall)
        else:
            for piece, its_wall in laid:
                found += _strips(piece, body.width_m / 2, to_up=to_up) if its_wall is wall else ()
    return tuple(found)


def _side(outline: Sequence[Point], half_m: float, wall: Wall) -> Iterator[Face]:
    side = -1.0 if wall is Wall.LEFT else 1.0
    yield from _facing([(back, side * half_m, up) for back, up in outline], (0.0, -side, 0.0))


def _strips(piece: Piece, half_m: float, *, to_up: bool) -> Iterator[Face]:
    steps = _steps(piece)
    beside_m = piece.radius_m * (1 - cos(piece.sweep / (len(steps) - 1) / 2))
    turn = 1.0 if to_up else -1.0
    for (back, up), (next_back, next_up) in pairwise(steps):
        ring = [
            (back, -half_m, up),
            (next_back, -half_m, next_up),
            (next_back, half_m, next_up),
            (back, half_m, up),
        ]
        for face in _facing(ring, ((up - next_up) * turn, 0.0, (next_back - back) * turn)):
            yield replace(face, bent_m=beside_m)


def _facing(ring: Sequence[Vector], inwards: Vector) -> Iterator[Face]:
    """Yield the face of a ring of corners, turned inwards; none where it is as small as a slip of the tape."""
    face = flat_face(ring)
    if face is not None:
        yield face if dot(face.inwards, inwards) > 0 else turned(face)


def _steps(piece: Piece) -> tuple[Point, ...]:
    """Return the points of a piece from its start to its end, so many that an arc lies no further than that beside."""
    if piece.centre is None:
        return piece.start, piece.end
    count = max(ceil(abs(piece.sweep) / (2 * acos(max(1 - SAGITTA_M / piece.radius_m, 0.0)))), 1)
    (x, y), radius = piece.centre, piece.radius_m
    first = atan2(piece.start[1] - y, piece.start[0] - x)
    angles = (first + piece.sweep * step / count for step in range(1, count))
    return (piece.start, *((x + radius * cos(a), y + radius * sin(a)) for a in angles), piece.end)
