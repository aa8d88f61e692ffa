"""Lists inside braces whose brackets were forgotten: ``{shows: tail, stop, side: both}``."""

from __future__ import annotations

from collections.abc import Collection

from builder.buildfile.nodes import Pairs, Text
from builder.buildfile.problems import Problem, instead
from builder.buildfile.synonyms import meant
from builder.tables.road_lamps import road_functions
from builder.trailer.origin import Origin

_FIGURES = ("on the shelf", "fuses on the shelf")
_NAMES = ("through", "parts", "outputs", "corners", "hinge")
_OF_FRAMES = ("back", "up")


def is_one_more(name: str, word: str, group: Collection[str] = ()) -> bool:
    """Tell whether a word without a value may be one more of the list that a name before it takes.

    ``group`` are the names beside it: only a frame, which has ``thick``, stands at several lengths.
    """
    if name == "shows":
        folded = " ".join(word.casefold().split())
        return folded in road_functions() or meant("function", folded) is not None
    figures = (*_FIGURES, *_OF_FRAMES) if "thick" in group else _FIGURES
    return name in _NAMES or (name in figures and word[:1].isdigit() and not word.isdigit())


def no_brackets(group: Pairs, name: str, first: object) -> Problem:
    """Return the problem of a list in braces without its brackets, marked at its second word.

    Args:
        group: the names in braces.
        name: the name that takes a list.
        first: the value that stands behind its colon.

    """
    place = next(number for number, pair in enumerate(group.pairs) if pair.key.value == name)
    rest: list[Text] = []
    for pair in group.pairs[place + 1 :]:
        if not pair.bare or not is_one_more(name, pair.key.value, [each.key.value for each in group.pairs]):
            break
        rest.append(pair.key)
    row = ", ".join([first.value if isinstance(first, Text) else "…", *(word.value for word in rest)])
    start, last = group.pairs[place].value, rest[-1].origin
    one_line = start is not None and start.origin.line == last.line and isinstance(first, Text)
    whole = (
        Origin(last.line, start.origin.column, last.column + last.length - start.origin.column)
        if start and one_line
        else None
    )
    return Problem(
        rest[0].origin,
        "comma in a text",
        f"a comma parts two things inside braces, and “{rest[0].value}” is a name without a value",
        f"put the words of a list in brackets: {name}: [{row}]",
        mends=instead(f"[{row}]", at=whole) if whole else (),
    )
