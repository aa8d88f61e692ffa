"""Ends that are cut to a length of their own: those from the battery to a fuse, and those at the tow plug."""

from __future__ import annotations

from typing import Any

from markupsafe import Markup

from builder.pages.page_fuses import wire_link
from builder.pages.view import View


def stubs_told(view: View) -> dict[str, Any] | None:
    """Return what the words on stubs are filled with; None where there is none."""
    if "stubs" not in view.record:
        return None
    told = view.value("stubs")
    return {
        "wires": [
            (wire_link(one["wire"]), view.fig(f"stubs/wires/{n}/length_m"))
            for n, one in enumerate(told["wires"])
        ],
        "most": view.fig("stubs/most_length_m"),
        "source": told["source"],
    }


def free_at_plug(view: View) -> list[tuple[Markup, Markup]]:
    """Return each wire of the plug that is still to be drawn in, with what the plan leaves of it beyond its way."""
    if "free_at_plug" not in view.record:
        return []
    return [
        (wire_link(one["wire"]), view.fig(f"free_at_plug/{n}/length_m"))
        for n, one in enumerate(view.value("free_at_plug"))
    ]
