"""The lamps and reflectors that the rule asks for, as the record has them."""

from __future__ import annotations

from collections.abc import Sequence

from builder.electrics.braking import BrakeFigures
from builder.electrics.lamps_required import LampsRequired, RequiredLamp
from builder.electrics.plug_feeds import PlugFeed
from builder.electrics.plug_grounds import PlugGround
from builder.electrics.plug_states import ContactState
from builder.trailer.model import Trailer


def lamps_required_entries(asked: LampsRequired) -> list[dict[str, object]]:
    """Return an entry for each row of the rule that holds, or may hold for all that the file says."""
    return [_entry(one) for one in asked.required]


def _entry(one: RequiredLamp) -> dict[str, object]:
    row = one.row
    entry: dict[str, object] = {
        "rule": row.rule,
        "lamp": row.lamp,
        "kind": row.kind,
        "at": row.at,
        "count": row.count,
        "colors": list(row.colors),
        "have": list(one.have),
        "missing": one.missing,
        "lacking": list(one.lacking),
        "source": row.source,
        "clause": row.clause,
        "known": one.known,
    }
    limits = {
        "lowest_length_m": row.lowest_m,
        "highest_length_m": row.highest_m,
        "from_side_length_m": row.from_side_m,
        "apart_length_m": row.apart_m,
        "most_apart_length_m": row.most_apart_m,
    }
    measured = {
        "heights_m": list(one.heights_m),
        "ins_m": list(one.ins_m),
        "middles_apart_length_m": one.middles_apart_m,
    }
    return entry | {key: value for key, value in (limits | measured).items() if value not in (None, [])}


def contact_key(pin: str) -> int | str:
    """Return what names a contact in the record: its number, on a second plug behind the plug's name, ``12S 4``."""
    return int(pin) if pin.isdigit() else pin


def plug_state_entries(states: Sequence[ContactState]) -> list[dict[str, object]]:
    """Return what each contact of the tow plug carries in each state of the car, in amperes."""
    entries: list[dict[str, object]] = []
    for one in states:
        entry: dict[str, object] = {"contact": contact_key(one.pin)}
        entry |= {f"{state.replace(' ', '_')}_a": amps for state, amps in one.amps.items()}
        if one.estimate_a is not None:
            entry["estimate_a"] = one.estimate_a
        entries.append(entry)
    return entries


def plug_ground_entries(grounds: Sequence[PlugGround]) -> list[dict[str, object]]:
    """Return what comes back to each ground contact in each state of the car, and what its one conductor loses."""
    entries: list[dict[str, object]] = []
    for one in grounds:
        entry: dict[str, object] = {
            "contact": contact_key(one.pin),
            "serves": [contact_key(pin) for pin in one.serves],
        }
        entry["wires"] = list(one.wires)
        entry |= {f"{state.replace(' ', '_')}_a": amps for state, amps in one.amps.items()}
        if one.size is not None:
            entry |= {"size": str(one.size), "size_known": one.size_known, "bears_a": one.bears_a}
            entry["largest_fuse_a"] = one.largest_fuse_a
            entry |= {f"{state.replace(' ', '_')}_v": drop for state, drop in one.drop_v.items()}
        entries.append(entry)
    return entries


def plug_feed_entries(feeds: Sequence[PlugFeed]) -> list[dict[str, object]]:
    """Return the largest fuse that the car may have for each contact that feeds something, beside the usual one."""
    entries: list[dict[str, object]] = []
    for one in feeds:
        entry: dict[str, object] = {
            "contact": contact_key(one.pin),
            "wire": one.wire,
            "size": str(one.size),
            "wires_fuse_a": one.wires_fuse_a,
            "largest_fuse_a": one.largest_fuse_a,
            "needed_a": one.needed_a,
        }
        if one.line:
            entry["line"] = True
        if one.core is not None:
            entry |= {"core": str(one.core), "core_fuse_a": one.core_fuse_a}
        if one.usual_fuse_a is not None:
            entry |= {"usual_low_a": one.usual_fuse_a[0], "usual_high_a": one.usual_fuse_a[1]}
        entries.append(entry)
    return entries


def brakes_entry(brakes: BrakeFigures) -> dict[str, object]:
    """Return the figures of the brakes; what the file does not give is left out."""
    entry: dict[str, object] = {
        "current_a": brakes.current_a,
        "typical_a": brakes.typical_a,
        "hold_min": brakes.hold_min,
        "needed_ah": brakes.needed_ah,
    }
    given = {
        "given_ah": brakes.given_ah,
        "contact": brakes.contact,
        "circuit": brakes.circuit,
        "breakaway_circuit": brakes.breakaway,
    }
    return entry | {key: value for key, value in given.items() if value is not None}


def road_lamp_entries(trailer: Trailer) -> list[dict[str, object]]:
    """Return each road lamp as the file has it; what it does not say is left out."""
    entries: list[dict[str, object]] = []
    for lamp in trailer.road_lamps:
        entry: dict[str, object] = {
            "name": lamp.name,
            "side": lamp.side,
            "shows": list(lamp.shows),
            "count": lamp.count,
        }
        told = {
            "at": lamp.at,
            "colors": dict(sorted(lamp.shines.items())),
            "bulbs": list(lamp.bulbs),
            "height_length_m": lamp.height_m,
            "in_length_m": lamp.in_m,
            "back_length_m": lamp.back_m,
        }
        entries.append(entry | {key: value for key, value in told.items() if value not in (None, "", [], {})})
    return entries
