"""Circuits that start at a contact of the tow plug, or of the second plug beside it."""

from __future__ import annotations

from dataclasses import dataclass, replace

from builder.buildfile.declared_circuits import CircuitWords
from builder.buildfile.loom import Loom, fixed_base
from builder.buildfile.other_plugs import (
    add_second,
    as_second,
    other_pattern,
    plugs_with,
    second_with,
    that_have_one,
)
from builder.buildfile.problems import BLANK, heading, instead, leave_out
from builder.buildfile.suggesting import near_words
from builder.buildfile.weaving import Tip
from builder.buildfile.written import Key, fold
from builder.tables.tow_plugs import PlugContact, PlugPattern
from builder.trailer.model import BATTERY, SECOND_PLUG, TOW_PLUG, TowPlug
from builder.trailer.origin import Origin
from builder.trailer.parts import Terminal
from builder.trailer.wires import Section

CIRCUIT_FUNCTIONS = frozenset({"battery", "switched supply", "brake", "reverse", "fog"})
"""What a circuit may start from at the tow plug (the fog contact of a 12N plug is a spare feed, too); the others are
for road lamps."""


@dataclass(frozen=True, slots=True)
class Asked:
    """Where a circuit starts, as it is written: ``plug`` is tow plug or second plug, ``word`` what stands behind it."""

    plug: str
    word: str
    key: Key
    origin: Origin


def plug_start(loom: Loom, asked: Asked, words: CircuitWords, plug: TowPlug | None) -> Tip | None:
    """Return the tip at which a circuit starts at a contact of a plug; None, with a problem kept, when it cannot."""
    if plug is None or (asked.plug == SECOND_PLUG and plug.second is None):
        _no_plug(loom, asked)
        return None
    pattern = _meant(plug.pattern, asked)
    contact = _contact(pattern, asked.word or BATTERY)
    if contact is None:
        if SECOND_PLUG not in loom.broken:
            _no_contact(loom, asked, pattern)
        return None
    if contact.is_ground or not CIRCUIT_FUNCTIONS.intersection(contact.functions):
        _not_for_circuits(loom, asked, contact, pattern)
        return None
    loom.started.setdefault(_used_for(loom, words, contact, asked.word or BATTERY), asked.key)
    section = tow_section(plug, contact)
    loom.sections[section.name] = section
    return Tip((section.plus,), fixed_base(section.minus), 0.0, section.name)


def tow_section(plug: TowPlug, contact: PlugContact) -> Section:
    """Return the section that begins at a contact of the tow plug and comes back to its ground contact."""
    ground = plug.pattern.ground_of(contact)
    return Section(
        f"{TOW_PLUG} {contact.pin}", Terminal(TOW_PLUG, contact.pin), Terminal(TOW_PLUG, ground.pin), 12.0
    )


def _meant(pattern: PlugPattern, asked: Asked) -> PlugPattern:
    """Return the contacts that a start is looked for among: those of both plugs, or of the second alone."""
    if asked.plug == TOW_PLUG or pattern.second is None:
        return pattern
    of_second = tuple(contact for contact in pattern.contacts if contact.plug)
    return replace(pattern, name=pattern.second.name, contacts=of_second, second=None)


def _contact(pattern: PlugPattern, word: str) -> PlugContact | None:
    """Return the contact of a function, or of a contact number as it is moulded on the plug, such as 4 or 12S 4."""
    contacts = pattern.contacts
    numbered = next((one for one in contacts if fold(one.pin) == word), None)
    if numbered is None and word.isascii() and word.isdigit():
        own = (
            contacts if len({one.plug for one in contacts}) == 1 else ()
        )  # on its own plug a number is enough
        return next((one for one in own if str(one.number) == word), None)
    return numbered or pattern.contact_for(word)


def _used_for(loom: Loom, words: CircuitWords, contact: PlugContact, word: str) -> str:
    """Return the function that a circuit uses a contact for; of one named by its number, what hangs on it tells."""
    if word in contact.functions:
        return word
    items = [item for path in (words.path, *(branch.path for branch in words.branches)) for item in path]
    parts = [loom.parts.get(fold(item.name.value)) for item in items]
    if "brake" in contact.functions and any(part and part.kind == "brake magnet" for part in parts):
        return "brake"
    return next((one for one in contact.functions if one != "brake"), contact.functions[0])


def _no_plug(loom: Loom, asked: Asked) -> None:
    """Keep the problem of a start at a plug that the file does not describe."""
    if {TOW_PLUG, asked.plug} & loom.broken:
        return
    second = asked.plug == SECOND_PLUG
    pattern = "7-pin 12S" if second else "7-way blade"
    loom.problem(
        asked.origin,
        "no tow plug",
        f"this circuit starts at {'a second plug' if second else 'the tow plug'}, and none is described",
        f"add the heading {asked.plug}, as in {asked.plug}: {{pattern: {pattern}, to front box: 7 ft}}",
        heading(f"{asked.plug}: {{pattern: {BLANK}, to front box: {BLANK}}}"),
    )


def _not_for_circuits(loom: Loom, asked: Asked, contact: PlugContact, pattern: PlugPattern) -> None:
    """Keep the problem of a start at a ground, at a reserved contact or at one that is for road lamps."""
    which = f"contact {contact.pin} of a {pattern.name} plug is "
    other = "start from another contact, as in from: tow plug battery"
    if contact.is_ground:
        says, way_out = (
            "a ground: currents come back there",
            other.replace("another contact", "a contact that feeds"),
        )
    elif "reserved" in contact.functions:
        says, way_out = "reserved: nothing may hang on it", other
    else:
        says = f"for road lamps ({contact.label})"
        way_out = "describe a lamp under road lamps; what needs a supply starts from: tow plug battery"
    loom.problem(asked.origin, "no such contact", which + says, way_out, instead(f"{TOW_PLUG} {BATTERY}"))


def _no_contact(loom: Loom, asked: Asked, pattern: PlugPattern) -> None:
    """Keep the problem of a function, or a number, that no contact has; it names the plugs that have one."""
    word = asked.word or BATTERY
    feeds = sorted(
        {word for c in pattern.contacts for word in c.functions if word not in {"ground", "reserved"}}
    )
    near = near_words(word, feeds)
    others, second = plugs_with(word, pattern), second_with(word, pattern)
    loom.problem(
        asked.origin,
        "no such contact",
        f"a {pattern.name} plug has no contact for “{word}”",
        f"its contacts are: {', '.join(feeds)}{that_have_one(others)}{as_second(second)}",
        (
            *instead(*(f"{TOW_PLUG} {word}" for word in near)),
            *other_pattern(others, loom.pattern_at),
            *add_second(second),
            *(leave_out(asked.key.origin) if not near else ()),
        ),
    )
