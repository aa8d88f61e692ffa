"""Which side of an opening, or of a part, wires must reach: for the circuit's page and what is built in."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from builder.pages.view import View, step
from builder.routes.leads import said_sides


def leads_told(view: View, names: Iterable[str]) -> list[dict[str, Any]]:
    """Return for each part whose leads come out on a side: its name, that side, the opening, and how long they are.

    ``side`` is empty where the words of the file name none; ``way`` is the wire along the opening, empty where the
    file does not tell where the part is.
    """
    found = []
    for name in dict.fromkeys(names):
        part = view.trailer.parts.get(name)
        if part is None or not part.leads_come_out:
            continue
        sides = said_sides(part.leads_come_out)
        stand = view.trailer.geometry.stands.get(name)
        reaches = stand is not None and bool(stand.side)
        found.append(
            {
                "part": name,
                "said": part.leads_come_out,
                "side": sides[0] if len(sides) == 1 else "",
                "opening": part.opening,
                "way": view.fig(f"stands/{step(name)}/lead_length_m") if reaches else "",
                "leads": view.fig(f"stands/{step(name)}/own_leads_length_m")
                if reaches and part.lead_length_m
                else "",
            }
        )
    return found
