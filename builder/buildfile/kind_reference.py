"""The reference of kinds of parts and of tow plugs: what each does, what is assumed of it, and lines to take over."""

from __future__ import annotations

import textwrap
from collections.abc import Mapping

from builder.tables.part_kinds import PartKind, part_kinds
from builder.tables.tow_plugs import PlugContact, plug_pattern, plug_patterns, second_patterns

WIDTH = 92
_LONGEST_MARK = 3
_FORMS = {
    "load": "feed and return land on it",
    "gate": "only the feed is cut, the return passes by",
    "traveller": "between the first and the last of them the feed runs doubled",
    "through": "feed and return take one way each",
    "joint": "wires join in it",
    "section": "one electrical section ends and another begins",
    "relay": "its coil at the end of a path, its contact in the middle of one",
    "supply": "circuits start at it with from:",
}
_FORM_EXAMPLES = {
    "load": "light: {{path: [my {kind}: 6 ft]}}",
    "gate": "light: {{path: [my {kind}: 4 ft, lamp: 6 ft]}}",
    "joint": (
        "light: {{path: [my {kind}: 5 ft, lamp: 2 ft], "
        "branches: [{{from: my {kind}, path: [other lamp: 3 ft]}}]}}"
    ),
}
EXAMPLES: Mapping[str, str] = {
    "isolating switch": "path: [main fuse: 5 in, isolating switch: 1 ft, front box: 3 ft]   (under battery)",
    "two-way switch": "light: {path: [door switch: 4 ft, bed switch: 9 ft, lamp: 6 ft]}   (both are two-way switches)",
    "four-way switch": (
        "light: {path: [door switch: 4 ft, middle switch: 5 ft, bed switch: 9 ft, lamp: 6 ft]}"
        "   (between two two-way switches)"
    ),
    "receiver": (
        "light: {path: [my receiver: 1 ft, lamp: 9 ft], "
        "branches: [{from: my receiver, output: 2, path: [other lamp: 8 ft]}]}   (with outputs: 2)"
    ),
    "relay": (
        "water: {path: [my relay: 1 ft, pump: 12 ft], "
        "branches: [{from: fuse, path: [tap switch: 14 ft, my relay: {length: 14 ft, as: coil}]}]}"
        "   (the coil's return goes by the contact's way, where that is the shorter one)"
    ),
    "connector": "light: {path: [my connector: 15 ft, lamp: 3 ft]}   (with ways: 4)",
    "converter": "phone: {path: [my converter: 5 ft, socket: 8 in]}   (with gives at: 5 V)",
    "charge controller": (
        "sun: {from: solar module, path: [my charge controller: 12 ft, sun fuse: 4 ft, battery: 6 in]}"
    ),
    "charge limiter": (
        "charge line: {from: tow plug battery, path: [car-side fuse: 1 ft, my charge limiter: 7 ft, "
        "battery fuse: 2 ft, battery: 6 in]}   (with rating: 10 A)"
    ),
    "dc charger": (
        "charge line: {from: tow plug battery, path: [car-side fuse: 1 ft, my dc charger: 7 ft, "
        "battery fuse: 4 ft, battery: 6 in]}"
    ),
    "solar module": "sun: {from: my solar module, path: [charge controller: 12 ft, sun fuse: 4 ft, battery: 6 in]}",
    "breakaway switch": (
        "breakaway: {from: breakaway battery, fuse: 20 A, path: [my breakaway switch: 1 ft, brake splice: 2 ft]}"
        "   (it ends at a splice, bar or magnet on the path of the brakes)"
    ),
    "breakaway battery": (
        "breakaway: {from: my breakaway battery, fuse: 20 A, path: [breakaway switch: 1 ft, brake splice: 2 ft]}"
    ),
    "shore converter": "shore: {from: my shore converter, path: [converter fuse: 1 ft, front box: 6 in]}",
    "fuse": "meter: {from: battery, path: [my fuse: 4 in, meter: 8 ft]}   (with rating: 2 A)",
}
"""A line of a build file for each kind whose form alone does not show how it is wired."""


def kind_text(kind: PartKind) -> str:
    """Return what a kind does and what is assumed of it, in a paragraph."""
    says = [_FORMS[kind.form]]
    if kind.draw:
        low, usual, high = kind.draw
        says.append(f"draws {usual:g} {kind.draw_unit} ({low:g} to {high:g})")
    if kind.idle_a:
        says.append(f"draws {kind.idle_a * 1000:g} mA when idle")
    if kind.start_factor > 1:
        says.append(f"starts with {kind.start_factor:g} times its current")
    if kind.works_from_v:
        says.append(f"works from {kind.works_from_v:g} V")
    if kind.advice_percent:
        says.append(f"{kind.advice_percent:g} % lost on its wires is advised at most")
    if kind.hours:
        low, usual, high = kind.hours
        says.append(f"in use {usual:g} h a day ({low:g} to {high:g})")
    return hanging(kind.word, "; ".join(says) + f" [{kind.source}]")


def kind_block(kind: PartKind) -> str:
    """Return a kind with a line of a circuit that shows how it is wired."""
    line = EXAMPLES.get(kind.word) or _FORM_EXAMPLES[kind.form].format(kind=kind.word)
    shown = textwrap.fill(
        line, WIDTH, initial_indent="      as in: ", subsequent_indent="        ", break_on_hyphens=False
    )
    return kind_text(kind) + shown + "\n"


def kinds_text() -> str:
    """Return every kind of part with what is assumed of it where the file is silent."""
    head = "Kinds of parts, and what is assumed of each where the file is silent\n"
    return head + "".join(kind_text(kind) for kind in part_kinds().values())


def plug_text(name: str) -> str:
    """Return the contacts of a tow plug: number, mark, what each feeds, and the colour of its wire."""
    pattern = plug_pattern(name)
    where = f", beside a {pattern.beside}" if pattern.beside else ""
    head = f"{name} - {pattern.standard}{where}; its contacts [{pattern.source}, {pattern.known}]\n"
    return head + "".join(_contact_line(contact) for contact in pattern.contacts)


def plugs_text() -> str:
    """Return every tow plug with its contacts, and how a circuit starts at one of them."""
    start = (
        "A circuit starts at a contact by what it feeds or by its number, as in from: tow plug battery; its first\n"
        "length begins at the plug itself. Contacts of lamps are wired under road lamps.\n"
    )
    second = "A plug that stands beside another is a second plug: what the first has no contact for comes from there.\n"
    return "\n".join([*map(plug_text, (*plug_patterns(), *second_patterns())), start + second])


def hanging(word: str, text: str) -> str:
    """Return a word and what is said of it, its further lines indented."""
    return textwrap.fill(f"{word} - {text}", WIDTH, initial_indent="  ", subsequent_indent="      ") + "\n"


def _contact_line(contact: PlugContact) -> str:
    colour = " with ".join(word for word in (contact.base, contact.tracer) if word)
    mark = f" ({contact.label})" if len(contact.label) <= _LONGEST_MARK else ""
    feeds = ", ".join(contact.functions) + mark
    return f"  {contact.number:>2}  {feeds:<34} {colour}".rstrip() + "\n"
