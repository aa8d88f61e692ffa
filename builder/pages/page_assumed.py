"""What we assumed: what would change most for the reader stands first."""

from __future__ import annotations

from typing import Any

from markupsafe import Markup

from builder.electrics.assumed_order import CHANGES, OrderedAssumption, ordered_assumptions
from builder.pages.view import View, step

AT_A_SWITCH = "drop allowed at a switch"
OF_FUSES = ("fuse loading", "smallest fuse", AT_A_SWITCH)
"""What decides nothing in a trailer whose only fuses are in the car."""
SUN = "full sun in a day"
"""The row whose figures are from one country."""


def assumed_page(view: View) -> dict[str, Any]:
    """Return what the template of the assumptions is filled with: the groups that there are, each with its rows."""
    ordered = ordered_assumptions(view.trailer, view.figures)
    told = [one for one in ordered if _concerns(view, one.assumption.id)]
    groups = [(word, [_row(view, one) for one in told if one.changes == word]) for word in CHANGES]
    return {
        "workshop": view.edition.reads(),
        "battery": view.trailer.battery is not None,
        "groups": [(word, rows) for word, rows in groups if rows],
    }


def _concerns(view: View, id_: str) -> bool:
    """Tell whether an assumption says something of this trailer: of fuses and switches only where it has them."""
    if view.edition.reads() or id_ not in OF_FUSES:
        return True
    return bool(view.figures.fuses or (view.figures.switches and id_ == AT_A_SWITCH))


def _row(view: View, ordered: OrderedAssumption) -> dict[str, Any]:
    one = ordered.assumption
    path = f"assumptions/{step(one.id)}"
    low = view.fig(f"{path}/low", "m" if one.unit == "m" else "")
    return {
        "id": one.id,
        "about": one.about,
        "value": view.fig(f"{path}/value", one.unit),
        "range": Markup(" – ").join((low, view.fig(f"{path}/high", one.unit))),
        "reason": one.reason,
        "far": one.id == SUN and not one.replaced and view.trailer.identity.country != "US",
        "known": one.known,
    }
