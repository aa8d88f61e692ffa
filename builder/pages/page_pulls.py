"""The pull plan: which wires are drawn in together, in which order, by whom, and how full conduits are then."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from markupsafe import Markup

from builder.lists.cut_pieces import Piece
from builder.lists.pull_plan import Drawn, FillAfter, Pull, PullPlan, longest_to_draw
from builder.pages.csv_files import csv_text
from builder.pages.page_fuses import wire_link
from builder.pages.rounding import Reader, length, shown
from builder.pages.stubs_told import free_at_plug, stubs_told
from builder.pages.view import View, joined, step
from builder.trailer.already_in import already_in, piece_in
from builder.trailer.model import TOW_PLUG


def has_pulls(view: View) -> bool:
    """Tell whether the build file says what the wires run through."""
    return bool(view.trailer.geometry.chases)


def pulls_page(view: View) -> dict[str, Any]:
    """Return what the template of the pull plan is filled with."""
    plan, known = view.lists.pulls, already_in(view.trailer)
    there = {one.id for one in view.figures.assumptions}
    return {
        "pulls": [_pull(view, pull, known) for pull in plan.pulls],
        "without_loop": any(
            _without_loop(view, piece) for piece in (*_drawn_in(plan), *plan.at_hand, *plan.unplaced)
        ),
        "already_there": any(piece_in(one.piece.wires, known) for pull in plan.pulls for one in pull.drawn),
        "stubs": stubs_told(view),
        "free_at_plug": free_at_plug(view),
        "longest": _longest(view),
        "conduits": any(pull.fills for pull in plan.pulls),
        "shared": any(pull.strings or pull.bare for pull in plan.pulls),
        "along": any(not one.whole for pull in plan.pulls for one in pull.drawn),
        "rises": any(
            end.more and end.part != TOW_PLUG for pull in plan.pulls for one in pull.drawn for end in one.free
        ),
        "at_hand": [
            _by_hand(view, piece, n) | {"already": piece_in(piece.wires, known)}
            for n, piece in enumerate(plan.at_hand)
        ],
        "unplaced": [_piece(view, piece) for piece in plan.unplaced],
        **{
            name: view.fig(f"assumptions/{step(id_)}/value", "m") if id_ in there else ""
            for name, id_ in (("tail", "tail at each end"), ("loop", "loop at the front box"))
        },
    }


def _pull(view: View, pull: Pull, known: Mapping[str, str]) -> dict[str, Any]:
    path = f"pulls/{pull.number}"
    return {
        "number": pull.number,
        "id": f"pull-{pull.number}",
        "done": all(piece_in(one.piece.wires, known) for one in pull.drawn),
        "start": pull.start,
        "end": pull.end,
        "way": view.fig(f"{path}/way_length_m"),
        "through": list(pull.through),
        "turns": list(pull.turns),
        "slacks": [
            (name, view.fig(f"chases/{step(name)}/slack_length_m"))
            for name in pull.chases
            if view.trailer.geometry.chases[name].slack_m
        ],
        "strings": list(pull.strings),
        "bare": list(pull.bare),
        "groups": [
            {
                "until": until,
                "pieces": [
                    _piece(view, pull.drawn[n].piece)
                    | {"already": piece_in(pull.drawn[n].piece.wires, known)}
                    | {"free": _free(view, pull.drawn[n], f"{path}/pieces/{n}")}
                    for n in mine
                ],
            }
            for until, mine in _by_exit(pull).items()
        ],
        "fills": [_fill(view, one, f"{path}/fills/{n}") for n, one in enumerate(pull.fills)],
    }


def _longest(view: View) -> dict[str, Any] | None:
    """Return the longest pull that is still to be drawn, where strings are used at all: so long is their string."""
    pull = longest_to_draw(view.trailer, view.lists.pulls)
    if pull is None or not any(one.strings or one.bare for one in view.lists.pulls.pulls):
        return None
    return {"number": pull.number, "way": view.fig(f"pulls/{pull.number}/way_length_m")}


def _drawn_in(plan: PullPlan) -> list[Piece]:
    return [one.piece for pull in plan.pulls for one in pull.drawn]


def _without_loop(view: View, piece: Piece) -> bool:
    """Tell whether any wire of a piece is not long enough for the loop at the front box and the slack of hinges."""
    return not set(piece.wires).isdisjoint(view.lists.cuts.no_loop)


def _piece(view: View, piece: Piece) -> dict[str, Any]:
    return {
        "no_loop": _without_loop(view, piece),
        "wires": joined([wire_link(number) for number in piece.wires]),
        "kind": piece.sort.words,
        "start": piece.start,
        "end": piece.end,
    }


def _by_hand(view: View, piece: Piece, place: int) -> dict[str, Any]:
    return _piece(view, piece) | {"cut": view.fig(f"laid_by_hand/{place}/cut_length_m")}


def _free(view: View, one: Drawn, path: str) -> list[tuple[Markup, str]]:
    """Return how much is left free at which part, where a part stands off its chase and the tail is not enough."""
    return [
        (view.fig(f"{path}/free/{n}/free_length_m"), end.part) for n, end in enumerate(one.free) if end.more
    ]


def _by_exit(pull: Pull) -> dict[str, list[int]]:
    """Return the pieces of a pull, as they are counted there, by the place where they come out on the way.

    Those that go all of it stand under an empty name.
    """
    found: dict[str, list[int]] = {}
    for n, one in enumerate(pull.drawn):
        found.setdefault("" if one.whole else one.until, []).append(n)
    return found


def _fill(view: View, one: FillAfter, path: str) -> dict[str, Any]:
    known = one.fill_percent is not None
    return {
        "chase": one.chase,
        "fill": view.fig(f"{path}/fill_percent", "%") if known else "",
        "limit": view.fig(f"{path}/limit_percent", "%") if known else "",
    }


def pulls_csv(view: View) -> str:
    """Return the pull plan as a table in the order of the page, a line a piece; lengths in the build's units."""
    head = (
        "pull",
        "feed at",
        "draw at",
        "through",
        "way",
        "wires",
        "kind",
        "from",
        "to",
        "comes out at",
        "leave free",
        "full then",
        "already in",
    )
    known = already_in(view.trailer)
    units = view.trailer.identity.units
    rows = [
        (
            pull.number,
            pull.start,
            pull.end,
            "; ".join(pull.through),
            length(pull.way_m, units),
            *_cells(one.piece),
            one.until,
            "; ".join(f"{end.part}: {length(end.free_m, units)}" for end in one.free),
            "; ".join(f"{fill.chase}: {_percent(fill)}" for fill in pull.fills),
            piece_in(one.piece.wires, known),
        )
        for pull in view.lists.pulls.pulls
        for one in pull.drawn
    ]
    others = [
        (what, "", "", "", "", *_cells(piece), "", "", "", piece_in(piece.wires, known))
        for what, pieces in (
            ("by hand", view.lists.pulls.at_hand),
            ("no way known", view.lists.pulls.unplaced),
        )
        for piece in pieces
    ]
    return csv_text([head, *rows, *others])


def _cells(piece: Piece) -> tuple[str, str, str, str]:
    return " ".join(piece.wires), piece.sort.words, piece.start, piece.end


def _percent(fill: FillAfter) -> str:
    if fill.fill_percent is None:
        return "not known"
    return f"{shown(fill.fill_percent, Reader.WORKSHOP)} % of {shown(fill.limit_percent, Reader.WORKSHOP)} %"
