"""The guides as entries of the record."""

from __future__ import annotations

from collections.abc import Sequence

from builder.guide.model import Guide, Leaf, Point, Step, Suspect, Thing
from builder.pages.json_entries import Json


def guide_entries(made: Sequence[Guide]) -> list[Json]:
    """Return the entries of ``guide[]`` of the record, keyed by ``id``; keys that hold nothing are left out."""
    return [_guide(guide) for guide in made]


def _plain(items: Json) -> Json:
    return {key: value for key, value in items.items() if value not in (None, "", [], ())}


def _guide(guide: Guide) -> Json:
    return _plain(
        {
            "id": guide.id,
            "symptom": guide.symptom.value,
            "circuit": guide.circuit,
            "fuse": guide.fuse,
            "things": [_thing(thing) for thing in guide.things],
            "tried": _thing(guide.tried) if guide.tried else None,
            "off": list(guide.off),
            "alarms": list(guide.alarms),
            "unplug": [{"kind": s.kind, "name": s.name, "how": s.how} for s in guide.unplug],
            "longest": guide.longest,
            "suspects": [_suspect(suspect) for suspect in guide.suspects],
            "steps": [_step(step) for step in guide.steps],
            "leaves": [_leaf(leaf) for leaf in guide.leaves],
        }
    )


def _thing(thing: Thing) -> Json:
    return _plain({"part": thing.part, "what": thing.what, "circuit": thing.circuit})


def _suspect(suspect: Suspect) -> Json:
    return _plain(
        {
            "cause": suspect.cause.value,
            "part": suspect.part,
            "terminal": suspect.pin,
            "wires": list(suspect.wires),
        }
    )


def _point(point: Point | None) -> Json | None:
    if point is None:
        return None
    return _plain(
        {
            "part": point.terminal.part,
            "terminal": point.terminal.pin,
            "wire": point.wire,
            "beyond": point.beyond,
        }
    )


def _step(step: Step) -> Json:
    return _plain(
        {
            "id": step.id,
            "kind": step.kind.value,
            "parts": list(step.parts),
            "off": list(step.off),
            "fuse": step.fuse,
            "red": _point(step.red),
            "black": _point(step.black),
            "least_v": step.least_v,
            "least_of": step.least_of,
            "most_v": step.most_v,
            "load_a": step.load_a,
            "normal_ohm": step.normal_ohm,
            "unplug": [supply.name for supply in step.unplug],
            "outcomes": [
                _plain(
                    {
                        "reads": outcome.reads.value,
                        "to": outcome.to,
                        "things": [_thing(thing) for thing in outcome.things],
                    }
                )
                for outcome in step.outcomes
            ],
        }
    )


def _leaf(leaf: Leaf) -> Json:
    return _plain({"id": leaf.id, "suspects": [_suspect(s) for s in leaf.suspects], "retest": leaf.retest})
