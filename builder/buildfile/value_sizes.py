"""Sizes of wires and of studs as a build file names them."""

from __future__ import annotations

import re
from typing import Annotated

from builder import quantities
from builder.buildfile.suggesting import near_words
from builder.buildfile.value_reading import list_words, quantity, schema_of
from builder.buildfile.written import Written
from builder.quantities import Misread
from builder.tables.studs import stud_sizes
from builder.trailer.landing_points import StudSize
from builder.trailer.size import Size

THINNEST_MM2 = 0.8
"""18 AWG (0.823 mm²) is the smallest size of NEC Chapter 9 Table 8 and of 33 CFR 183.425 Table 5."""


def read_wire_size(text: str) -> Size | Misread:
    """Return the size that a text names, or what is wrong with it."""
    found = quantities.read_size(text)
    if isinstance(found, Misread):
        return _without_thin_sizes(found)
    size = Size("AWG" if found.kind == "AWG" else "mm2", found.value)
    if size.area_mm2 < THINNEST_MM2:
        return Misread(
            0,
            len(text),
            f"{size} is thinner than any wire that the tables for trailers and boats know",
            "use 18 AWG or 1 mm² at least",
        )
    return size


def _without_thin_sizes(misread: Misread) -> Misread:
    """Leave out of the sizes that are offered instead those that would be refused as well."""
    fit = tuple(one for one in misread.fixes if not isinstance(read_wire_size(one), Misread))
    if fit == misread.fixes:
        return misread
    return Misread(
        misread.start,
        misread.length,
        misread.message,
        f"write {' or '.join(fit)}" if fit else "use 18 AWG or 1 mm² at least",
        fit,
    )


SizeText_ = Annotated[
    Written[Size],
    quantity(read_wire_size, "a wire size such as 16 AWG"),
    schema_of("a wire size", "16 AWG", "2.5 mm²"),
]


def read_stud(text: str) -> StudSize | Misread:
    """Return the size of stud that a text names (No. 8, M6, 5/16 in, 6 mm), or what is wrong with it."""
    known = stud_sizes()
    said = re.sub(r"\s+", " ", text.strip()).casefold().replace('"', " in")
    by_said = {name.casefold(): name for name in known}
    numbered = re.fullmatch(r"(?:no\.?|number|#|m)\s*([\d.]+)", said)
    if numbered:
        said = f"{'m' if said.startswith('m') else 'no. '}{numbered.group(1)}"
    length = quantities.read_length(said) if said not in by_said else None
    if isinstance(length, float):
        near = [name for name, (_, mm) in known.items() if abs(mm - length * 1000) < 0.05]
        said = near[-1].casefold() if near else said
    if said in by_said:
        name = by_said[said]
        return StudSize(name, known[name][0])
    bare = tuple(
        name for name in (f"{text.strip()} in", f"M{text.strip()}", f"No. {text.strip()}") if name in known
    )
    if bare:
        return Misread(0, len(text), f"{text} says no kind of thread", f"write {' or '.join(bare)}", bare)
    return Misread(
        0,
        len(text),
        f"{text} is no size of stud known here",
        f"the sizes are: {list_words(known, 40)}",
        tuple(by_said[one] for one in near_words(said, by_said)),
    )


StudText = Annotated[
    Written[StudSize],
    quantity(read_stud, "a size of stud such as 1/4 in, No. 8 or M6"),
    schema_of("a size of stud or screw", "1/4 in", "No. 8", "M6"),
]
