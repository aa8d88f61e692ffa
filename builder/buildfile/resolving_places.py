"""Places, chases, skins and panels, resolved; and what cannot be right about them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

from builder.buildfile.declared import TrailerWords
from builder.buildfile.declared_places import ChaseWords, PanelWords, PlaceWords, SkinWords
from builder.buildfile.laying_out import Layout, unknown_place
from builder.buildfile.problems import BLANK, Problem, add, instead, leave_out
from builder.buildfile.resolving_covers import (
    also_behind,
    behind,
    behind_problems,
    hinge_problems,
    wall_problems,
)
from builder.buildfile.resolving_fittings import fitting_problems, fittings
from builder.buildfile.validating import Declared
from builder.buildfile.written import Key, Written, fold
from builder.quantities.showing import System, show_measure
from builder.routes.network import SAME_PLACE_M
from builder.trailer.body import Wall
from builder.trailer.places import Chase, ChaseKind, Geometry, Panel, Place, Skin

TAPE_M = 0.01
"""By how much places may stand outside the measures of the trailer: a tape's tolerance, common practice."""
_AXES = (("back", "ahead", "the body's front"), ("up", "down", "the underside of the body"))
_SIDES = ("left", "right")
LEAST_CORNERS = 3


def resolve_geometry(declared: Declared, slack_m: float, units: System) -> tuple[Layout, list[Problem]]:
    """Return places and chases as paths need them, and what is wrong with them.

    ``slack_m`` is the slack of a hinge loop that the file does not give, in metres.
    """
    of_place = {str(key): list(_place_problems(key, words)) for key, words in declared.places.items()}
    problems = [problem for told in of_place.values() for problem in told]
    unsure = frozenset(name for name, told in of_place.items() if told)
    places = {str(key): _place(key, words) for key, words in declared.places.items()}
    layout = Layout(Geometry(places), {fold(name): name for name in places}, broken=declared.broken)
    problems += _outside(
        {key: words for key, words in declared.places.items() if key not in unsure},
        places,
        declared.trailer,
        units,
    )
    problems += _same_names(declared)
    chases: dict[str, Chase] = {}
    for key, words in declared.chases.items():
        told = list(_chase_problems(layout, key, words, unsure))
        problems += told
        if not told:
            chases[str(key)] = _chase(layout, key, words, slack_m)
    skins: dict[str, Skin] = {}
    for key, skin in declared.skins.items():
        problems += _corner_problems(layout, key, skin.corners)
        problems += wall_problems(declared, key, skin)
        skins[str(key)] = _skin(layout, key, skin)
    panels: dict[str, Panel] = {}
    for key, panel in declared.panels.items():
        problems += _corner_problems(layout, key, panel.corners)
        problems += behind_problems(layout, chases, panel)
        panels[str(key)] = replace(
            _panel(layout, key, panel), behind=behind(chases, panel), also_behind=also_behind(panel)
        )
    layout.geometry = Geometry(places, chases, skins, panels)
    layout.named = {fold(name): name for name in (*chases, *places)}
    told_elsewhere = {fold(key) for key in (*declared.places, *declared.chases)} - set(layout.named)
    layout.broken = declared.broken | told_elsewhere
    layout.sound = not problems and declared.geometry_is_whole
    return layout, problems


def _place(key: Key, words: PlaceWords) -> Place:
    def along(more: Written[float] | None, less: Written[float] | None) -> float:
        return (more.value if more else 0.0) - (less.value if less else 0.0)

    return Place(
        str(key),
        along(words.back, words.ahead),
        along(words.right, words.left),
        along(words.up, words.down),
        key.origin,
    )


def _place_problems(key: Key, words: PlaceWords) -> Iterator[Problem]:
    for one, other, mark in (*_AXES, (*_SIDES, "")):
        given = [(word, found) for word in (one, other) if (found := getattr(words, word)) is not None]
        if len(given) == 2:
            yield Problem(
                given[1][1].origin,
                "two directions",
                f"“{key}” is both {one} and {other}",
                f"keep the one that is meant, {one} or {other}: measures have no sign here",
                mends=leave_out(given[1][1].origin, "out"),
            )
        elif not given and mark:
            yield Problem(
                key.origin,
                "missing word",
                f"“{key}” has neither “{one}” nor “{other}”",
                f"measure it from {mark}, and add it, as in {one}: 10 in",
                mends=add(f"{one}: {BLANK}", f"{other}: {BLANK}", at=key.origin),
            )


def _outside(
    declared: Mapping[Key, PlaceWords],
    places: Mapping[str, Place],
    trailer: TrailerWords | None,
    units: System,
) -> Iterator[Problem]:
    """Tell of places that are further from the middle, or further apart, than the trailer reaches."""
    if trailer is None:
        return
    widths = [width for width in (trailer.width, trailer.width_over_fenders) if width]
    widest = max(widths, key=lambda width: width.value, default=None)
    length = trailer.length
    ahead_m = max((-place.back_m for place in places.values()), default=0.0)
    for key, words in declared.items():
        side = words.left or words.right
        if side and widest and side.value > widest.value / 2 + TAPE_M:
            yield Problem(
                side.origin,
                "outside the trailer",
                f"“{key}” is {side.text} from the middle of a trailer {widest.text} wide",
                "measure from the middle to the side it is on, or mend the width of the trailer",
            )
        back = words.back or words.ahead
        far_m = places[str(key)].back_m + max(ahead_m, 0.0) if words.back else 0.0
        if back and length and max(far_m, back.value) > length.value + TAPE_M:
            reach = show_measure(max(far_m, back.value), units)
            yield Problem(
                back.origin,
                "outside the trailer",
                f"“{key}” is {back.text} {'behind' if words.back else 'ahead of'} the body's front"
                + (f", {reach} behind the foremost place" if far_m > back.value else "")
                + f", and the trailer is {length.text} long",
                "measure from the body's front, or mend the length of the trailer, tongue included",
            )


def _same_names(declared: Declared) -> Iterator[Problem]:
    taken = {fold(key): key for key in declared.places}
    for key in declared.chases:
        other = taken.get(fold(key))
        if other is not None:
            yield Problem(
                key.origin,
                "same name",
                f"“{key}” would be a chase here, and the place at line {other.origin.line} has that name",
                "give one of them another name",
            )


def _named(layout: Layout, names: Iterable[Written[str]]) -> tuple[str, ...]:
    return tuple(layout.named[fold(name.value)] for name in names if fold(name.value) in layout.named)


def _chase(layout: Layout, key: Key, words: ChaseWords, slack_m: float) -> Chase:
    kind = ChaseKind(words.kind.value) if words.kind else ChaseKind.GROOVE
    given = words.slack.value if words.slack else None
    return Chase(
        name=str(key),
        through=_named(layout, words.through),
        kind=kind,
        origin=key.origin,
        bore_m=words.bore.value if words.bore else None,
        bore_origin=words.bore.origin if words.bore else None,
        slack_m=(slack_m if given is None else given) if kind is ChaseKind.HINGE else 0.0,
        slack_given=given is not None,
        where=words.where.value if words.where else "",
        hinge=_named(layout, words.hinge or ()),
        opens_deg=words.opens.value if words.opens else None,
        plate_m=words.plate.value if words.plate else None,
        fittings=fittings(layout, words),
    )


def _unknown(layout: Layout, names: Iterable[Written[str]]) -> list[Problem]:
    return [
        unknown_place(layout, name, "a place")
        for name in names
        if fold(name.value) not in layout.named
        and fold(name.value) not in layout.broken
        and "places" not in layout.broken
    ]


def _chase_problems(layout: Layout, key: Key, words: ChaseWords, unsure: frozenset[str]) -> Iterator[Problem]:
    """Tell what is wrong with a chase; places whose own measures are wrong are no reason to blame it."""
    yield from _misfits(key, words)
    yield from hinge_problems(layout, key, words)
    yield from fitting_problems(layout, key, words)
    unknown = _unknown(layout, words.through)
    yield from unknown
    if unknown or any(fold(name.value) not in layout.named for name in words.through):
        return
    if len(words.through) < 2:
        yield _wrong(
            words.through[0],
            f"“{key}” has one place, and leads nowhere",
            "write the places from its one end to its other, as in through: [front box, left wall, galley]",
            add_one=True,
        )
    elif words.kind and words.kind.value == ChaseKind.HINGE and len(words.through) > 2:
        yield _wrong(
            words.through[2],
            f"“{key}” is a hinge loop with {len(words.through)} places",
            "a hinge loop has two, one on each side of the hinge: write what lies before and behind as chases",
        )
    seen: dict[str, Written[str]] = {}
    before: Place | None = None
    for name in words.through:
        place = layout.geometry.places[layout.named[fold(name.value)]]
        if place.name in seen:
            yield _wrong(
                name,
                f"“{key}” comes to “{place.name}” twice",
                "a chase passes each of its places once: write a second chase for the way back",
            )
            return
        sure = before is not None and not {place.name, before.name} & unsure
        if sure and before is not None and place.distance_m(before) < SAME_PLACE_M:
            yield _wrong(
                name,
                f"“{before.name}” and “{place.name}” follow each other in “{key}” and are one point",
                "take one of them out, or measure both again",
            )
            return
        seen[place.name], before = name, place


def _wrong(name: Written[str], message: str, help_: str, *, add_one: bool = False) -> Problem:
    mends = instead(f"{name.text}, {BLANK}") if add_one else leave_out(name.origin, "out")
    return Problem(name.origin, "chase in the wrong form", message, help_, mends=mends)


def _misfits(key: Key, words: ChaseWords) -> Iterator[Problem]:
    kind = words.kind.value if words.kind else ChaseKind.GROOVE.value
    for word, found, wanted in (
        ("bore", words.bore, ChaseKind.CONDUIT.value),
        ("slack", words.slack, ChaseKind.HINGE.value),
        ("hinge", words.hinge[0] if words.hinge else None, ChaseKind.HINGE.value),
        ("opening", words.opens, ChaseKind.HINGE.value),
    ):
        if found is not None and kind != wanted:
            yield Problem(
                found.origin,
                "word does not fit",
                f"“{key}” is a{'n' if kind[0] in 'aeiou' else ''} {kind}: only a {wanted} has a {word}",
                f"take “{word}” out, or write kind: {wanted}",
            )


def _corner_problems(layout: Layout, key: Key, corners: list[Written[str]] | None) -> list[Problem]:
    if corners is None:
        return []
    unknown = _unknown(layout, corners)
    if unknown or len(corners) >= LEAST_CORNERS:
        return unknown
    return [
        Problem(
            corners[-1].origin,
            "too few corners",
            f"“{key}” has {len(corners)} corner{'s' if len(corners) > 1 else ''}",
            "name the places at its corners in their order round it: three at least",
            mends=instead(", ".join([corners[-1].text, *[BLANK] * (LEAST_CORNERS - len(corners))])),
        )
    ]


def _skin(layout: Layout, key: Key, words: SkinWords) -> Skin:
    return Skin(
        name=str(key),
        fasteners_m=words.fasteners_go_in.value,
        outside=words.from_ is None or words.from_.value == "outside",
        corners=_named(layout, words.corners or ()),
        origin=key.origin,
        where=words.where.value if words.where else "",
        on=tuple(dict.fromkeys(Wall(wall.value) for wall in words.lies_on or ())),
    )


def _panel(layout: Layout, key: Key, words: PanelWords) -> Panel:
    return Panel(
        name=str(key),
        corners=_named(layout, words.corners),
        held_by=words.held_by.value if words.held_by else "",
        origin=key.origin,
        where=words.where.value if words.where else "",
        outside=None if words.from_ is None else words.from_.value == "outside",
    )
