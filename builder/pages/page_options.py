"""What may come later, as a part of Adding something: what each option takes, what is ready for it, what it needs."""

from __future__ import annotations

from typing import Any

from builder.electrics.figures import OptionCircuit, OptionFigures, OptionWire
from builder.pages.page_fuses import circuit_anchor, wire_link
from builder.pages.view import View
from builder.rules.option_not_ready import IF_ADDED_SAYS, NAME
from builder.rules.wording import say


def option_rows(view: View) -> list[dict[str, Any]]:
    """Return each option of the build file with its figures beside today's, in the order of the file."""
    return [_option(view, place, made) for place, made in enumerate(view.figures.options)]


def _option(view: View, place: int, made: OptionFigures) -> dict[str, Any]:
    option, path = view.trailer.options[place], f"options/{place}"
    told = [one for one in view.findings if one.rule == NAME and one.origin == option.origin]
    there, said = set(view.trailer.parts), say(IF_ADDED_SAYS, option=option.name, message="")
    return {
        "name": option.name,
        "note": option.note,
        "new": [name for name in option.parts if name not in there],
        "other": [name for name in option.parts if name in there],
        "circuits": [
            _circuit(view, f"{path}/circuits/{n}", made, one) for n, one in enumerate(made.circuits)
        ],
        "wires": [_wire(view, f"{path}/wires/{n}", one) for n, one in enumerate(made.wires)],
        "gone": [wire_link(number) for number in made.gone],
        "main": _main(view, path, made),
        "nights": _nights(view, path, made),
        "findings": [(one.message.removeprefix(said), one.help) for one in told],
    }


def _circuit(view: View, path: str, made: OptionFigures, one: OptionCircuit) -> dict[str, Any]:
    box = view.trailer.front_box
    number = one.made.number
    is_there = any(circuit.number == number for circuit in view.trailer.circuits)
    circuit = made.trailer.circuit(number)
    fuse = one.made.fuse.rating_a if one.made.fuse else None
    today = one.today.fuse.rating_a if one.today and one.today.fuse else None
    return {
        "name": circuit_anchor(view, view.trailer.circuit(number)) if is_there else circuit.name,
        "new": one.today is None,
        "way": one.way,
        "issued": view.trailer.ledger is not None,
        "no_way": one.way is not None and box is not None and one.way > box.fuse_ways,
        "fuse": view.fig(f"{path}/fuse_a", "A") if fuse is not None else "",
        "today_fuse": view.fig(f"{path}/today_fuse_a", "A") if today is not None and today != fuse else "",
        "takes": view.fig(f"{path}/current_a", "A"),
        "drop": view.fig(f"{path}/drop_v", "V"),
    }


def _wire(view: View, path: str, one: OptionWire) -> dict[str, Any]:
    return {
        "start": one.start,
        "end": one.end,
        "length": view.fig(f"{path}/length_m"),
        "size": str(one.size),
        "spare": wire_link(one.spare) if one.spare else "",
    }


def _main(view: View, path: str, made: OptionFigures) -> dict[str, Any] | None:
    """Return what flows through the battery's fuse with an option and without it; None where that is the same."""
    if made.main is None or made.today_main is None or made.main.rating_a is None:
        return None
    if abs(made.main.load_a - made.today_main.load_a) < 1e-9:
        return None
    other = made.today_main.rating_a not in (None, made.main.rating_a)
    return {
        "load": view.fig(f"{path}/main_fuse/load_a", "A"),
        "today_load": view.fig(f"{path}/main_fuse/today_load_a", "A"),
        "rating": view.fig(f"{path}/main_fuse/rating_a", "A"),
        "today_rating": view.fig(f"{path}/main_fuse/today_rating_a", "A") if other else "",
    }


def _nights(view: View, path: str, made: OptionFigures) -> dict[str, Any] | None:
    """Return the nights that a full battery lasts with an option and without it; None where it makes no difference."""
    then, today = made.figures.energy, view.figures.energy
    if then is None or today is None or then.nights == today.nights:
        return None
    if not (then.day_ah[0] > 0 and today.day_ah[0] > 0):
        return None
    return {
        name: [view.fig(f"{path}/{key}/{n}") if nights[n] >= 1 else "" for n in (0, 1)]
        for name, key, nights in (("then", "nights", then.nights), ("today", "today_nights", today.nights))
    }
