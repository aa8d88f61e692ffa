"""Tow plugs that have a contact which the one of the file lacks: named in a help, and offered as an edit."""

from __future__ import annotations

from collections.abc import Iterable

from builder.buildfile.problems import BLANK, Mend, heading, instead
from builder.tables.tow_plugs import PlugPattern, Side, plug_pattern, plug_patterns, second_patterns
from builder.trailer.origin import Origin


def plugs_with(function: str, plug: PlugPattern, side: Side | None = "left") -> tuple[str, ...]:
    """Return the names of the other plugs that have a contact for a function: those of the same countries first."""
    others = [plug_pattern(name) for name in plug_patterns() if name != plug.name]
    found = [one for one in others if one.contact_for(function, side) is not None]
    return tuple(one.name for one in sorted(found, key=lambda one: not {*one.countries} & {*plug.countries}))


def second_with(function: str, plug: PlugPattern, side: Side | None = "left") -> tuple[str, ...]:
    """Return the names of the plugs with a contact for a function that can stand beside one as a second."""
    found = [plug_pattern(name) for name in second_patterns()]
    return tuple(
        one.name for one in found if one.beside == plug.name and one.contact_for(function, side) is not None
    )


def as_second(names: tuple[str, ...]) -> str:
    """Return a half sentence that names plugs which can stand beside the one of the file; empty where there is none."""
    lines = (f"second plug: {{pattern: {name}, to front box: 7 ft}}" for name in names)
    return f"; or add one beside it, as in {' or '.join(lines)}" if names else ""


def add_second(names: tuple[str, ...]) -> tuple[Mend, ...]:
    """Return the mends that add one of some plugs beside the one of the file."""
    return tuple(
        mend for name in names for mend in heading(f"second plug: {{pattern: {name}, to front box: {BLANK}}}")
    )


def plugs_with_all(functions: Iterable[str], plug: PlugPattern) -> tuple[str, ...]:
    """Return the names of the other plugs that have a contact for each of some functions, none of them shared."""
    asked = tuple(functions)
    first, *rest = ([*plugs_with(one, plug)] for one in asked)
    return tuple(
        name
        for name in first
        if all(name in names for names in rest)
        and len({plug_pattern(name).contact_for(one, "left") for one in asked}) == len(asked)
    )


def that_have_one(names: tuple[str, ...], one: str = "one") -> str:
    """Return a half sentence that names plugs; empty where there is none."""
    return f"; a plug that has {one}: {', '.join(names)}" if names else ""


def other_pattern(names: tuple[str, ...], at: Origin | None) -> tuple[Mend, ...]:
    """Return the mends that write one of some plugs in place of the pattern of the file."""
    return instead(*names, at=at) if at else ()
