"""What every page template is given: the build, its figures with one way to print them, names and addresses."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from markupsafe import Markup, escape

from builder.drawings.chips import fuse_chip, warning_triangle, wire_chip
from builder.drawings.conduit_section import Section, conduit_sections
from builder.drawings.frame_cut import FrameCut, frame_cuts
from builder.drawings.plans import Plans, plans
from builder.electrics.figures import Figures, FuseFigures
from builder.guide.making import guides
from builder.guide.model import Guide, Symptom, Thing
from builder.lists.making import Lists, make_lists
from builder.pages.catalogue import language_of
from builder.pages.drawing_words import drawing_words
from builder.pages.escaping import slug, unique_slugs
from builder.pages.guide_places import guide_places
from builder.pages.json_entries import Json
from builder.pages.record import record
from builder.pages.rounding import (
    Reader,
    length,
    mass,
    meter_volts,
    rating,
    rest,
    sheet_figure,
    shown,
    temperature,
)
from builder.routes.framing import by_frame
from builder.rules.finding import Finding
from builder.tables.table import NoRow
from builder.tables.wire_colours import colour_code, combination_allowed, combination_code, screen_colour
from builder.trailer.circuits import Circuit, CircuitKind
from builder.trailer.color import Color
from builder.trailer.model import Trailer
from builder.trailer.parts import Terminal
from builder.trailer.wires import Wire


@dataclass(frozen=True)
class Edition:
    """One edition: who it is for; ``number`` is the content number of the build file."""

    reader: Reader
    number: str

    def reads(self, *readers: str) -> bool:
        """Tell whether something made for these readers belongs in this edition; the workshop reads all."""
        return self.reader is Reader.WORKSHOP or self.reader.value in readers


@dataclass(frozen=True)
class View:
    """One build as its pages see it, in one edition."""

    trailer: Trailer
    figures: Figures
    findings: tuple[Finding, ...]
    edition: Edition

    @cached_property
    def record(self) -> Json:
        """The versioned record of the build."""
        return record(self.trailer, self.figures, self.findings, self.guides, self.lists)

    @property
    def language(self) -> str:
        """The catalogue of texts that its pages are written from."""
        return language_of(self.trailer.identity.country)

    @cached_property
    def guides(self) -> tuple[Guide, ...]:
        """What to do if something stops working."""
        return guides(self.trailer, self.figures)

    @cached_property
    def lists(self) -> Lists:
        """The lists of the workshop."""
        return make_lists(self.trailer, self.figures)

    @cached_property
    def plans(self) -> Plans | None:
        """The trailer drawn to scale; None where the build file has no places."""
        return plans(self.trailer, self.figures, drawing_words(self.language))

    @cached_property
    def sections(self) -> tuple[Section, ...]:
        """The conduits cut across, as far as their bore and their wires are known."""
        return conduit_sections(self.trailer, self.figures, drawing_words(self.language))

    @cached_property
    def frame_cuts(self) -> tuple[FrameCut, ...]:
        """The frames that chases pass, each with the body cut there; none without the body's outline."""
        frames = by_frame(self.trailer.geometry, self.figures.laid.frames)
        return frame_cuts(self.trailer, frames, drawing_words(self.language))

    @cached_property
    def _by_key(self) -> Mapping[str, Mapping[str, Any]]:
        """The lists of the record by the key of their entries, for figures to be found by path."""
        keys = {
            "wires": "number",
            "circuits": "number",
            "fuses": "name",
            "assumptions": "id",
            "plug": "contact",
            "plug_states": "contact",
            "plug_grounds": "contact",
            "plug_feeds": "contact",
            "road_lamps": "name",
        }
        keys |= {"supplies": "name", "spares": "number", "switches": "name", "headroom": "circuit"}
        keys |= {"shopping": "id", "cuts": "id", "test_sheet": "number", "guide": "id", "carried": "part"}
        keys |= {"places": "name", "chases": "name", "skins": "name", "panels": "name", "hinges": "name"}
        keys |= {"laid": "name", "stands": "name", "pulls": "number", "bays": "name"}
        lists: Mapping[str, Any] = self.record
        return {
            name: {str(entry[key]): entry for entry in lists[name]}
            for name, key in keys.items()
            if name in lists
        }

    def value(self, path: str) -> Any:
        """Return the value of the record at a path such as ``wires/4A/length_m``; raises KeyError."""
        head, *further = (part.replace("%2F", "/").replace("%25", "%") for part in path.split("/"))
        found: Any = self._by_key[head] if head in self._by_key else self.record[head]
        for step in further:
            found = found[int(step)] if isinstance(found, list) else found[step]
        return found

    def fig(self, path: str, unit: str = "") -> Markup:
        """Return a computed figure as HTML: rounded for the reader, marked with its path in the record.

        Lengths and temperatures are printed in the build's units; ratings and capacity as printed on the part.
        """
        value = self.value(path)
        key = path.rpartition("/")[2]
        if not isinstance(value, int | float):
            text = str(value)
        elif isinstance(value, int):
            text = str(value)  # what is counted is never rounded
        elif path.startswith("cuts/") and key in ("left_length_m", "rest_length_m"):
            text = rest(value, self.trailer.identity.units)
        elif key.endswith("length_m") or unit == "m":
            text, unit = length(value, self.trailer.identity.units), ""
        elif key in ("rating_a", "fuse_a", "planned_fuse_a", "today_fuse_a", "today_rating_a", "capacity_ah"):
            text = rating(value)
        elif key == "rest_v" or (key == "least_v" and path.startswith("guide/")):
            text = meter_volts(value)
        elif path.startswith("test_sheet/"):
            text = sheet_figure(key, value, self.edition.reader)
        elif key.endswith("_mass_kg"):
            text, unit = mass(value, self.trailer.identity.units), ""
        elif unit == "°C" and not path.startswith("assumptions/"):
            text, unit = temperature(value, self.trailer.identity.units), ""
        else:
            # an assumption is printed as it was taken, whoever reads it
            text = shown(value, Reader.WORKSHOP if path.startswith("assumptions/") else self.edition.reader)
        body = f"{text}\u00a0{unit}" if unit else text
        return Markup('<span class="fig" data-figure="{}">{}</span>').format(path, body)

    @cached_property
    def box_places(self) -> Mapping[tuple[Terminal, str], int]:
        """The place of each wire on ground bar and strip of the front box, as the landing sheet numbers it."""
        return {
            (place.terminal, end.wire): place.place
            for piece in self.lists.landings
            if piece.in_box and piece.name in ("ground bar", "strip")
            for place in piece.places
            for end in place.ends
        }

    @cached_property
    def pages_of(self) -> Mapping[int, str]:
        """The address of each circuit's page, without its ending."""
        return {c.number: f"circuit-{c.number:02d}-{slug(c.name)}" for c in self.trailer.circuits}

    @cached_property
    def road_things(self) -> tuple[Thing, ...]:
        """What an owner can find dead among the road lamps: each lamp once for each contact that feeds it."""
        tow = {c.number for c in self.trailer.circuits if c.kind is CircuitKind.TOW}
        dead = (guide for guide in self.guides if guide.symptom is Symptom.DEAD)
        return tuple(dict.fromkeys(t for guide in dead for t in guide.things if t.circuit in tow))

    @cached_property
    def functions_of(self) -> Mapping[str, tuple[str, ...]]:
        """The functions of each road lamp by its name, as the guides tell them apart."""
        found: dict[str, list[str]] = {}
        for thing in self.road_things:
            found.setdefault(thing.part, []).append(thing.what)
        return {part: tuple(whats) for part, whats in found.items()}

    @cached_property
    def guide_pages(self) -> Mapping[str, tuple[Guide, ...]]:
        """The guides of each page of guides, by its address without the ending."""
        return guide_places(self.guides, self.pages_of)

    @cached_property
    def page_of_guide(self) -> Mapping[str, str]:
        """The address of each guide's page by the guide's id, without its ending."""
        return {guide.id: path for path, mine in self.guide_pages.items() for guide in mine}

    @cached_property
    def part_ids(self) -> Mapping[str, str]:
        """The anchor of each part on the page Find it."""
        return unique_slugs(sorted(self.trailer.parts), "part-")

    @cached_property
    def wires(self) -> Mapping[str, Wire]:
        """The wires of the trailer by their numbers."""
        return {wire.number: wire for wire in self.trailer.wires}

    @cached_property
    def _fuses(self) -> Mapping[str, FuseFigures]:
        return {fuse.name: fuse for fuse in self.figures.fuses}

    def drafts(self, wires: Sequence[Wire] | None = None) -> str | None:
        """Return the numbers of some wires, or of all, that are drafts, in words; None where no number is issued."""
        if self.trailer.ledger is None:
            return None
        every = (*self.trailer.wires, *self.trailer.spares) if wires is None else wires
        return listed_numbers([wire.number for wire in every if wire.draft])

    def is_draft(self, wire: Wire) -> bool:
        """Tell whether a wire's number is a draft among others that are issued."""
        return wire.draft and self.trailer.ledger is not None

    def circuit_link(self, circuit: Circuit) -> str:
        """Return the address of a circuit's page as the finished site has it."""
        return self.pages_of[circuit.number] + ".html"

    def wire_chip(self, color: Color, size: str = "") -> dict[str, str]:
        """Return what the piece of a wire's colour is called with."""
        return {
            "base": color.base,
            "tracer": color.tracer,
            "code": color_code(color),
            "size": size,
            "picture": f"pictures/{wire_picture(color)}.svg",
        }

    def fuse_words(self, name: str) -> dict[str, str]:
        """Return what the piece of a fuse is called with; the colour is left out where none is known."""
        fuse = self._fuses[name]
        if fuse.rating_a is None:
            return {"rating": "–", "colour": "", "picture": ""}
        picture = f"pictures/fuse-{slug(fuse.color)}.svg" if fuse.color else ""
        return {
            "rating": self.fig(f"fuses/{step(name)}/rating_a", "A"),
            "colour": fuse.color,
            "picture": picture,
        }

    @cached_property
    def pictures(self) -> Mapping[str, str]:
        """Every small picture that the pages name, by path."""
        made = {"pictures/alert-triangle.svg": warning_triangle()}
        for wire in (*self.trailer.wires, *self.trailer.spares):
            made[f"pictures/{wire_picture(wire.color)}.svg"] = wire_chip(
                screen_colour(wire.color.base),
                screen_colour(wire.color.tracer) if wire.color.tracer else None,
            )
        for fuse in self.figures.fuses:
            if fuse.color:
                clear = fuse.color == "clear"
                made[f"pictures/fuse-{slug(fuse.color)}.svg"] = fuse_chip(
                    None if clear else screen_colour(fuse.color)
                )
        return dict(sorted(made.items()))


MOST_NUMBERS = 12
"""Draft numbers that one sentence names."""


def listed_numbers(numbers: Sequence[str]) -> str:
    """Return numbers in words, the first ones where they are many; empty where there is none."""
    shown = ", ".join(numbers[:MOST_NUMBERS])
    return f"{shown} …" if len(numbers) > MOST_NUMBERS else shown


def step(name: str) -> str:
    """Return a name as one step of a figure's path, which slashes part."""
    return name.replace("%", "%25").replace("/", "%2F")


def wire_picture(color: Color) -> str:
    """Return the file name of a wire's picture."""
    return "wire-" + slug(f"{color.base} {color.tracer}")


def color_code(color: Color) -> str:
    """Return the code of IEC 60757 for a wire's colour, base and tracer parted.

    Empty where a colour has no code, or where the standard does not let the two stand together.
    """
    try:
        if not combination_allowed([word for word in (color.base, color.tracer) if word]):
            return ""
        codes = [colour_code(word) for word in (color.base, color.tracer) if word]
    except NoRow:
        return ""
    return "/".join(codes)


def standard_code(color: Color) -> str:
    """Return the code of IEC 60757 in the order of its table, which does not tell base from tracer.

    Empty where a colour has no code or the two may not stand together.
    """
    words = [word for word in (color.base, color.tracer) if word]
    try:
        return combination_code(words) if combination_allowed(words) else ""
    except NoRow:
        return ""


def joined(items: list[Any], between: str = ", ") -> Markup:
    """Return pieces of HTML one after the other; a link of one word keeps what follows it on its line."""
    shown = [escape(item) for item in items]
    mark = between.rstrip()
    kept = [
        Markup('<span class="kept">{}{}</span>').format(one, mark) + between.removeprefix(mark)
        if one.startswith("<a ") and " " not in one.striptags()
        else one + between
        for one in shown[:-1]
    ]
    return Markup("").join([*kept, *shown[-1:]])
