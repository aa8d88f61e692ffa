"""Lines under a part's name that say which wire belongs on which of its terminals, where no sign can show it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from builder.drawings.wording import Words
from builder.trailer.parts import Form, Part, Terminal
from builder.trailer.wires import Wire


def terminal_lines(part: Part, pins: Sequence[tuple[str, str]], words: Words) -> tuple[str, ...]:
    """Return the lines of a part from its (pin, wire number) pairs on the drawing.

    Two-way and four-way switches, converters and chargers, coils, and what has a minus of its own on its way.
    """
    if part.kind == "two-way switch":
        return tuple(words.common.format(number) for pin, number in pins if pin == "common")
    if part.kind == "four-way switch":
        pairs = [[number for pin, number in pins if pin.startswith(side)] for side in ("in", "out")]
        return (words.pairs.format(*(", ".join(pair) for pair in pairs)),)
    own_minus = part.form is Form.GATE and any(pin == "−" for pin, _ in pins)
    if part.form is Form.SECTION or own_minus or any(pin.startswith("coil") for pin, _ in pins):
        return _each(pins, words)
    return ()


def _each(pins: Sequence[tuple[str, str]], words: Words) -> tuple[str, ...]:
    said = _pin_words(words)
    return tuple(
        words.on_pin.format(said[pin], ", ".join(number for other, number in pins if other == pin))
        for pin in dict.fromkeys(pin for pin, _ in pins)
        if pin in said
    )


def _pin_words(words: Words) -> dict[str, str]:
    return {
        "in +": words.in_plus, "in −": words.in_minus, "out +": words.out_plus, "out −": words.out_minus,
        "coil +": words.plus, "coil −": words.minus, "in": words.in_, "out": words.out, "−": words.minus,
        "+": words.plus,
    }  # fmt: skip


def also_lines(
    terminals: Sequence[Terminal], wires: Iterable[Wire], here: Iterable[str], words: Words
) -> tuple[str, ...]:
    """Return which wires land on the same terminals and stand on another drawing, a line a terminal.

    ``here`` are the numbers of the wires on this drawing. Where there are several terminals each line names its own:
    a wire for plus must not be taken for one of minus.
    """
    drawn, every = set(here), tuple(wires)
    said = _pin_words(words)
    found = []
    for terminal in dict.fromkeys(terminals):
        others = [w.number for w in every if w.number not in drawn and terminal in (w.start, w.end)]
        if others:
            line = (words.also_one if len(others) == 1 else words.also).format(", ".join(others))
            named = len(terminals) > 1 and terminal.pin in said
            found.append(words.on_pin.format(said[terminal.pin], line) if named else line)
    return tuple(found)


def shared_line(numbers: Sequence[str], words: Words) -> tuple[str, ...]:
    """Return the line of a terminal that more than one wire of a drawing lands on; nothing for a single one."""
    return (words.shared.format(", ".join(numbers)),) if len(numbers) > 1 else ()
