"""The check of the road lamps before a drive: one list of steps for every page that asks for it."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from builder.electrics.plug_states import LIGHTS
from builder.trailer.model import RoadLamp, Trailer

SIDES = ("left", "right")


def lamp_check(trailer: Trailer) -> list[dict[str, Any]]:
    """Return the steps of the check of the road lamps, in order: what the car does, and the lamps that must answer.

    Only functions that a lamp of this trailer shows. ``lamps`` are names; for ``mixed`` those of the left and the
    right side, where stop and turn share one contact a side (SAE J1239, SAE J2863).
    """
    lamps = trailer.road_lamps
    steps = [
        {"kind": "lights", "lamps": _showing(lamps, *LIGHTS)},
        {"kind": "left turn", "lamps": _showing(lamps, "turn", side="left")},
        {"kind": "right turn", "lamps": _showing(lamps, "turn", side="right")},
        {
            "kind": "turn",
            "lamps": [lamp.name for lamp in lamps if "turn" in lamp.shows and lamp.side not in SIDES],
        },
        {"kind": "brake", "lamps": _showing(lamps, "stop")},
        {"kind": "fog", "lamps": _showing(lamps, "fog")},
        {"kind": "reverse", "lamps": _showing(lamps, "reverse")},
    ]
    found: list[dict[str, Any]] = [step for step in steps if step["lamps"]]
    left, right = _shared(trailer, "left"), _shared(trailer, "right")
    if left and right:
        found.append({"kind": "mixed", "lamps": left, "others": right})
    if len(found) > 1:
        found.append({"kind": "together", "lamps": []})
    return found


def _showing(lamps: Iterable[RoadLamp], *functions: str, side: str = "") -> list[str]:
    """Return the names of the lamps that show one of some functions, on one side or on any."""
    return [
        lamp.name for lamp in lamps if side in ("", lamp.side) and set(functions).intersection(lamp.shows)
    ]


def _shared(trailer: Trailer, side: str) -> list[str]:
    """Return the lamps of a side that show stop and turn over one contact."""
    return [
        lamp.name
        for lamp in trailer.road_lamps
        if lamp.side == side
        and {"stop", "turn"} <= set(lamp.shows)
        and len({at for function, at in lamp.contacts if function in ("stop", "turn")}) == 1
    ]
