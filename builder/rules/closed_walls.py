"""What can still be done once walls are closed: parts that take less, and wire laid where it stays in sight."""

from __future__ import annotations

from collections.abc import Collection
from math import floor, log10

from builder.electrics.figures import Figures, LoadFigures
from builder.rules.wording import is_above, length, say
from builder.trailer.model import Trailer
from builder.trailer.size import Size, by_area
from builder.trailer.wires import BREAKAWAY

PART_HELP = "choose “{part}” so that it takes less, {words} at most"
PART_CHANGED_HELP = "choose “{part}” so that it takes less, {words} at most, and write it under changes"
CHARGER_HELP = "choose “{part}” so that it gives less, {words} at most"
LESS_HELP = "let what hangs on it take {less} less"
LAY_HELP = "lay new wire where it stays in sight, size: {size}"
LAY_OR_SPARE_HELP = (
    "lay new wire where it stays in sight, or take the spare “{spare}” if it leads there, size: {size}"
)
OR_HELP = "{one}; or {other}"
NOTHING_HELP = "let less hang on it, or lay a circuit of its own where it stays in sight"
LEAST_SHARE = 0.1
"""A part that must take less than a tenth of what it took is another part: no way out (common practice)."""


def new_wire(trailer: Trailer, size: Size) -> str:
    """Return the sentence for wire of a size outside the walls; it names a spare wire that is thick enough."""
    spare = next(
        (
            w.start.pin
            for w in trailer.spares
            if w.size is not None and by_area(w.size) >= by_area(size) - 1e-9
        ),
        "",
    )
    return say(LAY_OR_SPARE_HELP if spare else LAY_HELP, size=size, spare=spare)


def either(*sentences: str) -> str:
    """Return sentences that are ways out each, joined by *or*; empty ones are left out."""
    found = [sentence for sentence in sentences if sentence]
    return say(OR_HELP, one=found[0], other=found[1]) if len(found) > 1 else (found or [NOTHING_HELP])[0]


def weaker_for_drop(trailer: Trailer, load: LoadFigures, most_v: float) -> str:
    """Return how little a load must take so that at most ``most_v`` volts are lost on its way; empty where none helps.

    Source: Ohm's law over each stretch of its way, all other loads as they are.
    """
    resistance_ohm = sum(step.resistance_ohm for step in load.steps)
    if resistance_ohm <= 0:
        return ""
    return _weaker(trailer, load, load.current_a - (load.drop_v - most_v) / resistance_ohm)


def weaker_on_wires(trailer: Trailer, figures: Figures, wires: Collection[str], excess_a: float) -> str:
    """Return how little the largest load behind some wires must take so that ``excess_a`` amperes less flow there.

    Where that load alone cannot make up for it, the sentence says by how much all together must take less. Empty where
    nothing is to be made up for.
    """
    if excess_a <= 0:
        return ""
    loads = [
        load
        for circuit in figures.circuits.values()
        for load in circuit.loads
        if any(step.wire in wires for step in load.steps) and load.load.what != BREAKAWAY
    ]
    most = max(loads, key=lambda load: load.current_a, default=None)
    one = _weaker(trailer, most, most.current_a - excess_a) if most is not None else ""
    return one or say(LESS_HELP, less=f"{_up(excess_a):g} A")


def _weaker(trailer: Trailer, load: LoadFigures, current_a: float) -> str:
    if current_a < load.current_a * LEAST_SHARE or not is_above(load.current_a, current_a):
        return ""
    share = current_a / load.current_a
    charger = trailer.parts.get(load.load.charged_from)
    if charger is not None:
        gives_a = charger.gives_a
        words = f"gives: {_down(gives_a * share):g} A" if gives_a is not None else ""
        return say(CHARGER_HELP, part=charger.name, words=words) if words else ""
    words = _words(trailer, load, share)
    is_there = load.load.part not in trailer.optional
    sentence = (
        PART_CHANGED_HELP if is_there and words.startswith("draws: ") and "{" not in words else PART_HELP
    )
    return say(sentence, part=load.load.part, words=words) if words else ""


def _words(trailer: Trailer, load: LoadFigures, share: float) -> str:
    """Return what the file would say of a part that takes so large a share of what it took; empty for a converter."""
    one = load.load
    part = trailer.parts.get(one.part)
    if one.draw is None:
        return ""
    if part is not None and part.lit_length_m is not None and not one.what:
        step_m = 0.1 if trailer.identity.units != "feet" else 0.1524
        most_m = floor(part.lit_length_m * share / step_m + 1e-9) * step_m
        return f"lit length: {length(most_m, trailer)}" if most_m > 0 else ""
    takes = f"{_down(one.draw.value * share):g} {one.draw.unit}"
    if part is not None and part.kind == "road lamp":
        return f"draws: {{{one.what}: {takes}}}"
    key = "draws when idle" if one.what == "idle" else "draws"
    return f"{key}: {takes}"


def _down(value: float) -> float:
    """Return a draw rounded down to two figures, as a label has it."""
    step = 10.0 ** (floor(log10(value)) - 1)
    return round(floor(value / step + 1e-9) * step, 6)


def _up(value: float) -> float:
    step = 10.0 ** (floor(log10(value)) - 1)
    return round((floor(value / step - 1e-9) + 1) * step, 6)
