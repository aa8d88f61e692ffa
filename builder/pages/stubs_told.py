"""The short ends from the battery to a fuse: which they are, and that they are trimmed when they are landed."""

from __future__ import annotations

from typing import Any

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
