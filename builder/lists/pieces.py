"""What is counted: terminals, splices, contacts of connectors, fuses and labels."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Mapping, Sequence

from builder.electrics.figures import Figures
from builder.lists.ends import Fit, WireEnd, crimps, ends_at, fitting, is_core, thickest, wire_ends
from builder.lists.parts_needed import SUPPLY_LINK, supply_link
from builder.lists.shopping import Item, SharedTerminal
from builder.tables.studs import stud_sizes
from builder.trailer.assumed import assumption
from builder.trailer.model import FRONT_BOX, SUPPLY_BAR, Trailer
from builder.trailer.parts import Form, Terminal
from builder.trailer.size import Size, by_area

SPARE_FUSES = 2
"""Fuses to carry of each rating. Common practice."""

_OPEN = (Fit.STRIP, Fit.PLUG, Fit.OWN)
Key = tuple[Fit, str, Size, str]
Drawer = tuple[str, Size, int]
"""Kind and size of wire of terminals in stock, and the number of their ring."""
_ANY = 0
"""Stands for the ring of terminals whose stud the file does not tell; no ring has this number."""
Landed = Mapping[Terminal, tuple[WireEnd, ...]]


def terminal_items(trailer: Trailer, figures: Figures) -> tuple[tuple[Item, ...], tuple[Item, ...]]:
    """Return the terminals to buy by kind, place, size of wire and stud, and the ends that the file leaves open.

    What each end gets: see `crimps`. Where the file tells the size of a stud, rings for it are counted by themselves.
    A ring in stock with a stud serves that stud alone, one without serves any screw or stud. The link from
    the supply bar to the fuse block has no number, and its ring at the bar counts among them.
    """
    found: dict[Key, list[WireEnd]] = {}
    gets = crimps(trailer, figures)
    for end in wire_ends(trailer, figures):
        fit = gets[end.wire.number, end.here]
        if fit.fit not in (Fit.SPLICE, Fit.CONTACT):
            found.setdefault((fit.fit, fit.place, end.size, fit.stud), []).append(end)
    link = _link_ring(trailer, figures)
    if link is not None:
        found.setdefault(link, [])
    bought = {key: ends for key, ends in found.items() if key[0] not in _OPEN}
    left = {key: ends for key, ends in found.items() if key[0] in _OPEN}
    stock = _terminals_in_stock(trailer)
    return (
        tuple(_terminal(trailer, key, bought[key], stock, key == link) for key in _in_order(bought)),
        tuple(_open_end(trailer, key, left[key]) for key in _in_order(left)),
    )


def _in_order(found: Mapping[Key, object]) -> list[Key]:
    fits = list(Fit)
    return sorted(found, key=lambda key: (fits.index(key[0]), key[1], -by_area(key[2]), str(key[2]), key[3]))


def _link_ring(trailer: Trailer, figures: Figures) -> Key | None:
    """Return which ring the link from the supply bar to the fuse block has at the bar; None where there is no link."""
    size = supply_link(figures)
    fit = fitting(trailer, SUPPLY_BAR)
    if size is None or FRONT_BOX in trailer.stock.parts:
        return None  # a box that is there has its link in it
    return fit.fit, fit.place, size, fit.stud


def _terminal(
    trailer: Trailer, key: Key, ends: list[WireEnd], stock: dict[Drawer, int], with_link: bool
) -> Item:
    fit, place, size, stud = key
    used = len(ends) + with_link
    spare = to_spare(trailer, used)
    return Item(
        id=f"{fit.value} {size} {place} {stud}".rstrip(),
        section="terminals",
        kind=fit.value,
        used=used,
        spare=spare,
        stock=_take(stock, fit.value, size, used + spare, stud),
        size=str(size),
        place=place,
        stud=stud,
        wires=_numbers(ends),
        names=(SUPPLY_LINK,) if with_link else (),
    )


def _open_end(trailer: Trailer, key: Key, ends: list[WireEnd]) -> Item:
    """Return ends whose terminal is not on record; at the tow plug ``alone`` are those that a bought cable lacks.

    Those that share their contact are in a splice for that already.
    """
    fit, _, size, _ = key
    names = tuple(dict.fromkeys(end.here.part for end in ends)) if fit is Fit.OWN else ()
    shared = Counter(wire_end for wire in trailer.wires for wire_end in (wire.start, wire.end))
    alone = [end for end in ends if shared[end.here] == 1 and not is_core(end.wire, trailer)]
    return Item(
        id=f"{fit.value} {size}",
        section="open ends",
        kind=fit.value,
        used=len(ends),
        size=str(size),
        wires=_numbers(ends),
        alone=_numbers(alone) if fit is Fit.PLUG else (),
        names=names,
    )


def splice_items(trailer: Trailer, figures: Figures) -> tuple[Item, ...]:
    """Return the splices to buy by the number of conductors and the size of the thickest one.

    At a part with leads the lead is one of the conductors; where several wires meet at a way of a connector, or at a
    contact of the tow plug, the short piece to that contact is one. A splice in stock is a butt splice for two.
    """
    found: dict[tuple[int, Size], list[tuple[WireEnd, ...]]] = {}
    for terminal, ends in ends_at(trailer, figures).items():
        count = _spliced(trailer, terminal, ends)
        if count:
            found.setdefault((count, thickest(ends)), []).append(ends)
    stock = _terminals_in_stock(trailer)
    made = []
    for count, size in sorted(found, key=lambda key: (key[0], -by_area(key[1]), str(key[1]))):
        joints = found[count, size]
        used = len(joints)
        spare = to_spare(trailer, used)
        made.append(
            Item(
                id=f"splice for {count} {size}",
                section="splices",
                kind="splice",
                used=used,
                spare=spare,
                stock=_take(stock, "splice", size, used + spare) if count == 2 else 0,
                size=str(size),
                conductors=count,
                wires=_numbers([end for ends in joints for end in ends]),
                names=tuple(dict.fromkeys(ends[0].here.part for ends in joints)),
            )
        )
    return tuple(made)


def _spliced(trailer: Trailer, terminal: Terminal, ends: tuple[WireEnd, ...]) -> int:
    """Return how many conductors a splice at a terminal joins; 0 where there is none."""
    fit = fitting(trailer, terminal).fit
    if fit in (Fit.CONTACT, Fit.PLUG):
        return len(ends) + 1 if len(ends) > 1 else 0
    if fit is not Fit.SPLICE:
        return 0
    return max(2, len(ends)) if trailer.parts[terminal.part].kind == "splice" else len(ends) + 1


def connector_items(trailer: Trailer, figures: Figures) -> tuple[Item, ...]:
    """Return the connectors with their ways, and their contacts by size of wire: one at each side of a way in use."""
    landed = ends_at(trailer, figures)
    made = []
    for part in trailer.parts.values():
        if part.form is Form.THROUGH:
            pins = [terminal.pin for terminal in landed if terminal.part == part.name]
            made.append(
                Item(
                    id=f"connector {part.name}",
                    section="connectors",
                    kind="connector",
                    used=1,
                    stock=int(part.name in trailer.stock.parts),
                    ways=part.ways,
                    ways_used=len({pin.rpartition(" ")[0] for pin in pins}),
                    waits=part.waiting,
                    names=(part.name,),
                )
            )
    return (*made, *_contacts(trailer, landed))


def _contacts(trailer: Trailer, landed: Landed) -> tuple[Item, ...]:
    found: dict[Size, list[WireEnd]] = {}
    counts: dict[Size, int] = {}
    for terminal, ends in landed.items():
        if fitting(trailer, terminal).fit is Fit.CONTACT:
            size = thickest(ends)
            found.setdefault(size, []).extend(ends)
            counts[size] = counts.get(size, 0) + 1
    stock = _terminals_in_stock(trailer)
    made = []
    for size in sorted(found, key=lambda one: (-by_area(one), str(one))):
        spare = to_spare(trailer, counts[size])
        made.append(
            Item(
                id=f"contact {size}",
                section="connectors",
                kind="contact",
                used=counts[size],
                spare=spare,
                stock=_take(stock, "contact", size, counts[size] + spare),
                size=str(size),
                wires=_numbers(found[size]),
            )
        )
    return tuple(made)


def fuse_items(trailer: Trailer, figures: Figures) -> tuple[Item, ...]:
    """Return the fuses by kind and rating, with two of each to carry. Common practice."""
    found: dict[tuple[str, float], list[str]] = {}
    colors: dict[tuple[str, float], str] = {}
    for fuse in figures.fuses:
        if fuse.device == "fuse" and fuse.rating_a is not None:
            found.setdefault((fuse.series, fuse.rating_a), []).append(fuse.name)
            colors[fuse.series, fuse.rating_a] = fuse.color
    usual = trailer.front_box.fuse_format if trailer.front_box else "blade regular"
    there: dict[tuple[str, float], int] = {}
    for one in trailer.stock.fuses:
        key = (one.series or usual, one.rating_a)
        there[key] = there.get(key, 0) + one.count
    return tuple(
        Item(
            id=f"fuse {series} {rating_a:g} A",
            section="fuses",
            kind="fuse",
            used=len(names),
            spare=SPARE_FUSES,
            stock=min(there.get((series, rating_a), 0), len(names) + SPARE_FUSES),
            series=series,
            rating_a=rating_a,
            color=colors[series, rating_a],
            names=tuple(names),
        )
        for (series, rating_a), names in sorted(found.items())
    )


def label_items(trailer: Trailer) -> tuple[Item, ...]:
    """Return the labels to buy: two a wire, the spare wires too."""
    used = 2 * (len(trailer.wires) + len(trailer.spares))
    if not used:
        return ()
    return (Item("labels", "labels", "label", used=used, stock=min(used, trailer.stock.labels)),)


def shared_terminals(
    trailer: Trailer, figures: Figures, fit: Fit = Fit.PUSH_ON
) -> tuple[SharedTerminal, ...]:
    """Return every blade that more than one wire lands on, or every terminal of another fit."""
    return tuple(
        SharedTerminal(terminal.part, terminal.pin, _numbers(ends))
        for terminal, ends in ends_at(trailer, figures).items()
        if len(ends) > 1 and fitting(trailer, terminal).fit is fit
    )


def to_spare(trailer: Trailer, used: int) -> int:
    """Return how many terminals are bought beyond those used, rounded up."""
    return math.ceil(used * assumption(trailer, "terminals to spare").value / 100.0 - 1e-9)


def _terminals_in_stock(trailer: Trailer) -> dict[Drawer, int]:
    found: dict[Drawer, int] = {}
    for one in trailer.stock.terminals:
        key = one.kind, one.size, one.stud.ring if one.stud else _ANY
        found[key] = found.get(key, 0) + one.count
    return found


def _take(stock: dict[Drawer, int], kind: str, size: Size, need: int, stud: str = "") -> int:
    """Take what is needed out of the stock as far as it goes; return how many that is.

    First those for the very stud, then those of which the file does not say for which stud they are.
    """
    left = need
    for ring in (*((stud_sizes()[stud][0],) if stud else ()), _ANY):
        key = kind, size, ring
        taken = min(left, stock.get(key, 0))
        stock[key] = stock.get(key, 0) - taken
        left -= taken
    return need - left


def _numbers(ends: Sequence[WireEnd]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(end.wire.number for end in ends))
