"""Findings: what a rule has to say, where, and the way out."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum

from builder.electrics.figures import Figures
from builder.trailer.model import Trailer
from builder.trailer.origin import Origin


class Level(StrEnum):
    """How grave a finding is."""

    MUST = "must fix"
    SHOULD = "should fix"
    WORTH = "worth knowing"


@dataclass(frozen=True, slots=True)
class WayOut:
    """What to do while walls are open, and what once they are closed: then nothing behind a skin can be reached."""

    open: str
    closed: str

    def at(self, *, walls_closed: bool) -> str:
        """Return what is advised at a stage of the work."""
        return self.closed if walls_closed else self.open


@dataclass(frozen=True, slots=True)
class Remark:
    """What a rule yields: a sentence, the way out, the place, and what the limit rests on.

    ``help`` is one sentence where the way out touches nothing that walls hide.

    ``wires`` are the numbers of the wires that it is about, where it is about some alone.
    ``known`` says how the limit is known: read, quoted, file (a contradiction inside the file), memory or
    practice; the last two never make a *must fix*. ``level`` is set where it differs from the rule's own.
    """

    origin: Origin
    message: str
    help: str | WayOut
    known: str
    basis: str
    level: Level | None = None
    circuit: int | None = None
    wires: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Finding:
    """One finding, ready to be shown."""

    level: Level
    rule: str
    origin: Origin
    message: str
    help: str
    basis: str
    known: str
    circuit: int | None
    wires: tuple[str, ...] = ()


Check = Callable[[Trailer, Figures], Iterable[Remark]]
CheckAfter = Callable[[Trailer, Figures, Sequence[Finding]], Iterable[Remark]]


@dataclass(frozen=True, slots=True)
class Rule:
    """One rule: its name in plain words, its level, its function, and the module that holds its page.

    ``check_after`` is asked once all others have spoken, and is given what they found; None where a rule has none.
    """

    name: str
    level: Level
    check: Check
    page: str
    check_after: CheckAfter | None = None
