"""Where each part stands: at the place that the file says, else at the place of its own name."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from builder.buildfile.laying_out import Layout, unknown_place
from builder.buildfile.problems import BLANK, Problem, add, leave_out
from builder.buildfile.validating import Declared
from builder.buildfile.written import Written, fold
from builder.trailer.model import BATTERY, FRONT_BOX, TOW_PLUG
from builder.trailer.origin import Origin
from builder.trailer.places import Geometry, Stand
from builder.trailer.wires import Wire

_Said = tuple[str, tuple[str, ...], Written[str] | None, Written[float] | None, Origin]
"""A name, the parts it stands for, its ``place``, its ``rise``, and where it is written."""


def read_stands(layout: Layout, declared: Declared) -> list[Problem]:
    """Fill in where parts stand, as far as the file says it; return what is wrong with that."""
    problems: list[Problem] = []
    for name, parts, place, rise, origin in _said(declared):
        if place is None and rise is None:
            continue
        if len(parts) > 1 and place is not None:
            problems.append(_pair(name, place))
            continue
        if place is not None and fold(place.value) not in {fold(one) for one in layout.geometry.places}:
            if fold(place.value) not in layout.broken and "places" not in layout.broken:
                problems.append(unknown_place(layout, place, "a place", of_part=True))
            continue
        for part in parts:
            folded = fold(place.value if place else part)
            found = layout.named.get(folded)
            if found is not None:
                layout.stands[fold(part)] = Stand(found, rise.value if rise else 0.0)
            elif rise is not None and folded not in layout.broken and "places" not in layout.broken:
                problems.append(_no_place(part, rise, origin))
                break
    return problems


def _said(declared: Declared) -> Iterator[_Said]:
    single = ((BATTERY, declared.battery), (FRONT_BOX, declared.front_box), (TOW_PLUG, declared.tow_plug))
    for name, words in single:
        if words is not None:
            yield name, (name,), words.place, words.rise, declared.written_at[name]
    for key, part in declared.parts.items():
        yield str(key), (str(key),), part.place, part.rise, key.origin
    for key, lamp in declared.road_lamps.items():
        pair = lamp.side is not None and lamp.side.value == "both"
        names = (f"{key} left", f"{key} right") if pair else (str(key),)
        yield str(key), names, lamp.place, lamp.rise, key.origin


def _pair(name: str, place: Written[str]) -> Problem:
    return Problem(
        place.origin,
        "word does not fit",
        f"“{name}” is a pair, and its two lamps do not share one place",
        f"take “place” out, and name the two places {name} left and {name} right",
        mends=leave_out(place.origin, "out"),
    )


def _no_place(part: str, rise: Written[float], origin: Origin) -> Problem:
    return Problem(
        rise.origin,
        "unknown place",
        f"“{part}” has a rise, and no place to rise from",
        "add its place, as in place: left wall, or take “rise” out",
        mends=(*add(f"place: {BLANK}", at=origin), *leave_out(rise.origin, "out")),
    )


def with_stands(layout: Layout, wires: Iterable[Wire]) -> Geometry:
    """Return the geometry with where every end of a wire stands, as far as it is known, by the name of the part."""
    if not layout.geometry:
        return layout.geometry
    names = {name: None for wire in wires for leg in wire.legs for name in (leg.start, leg.end)}
    stands = {name: stand for name in names if (stand := layout.stand(name)) is not None}
    return replace(layout.geometry, stands=stands)
