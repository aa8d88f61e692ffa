"""What a circuit drawing is made of before it has a place: nodes with pins, and legs between them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

LegKind = Literal["wire", "inner", "tie"]
"""A wire of the trailer, a lead inside a part, or a dashed line for what another drawing shows."""


@dataclass(frozen=True, slots=True)
class Tag:
    """What is written on a wire: its number, its colour as code or words, its size with the unit.

    ``base`` and ``tracer`` are the colours on a screen (``#rrggbb``), ``tracer`` empty where there is none;
    ``words`` is the colour as a person says it.
    """

    number: str
    color: str
    size: str
    base: str
    tracer: str
    words: str


@dataclass(frozen=True, slots=True, order=True)
class Pin:
    """One end of a leg: the node and the pin on it."""

    node: str
    pin: str


@dataclass(frozen=True, slots=True)
class Leg:
    """One line from a pin above to a pin below. ``tag`` is None where it is not a wire."""

    id: str
    start: Pin
    end: Pin
    kind: LegKind = "wire"
    tag: Tag | None = None


@dataclass(frozen=True, slots=True)
class Node:
    """One symbol with its text.

    ``part`` is the part's name in the model (or front box, battery, tow plug, frame), ``kind`` a word of the
    table of symbols. ``details`` are short lines under the name. ``bar`` is True where wires meet on a thick
    line, ``joint`` where they meet on a dot. ``load`` nodes stand in one row. ``elsewhere`` tells that the part
    is drawn in full in another circuit, ``repeat`` that it stands on an earlier strip already. ``note`` is the
    line that leads on to a later strip, ``outputs`` the words before the names of a part's outputs, where they
    are longer than a number. ``where`` are the words on where it sits.
    """

    key: str
    part: str
    kind: str
    name: str
    details: tuple[str, ...] = ()
    bar: bool = False
    joint: bool = False
    load: bool = False
    elsewhere: bool = False
    waiting: bool = False
    where: str = ""
    repeat: bool = False
    note: str = ""
    outputs: str = ""


@dataclass(frozen=True, slots=True)
class Graph:
    """One circuit, or one strip of it: nodes by key in reading order, legs in number order."""

    nodes: dict[str, Node]
    legs: tuple[Leg, ...]

    def pins(self, key: str) -> tuple[tuple[str, ...], tuple[str, ...]]:
        """Return the wired pins of a node: those on its upper edge and those on its lower edge."""
        tops = dict.fromkeys(leg.end.pin for leg in self.legs if leg.end.node == key)
        bottoms = dict.fromkeys(leg.start.pin for leg in self.legs if leg.start.node == key)
        return _sorted(tuple(tops)), _sorted(tuple(bottoms))


def _sorted(pins: tuple[str, ...]) -> tuple[str, ...]:
    """Put returns last and numbered pins in their order; else as they come."""
    return tuple(sorted(pins, key=lambda pin: ("−" in pin, "rest" in pin, *_count(pin))))


def _count(pin: str) -> tuple[int, int]:
    digits = "".join(sign for sign in pin if sign.isdecimal())
    return (0, int(digits)) if digits.isascii() and digits else (0, 0)
