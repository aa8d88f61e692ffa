"""The trailer to scale: its views with places and ways, what lies in each way, and conduits cut across."""

from __future__ import annotations

from typing import Any

from markupsafe import Markup

from builder.drawings.conduit_section import Section
from builder.drawings.plan_seen import Bundle
from builder.drawings.plans import Plan
from builder.pages.page_fuses import wire_link
from builder.pages.view import View, joined, step
from builder.routes.network import Stretch


def scale_page(view: View) -> dict[str, Any]:
    """Return what the template of the trailer to scale is filled with; `has_places` tells whether there is any."""
    plans = view.plans
    return {
        "workshop": view.edition.reads(),
        "body": view.trailer.geometry.body is not None,
        "views": [_view(plan) for plan in plans.views] if plans else [],
        "signs": _view(plans.signs) if plans else {},
        "ways": [_way(view, bundle) for bundle in plans.bundles] if plans else [],
        "unknown": joined([wire_link(number) for number in view.figures.runs.unknown]),
        "sections": [_section(view, section, n) for n, section in enumerate(view.sections, start=1)],
    }


def scale_files(view: View) -> dict[str, str]:
    """Return the drawings to scale by their paths; none where the build file has no places."""
    found: dict[str, str] = {}
    plans = view.plans
    for plan in (*plans.views, plans.signs) if plans else ():
        for form, sheets in (("narrow", plan.narrow), ("wide", plan.wide)):
            found |= dict(zip(_paths(plan, form), sheets, strict=True))
    return found | {_section_path(n): one.svg for n, one in enumerate(view.sections, start=1)}


def _paths(plan: Plan, form: str) -> list[str]:
    sheets = plan.narrow if form == "narrow" else plan.wide
    return [f"pictures/plan-{plan.name}-{form}-{n}.svg" for n in range(1, len(sheets) + 1)]


def _section_path(place: int) -> str:
    return f"pictures/conduit-{place}.svg"


def _view(plan: Plan) -> dict[str, Any]:
    return {
        "name": plan.name,
        "title": plan.title,
        "narrow": _paths(plan, "narrow"),
        "wide": _paths(plan, "wide"),
    }


def _way(view: View, bundle: Bundle) -> dict[str, Any]:
    chase = view.trailer.geometry.chases[bundle.chase]
    return {
        "mark": bundle.mark,
        "chase": bundle.chase,
        "kind": bundle.kind.value,
        "where": chase.where,
        "places": bundle.places,
        "wires": joined([wire_link(number) for number in bundle.wires]),
        "spares": ", ".join(bundle.spares),
        "string": bundle.string,
        "mains": bundle.mains,
        "divided": chase.fittings.divided is True,
    }


def _room(view: View, stretch: Stretch) -> list[tuple[Markup, str]]:
    """Return of each size of the shelf how many more go in: only those that do."""
    made = next(one for one in view.figures.fills if one.stretch == stretch)
    path = f"chases/{step(stretch.chase)}/stretches/{stretch.number}/room"
    return [
        (view.fig(f"{path}/{n}/more_wires"), str(size)) for n, (size, more) in enumerate(made.room) if more
    ]


def _section(view: View, section: Section, place: int) -> dict[str, Any]:
    first = section.stretches[0]
    path = f"chases/{step(first.chase)}/stretches/{first.number}/fill_percent"
    return {
        "picture": _section_path(place),
        "chase": first.chase,
        "start": section.start,
        "end": section.end,
        "fill": view.fig(path, "%"),
        "room": _room(view, first),
    }
