"""The way from the bytes of a build file to a trailer, or to every problem in it."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from builder.buildfile.assuming import Assumer, check_assume, replacements
from builder.buildfile.declared_road import RoadLampWords
from builder.buildfile.file_units import in_file_units
from builder.buildfile.foreign_limits import drop_foreign_limits
from builder.buildfile.laying_out import Layout
from builder.buildfile.loom import Loom, number_wires
from builder.buildfile.problems import Problem, sort_and_merge
from builder.buildfile.reading import read_build_text
from builder.buildfile.resolving_battery import box_parts, resolve_battery
from builder.buildfile.resolving_body import resolve_blocks, resolve_body
from builder.buildfile.resolving_changes import Changes, check_changes
from builder.buildfile.resolving_closing import resolve_closed, resolve_pulled
from builder.buildfile.resolving_face import check_face, resolve_face
from builder.buildfile.resolving_headings import (
    brakes,
    check_trailer,
    identity,
    is_metric,
    mains,
    resolve_box,
    resolve_shelf,
)
from builder.buildfile.resolving_landings import (
    check_landings,
    hole_names,
    resolve_holes,
    resolve_studs,
    stud_names,
)
from builder.buildfile.resolving_leads import reach_sides
from builder.buildfile.resolving_options import read_options, with_options_numbered
from builder.buildfile.resolving_parts import general_default, is_reserved, reserved, resolve_parts
from builder.buildfile.resolving_places import resolve_geometry
from builder.buildfile.resolving_plugs import check_second_plug, resolve_plug
from builder.buildfile.resolving_prices import currency_of, resolve_prices
from builder.buildfile.resolving_road import (
    check_places,
    reflectors,
)
from builder.buildfile.resolving_spares import check_spares, spare_wires
from builder.buildfile.resolving_stands import read_stands, with_stands
from builder.buildfile.resolving_stock import check_stock, resolve_stock
from builder.buildfile.resolving_wiring import land_named_returns, weave
from builder.buildfile.validating import Declared, declare
from builder.buildfile.walking import check_relays, implicit_part
from builder.buildfile.written import Key, fold
from builder.quantities.examples import in_currency, in_metric, names_in_metric, written_in_metric
from builder.quantities.showing import System
from builder.trailer.model import (
    BATTERY,
    BATTERY_MINUS,
    BATTERY_PLUS,
    FRONT_BOX,
    SECOND_PLUG,
    TOW_PLUG,
    Trailer,
)
from builder.trailer.origin import NOWHERE
from builder.trailer.parts import BREAKAWAY_BATTERY, Form, Part
from builder.trailer.places import BOX_LOOP, HINGE_SLACK
from builder.trailer.wires import Section

_NAME = re.compile(r"([^\[\]{},:#\"']+?)\s*:(?=\s|$)")


@dataclass(frozen=True, slots=True)
class BuildReading:
    """A build file as read: the trailer, or None and the problems; ``lines`` is the file's text.

    ``changes`` are not made yet: they go by numbers, which a trailer gets from its ledger.
    """

    trailer: Trailer | None
    problems: tuple[Problem, ...]
    lines: tuple[str, ...]
    changes: Changes = field(default_factory=dict)


def read_build(data: bytes) -> BuildReading:
    """Read a build file from its bytes; never raises for any input."""
    reading = read_build_text(data)
    if reading.root is None:
        return BuildReading(None, sort_and_merge(reading.problems), reading.lines)
    declared, problems = declare(reading.root, reading.unread)
    if any(problem.name == "newer format" for problem in problems):
        return BuildReading(None, sort_and_merge(problems), reading.lines)
    names = names_in_text(reading.lines) if reading.problems else frozenset()
    trailer, more = resolve(declared, names)
    optional = read_options(declared, trailer, more, lambda one: resolve(one, names))
    every = one_a_place([*reading.problems, *problems, *more, *optional.problems])
    metric = is_metric(declared.build) if declared.build else written_in_metric(reading.lines)
    every = tuple(in_file_units(problem, metric) for problem in every)
    if metric:
        every = tuple(replace(problem, help=in_metric(names_in_metric(problem.help))) for problem in every)
    currency = currency_of(declared.build, declared.prices.values())
    every = tuple(replace(problem, help=in_currency(problem.help, currency)) for problem in every)
    if trailer is None or every:
        return BuildReading(None, every, reading.lines, declared.changes)
    return BuildReading(
        with_options_numbered(trailer, optional.options), every, reading.lines, declared.changes
    )


def names_in_text(lines: tuple[str, ...]) -> frozenset[str]:
    """Return what stands like a name under ``parts`` in the text, read or not: to say nothing twice about it."""
    inside = False
    names: set[str] = set()
    for line in lines:
        if line[:1].strip() and not line.startswith("#"):
            inside = line.startswith("parts")
        if inside:
            names |= {fold(name) for name in _NAME.findall(line)}
    return frozenset(names)


def _implied(declared: Declared) -> frozenset[str]:
    """Return the folded names of fuses and the like on paths that are not walked: they stand nowhere else."""
    return frozenset(fold(name) for name in declared.unwoven if implicit_part(name, NOWHERE) is not None)


def one_a_place(problems: list[Problem]) -> tuple[Problem, ...]:
    """Return the problems sorted by place, one for each place: the first told is the cause."""
    kept: dict[tuple[int, int], Problem] = {}
    for problem in problems:
        kept.setdefault((problem.origin.line, problem.origin.column), problem)
    return sort_and_merge(kept.values())


def resolve(declared: Declared, names: frozenset[str] = frozenset()) -> tuple[Trailer | None, list[Problem]]:
    """Return the trailer of a declared build, or None and the problems between its entries.

    ``names`` are folded names that stand in the file without being read, so that nobody calls them missing.
    """
    assumer = Assumer(declared.assume, _units(declared) == "metric")
    unread = declared.broken | names | _implied(declared)
    misfit = check_second_plug(declared.tow_plug, declared.second_plug, unread)
    unread |= {SECOND_PLUG} if misfit else set()
    loom = _loom(declared, assumer, unread)
    loom.problems += misfit
    _lay_out(loom, declared, assumer)
    shelf = resolve_shelf(declared.wire, declared.build, declared.written_at)
    plug = resolve_plug(declared.tow_plug, declared.second_plug, declared.written_at)
    circuits, lamps = weave(loom, declared, plug, assumer)
    land_named_returns(loom)
    loom.shorten_coil_returns()
    drop_foreign_limits(loom, assumer)
    _check_names(loom, declared)
    check_relays(loom)
    loom.problems += check_assume(declared.assume, assumer.made, unread)
    to_buy = names_to_buy(loom, declared)
    loom.problems += _heading_problems(declared, to_buy, unread)
    if declared.build is None or loom.problems:
        return None, loom.problems
    if declared.battery is not None:
        loom.sections[BATTERY] = Section(BATTERY, BATTERY_PLUS, BATTERY_MINUS, 12.0)
    wires, spares = number_wires(loom), spare_wires(loom.layout, declared.spares, shelf)
    trailer = Trailer(
        identity=identity(declared.build, declared.trailer),
        battery=resolve_battery(declared.battery) if declared.battery else None,
        front_box=resolve_box(declared.front_box, declared.written_at),
        tow_plug=plug,
        shelf=shelf,
        parts=_own_parts(loom),
        circuits=tuple(circuits),
        wires=wires,
        loads=tuple(loom.loads),
        links=tuple(loom.links),
        sections=tuple(loom.sections.values()),
        road_lamps=tuple(lamps),
        reflectors=reflectors(declared.reflectors),
        mains=mains(declared.mains, declared.written_at),
        brakes=brakes(declared.brakes, declared.written_at),
        spares=spares,
        assumed=tuple(assumer.made.values()),
        assume=replacements(declared.assume),
        unwired=_unwired(loom),
        stock=resolve_stock(declared.in_stock, to_buy),
        box_face=resolve_face(declared.front_box_face),
        studs=resolve_studs(declared.terminal_studs, stud_names(to_buy)),
        holes=resolve_holes(declared.entry_holes, hole_names(declared, to_buy)),
        geometry=with_stands(loom.layout, (*wires, *spares)),
    )
    whole, wrong = _with_what_is_told_of_it(trailer, declared, to_buy)
    return (None, wrong) if wrong else (whole, [])


def _with_what_is_told_of_it(
    trailer: Trailer, declared: Declared, to_buy: Sequence[str]
) -> tuple[Trailer, list[Problem]]:
    """Return a trailer with what the file says of its wires and bays and of what it costs; and what is wrong there."""
    pulled, wrong_pulled = resolve_pulled(declared, trailer)
    closed, wrong_closed = resolve_closed(declared, trailer.geometry)
    later = [str(key) for option in declared.options.values() for key in option.parts]
    pairs = [str(key) for key, words in declared.road_lamps.items() if len(lamp_names(key, words)) > 1]
    prices, wrong_prices = resolve_prices(declared.prices, (*to_buy, *later), pairs, trailer.reflectors)
    wrong = [*check_changes(declared.changes, trailer), *wrong_pulled, *wrong_closed, *wrong_prices]
    return replace(trailer, pulled=pulled, closed_bays=closed, prices=prices), wrong


def _own_parts(loom: Loom) -> dict[str, Part]:
    """Return the parts that the maker has on the trailer, without the box and the battery, by name."""
    found = (part for part in loom.parts.values() if part.form is not Form.BOX and part.kind != BATTERY)
    return {part.name: part for part in found}


def _lay_out(loom: Loom, declared: Declared, assumer: Assumer) -> None:
    """Put places, chases and the body on the loom, and what is wrong with them."""
    loom.layout = _layout(loom, declared, assumer)
    loom.problems += _body(loom.layout, declared)
    loom.problems += reach_sides(loom.layout, declared)
    loom.problems += check_spares(loom.layout, declared.spares)


def _loom(declared: Declared, assumer: Assumer, unread: frozenset[str]) -> Loom:
    """Return the loom with all parts on it, and what is wrong with them."""
    circuits = frozenset(map(fold, declared.circuits))
    parts, problems = resolve_parts(declared.parts, declared.waiting, assumer, unread, circuits)
    road_names = {
        fold(name): name for key, words in declared.road_lamps.items() for name in lamp_names(key, words)
    }
    lone = declared.tow_plug if declared.second_plug is None else None
    return Loom(
        parts | box_parts(NOWHERE),
        unread,
        problems=problems,
        road_names=road_names,
        default_of=lambda id_: general_default(id_, assumer),
        headings=frozenset(declared.written_at),
        first_part=next((key.origin for key in declared.parts), None),
        pattern_at=lone.pattern.origin if lone else None,
    )


def _units(declared: Declared) -> System:
    return "metric" if declared.build and is_metric(declared.build) else "feet"


def _heading_problems(declared: Declared, to_buy: Sequence[str], unread: frozenset[str]) -> list[Problem]:
    """Return what is wrong with headings that no path needs."""
    has_box = declared.front_box is not None or FRONT_BOX in unread
    return [
        *check_stock(declared.in_stock, {fold(name): name for name in to_buy}, unread),
        *check_face(declared.front_box_face, has_box, declared.written_at, _units(declared)),
        *check_landings(declared, to_buy, has_box, unread),
        *check_trailer(declared.trailer),
        *check_places({**declared.road_lamps, **declared.reflectors}, declared.trailer),
    ]


def _layout(loom: Loom, declared: Declared, assumer: Assumer) -> Layout:
    """Return places and chases for the paths; what is wrong with them is kept."""
    if not (declared.places or declared.chases or declared.skins or declared.panels):
        problems = read_stands(
            layout := Layout(broken=declared.broken, sound=declared.geometry_is_whole), declared
        )
        loom.problems += problems
        return layout
    hinges = any(
        words.slack is None and words.kind and words.kind.value == "hinge loop"
        for words in declared.chases.values()
    )
    slack_m = general_default(HINGE_SLACK, assumer) if hinges else 0.0
    layout, problems = resolve_geometry(declared, slack_m, _units(declared))
    problems += read_stands(layout, declared)
    layout.sound = layout.sound and not problems
    layout.loop_m = general_default(BOX_LOOP, assumer)
    loom.problems += problems
    return layout


def _body(layout: Layout, declared: Declared) -> list[Problem]:
    """Put the body into the layout; return what is wrong with it, which no length rests on."""
    body, problems = resolve_body(declared, layout.geometry.places, _units(declared))
    blocks, about_blocks = resolve_blocks(declared, body)
    layout.geometry = replace(layout.geometry, body=body, blocks=blocks)
    return problems + about_blocks


def names_to_buy(loom: Loom, declared: Declared) -> tuple[str, ...]:
    """Return the names of all that can be bought: every part, and the headings that are one."""
    headings = {
        BATTERY: declared.battery,
        FRONT_BOX: declared.front_box,
        TOW_PLUG: declared.tow_plug,
        SECOND_PLUG: declared.second_plug,
    }
    parts = [part.name for part in loom.parts.values() if part.form is not Form.BOX and part.kind != BATTERY]
    reflecting = [one.name for one in reflectors(declared.reflectors)]
    held = [BREAKAWAY_BATTERY] if declared.brakes and declared.brakes.breakaway_battery else []
    return (*(name for name, there in headings.items() if there is not None), *parts, *reflecting, *held)


def _unwired(loom: Loom) -> tuple[str, ...]:
    """Return the parts that no path names; a relay counts when its coil or its contact is wired."""
    idle = []
    for key, part in loom.parts.items():
        wired = key in loom.wired or f"{key} coil" in loom.wired
        if not wired and part.form is not Form.BOX and part.kind != BATTERY:
            idle.append(part.name)
    return tuple(idle)


def lamp_names(key: Key, words: RoadLampWords) -> tuple[str, ...]:
    """Return the names that one entry of road lamps takes: its own, and those of both lamps of a pair."""
    pair = words.side is not None and words.side.value == "both"
    return (str(key), f"{key} left", f"{key} right") if pair else (str(key),)


def _check_names(loom: Loom, declared: Declared) -> None:
    """Refuse one name for two things: parts, road lamps, and the two lamps of a pair."""
    taken = {fold(key): (f"the part “{key}”", key.origin) for key in declared.parts}
    for key, words in declared.road_lamps.items():
        for name in lamp_names(key, words):
            if is_reserved(name):
                loom.problems.append(reserved(Key.of(name, key.origin)))
            other = taken.get(fold(name))
            if other is not None:
                loom.problem(
                    key.origin,
                    "same name",
                    f"“{name}” would be a road lamp here, and {other[0]} at line {other[1].line} has that name",
                    "give one of them another name",
                )
                break
            taken[fold(name)] = (f"the road lamp “{key}”", key.origin)
