"""The ways out of limits once walls are closed, where they differ from those of open walls.

By the limit's rule and name: what the help must print, and the words of the file with what stands in their place.
"""

from __future__ import annotations

Way = tuple[str, tuple[tuple[str, str], ...]]

_IN_SIGHT = "lay new wire where it stays in sight, size: {}"
_SMALLER = "use a smaller one: {}"


def _takes(part: str, words: str, old: str, new: str = "") -> Way:
    return f"“{part}” so that it takes less, {words} at most", ((old, new or words),)


_FURTHER = "lamp: {back: 7 ft, right: 2 ft", "lamp: {back: 7 ft, right: 20 in"


CLOSED_WAYS: dict[tuple[str, str], tuple[Way, ...]] = {
    ("bay closed too early", "a photo"): (
        ("where none was taken, write photo: none", (("3 May", "3 May, photo: none"),)),
    ),
    ("bay closed too early", "wires that are in"): (
        ("if they are in, write under pulled: light: yes", (("pulled: {", "pulled: {light: yes, "),)),
    ),
    ("bay closed too early", "the ends of a part that waits"): (
        ("then write ends insulated: yes", (("photo: one.jpg", "photo: one.jpg, ends insulated: yes"),)),
    ),
    ("bay closed too early", "something that must be fixed"): (
        ("put that right as its own finding says, with what stays in reach", (("lamp: 5 ft", "lamp: 8 ft"),)),
    ),
    ("colour of two meanings", "a feed in the colour of the returns"): (
        (
            "red sleeves over both ends of each feed of “light”, and write color: red",
            (("color: black", "color: red"),),
        ),
    ),
    ("colour of two meanings", "a return in the colour of the feeds"): (
        ("write return color: black", (("return color: red", "return color: black"),)),
    ),
    ("colour of two meanings", "a circuit whose feeds are all in the colour of the returns"): (
        ("write color: red", (("color: black", "color: red"),)),
    ),
    ("colour of two meanings", "a tracer that makes the difference"): (
        ("write color: red", (("color: white}", "color: red}"),)),
    ),
    ("colour of two meanings", "one colour for all wire"): (
        ("write return: black under wire", (("return: red", "return: black"),)),
    ),
    ("colour of two meanings", "two wires of one colour that never meet"): (
        ("write color: red", (("color: orange}", "color: red}"),)),
    ),
    ("colour of two meanings", "the colour of a tail lamp for the returns of the house"): (
        ("write return: white under wire", (("return: black", "return: white"),)),
    ),
    ("colour of two meanings", "the colour of the plug's ground for the feeds of the house"): (
        ("write feed: red under wire", (("feed: white", "feed: red"),)),
    ),
    ("colour of two meanings", "one feed of the house in the colour of the plug's ground"): (
        ("write color: red", (("color: white", "color: red"),)),
    ),
    ("colour of two meanings", "the colours of a protective conductor"): (
        ("write color: red", (("green with yellow", "red"),)),
    ),
    ("alarm switched off", "an alarm behind the isolating switch"): (
        ("from: main fuse, fuse: 3 A", (("from: isolating switch", "from: main fuse"),)),
        (
            "an alarm with a battery of its own, and take this one out",
            (
                ("parts: {gas alarm: {kind: alarm, draws: 80 mA}}\n", ""),
                (
                    "circuits:\n  gas alarm: {from: isolating switch, fuse: 3 A, path: [gas alarm: 6 ft]}\n",
                    "",
                ),
            ),
        ),
    ),
    ("alarm switched off", "an alarm in the fuse block behind the isolating switch"): (
        ("from: main fuse, fuse: 3 A", (("fuse: 3 A", "from: main fuse, fuse: 3 A"),)),
    ),
    ("alarm switched off", "an isolating switch before the main fuse"): (
        ("from: battery, fuse: 3 A", (("from: main fuse", "from: battery"),)),
    ),
    ("alarm switched off", "an alarm behind a switch of its own"): (
        ("fuse: 3 A, path: [gas alarm: …]", (("night switch: 2 ft, ", ""),)),
    ),
    ("strip too long", "10 % at the far end of a strip"): (
        ("shorten it, lit length: 15 ft at most", (("lit length: 16 ft", "lit length: 15 ft"),)),
    ),
    ("strip too long", "what a strip works from"): (
        ("shorten it, lit length: 14 ft 6 in at most", (("23 ft", "14 ft 6 in"),)),
    ),
    ("strip too long", "a metric strip"): (("lit length: 4.80 m at most", (("5 m}", "4.8 m}"),)),),
    ("fastener reaches wire", "half of the thickest wire"): (
        ("put in ones that go in 1 3/8 in at most", (("49.4 mm", "1 3/8 in"),)),
    ),
    ("fastener reaches wire", "the bore of a conduit"): (
        ("put in ones that go in 1 in at most", (("fasteners go in: 1 1/2 in", "fasteners go in: 1 in"),)),
    ),
    ("fastener reaches wire", "a plate all along, and one over holes"): (
        (
            "put in ones that go in 1 3/8 in at most",
            (("fasteners go in: 2 in", "fasteners go in: 1 3/8 in"),),
        ),
    ),
    ("fastener near wire", "a plate all along, and one over holes near the face"): (
        (
            "plate: 1/16 in where the file has those wires, without holes and from the edge",
            ((", holes: 1/2 in", ""),),
        ),
    ),
    ("fastener near wire", "a hinge loop beside fasteners"): (
        ("take out the fasteners of “right wall” where the loop hangs or moves", (_FURTHER,)),
    ),
    ("fastener reaches wire", "the line of a hinge loop"): (
        ("take out the fasteners of “right wall” where the loop hangs or moves", (_FURTHER,)),
    ),
    ("fastener near wire", "the error of a tape measure"): (
        ("put in ones that go in 1 3/8 in at most", (("37.9 mm", "1 3/8 in"),)),
    ),
    ("fastener near wire", "1 1/4 in behind the face"): (
        (
            "lay steel plates on its face first, and write plate: 1/16 in",
            (("lamp]}", "lamp], plate: 1/16 in}"),),
        ),
    ),
    ("hinge loop too short", "both ends while the hinge opens"): (
        ("a longer piece between two connectors outside the walls, slack: 9 in", (("7.5 in", "9 in"),)),
    ),
    ("hinge loop bends sharply", "ten times the diameter"): (
        (
            "a longer piece between two connectors outside the walls, slack: 9 in",
            (("slack: 4 in", "slack: 9 in"),),
        ),
    ),
    ("fuse above wire", "a fuse on 16 AWG"): (
        (_SMALLER.format("fuse: 10 A"), (("fuse: 15 A", "fuse: 10 A"),)),
    ),
    ("fuse above wire", "a fuse on 14 AWG"): ((_SMALLER.format("fuse: 15 A"), (("20 A", "15 A"),)),),
    ("fuse above wire", "a breaker on 16 AWG goes by the chart's own column"): (
        (_SMALLER.format("rating: 15 A"), (("rating: 20 A", "rating: 15 A"),)),
    ),
    ("fuse above wire", "the boat rule, where the file asks for it"): (
        (_SMALLER.format("fuse: 20 A"), (("25 A", "20 A"),)),
    ),
    ("fuse above wire", "a metric size goes by the gauge below it"): (
        (_SMALLER.format("fuse: 15 A"), (("20 A", "15 A"),)),
    ),
    ("fuse above wire", "a return that is another circuit's"): (
        (_SMALLER.format("fuse: 10 A"), (("fuse: 15 A", "fuse: 10 A"),)),
    ),
    ("fuse above wire", "a load that needs its fuse"): (
        (
            "fuse: 10 A; the load needs more, so choose “heater” so that it takes less, draws: 8 A at most",
            (("fuse: 15 A", "fuse: 10 A"), ("draws: 12 A", "draws: 8 A")),
        ),
    ),
    ("no own fuse", "a fuse of its own that stands far along"): (
        ("let at most 7 in of wire lead to its fuse", (("alarm fuse: 7.5 in", "alarm fuse: 7 in"),)),
    ),
    ("load above fuse", "a charger that no blade fuse carries"): (
        (
            "choose “shore converter” so that it gives less, gives: 32 A at most",
            (("gives: 33 A", "gives: 32 A"),),
        ),
    ),
    ("load above fuse", "a larger fuse needs thicker wire"): (
        _takes("heater", "draws: 8 A", "draws: 8.01 A"),
    ),
    ("load above fuse", "no rating between load and wire by a table from memory"): (
        _takes("heater", "draws: 6 A", "draws: 6.1 A"),
        (_IN_SIGHT.format("14 AWG"), (("heater: {path", "heater: {size: 14 AWG, path"),)),
    ),
    ("load above fuse", "no rating between load and wire by the chart"): (
        _takes("heater", "draws: 6 A", "draws: 12 A"),
        (_IN_SIGHT.format("14 AWG"), (("size: 16 AWG", "size: 14 AWG"),)),
    ),
    ("lamp missing", "identification lamps from 80 in of width on"): (
        (
            "lay its wire where it stays in sight: let a lamp there show identification too",
            (
                (
                    "road lamps:\n",
                    "road lamps:\n  top bar: {shows: identification, at: rear, count: 3, wire: 20 ft}\n",
                ),
            ),
        ),
    ),
    ("lamp missing", "fenders make a trailer wide"): (
        (
            "stays in sight: let a lamp there show clearance too",
            (
                (
                    "  plate lamp",
                    "  rear clearance: {shows: clearance, side: both, at: rear, wire: 22 ft}\n  plate lamp",
                ),
            ),
        ),
    ),
    ("lamp missing", "middle markers from 30 ft of length on"): (
        (
            "stays in sight: let a lamp there show marker too",
            (
                (
                    "  plate lamp",
                    "  middle marker: {shows: marker, side: both, at: middle, wire: 15 ft}\n  plate lamp",
                ),
            ),
        ),
    ),
    ("lamp missing", "front markers from 6 ft of length on"): (
        (
            "stays in sight: let a lamp there show marker too",
            (
                (
                    "  plate lamp",
                    "  front marker: {shows: marker, side: both, at: front, wire: 5 ft}\n  plate lamp",
                ),
            ),
        ),
    ),
    ("lamp missing", "side markers over 6 m of length"): (
        (
            "stays in sight: let a lamp there show marker too",
            (
                (
                    "  plate lamp",
                    "  side marker: {shows: marker, side: both, at: middle, wire: 4 m}\n  plate lamp",
                ),
            ),
        ),
    ),
    ("lamp missing", "front position lamps over 1.6 m of width"): (
        (
            "stays in sight: let a lamp there show front position too",
            (("  plate lamp", "  front lamp: {shows: front position, side: both, wire: 3 m}\n  plate lamp"),),
        ),
    ),
    ("lamp missing", "a reversing lamp over 750 kg"): (
        (
            "stays in sight: let a lamp there show reverse too",
            (("shows: plate", "shows: [plate, reverse]"),),
        ),
    ),
    ("lamp at wrong height", "a tail lamp at 72 in"): (
        ("with its wire led on where it stays in sight", (("height: 73 in", "height: 72 in"),)),
    ),
    ("lamp at wrong height", "a marker at 15 in"): (
        ("with its wire led on where it stays in sight", (("height: 14.9 in", "height: 15 in"),)),
    ),
    ("brakes not fed", "as many brakes as have a wire"): (
        ("write magnets: 2 under brakes", (("magnets: 4", "magnets: 2"),)),
        (
            "lay wire to the rest along the frame",
            (
                (
                    "right brake: {kind: brake magnet}}",
                    "right brake: {kind: brake magnet}, third: {kind: brake magnet}, "
                    "fourth: {kind: brake magnet}}",
                ),
                ("right brake: 5 ft]", "right brake: 5 ft, third: 3 ft, fourth: 5 ft]"),
            ),
        ),
    ),
    ("lamp on hatch", "a lamp on the hatch"): (
        ("beside the hatch, with wire that stays in sight", (("on the hatch: yes", "on the hatch: no"),)),
    ),
    ("drop above advice", "3 % at a pump"): (
        _takes("pump", "draws: 3.9 A", "draws: 4 A"),
        (_IN_SIGHT.format("14 AWG"), (("pump: {path", "pump: {size: 14 AWG, path"),)),
    ),
    ("drop above advice", "3 % at a pump, through a battery line that is thin"): (
        _takes("pump", "draws: 3.8 A", "draws: 4 A"),
        (_IN_SIGHT.format("12 AWG"), (("size: 14 AWG}", "size: 12 AWG}"),)),
    ),
    ("drop above advice", "3 % at a part that the car feeds through the plug"): (
        _takes("box", "draws: 44 W", "draws: 45 W"),
        (_IN_SIGHT.format("14 AWG"), (("cool: {from", "cool: {size: 14 AWG, from"),)),
    ),
    ("drop above advice", "10 % at road lamps"): (
        _takes(
            "rear lamp", "draws: {stop: 1.9 A}", "path: [rear lamp", "draws: {stop: 1.9 A}, path: [rear lamp"
        ),
        (
            _IN_SIGHT.format("16 AWG"),
            (("rear lamp: 35 ft", "rear lamp: {length: 35 ft, size: 16 AWG}"),),
        ),
    ),
    ("too low voltage", "thicker wire brings the voltage"): (
        _takes("box", "draws: 3.7 A", "draws: 4 A"),
        (_IN_SIGHT.format("14 AWG"), (("cool: {path", "cool: {size: 14 AWG, path"),)),
    ),
    ("too low voltage", "the voltage that is usual for a kind"): (
        ("works from: 10.3 V", (("draws: 5 A", "draws: 5 A, works from: 10.3 V"),)),
        _takes("box", "draws: 4.9 A", "draws: 5 A"),
        (_IN_SIGHT.format("14 AWG"), (("{path", "{size: 14 AWG, path"),)),
    ),
    ("too low voltage", "thicker wire of the battery's own line brings the voltage"): (
        _takes("box", "draws: 3.6 A", "draws: 4 A"),
        (_IN_SIGHT.format("12 AWG"), (("size: 14 AWG", "size: 12 AWG"),)),
    ),
    ("too low voltage", "no thicker wire brings the voltage"): (
        ("choose a part that works from less", (("11.49 V", "9.6 V"),)),
    ),
    ("too low voltage", "thicker wire at an item brings the voltage"): (
        _takes("box", "draws: 2.2 A", "draws: 4 A"),
        (_IN_SIGHT.format("14 AWG"), (("size: 18 AWG", "size: 14 AWG"),)),
    ),
    ("part not wired", "a part that no path names"): (
        (
            "lay its wire where it stays in sight and name it in a path, as in path: [lamp: 6 ft]",
            (("circuits:", "circuits:\n  light: {path: [lamp: 6 ft]}"),),
        ),
    ),
    ("part not wired", "a return to a frame that nothing bonds"): (
        ("frame bond: 8 AWG", (("2 ft}", "2 ft, frame bond: 8 AWG}"),)),
        ("lay a ground wire where it stays in sight, and take return: frame out", (("return: frame, ", ""),)),
    ),
    ("frame return", "the frame as a return"): (
        ("where it stays in sight, or use a spare wire: take return: frame out", (("return: frame, ", ""),)),
    ),
    ("wire overloaded", "the table's own figure"): (
        _takes("heater", "draws: 8.1 A", "draws: 10.1 A"),
        (_IN_SIGHT.format("16 AWG"), (("size: 18 AWG", "size: 16 AWG"),)),
    ),
    ("wire overloaded", "the table's figure in warm surroundings"): (
        _takes("heater", "draws: 8.1 A", "draws: 8.2 A"),
    ),
    ("wire overloaded", "an item with a size of its own"): (
        _takes("heater", "draws: 8.1 A", "draws: 10.1 A"),
    ),
    ("wire overloaded", "road lamps on thin wire"): (
        _takes("plate lamp", "draws: {plate: 8.1 A}", "draws: {plate: 10.1 A}"),
        (_IN_SIGHT.format("16 AWG"), (("18 AWG", "16 AWG"),)),
    ),
    ("breakaway not reaching", "a breakaway that leaves a brake out"): (
        (
            "that can be reached under the floor, with wire that stays in sight",
            (("[switch: 1 ft]", "[switch: 1 ft, right: 9 ft]"),),
        ),
    ),
    ("plug ground shared", "more than the plug's one ground carries"): (
        ("a charger that takes less", (("13 A", "12 A"),)),
    ),
    ("plug ground shared", "more than lamps should lose in their ground"): (
        ("a charger that takes less", (("draws: 6 A", "draws: 1 A"),)),
    ),
    ("wire too short", "the way through a groove"): (
        ("the length that it has, 9 ft or so", (("7 ft 10 in", "9 ft"),)),
    ),
    ("wire too short", "the rise to a part"): (("10 ft or so", (("8 ft 10 in", "10 ft"),)),),
    ("wire too short", "the slack that the file gives for a hinge"): (
        ("9 ft 10 in or so", (("8 ft 8 in", "9 ft 10 in"),)),
    ),
    ("wire longer than way", "a quarter and 18 in beyond the way"): (
        ("if the length is a slip, write 9 ft", (("12 ft 10 in", "9 ft"),)),
    ),
    ("wire too short", "a line from the plug past a fuse without a place"): (
        ("write the lengths that they have, 7 ft or so together", (("5 ft 10 in", "6 ft"),)),
    ),
    ("wire too short", "a line from the plug that no chase leads"): (
        ("write the lengths that they have, 7 ft or so together", (("5 ft 10 in", "6 ft"),)),
    ),
    ("wire too short", "a line from the plug with places at both its ends"): (
        ("the length that it has, 7 ft or so", (("6 ft 10 in", "7 ft"),)),
    ),
    ("wire longer than way", "a quarter and 18 in beyond the way of a line from the plug"): (
        ("if a length is a slip, write 7 ft for them together", (("9 ft 4 in", "6 ft"),)),
    ),
    ("no way for wire", "chases that meet at a named place"): (
        (
            "photos from before the walls were closed, and write down the way that it took, as in link: {through: "
            "[corner, lamp]}",
            (("corner]}}", "corner]}, link: {through: [corner, lamp]}}"),),
        ),
    ),
    ("no way for wire", "a place for what a wire leads to through a chase"): (
        (
            "write under the part the place where it stands, as in place: lamp; until then drive nothing",
            (("kind: lamp", "place: lamp, kind: lamp"),),
        ),
    ),
    ("conduit too full", "31 % for two wires"): (
        (
            "lay them where they stay in sight, and write their way under through: 1A, 1B",
            (
                ("chases: {", "chases: {surface: {through: [front box, lamp], kind: open bay}, "),
                ("lamp: 8 ft", "lamp: {length: 8 ft, through: surface}"),
            ),
        ),
    ),
    ("conduit too full", "two wires that do not go in"): (
        (
            "lay them where they stay in sight",
            (
                ("chases: {", "chases: {surface: {through: [front box, lamp], kind: open bay}, "),
                ("lamp: 8 ft", "lamp: {length: 8 ft, through: surface}"),
            ),
        ),
    ),
    ("entry hole full", "31 % for two wires through a hole"): (
        (
            "make a second hole in the box",
            (("takes: lamp}", "takes: frame}, second hole: {bore: 9 mm, takes: lamp}"),),
        ),
    ),
    ("entry hole full", "two wires that do not go through a hole"): (
        (
            "make a second hole in the box",
            (("takes: lamp}", "takes: frame}, second hole: {bore: 9 mm, takes: lamp}"),),
        ),
    ),
    ("wires may jam", "3.2 times the diameter"): (
        (
            "a fourth, spare wire drawn in later ends it",
            (("spares:\n", "spares:\n  fourth: {from: front box, to: lamp, wire: 8 ft, size: 16 AWG}\n"),),
        ),
    ),
    ("wires may jam", "2.8 times the diameter"): (
        (
            "a fourth, spare wire drawn in later ends it",
            (("spares:\n", "spares:\n  fourth: {from: front box, to: lamp, wire: 8 ft, size: 16 AWG}\n"),),
        ),
    ),
    ("wire too thin", "a bond of 8 AWG"): (
        ("lay a bond of its own", (("frame bond: 10 AWG", "frame bond: 8 AWG"),)),
    ),
    ("wire too thin", "a bond under the battery's lead"): (
        ("frame bond: 4 AWG", (("frame bond: 6 AWG", "frame bond: 4 AWG"),)),
    ),
    ("wire too thin", "a metric bond under the battery's lead"): (
        ("frame bond: 6 mm²", (("frame bond: 4 mm²", "frame bond: 6 mm²"),)),
    ),
    ("wire too thin", "a circuit of single wires"): (
        (_IN_SIGHT.format("16 AWG"), (("size: 18 AWG", "size: 16 AWG"),)),
    ),
    ("wire too thin", "an item of single wire"): ((_IN_SIGHT.format("16 AWG"), (("18 AWG", "16 AWG"),)),),
    ("wire too thin", "road lamps on single wire"): ((_IN_SIGHT.format("16 AWG"), (("18 AWG", "16 AWG"),)),),
    ("wire too thin", "a coloured feed where pairs are bought"): (
        (_IN_SIGHT.format("16 AWG"), (("size: 18 AWG", "size: 16 AWG"),)),
    ),
    ("wire too thin", "a size that is not on the shelf"): (
        (_IN_SIGHT.format("16 AWG"), (("18 AWG", "16 AWG"),)),
    ),
    ("wire too thin", "a feed and a return of other lengths"): (
        (_IN_SIGHT.format("16 AWG"), (("{path", "{size: 16 AWG, path"),)),
    ),
    ("wire too thin", "a shelf of pairs"): (
        (_IN_SIGHT.format("16 AWG"), (("{color: blue", "{size: 16 AWG, color: blue"),)),
    ),
    ("wire too thin", "a shelf of single wires"): (
        (_IN_SIGHT.format("16 AWG"), (("{path", "{size: 16 AWG, path"),)),
    ),
    ("battery not charged", "a line that ends before the battery"): (
        (
            "lay its wire where it stays in sight: add a line",
            (("[controller: 8 ft]", "[controller: 8 ft, battery fuse: 1 ft, battery: 6 in]"),),
        ),
    ),
    ("battery not charged", "a plug that could charge"): (
        (
            "lay its wire where it stays in sight: add a line",
            (("charger: 7 ft]", "charger: 7 ft, battery fuse: 2 ft, battery: 6 in]"),),
        ),
    ),
    ("battery not charged", "shore power alone"): (
        (
            "lay its wire where it stays in sight: add a line",
            (
                (
                    "circuits:",
                    "circuits:\n  sun: {from: shore converter, path: [end fuse: 3 ft, front box: 5 in]}",
                ),
            ),
        ),
    ),
    ("hinge without connector", "a connector at the hinge"): (
        (
            "put a connector into the wires where the loop can be reached",
            (("path: [lamp: 8 ft 6 in]", "path: [hatch plug: 7 ft, lamp: 18 in]"),),
        ),
    ),
    ("hinge without connector", "a connector elsewhere"): (
        ("place: rib", (("ways: 2, place: front box", "ways: 2, place: rib"),)),
    ),
    ("frame return", "a return through a hinge"): (
        ("past the hinge and back to the front box where it stays in sight", (("return: frame, ", ""),)),
    ),
    ("bend too sharp", "ten times the thickest wire"): (
        (
            "lay new wire where it stays in sight, and write its way under through",
            (
                ("chases: {", "chases: {surface: {through: [front box, lamp], kind: open bay}, "),
                ("lamp: 8 ft", "lamp: {length: 8 ft, through: surface}"),
            ),
        ),
    ),
    ("block in the way", "a backing block beside a chase"): (
        (
            "drive no screw into the block where the chase passes it",
            (("[front box, lamp]}", "[front box, lamp], plate: 1/16 in}"),),
        ),
    ),
    ("block in the way", "a backing block beside a chase for mains"): (
        (
            "a licensed person can tell where the mains cable runs",
            (("657.6 mm", "657.8 mm"),),
        ),
    ),
    ("chase over opening", "a groove beside an opening"): (
        (
            "saw nothing there before you know where the wires of “groove” run",
            (("608.5 mm", "608.7 mm"),),
        ),
    ),
    ("chase over opening", "a mains cable beside an opening"): (
        ("a licensed person can tell where the mains cable runs", (("608.5 mm", "608.7 mm"),)),
    ),
    ("hole near edge", "1 1/4 in to the edge"): (
        (
            "plates on the face of the skin over the holes, and write plate: 1/16 in",
            (("from the edge", "plate: 1/16 in, from the edge"),),
        ),
    ),
    ("hole near edge", "a plate of 1/16 in"): (("write plate: 1/16 in", (("1/32 in", "1/16 in"),)),),
    ("supports far apart", "450 mm between supports"): (
        (
            "where it can be reached, until they are no further apart than supports every: 17 3/4 in",
            (("18 1/8 in", "17 3/4 in"),),
        ),
    ),
    ("supports far apart", "what no rule of boats allows"): (
        ("supports every: 17 3/4 in", (("25 in", "17 3/4 in"),)),
    ),
    ("supports far apart", "300 mm beside a battery cable"): (
        ("supports every: 11 3/4 in", (("13 in", "11 3/4 in"),)),
    ),
    ("hole without grommet", "a grommet in sheet metal"): (
        (
            "put a split grommet round the wires, and write grommets: yes",
            (("grommets: no", "grommets: yes"),),
        ),
    ),
    ("hole without grommet", "a grommet in the body's skin"): (
        (
            "put a split grommet round the wires, and write grommets: yes",
            (("grommets: no", "grommets: yes"),),
        ),
    ),
    ("wires beside mains", "1/2 in to mains"): (
        (
            "where they can be reached, and write divided: yes",
            (("carries: mains", "carries: mains, divided: yes"),),
        ),
    ),
    ("wires beside mains", "a divider between mains and wires"): (
        ("where they can be reached, and write divided: yes", (("divided: no", "divided: yes"),)),
    ),
    ("wires beside mains", "a divider of which nothing is said"): (
        (
            "where they can be reached, and write divided: yes",
            (("carries: both", "carries: both, divided: yes"),),
        ),
    ),
    ("wires near heat", "heat beside a chase"): (
        (
            "lay new wire where it stays in sight, away from it",
            (("near heat: flue", "where: under the bed"),),
        ),
    ),
}
