"""What is collected while paths are woven into wires: wires, loads, links, and the problems met."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace

from builder.buildfile.laying_out import Layout
from builder.buildfile.problems import Mend, Problem
from builder.buildfile.written import Key, fold
from builder.tables.assumptions import defaults
from builder.trailer.color import Color
from builder.trailer.origin import Origin
from builder.trailer.parts import Part, Terminal
from builder.trailer.size import Size
from builder.trailer.wires import Leg, Link, Load, Role, Section, Wire

LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"
"""The letters of wire numbers: I and O are left out, since they read as 1 and 0."""


MOST_GUESSES = 100
"""Unknown names of parts that a part is looked for which may be meant."""


@dataclass(frozen=True, slots=True)
class DraftWire:
    """A wire before it has its number."""

    circuit: int
    role: Role
    start: Terminal
    end: Terminal
    length_m: float
    length_source: str
    color: Color
    origin: Origin
    size: Size | None
    through: tuple[str, ...]
    legs: tuple[Leg, ...] = ()


@dataclass(slots=True)
class ReturnBase:
    """A terminal that returns come back to; made only when the first return lands on it."""

    make: Callable[[], Terminal]
    is_start: bool = False
    _terminal: Terminal | None = None

    def land(self) -> Terminal:
        """Return the terminal, and make the return that leads on from it the first time."""
        if self._terminal is None:
            self._terminal = self.make()
        return self._terminal


def fixed_base(terminal: Terminal) -> ReturnBase:
    """Return the base at which the returns of a circuit end."""
    return ReturnBase(make=lambda: terminal, is_start=True)


@dataclass(frozen=True, slots=True)
class Thread:
    """What all wires of one circuit have in common while it is woven.

    ``return_to`` and ``return_length_m`` come from ``return:`` and change where, and how far, the returns
    go that would end at the circuit's start.
    """

    circuit: int
    feed_color: Color
    return_color: Color
    return_circuit: int
    size: Size | None = None
    return_to: str = ""
    return_length_m: float | None = None
    return_origin: Origin | None = None


@dataclass(slots=True)
class Loom:
    """The collection of one resolving run; it is the only thing here that changes."""

    parts: dict[str, Part]
    broken: frozenset[str]
    feeds: list[DraftWire] = field(default_factory=list)
    returns: list[DraftWire] = field(default_factory=list)
    loads: list[Load] = field(default_factory=list)
    links: dict[Link, None] = field(default_factory=dict)
    sections: dict[str, Section] = field(default_factory=dict)
    problems: list[Problem] = field(default_factory=list)
    wired: dict[str, Origin] = field(default_factory=dict)
    ways: dict[str, dict[int, str]] = field(default_factory=dict)
    joints: dict[str, ReturnBase] = field(default_factory=dict)
    named_returns: list[tuple[str, Origin]] = field(default_factory=list)
    default_of: Callable[[str], float] = lambda id_: defaults()[id_].value
    way_origins: dict[tuple[str, int], Origin] = field(default_factory=dict)
    reserved: dict[str, set[int]] = field(default_factory=dict)
    road_names: dict[str, str] = field(default_factory=dict)
    contacts: dict[str, Origin] = field(default_factory=dict)
    headings: frozenset[str] = frozenset()
    first_part: Origin | None = None
    pattern_at: Origin | None = None
    started: dict[str, Key] = field(default_factory=dict)
    guesses: int = MOST_GUESSES
    reach: dict[tuple[str, Terminal], tuple[float, tuple[Leg, ...]]] = field(default_factory=dict)
    layout: Layout = field(default_factory=Layout)

    def problem(
        self, origin: Origin, name: str, message: str, help_: str, mends: tuple[Mend, ...] = ()
    ) -> None:
        """Keep a problem."""
        self.problems.append(Problem(origin, name, message, help_, mends=mends))

    def guessable(self) -> dict[str, Part]:
        """Return the parts that an unknown name is compared with: none behind the hundredth name."""
        self.guesses -= 1
        return self.parts if self.guesses >= 0 else {}

    def shorten_coil_returns(self) -> None:
        """Let a coil's return go from where its relay stands: by the contact's way, where that is the shorter one."""
        for place, draft in enumerate(self.returns):
            near = self.reach.get((fold(draft.start.part), draft.end))
            if draft.start.pin == "coil −" and draft.length_source == "added up" and near is not None:
                shorter = min(near, (draft.length_m, draft.legs), key=lambda one: one[0])
                self.returns[place] = replace(draft, length_m=shorter[0], legs=shorter[1])

    def link(self, a: Terminal, b: Terminal) -> None:
        """Join two terminals inside a part."""
        self.links[Link(a, b)] = None

    def take_way(self, connector: Part, wanted: str, what: str, origin: Origin) -> int:
        """Give a conductor one way of a connector: the wanted one, else the lowest free one.

        ``origin`` is the item of the path: of several conductors of one item the first gets the wanted way.
        """
        taken = self.ways.setdefault(fold(connector.name), {})
        number = int(wanted) if wanted else 0
        if not number or number in taken:
            kept = self.reserved.get(fold(connector.name), set()) | taken.keys()
            number = next(n for n in range(1, len(kept) + 2) if n not in kept)
        taken[number] = what
        self.way_origins[fold(connector.name), number] = origin
        return number


def letter(index: int) -> str:
    """Return the letter of a wire by its place in its circuit: A … Z without I and O, then AA.

    >>> letter(0), letter(8), letter(23), letter(24)
    ('A', 'J', 'Z', 'AA')
    """
    text = ""
    index += 1
    while index:
        index, rest = divmod(index - 1, len(LETTERS))
        text = LETTERS[rest] + text
    return text


def number_wires(loom: Loom) -> tuple[Wire, ...]:
    """Return the wires with their numbers: by circuit, feeds before returns, each in the order woven."""
    drafts = [*loom.feeds, *loom.returns]
    counts: dict[int, int] = {}
    wires = []
    for draft in sorted(drafts, key=lambda wire: wire.circuit):
        index = counts.get(draft.circuit, 0)
        counts[draft.circuit] = index + 1
        wires.append(
            Wire(
                number=f"{draft.circuit}{letter(index)}",
                circuit=draft.circuit,
                role=draft.role,
                start=draft.start,
                end=draft.end,
                length_m=draft.length_m,
                length_source=draft.length_source,
                color=draft.color,
                origin=draft.origin,
                size=draft.size,
                through=draft.through,
                legs=draft.legs or _straight(draft),
            )
        )
    return tuple(wires)


def _straight(draft: DraftWire) -> tuple[Leg, ...]:
    """Return the one leg of a wire that passes no part, away from the supply."""
    ends = draft.start.part, draft.end.part
    return (Leg(*(ends[::-1] if draft.role is Role.RETURN else ends)),)
