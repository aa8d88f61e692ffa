"""Limits of how wires are laid: bends, holes near edges, supports, grommets, the plug's cable, mains beside them."""

from __future__ import annotations

from rule_builds import LAMP, PLUG, Limit, build, changed

from builder.rules.finding import Level

PLACES = "places: {front box: {back: 1 ft, up: 2 ft}, lamp: {back: 7 ft, up: 2 ft}}\n"
WAY = changed(LAMP, "6 ft", "8 ft")
GROOVE = PLACES + "chases: {groove: {through: [front box, lamp], SAID}}\n" + WAY
CABLE = (
    "places:\n  battery: {back: 4 ft, up: 2 ft}\n  main fuse: {back: 4 ft, up: 2 ft}\n"
    "  front box: {back: 1 ft, up: 2 ft}\n  lamp: {back: 7 ft, up: 2 ft}\n"
    "chases: {groove: {through: [front box, battery, lamp], SAID}}\n" + WAY
)
MAINS = (
    "mains: {what: inlet and one outlet, done by: licensed electrician}\n"
    "places:\n  front box: {back: 1 ft, up: 2 ft}\n  lamp: {back: 7 ft, up: 2 ft}\n"
    "  inlet: {back: 1 ft, right: GAP, up: 2 ft}\n  outlet: {back: 7 ft, right: GAP, up: 2 ft}\n"
    "chases:\n  groove: {through: [front box, lamp]}\n"
    "  cable way: {through: [inlet, outlet], carries: mains}\n" + WAY
)
BODY = (
    "body: {width: 5 ft, profile: [{back: 0 in, up: 0 in}, {back: 8 ft, up: 0 in}, {back: 8 ft, up: 4 ft}, "
    "{back: 0 in, up: 4 ft}]}\n"
)
TONGUE = (
    changed(PLUG, "7 ft", "5 ft")
    + "places:\n  front box: {back: 1 ft, up: 1 ft}\n  rear: {back: 7 ft, up: 1 ft}\n"
    "  rear lamp: {back: 7 ft, up: 1 ft}\n"
    "  tow plug: {ahead: 3 ft, up: 0 in}\n  front wall: {back: 0 in, up: 1 ft}\n"
    "chases:\n  tongue: {through: [tow plug, front wall, front box], SAID}\n  beam: {through: [front box, rear]}\n"
    + BODY
    + "road lamps: {rear lamp: {shows: tail, wire: 8 ft}}\n"
)


def groove(said: str) -> str:
    """Return a build with one groove of which something is said."""
    return build(GROOVE.replace("SAID", said))


def tongue(said: str) -> str:
    """Return a build whose tow cable enters the body, and what is said of its chase."""
    return build(TONGUE.replace("SAID", said))


BLOCK = (
    BODY
    + "places: {front box: {back: 1 ft, left: 29 in, up: 2 ft}, lamp: {back: 7 ft, left: 29 in, up: 2 ft}}\n"
    + "chases: {groove: {through: [front box, lamp]}}\n"
    + "backing blocks: {shelf block: {in: left wall, back: 4 ft, up: UP, width: 8 in, height: 3 in}}\n"
    + WAY
)


def block(up: str) -> str:
    """Return a build with a groove in the left wall, 2 ft up, and a backing block 3 in high there."""
    return build(BLOCK.replace("UP", up))


MAINS_BLOCK = (
    BODY
    + MAINS.replace("GAP", "29 in")
    + "backing blocks: {rail block: {in: right wall, back: 4 ft, up: 657.8 mm, width: 8 in, height: 3 in}}\n"
)

WINDOW = "openings: {window: {in: WALL, back: 4 ft, up: 608.7 mm, width: 1 in, height: 1 ft}}\n"


def window() -> str:
    """Return a build with a groove in the left wall, 2 ft (609.6 mm) up, and a window that begins where it runs."""
    under = "places: {under it: {back: 4 ft, left: 29 in, up: 23 in}, "
    groove = changed(BLOCK.partition("backing blocks")[0], "places: {", under)
    return build(groove + WINDOW.replace("WALL", "left wall") + WAY)


CHASE_LIMITS = (
    # The file itself: what lies over the opening by more than a millimetre crosses it.
    Limit(
        "a groove beside an opening",
        "chase over opening",
        window(),
        ("608.7 mm", "608.5 mm"),
        ("chases:", "groove"),
        Level.SHOULD,
        ("“groove” runs across “window”",),
        (
            (
                "round the opening, past places beside its corners",
                "[front box, lamp]",
                "[front box, under it, lamp]",
            ),
            ("measure both again", "608.5 mm", "608.7 mm"),
        ),
    ),
    Limit(
        "a mains cable beside an opening",
        "chase over opening",
        build(BODY + MAINS.replace("GAP", "29 in") + WINDOW.replace("WALL", "right wall")),
        ("608.7 mm", "608.5 mm"),
        ("cable way:", "cable way"),
        Level.SHOULD,
        ("“cable way”, which carries mains, runs across “window”",),
        (("leave the mains cable to a licensed person", "608.5 mm", "608.7 mm"),),
    ),
    # Common practice; the block reaches 38.1 mm down from its middle, and the tape is off by 10 mm.
    Limit(
        "a backing block beside a chase",
        "block in the way",
        block("657.8 mm"),
        ("657.8 mm", "657.6 mm"),
        ("backing blocks:", "shelf block"),
        Level.SHOULD,
        ("“shelf block” lies in the way of “groove”",),
        (
            ("measure the block's middle", "657.6 mm", "657.8 mm"),
            ("plate: 1/16 in", "[front box, lamp]", "[front box, lamp], plate: 1/16 in"),
        ),
    ),
    # US Army TM 1-1500-204-23-4: ten times the diameter; 16 AWG is 3.0 mm thick (GXL data sheet), so 30 mm.
    Limit(
        "ten times the thickest wire",
        "bend too sharp",
        groove("bend radius: 30 mm"),
        ("30 mm", "29.9 mm"),
        ("chases:", "29.9 mm"),
        Level.WORTH,
        ("1 1/8 in", "1 3/16 in is the least"),
        (("bend radius: 1 3/16 in", "29.9 mm", "1 3/16 in"),),
    ),
    Limit(
        "a backing block beside a chase for mains",
        "block in the way",
        build(MAINS_BLOCK),
        ("657.8 mm", "657.6 mm"),
        ("backing blocks:", "rail block"),
        Level.SHOULD,
        ("which carries mains",),
        (("leave the mains cable to a licensed person", "657.6 mm", "657.8 mm"),),
    ),
    # NEC 300.4(A)(1): 1 1/4 in to the nearest edge, or a plate of 1/16 in.
    Limit(
        "1 1/4 in to the edge",
        "hole near edge",
        groove("holes: 1/2 in, from the edge: 1 1/4 in"),
        ("1 1/4 in", "1 3/16 in"),
        ("chases:", "1 3/16 in"),
        Level.SHOULD,
        ("leave 1 3/16 in", "1 1/4 in is asked for"),
        (("plate: 1/16 in", "from the edge", "plate: 1/16 in, from the edge"),),
    ),
    Limit(
        "a plate of 1/16 in",
        "hole near edge",
        groove("holes: 1/2 in, from the edge: 3/8 in, plate: 1/16 in"),
        ("1/16 in", "1/32 in"),
        ("chases:", "3/8 in"),
        Level.SHOULD,
        ("plates are thinner than 1/16 in",),
        (("plate: 1/16 in", "1/32 in", "1/16 in"),),
    ),
    # ISO 10133:2012 7.3: 450 mm, and 10 mm for the tape.
    Limit(
        "450 mm between supports",
        "supports far apart",
        groove("supports every: 18 in"),
        ("18 in", "18 1/8 in"),
        ("chases:", "18 1/8 in"),
        Level.WORTH,
        ("18 1/8 in apart", "17 3/4 in is the most for its wires"),
        (("supports every: 17 3/4 in", "18 1/8 in", "17 3/4 in"),),
    ),
    # 46 CFR 183.340(b)(4): 610 mm, and 10 mm for the tape.
    Limit(
        "what no rule of boats allows",
        "supports far apart",
        groove("supports every: 18 in"),
        ("18 in", "25 in"),
        ("chases:", "25 in"),
        Level.SHOULD,
        ("25 in apart",),
        (("supports every: 17 3/4 in", "25 in", "17 3/4 in"),),
    ),
    # ISO 10133:2012 7.4: 300 mm for a battery cable.
    Limit(
        "300 mm beside a battery cable",
        "supports far apart",
        build(CABLE.replace("SAID", "supports every: 12 in")),
        ("12 in", "13 in"),
        ("chases:", "13 in"),
        Level.WORTH,
        ("11 3/4 in is the most for a battery cable",),
        (("supports every: 11 3/4 in", "13 in", "11 3/4 in"),),
    ),
    # NEC 300.4(B)(1).
    Limit(
        "a grommet in sheet metal",
        "hole without grommet",
        groove("passes sheet at: [lamp], grommets: yes"),
        ("grommets: yes", "grommets: no"),
        ("chases:", "no"),
        Level.SHOULD,
        ("pass sheet metal at “lamp”",),
        (("grommets: yes", "grommets: no", "grommets: yes"),),
    ),
    Limit(
        "a grommet in the body's skin",
        "hole without grommet",
        tongue("grommets: yes"),
        ("grommets: yes", "grommets: no"),
        ("tongue:", "no"),
        Level.WORTH,
        ("pass the body's skin at “front wall”",),
        (("grommets: yes", "grommets: no", "grommets: yes"),),
    ),
    Limit(
        "a sealed hole for the plug's cable",
        "cable entry open",
        tongue("sealed: yes"),
        ("sealed: yes", "sealed: no"),
        ("tongue:", "no"),
        Level.WORTH,
        ("“tongue”", "is not sealed"),
        (("sealed: yes", "sealed: no", "sealed: yes"),),
    ),
    Limit(
        "a strain relief for the plug's cable",
        "cable entry open",
        tongue("strain relief: yes"),
        ("strain relief: yes", "strain relief: no"),
        ("tongue:", "no"),
        Level.WORTH,
        ("nothing holds",),
        (("strain relief: yes", "strain relief: no", "strain relief: yes"),),
    ),
    Limit(
        "a drip loop of the plug's cable",
        "cable entry open",
        tongue("drip loop: yes"),
        ("drip loop: yes", "drip loop: no"),
        ("tongue:", "no"),
        Level.WORTH,
        ("no drip loop",),
        (("drip loop: yes", "drip loop: no", "drip loop: yes"),),
    ),
    # NEC 552.10: 1/2 in; half of a wire of 3.0 mm lies on the near side of the groove's middle: 12.7 + 1.5 = 14.2 mm.
    Limit(
        "1/2 in to mains",
        "wires beside mains",
        build(MAINS.replace("GAP", "14.2 mm")),
        ("14.2 mm", "14.1 mm"),
        ("cable way:", "mains"),
        Level.SHOULD,
        ("“groove” come within 7/16 in of “cable way”", "mains"),
        (("divided: yes", "carries: mains", "carries: mains, divided: yes"),),
    ),
    Limit(
        "a divider between mains and wires",
        "wires beside mains",
        groove("carries: both, divided: yes"),
        ("divided: yes", "divided: no"),
        ("chases:", "both"),
        Level.SHOULD,
        ("nothing lies between them",),
        (("divided: yes", "divided: no", "divided: yes"),),
    ),
    Limit(
        "a divider of which nothing is said",
        "wires beside mains",
        groove("carries: both, divided: yes"),
        (", divided: yes", ""),
        ("chases:", "both"),
        Level.WORTH,
        ("does not say whether it is divided",),
        (("divided: yes", "carries: both", "carries: both, divided: yes"),),
    ),
    Limit(
        "heat beside a chase",
        "wires near heat",
        groove("where: under the bed"),
        ("where: under the bed", "near heat: flue"),
        ("chases:", "flue"),
        Level.WORTH,
        ("run near this: flue",),
        (("lead them another way", "near heat: flue", "where: under the bed"),),
    ),
)
