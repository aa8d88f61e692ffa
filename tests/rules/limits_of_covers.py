"""Limits of skins, panels and hinges: fasteners near wires, corners in a plane, loops that reach."""

from __future__ import annotations

from rule_builds import FRAMED, LAMP, Limit, build, changed

from builder.rules.finding import Level

PLACES = """places:
  front box: {back: 1 ft, right: 2 ft, up: 2 ft}
  lamp: {back: 7 ft, right: 2 ft, up: 2 ft}
  low front: {back: 0 in, right: 26 in, up: 0 in}
  low rear: {back: 8 ft, right: 26 in, up: 0 in}
  high rear: {back: 8 ft, right: 26 in, up: 4 ft}
  high front: {back: 0 in, right: 26 in, up: 4 ft}
  left: {back: 1 ft, left: 2 ft, up: 1 ft}
"""
CORNERS = "corners: [low front, low rear, high rear, high front]"
WALL = build(
    PLACES
    + "chases: {groove: {through: [front box, lamp]}}\n"
    + f"skins:\n  right wall: {{{CORNERS}, fasteners go in: GO}}\n"
    + changed(LAMP, "6 ft", "8 ft")
)
FACE = PLACES[PLACES.index("  low front") :]
FAR_FACE = FACE.replace("26 in", "30 in")
LOOPED = build(
    changed(
        PLACES.replace("2 ft, up: 2 ft", "18 in, up: 2 ft", 1),
        "  lamp",
        "  rib: {back: 6 ft, right: 18 in, up: 2 ft}\n  lamp",
    )
    + "chases:\n  groove: {through: [front box, rib]}\n"
    "  loop: {kind: hinge loop, through: [rib, lamp], slack: 5.7 mm}\n"
    + f"skins:\n  right wall: {{{CORNERS}, fasteners go in: 1/4 in}}\n"
    + changed(LAMP, "6 ft", "8 ft")
)
# 1 1/2 in of fastener: 12.7 mm to the line of the wires, less a bundle of two wires of 3.0 mm
TUBE = changed(WALL, "[front box, lamp]}", "[front box, lamp], kind: conduit, bore: BORE}")
LINED = build(
    PLACES.replace("26 in", "22 in")
    + "chases: {groove: {through: [front box, lamp]}}\n"
    + f"panels:\n  lining: {{{CORNERS}, behind: groove}}\n"
    + changed(LAMP, "6 ft", "8 ft")
)
HATCH = build(
    "places:\n  front box: {back: 1 ft, up: 4 ft}\n  frame: {back: 6 ft, up: 4 ft}\n"
    "  lamp: {back: 6 ft, up: 4 ft, right: 1 in}\n  hinge left: {back: 6 ft, left: 1 ft, up: 4 ft 6 in}\n"
    "  hinge right: {back: 6 ft, right: 1 ft, up: 4 ft 6 in}\n"
    "chases:\n  groove: {through: [front box, frame]}\n"
    "  loop: {kind: hinge loop, through: [frame, lamp], slack: SLACK, hinge: [hinge left, hinge right], opens: 90°}\n"
    + changed(LAMP, "6 ft", "9 ft")
)

ON_THE_HATCH = build(
    "places: {front box: {back: 1 ft, up: 4 ft}, rib: {back: 6 ft, up: 4 ft}, lid: {back: 6 ft 1 in, up: 4 ft}}\n"
    "chases:\n  groove: {through: [front box, rib]}\n"
    "  loop: {kind: hinge loop, through: [rib, lid], slack: 8 in}\n"
    "parts:\n  hatch plug: {kind: connector, ways: 2, place: rib}\n  lamp: {kind: lamp, draws: 3 W, place: lid}\n"
    "circuits:\n  lamp: {path: [hatch plug: 7 ft, lamp: 18 in]}\n",
    battery=FRAMED,
)

COVER_LIMITS = (
    # Of the two wires through the loop, feed and return, none ends at a connector there.
    Limit(
        "a connector at the hinge",
        "hinge without connector",
        ON_THE_HATCH,
        ("hatch plug: 7 ft, lamp: 18 in", "lamp: 8 ft 6 in"),
        ("loop:", "loop"),
        Level.WORTH,
        ("wires pass “loop” with no connector at it", "1A, 1B"),
        (
            (
                "hinge plug: {kind: connector, ways: 2, place: rib}",
                "path: [lamp: 8 ft 6 in]",
                "path: [hatch plug: 7 ft, lamp: 18 in]",
            ),
        ),
    ),
    Limit(
        "a connector elsewhere",
        "hinge without connector",
        ON_THE_HATCH,
        ("ways: 2, place: rib", "ways: 2, place: front box"),
        ("loop:", "loop"),
        Level.WORTH,
        ("1B, 1D",),
        (("place: rib", "ways: 2, place: front box", "ways: 2, place: rib"),),
    ),
    Limit(
        "a return through a hinge",
        "frame return",
        changed(ON_THE_HATCH, "hatch plug: 7 ft, lamp: 18 in", "lamp: 8 ft 6 in"),
        ("lamp: {path", "lamp: {return: frame, path"),
        ("lamp: {return", "lamp"),
        Level.SHOULD,
        ("“lamp” sends the current of “lamp” back through the metal of the hinge",),
        (("through “loop”, back to the front box: take return: frame out", "return: frame, ", ""),),
    ),
    # The line of the wires is 50.8 mm behind the face; half of a wire of 16 AWG is 1.5 mm.
    Limit(
        "half of the thickest wire",
        "fastener reaches wire",
        changed(WALL, "GO", "49.2 mm"),
        ("49.2 mm", "49.4 mm"),
        ("right wall", "right wall"),
        Level.MUST,
        ("“groove” between “front box” and “lamp”", "2 in behind its face"),
        (("1 3/8 in at most", "49.4 mm", "1 3/8 in"), ("plate: 1/16 in", "lamp]}", "lamp], plate: 1/16 in}")),
    ),
    Limit(
        "the bore of a conduit",
        "fastener reaches wire",
        changed(changed(TUBE, "GO", "1 1/2 in"), "BORE", "25 mm"),
        ("25 mm", "26 mm"),
        ("right wall", "right wall"),
        Level.MUST,
        ("reach the wires",),
        (("1 in at most", "fasteners go in: 1 1/2 in", "fasteners go in: 1 in"),),
    ),
    # Over bored holes alone a plate covers nothing between them.
    Limit(
        "a plate all along, and one over holes",
        "fastener reaches wire",
        changed(changed(WALL, "GO", "2 in"), "lamp]}", "lamp], plate: 1/16 in}"),
        ("plate: 1/16 in", "plate: 1/16 in, holes: 1/2 in"),
        ("right wall", "right wall"),
        Level.MUST,
        ("“groove” between “front box” and “lamp”", "2 in behind its face"),
        (("plate: 1/16 in under “groove”, without holes and from the edge", ", holes: 1/2 in", ""),),
    ),
    Limit(
        "a plate all along, and one over holes near the face",
        "fastener near wire",
        changed(
            changed(WALL, "GO", "1/4 in").replace("right: 2 ft", "right: 630 mm"),
            "lamp]}",
            "lamp], plate: 1/16 in}",
        ),
        ("plate: 1/16 in", "plate: 1/16 in, holes: 1/2 in"),
        ("right wall", "right wall"),
        Level.WORTH,
        ("“groove” lie less than 1 1/4 in behind the face of “right wall”",),
        (("under each chase, without holes and from the edge", ", holes: 1/2 in", ""),),
    ),
    # 50.8 mm less 3 mm of bundle and 10 mm of tape are 37.8 mm.
    Limit(
        "the error of a tape measure",
        "fastener near wire",
        changed(WALL, "GO", "37.7 mm"),
        ("37.7 mm", "37.9 mm"),
        ("right wall", "right wall"),
        Level.SHOULD,
        ("3/8 in is left",),
        (("1 3/8 in at most", "37.9 mm", "1 3/8 in"), ("plate: 1/16 in", "lamp]}", "lamp], plate: 1/16 in}")),
    ),
    # 31.75 mm and 3 mm of bundle behind a face that is 660.4 mm from the middle
    Limit(
        "1 1/4 in behind the face",
        "fastener near wire",
        changed(WALL, "GO", "1/4 in").replace("right: 2 ft", "right: 625.6 mm"),
        ("lamp: {back: 7 ft, right: 625.6 mm", "lamp: {back: 7 ft, right: 625.8 mm"),
        ("right wall", "right wall"),
        Level.WORTH,
        ("“groove” lie less than 1 1/4 in behind the face of “right wall”",),
        (("plate: 1/16 in", "lamp]}", "lamp], plate: 1/16 in}"),),
    ),
    # The loop hangs within sqrt(2 × 340.8 × slack + slack²) / 2 of its line, which comes to 44.45 mm from the
    # fasteners; half of the row of its wires and the tape take 13 mm of that: 5.76 mm of slack.
    Limit(
        "a hinge loop beside fasteners",
        "fastener near wire",
        LOOPED,
        ("slack: 5.7 mm", "slack: 5.9 mm"),
        ("right wall", "right wall"),
        Level.WORTH,
        ("3/8 in is left between the fasteners of “right wall” and the wires in “loop”",),
        (
            (
                "set the fasteners of “right wall” where the loop never comes, open or shut, or lead it",
                FACE,
                FAR_FACE,
            ),
        ),
    ),
    Limit(
        "the line of a hinge loop",
        "fastener reaches wire",
        changed(LOOPED, "1/4 in", "50.7 mm"),
        ("50.7 mm", "50.9 mm"),
        ("right wall", "right wall"),
        Level.MUST,
        ("reach the wires in “loop”",),
        (("a plate does not count over what moves", FACE, FAR_FACE),),
    ),
    Limit(
        "corners in one plane",
        "cover not laid",
        changed(
            changed(WALL, "GO", "1/4 in"),
            "high front: {back: 0 in, right: 26 in",
            "high front: {back: 0 in, right: 698 mm",
        ),
        ("right: 698 mm", "right: 703 mm"),
        ("right wall", "right wall"),
        Level.SHOULD,
        ("lie in no plane",),
        (("measure its corners again", "right: 703 mm", "right: 26 in"),),
    ),
    Limit(
        "corners in their order",
        "cover not laid",
        changed(WALL, "GO", "1/4 in"),
        ("[low front, low rear,", "[low rear, low front,"),
        ("right wall", "right wall"),
        Level.SHOULD,
        ("do not follow each other",),
        (("in the order", "[low rear, low front,", "[low front, low rear,"),),
    ),
    Limit(
        "a skin without corners",
        "cover not laid",
        changed(WALL, "GO", "1/4 in"),
        (f"{CORNERS}, ", ""),
        ("right wall", "right wall"),
        Level.WORTH,
        ("nobody can tell which wires lie behind “right wall”", "no corners"),
        (("name the places at its corners", "{fasteners", f"{{{CORNERS}, fasteners"),),
    ),
    Limit(
        "a chase that is not named",
        "panel not as measured",
        LINED,
        ("behind: groove", "behind: nothing"),
        ("lining", "lining"),
        Level.SHOULD,
        ("“groove” runs behind “lining”",),
        (("behind: [groove]", "behind: nothing", "behind: [groove]"),),
    ),
    # The corners 2 in further out than the wires: whoever stands in the middle has these before the panel.
    Limit(
        "a chase close before it",
        "panel not as measured",
        changed(LINED, "behind: groove", "behind: nothing, from: inside").replace("22 in", "26 in"),
        (", from: inside", ""),
        ("lining", "lining"),
        Level.SHOULD,
        ("close to “lining”", "in “groove”"),
        (("from: inside where", "behind: nothing", "behind: nothing, from: inside"),),
    ),
    # Both ends 6 in below the axis, 1 in apart along it: open by 90°, the root of 72 and 1 square inches, 8.54 in.
    Limit(
        "both ends while the hinge opens",
        "hinge loop too short",
        changed(HATCH, "SLACK", "7.6 in"),
        ("7.6 in", "7.5 in"),
        ("loop:", "loop"),
        Level.MUST,
        ("8 1/2 in",),
        (("slack: 9 in", "7.5 in", "9 in"),),
    ),
    # An arc of 120 mm over 25.4 mm is one of 21.9 mm; ten times 3.0 mm are 30 mm.
    Limit(
        "ten times the diameter",
        "hinge loop bends sharply",
        changed(HATCH, "SLACK", "8 in"),
        ("8 in", "4 in"),
        ("loop:", "loop"),
        Level.WORTH,
        ("1 1/8 in is the least",),
        (("slack: 9 in", "slack: 4 in", "slack: 9 in"),),
    ),
)
