"""All circuits of a build, woven in the order of their numbers, and the returns that end at a splice or bar."""

from __future__ import annotations

from builder.buildfile.assuming import Assumer
from builder.buildfile.checking_lamps import check_bulbs, check_shared_contact
from builder.buildfile.loom import Loom
from builder.buildfile.problems import BLANK, heading, instead
from builder.buildfile.resolving_battery import battery_line, weave_battery
from builder.buildfile.resolving_circuits import Setting, house_circuits
from builder.buildfile.resolving_headings import (
    country_of,
    resolve_shelf,
)
from builder.buildfile.resolving_road import (
    check_draws,
    check_shines,
    road_lamps,
    technology_of,
)
from builder.buildfile.suggesting import near_words
from builder.buildfile.validating import Declared
from builder.buildfile.walking import find_part
from builder.buildfile.weaving_road import weave_road_lamps
from builder.buildfile.written import fold
from builder.trailer.circuits import Circuit
from builder.trailer.model import (
    FRONT_BOX,
    RoadLamp,
    TowPlug,
)
from builder.trailer.parts import Form


def weave(
    loom: Loom, declared: Declared, plug: TowPlug | None, assumer: Assumer
) -> tuple[list[Circuit], list[RoadLamp]]:
    """Weave circuits in the order of their numbers: house, from, tow contacts, the battery's line."""
    shelf = resolve_shelf(declared.wire, declared.build, declared.written_at)
    battery = declared.battery
    line = battery_line(loom, battery, declared.written_at) if battery else None
    if line is not None:
        for item in line.items:
            if fold(item.name.value) != FRONT_BOX:
                find_part(loom, item)
    setting = Setting(
        shelf.feed,
        shelf.ground,
        plug,
        battery is not None and declared.front_box is not None,
        {name: reach for name, reach in (line.reach_m if line else {}).items() if name in loom.parts},
        declared.front_box.fuse_ways.value if declared.front_box else 0,
    )
    _reserve_ways(loom, declared)
    circuits = house_circuits(loom, declared.circuits, setting)
    lamps: list[RoadLamp] = []
    check_draws(loom, declared.road_lamps)
    check_shines(loom, declared.road_lamps)
    if plug is not None:
        found = road_lamps(loom, declared.road_lamps, plug)
        check_bulbs(loom, found)
        check_shared_contact(loom, declared.road_lamps, plug.pattern, loom.started)
        more, lamps = weave_road_lamps(
            loom,
            found,
            (plug, country_of(declared.build)),
            len(circuits) + 1,
            (technology_of(declared.lamps), assumer),
        )
        circuits += more
    elif declared.road_lamps and "tow plug" not in loom.broken:
        first = next(iter(declared.road_lamps))
        loom.problem(
            first.origin,
            "no tow plug",
            "there are road lamps, and no tow plug feeds them",
            "add the heading tow plug, as in tow plug: {pattern: 4-way flat, to front box: 7 ft}",
            heading(f"tow plug: {{pattern: {BLANK}, to front box: {BLANK}}}"),
        )
    if battery is not None and line is not None:
        number = len(circuits) + 1
        circuits.append(weave_battery(loom, battery, line, number, (shelf.feed, shelf.ground), assumer))
    return circuits, lamps


def _reserve_ways(loom: Loom, declared: Declared) -> None:
    """Keep the ways of connectors that the file asks for, so that nobody else is given them first."""
    paths = [
        path
        for words in declared.circuits.values()
        for path in (words.path, *(b.path for b in words.branches))
    ]
    paths += [words.path for words in declared.road_lamps.values()]
    for item in (item for path in paths for item in path if item.terminal is not None):
        wanted = item.terminal.value.strip() if item.terminal else ""
        if wanted.isascii() and wanted.isdigit():
            loom.reserved.setdefault(fold(item.name.value), set()).add(int(wanted[:6]))


def land_named_returns(loom: Loom) -> None:
    """Make the return of every splice or bar that a ``return:`` names."""
    for name, origin in loom.named_returns:
        if name in loom.joints:
            loom.joints[name].land()
            continue
        part = loom.parts.get(name)
        lost = loom.broken or any(problem.name == "unknown part" for problem in loom.problems)
        if name in loom.broken or (lost and part is not None and part.form is Form.JOINT):
            continue  # it, or the circuit that runs to it, has a problem of its own
        joints = [loom.parts[key].name for key in loom.joints]
        known = ", ".join(joints)
        near = near_words(name, ["ground bar", "frame", *joints])
        loom.problem(
            origin,
            "unknown return",
            f"“{name}” is neither a length nor something that a return can go to",
            "write a length such as 9 ft, or name ground bar, frame"
            + (f", or one of: {known}" if known else ", or a splice or bar that is on a path"),
            instead(*near, BLANK),
        )
