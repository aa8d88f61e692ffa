"""An option that could not be added as it is written: what its own trailer would be told.

What: Each option is put into the trailer as it is written, wires that are there stay as
thick as they are, and all rules look at that trailer. What must or should be fixed
there and not in today's trailer is told here, at the option's line; and so is a spare
wire that is too short for each of its wires, or that ends elsewhere than the wire
which it stands for.

Why: An option is chosen when walls are closed. A thicker wire, a free fuse way or a
spare wire costs little while they are open, and cannot be had later.

Limit: That of the rule which spoke, with its own source (read or quoted there, else
common practice). It is never a *must fix*: the option is not built.

Failing example::

    format: 1
    build: {name: Mill Lane, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 4 ft}
    front box: {fuse ways: 4, fuses: blade}
    parts: {fan: {kind: fan, draws: 3 A, own switch: yes}}
    circuits: {fan: {fuse: 5 A, path: [fan: 6 ft]}}
    options:
      larger fan: {parts: {fan: {kind: fan, draws: 6 A, own switch: yes}}}

Passing example::

    format: 1
    build: {name: Mill Lane, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 4 ft}
    front box: {fuse ways: 4, fuses: blade}
    parts: {fan: {kind: fan, draws: 3 A, own switch: yes}}
    circuits: {fan: {fuse: 5 A, path: [fan: 6 ft]}}
    options:
      larger fan: {parts: {fan: {kind: fan, draws: 3.5 A, own switch: yes}}}
"""

from __future__ import annotations

from collections.abc import Collection, Iterator

from builder.electrics.figures import Figures
from builder.rules.finding import Finding, Level, Remark
from builder.rules.wording import say
from builder.trailer.model import Option, Trailer
from builder.trailer.origin import Origin

NAME = "option not ready"
IF_ADDED_SAYS = "if you add “{option}”: {message}"
TOO_SHORT_SAYS = (
    "if you add “{option}”: the spare wire {number} is shorter than each wire that it could stand for"
)
ELSEWHERE_SAYS = (
    "if you add “{option}”: the spare wire {number} runs from “{one}” to “{other}”, and the wire that it stands for "
    "from “{start}” to “{end}”"
)
ELSEWHERE_HELP = (
    "let the part stand where the spare wire ends, take another spare wire, or write the joint to it as a splice in "
    "the path, at a place that can be reached"
)
TOO_SHORT_HELP = "take another spare wire, or leave it out of the option"
FILE_BASIS = "the file itself"
NOT_YET = ("numbers not issued",)
"""Rules that have nothing to say of what is not built: its wires get their numbers once it is."""


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for each spare wire that is too short for its option, or ends elsewhere than its wire."""
    for option, made in zip(trailer.options, figures.options, strict=True):
        for number in made.short:
            yield Remark(
                origin=option.origin,
                message=say(TOO_SHORT_SAYS, option=option.name, number=number),
                help=TOO_SHORT_HELP,
                known="file",
                basis=FILE_BASIS,
            )
        spares = {wire.number: wire for wire in option.spares}
        wires = {wire.number: wire for wire in made.trailer.wires}
        for number, stood_for in made.elsewhere:
            spare, wire = spares[number], wires[stood_for]
            yield Remark(
                origin=option.origin,
                message=say(
                    ELSEWHERE_SAYS,
                    option=option.name,
                    number=number,
                    one=spare.start.part,
                    other=spare.end.part,
                    start=wire.start.part,
                    end=wire.end.part,
                ),
                help=ELSEWHERE_HELP,
                known="file",
                basis=FILE_BASIS,
            )


def told_of_option(option: Option, then: Collection[Finding], today: Collection[Finding]) -> Iterator[Remark]:
    """Yield a remark for each finding of a trailer with an option in it that is not one of today's.

    The same rule at the same word speaks of the same thing, though its figure may be another one; told is what is
    graver than today. What is only worth knowing is not told of what is not built.
    """
    order = list(Level)
    known: dict[tuple[str, Origin], int] = {}
    for finding in today:
        key = finding.rule, finding.origin
        known[key] = min(order.index(finding.level), known.get(key, len(order)))
    for finding in then:
        before = known.get((finding.rule, finding.origin), len(order))
        is_new = finding.level is not Level.WORTH and order.index(finding.level) < before
        if is_new and finding.rule not in NOT_YET:
            yield Remark(
                origin=option.origin,
                message=say(IF_ADDED_SAYS, option=option.name, message=finding.message),
                help=finding.help,
                known=finding.known,
                basis=finding.basis,
            )
