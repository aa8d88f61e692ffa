"""The tow plug, and the second plug beside it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from builder.buildfile.declared_road import SecondPlugWords, TowPlugWords
from builder.buildfile.problems import BLANK, Problem, heading, instead, leave_out
from builder.tables.tow_plugs import beside, plug_pattern
from builder.trailer.model import SECOND_PLUG, TOW_PLUG, TowPlug
from builder.trailer.origin import NOWHERE, Origin


def resolve_plug(
    words: TowPlugWords | None, second: SecondPlugWords | None, places: Mapping[str, Origin]
) -> TowPlug | None:
    """Return the tow plug with the one beside it, or None when the file has none; see `check_second_plug`."""
    if words is None:
        return None
    plug = _plug(words, places.get(TOW_PLUG, NOWHERE))
    if second is None or plug_pattern(second.pattern.value).beside != plug.pattern.name:
        return plug
    other = _plug(second, places.get(SECOND_PLUG, NOWHERE))
    return replace(plug, pattern=beside(plug.pattern, other.pattern), second=other)


def _plug(words: TowPlugWords | SecondPlugWords, origin: Origin) -> TowPlug:
    return TowPlug(
        pattern=plug_pattern(words.pattern.value),
        cable_length_m=words.to_front_box.value,
        origin=origin,
        where=words.where.value if words.where else "",
    )


def check_second_plug(
    words: TowPlugWords | None, second: SecondPlugWords | None, unread: frozenset[str]
) -> list[Problem]:
    """Return the problem of a second plug that no first one is there for, or that stands beside another one.

    Args:
        words: the tow plug.
        second: the plug beside it.
        unread: folded names of what was written and has problems of its own.

    """
    if second is None or TOW_PLUG in unread:
        return []
    name, needs = second.pattern.value, plug_pattern(second.pattern.value).beside
    if words is None:
        return [
            Problem(
                second.pattern.origin,
                "no tow plug",
                f"a {name} plug is the second of two, and the first one is not described",
                f"add the heading tow plug, as in tow plug: {{pattern: {needs}, to front box: 7 ft}}",
                mends=heading(f"tow plug: {{pattern: {needs}, to front box: {BLANK}}}"),
            )
        ]
    if words.pattern.value == needs:
        return []
    return [
        Problem(
            second.pattern.origin,
            "plug beside another",
            f"a {name} plug stands beside a {needs} plug, and the tow plug is a {words.pattern.value}",
            f"take the second plug out, or write pattern: {needs} for the tow plug",
            mends=(*instead(needs, at=words.pattern.origin), *leave_out(second.pattern.origin)),
        )
    ]
