"""The test sheet under the keys of the record."""

from __future__ import annotations

from builder.lists.testing import Line, Sheet, Step
from builder.pages.json_entries import Json, terminal_entry, without_empty

_UNITS = {"V": "v", "A": "a", "ohm": "ohm"}


def sheet_entries(sheet: Sheet) -> Json:
    """Return the lines of the test sheet, and what stands for the car at the plug where anything is tested there."""
    supply = sheet.plug_supply
    made: Json = {"test_sheet": [_line(number, line) for number, line in enumerate(sheet.lines, start=1)]}
    if supply is None:
        return made
    return made | {"plug_test": {"most_current_a": supply.most_a, "fuse_a": supply.fuse_a}}


def _line(number: int, line: Line) -> Json:
    unit = _UNITS.get(line.unit, "")
    return without_empty(
        {
            "number": number,
            "group": line.group.value,
            "kind": line.kind.value,
            "circuit": line.circuit,
            "wire": line.wire,
            "part": line.part,
            "fuse": line.fuse,
            "supply": line.supply,
            "parts": list(line.parts),
            "bulbs": list(line.bulbs),
            "steps": [_step(step) for step in line.steps],
            "toggles": list(line.toggles),
            "switches": list(line.switches),
            "behind": list(line.behind),
            "touches": [{"wires": list(one.wires), "at": terminal_entry(one.at)} for one in line.touches],
            "red": terminal_entry(line.red) if line.red else None,
            "black": terminal_entry(line.black) if line.black else None,
            f"least_{unit}": line.least,
            f"most_{unit}": line.most,
            f"about_{unit}": line.about,
            f"below_{unit}": line.below,
            "current_a": line.current_a,
        }
    )


def _step(step: Step) -> Json:
    made: Json = {"act": step.act.value, "names": list(step.names), "wires": list(step.wires)}
    return without_empty(made | {"dead": step.dead or None})
