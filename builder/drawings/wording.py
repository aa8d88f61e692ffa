"""The words on the drawings, in one place, so that another language is one more set of them."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Words:
    """English, as spoken by a maker; ``{}`` stands for a name or a number."""

    title: str = "Circuit {}, {}"
    strip: str = "part {} of {}"
    way: str = "fuse way {}"
    box: str = "front box"
    supply_bar: str = "supply bar"
    ground_bar: str = "ground bar"
    strip_terminal: str = "front box strip"
    battery: str = "battery"
    frame: str = "frame"
    contact: str = "tow plug, contact {}"
    between: str = "the other circuits"
    coil: str = "coil"
    relay_contact: str = "contact"
    connector_way: str = "way {}"
    feed: str = "feed"
    back: str = "return"
    own_switch: str = "own switch"
    outputs: str = "outputs from the left: {}"
    gives: str = "gives {}"
    waiting: str = "waiting: not fitted yet"
    elsewhere: str = "see circuit {}"
    also: str = "also {}"
    works_in: str = "contact in circuit {}"
    fed_by: str = "fed by {}"
    above: str = "drawn above"
    below: str = "goes on below"
    plus: str = "plus"
    minus: str = "minus"
    out_minus: str = "output minus"
    through: str = "through {} to {}"
    more: str = "Wire {} runs from {} to {}."
    by_wire: str = "by wire {} to {}"
    sentence: str = "{}: from {} {}."
    no_end: str = "{} is not joined to anything in this drawing."
    no_code: str = "The colour {} has no code; its words stand on the wire."
    unknown: str = "The colour {} is not known and is drawn in grey; its words stand on the wire."
    too_wide: str = "One strip of this drawing is wider than a phone and is shown smaller there."
    spare: str = "Spare wire {}: {}, {}, from {} to {}."


ENGLISH = Words()
