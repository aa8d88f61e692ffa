"""Slips of the hand in a sound build: what stood there, and what was written instead."""

from __future__ import annotations

SOUND = """\
format: 1
build: {name: Bean Row, country: US}
battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 4 ft}
front box: {fuse ways: 6, fuses: blade, fuses on the shelf: [3 A, 5 A]}
tow plug: {pattern: 7-way blade, to front box: 7 ft}
wire: {on the shelf: [16 AWG, 14 AWG], sold as: pair, insulation: 90 C}
parts:
  fan: {kind: fan, draws: 3 A}
  lamp:
    kind: lamp
    draws: 6 W
    note: a lamp
  switch: {kind: switch}
  left switch: {kind: two-way switch}
  right switch: {kind: two-way switch}
  stair lamp: {kind: lamp}
  plug: {kind: connector, ways: 8}
  remote: {kind: receiver, outputs: 2}
  porch lamp: {kind: lamp}
  relay: {kind: relay}
circuits:
  fan: {path: [plug: 2 ft, fan: 12 ft]}
  light:
    path:
      - switch: 3 ft
      - lamp: 4 ft
    note: "at the door"
  stairs: {path: [left switch: 3 ft, right switch: 9 ft, stair lamp: 2 ft]}
  porch: {path: [remote: 1 ft, porch lamp: 9 ft], branches: [{from: fuse, path: [relay: {length: 3 ft, as: coil}]}]}
road lamps:
  rear lamp: {shows: [tail, stop, turn], side: both, path: [plug: 17 ft, rear lamp: 3 ft]}
in stock: {labels: 5, wire: {red 16 AWG: 3 m}, terminals: {ring 16 AWG: 2}}
assume: {copper temperature: 60 C}
"""

SLIPS_OF_SIGNS = {
    # signs, quotes, tags
    "tag before a value": ("kind: fan", "kind: !fan fan"),
    "tag before a word of a block": ("    note: a lamp", "    note: !x a lamp"),
    "exclamation mark": ("note: a lamp", "note: !loud"),
    "ampersand before a group": ("lamp:\n    kind", "lamp: &lamp\n    kind"),
    "alias of nothing": ("stair lamp: {kind: lamp}", "stair lamp: *lamp"),
    "group in itself": ("  lamp:\n    kind: lamp", "  lamp: &it\n    kind: *it"),
    "at sign": ("note: a lamp", "note: @door"),
    "percent sign": ("note: a lamp", "note: %5 of it"),
    "percent sign at the start of a line": ("in stock:", "%in stock:"),
    "backquote": ("note: a lamp", "note: `a lamp`"),
    "bar for a block": ("note: a lamp", "note: |x"),
    "greater than": ("note: a lamp", "note: >x"),
    "question mark": ("  switch: {kind", "  ? switch: {kind"),
    "curly quotes": ('"at the door"', "\u201cat the door\u201d"),
    "curly quotes with a colon": ('"at the door"', "\u201cat: the door\u201d"),
    "curly quotes in braces": ("draws: 3 A}", "draws: 3 A, where: \u201cleft, below\u201d}"),
    "quote never closed": ('"at the door"', '"at the door'),
    "quote never closed before a name": ("    note: a lamp", '    "note: a lamp'),
    "quote never closed in braces": ("draws: 3 A}", 'draws: 3 A, where: "left}'),
    "single quote never closed": ('"at the door"', "'at the door"),
    "apostrophe in single quotes": ('"at the door"', "'at the maker's door'"),
    "quotes in quotes": ('"at the door"', '"at the "left" door"'),
    "inch mark in quotes": ('"at the door"', '"14" from the door"'),
    "inch mark at the end of quotes": ('"at the door"', '"pulled 14""'),
    "text behind quotes": ('"at the door"', '"at the" door'),
    "text behind quotes in braces": ("draws: 3 A}", 'draws: 3 A, where: "left" wall}'),
    "backslash in quotes": ('"at the door"', '"at the \\door"'),
    "backslash and a number": ('"at the door"', '"at \\U00110000"'),
    "two backslashes": ('"at the door"', '"C:\\photos\\door"'),
    "mark of a comment in a value": ("note: a lamp", "note: lamp #2"),
    "comment that takes the bracket": ("draws: 3 A}", "draws: 3 A #2}"),
    "comment behind a comma": ("{kind: switch}", "{kind: switch, # }"),
    # brackets and commas
    "two commas": ("16 AWG, 14", "16 AWG,, 14"),
    "comma before the first item": ("[16 AWG", "[, 16 AWG"),
    "comma at the end": ("14 AWG]", "14 AWG,]"),
    "dash in brackets": ("[16 AWG, 14 AWG]", "[- 16 AWG, 14 AWG]"),
    "dashes for commas": ("[16 AWG, 14 AWG]", "[\n    - 16 AWG\n    - 14 AWG]"),
    "bracket not closed": ("14 AWG]", "14 AWG"),
    "brace not closed": ("{kind: switch}", "{kind: switch"),
    "brace not closed over lines": ("{kind: switch}", "{kind: switch,\n    note: x"),
    "last bracket of the file not closed": ("60 C}", "60 C"),
    "bracket of the other kind": ("{kind: switch}", "{kind: switch]"),
    "bracket for a brace": ("14 AWG]", "14 AWG}"),
    "bracket too many": ("{kind: switch}", "{kind: switch}}"),
    "text behind brackets": ("{kind: switch}", "{kind: switch} by the door"),
    "name behind braces": ("{kind: switch}", "{kind: switch}, note: x"),
    "stray comma": ("in stock:", ",\nin stock:"),
    "closing bracket alone": ("in stock:", "]\nin stock:"),
    "comma missing between words": ("kind: fan, draws", "kind: fan draws"),
    "comma missing between items": ("plug: 2 ft, fan", "plug: 2 ft fan"),
    "comma missing behind a group": ("as: coil}]}]}", "as: coil} fan: 2 ft]}]}"),
    "comma in a text in braces": ("draws: 3 A}", "draws: 3 A, where: left, below}"),
    # colons, dashes, lines
    "two colons": ("    note: a lamp", "    note:: a lamp"),
    "second colon": ("note: a lamp", "note: see: page 3"),
    "second colon in braces": ("draws: 3 A}", "draws: 3 A, where: see: left}"),
    "names on one line": ("    note: a lamp", "    note: x, where: left"),
    "no space behind the colon": ("    note: a lamp", "    note:a lamp"),
    "no space behind the colon in braces": ("kind: switch}", "kind:switch}"),
    "no colon": ("    note: a lamp", "    note"),
    "no colon and a value": ("    note: a lamp", "    note a lamp"),
    "no colon behind a heading": ("circuits:", "circuits"),
    "no colon before braces": ("  switch: {", "  switch {"),
    "no name before the colon": ("    note: a lamp", "    : a lamp"),
    "no name in braces": ("kind: switch}", ": switch}"),
    "list as a name": ("    note: a lamp", "    [note]: a lamp"),
    "group as a name": ("    note: a lamp", "    {note}: a lamp"),
    "list as a name in braces": ("kind: switch}", "[kind]: switch}"),
    "dash behind a name": ("path:\n      - switch: 3 ft", "path: - switch: 3 ft"),
    "dash among names": ("    note: a lamp", "    - note: a lamp"),
    "no dash": ("      - lamp: 4 ft", "      lamp: 4 ft"),
    "no dash and set in further": ("      - lamp: 4 ft", "        lamp: 4 ft"),
    "empty item": ("      - lamp: 4 ft", "      -\n      - lamp: 4 ft"),
    "set in by one": ("    note: a lamp", "     note: a lamp"),
    "set in by one less": ("    note: a lamp", "   note: a lamp"),
    "heading set in": ("in stock:", "  in stock:"),
    "first line set in": ("build:", " build:"),
    "tab before a name": ("    note: a lamp", "\tnote: a lamp"),
    "tabs before two names": ("    draws: 6 W\n    note", "\tdraws: 6 W\n\tnote"),
    "tab in a value": ("note: a lamp", "note: a\tlamp"),
    "three dashes": ("parts:", "---\nparts:"),
    "three dots": ("parts:", "...\nparts:"),
    "dashes at the start": ("format: 1", "---\nformat: 1"),
    "list at the top": ("format: 1", "- format: 1"),
    "merge key": ("    note: a lamp", "    <<: a lamp"),
    # characters
    "no-break space": ("note: a lamp", "note: a\u00a0lamp"),
    "no width": ("note: a lamp", "note: a\u200blamp"),
    "turned direction": ("note: a lamp", "note: a \u202elamp"),
    "mark of the byte order": ("note: a lamp", "note: a \ufefflamp"),
    "bell": ("note: a lamp", "note: a \x07lamp"),
    "line separator": ("note: a lamp", "note: a\u2028lamp"),
    "half a character": ('"at the door"', '"at \\ud83d the door"'),
    "other alphabet": ("  fan: {kind", "  f\u0430n: {kind"),
    "two alphabets": (
        "  stair lamp: {kind: lamp}",
        "  stair lamp: {kind: lamp}\n  st\u0430ir lamp: {kind: lamp}",
    ),
    "long name": ("  switch: {kind", f"  {'long ' * 30}switch: {{kind"),
    "endless name": ("  switch: {kind", f"  {'long ' * 300}switch: {{kind"),
    "long value": ("note: a lamp", f"note: {'long ' * 500}"),
    "name of signs": ("  remote: {kind", "  '***': {kind"),
    # names
    "name twice": ("  switch: {kind: switch}", "  switch: {kind: switch}\n  Switch: {kind: lamp}"),
    "heading twice": ("in stock:", "parts:\n  more: {kind: lamp}\nin stock:"),
    "unknown heading": ("in stock:", "cupboards: {left: 1}\nin stock:"),
    "part as a heading": ("in stock:", "vent: {kind: fan}\nin stock:"),
    "misspelt word": ("draws: 6 W", "drwas: 6 W"),
    "word of elsewhere": ("draws: 6 W", "capacity: 6 Ah"),
    "name as an item's word": ("lamp: 4 ft", "{name: lamp, length: 4 ft}"),
    "name inside an item": ("lamp: 4 ft", "lamp: {name: lamp, length: 4 ft}"),
    "two items in one": ("plug: 2 ft, fan: 12 ft", "{plug: 2 ft, fan: 12 ft}"),
    # more of each
    "no colon behind a short word": ("    note: a lamp", "    at 12 V"),
    "no space behind the first of two colons": ("kind: switch}", "kind:switch, note: x}"),
    "ampersand before an X": (
        "    kind: lamp\n    draws: 6 W\n    note: a lamp",
        "    note: &x Xenon lamp\n    kind: lamp\n    where: *x",
    ),
    "at sign before a heading": ("in stock:", "@stock: 1\nin stock:"),
    "at sign before a heading and a second colon": ("in stock:", "@stock: in: x\nin stock:"),
    "at sign for a heading": ("in stock:", "@: x\nin stock:"),
    "alias for a name": ("note: a lamp", "note: *lamp: x"),
    "sign behind braces": ("draws: 3 A}", "draws: 3 A} !x"),
    "name among an item's words": ("lamp: 4 ft", "{name: lamp, length: 4 ft, color: red}"),
    "joiner between letters": ("note: a lamp", "note: caf\u200d\u00e9"),
    "mark of a comment behind an open quote": ("    note: a lamp", '    note: "a # lamp'),
    "half a character at the start of a line": ("note: a lamp", 'note: "a\n\\ud83d lamp"'),
    "no colon and no dash": ("- switch: 3 ft\n      - lamp", "- switch 3 ft\n        lamp"),
    "set in by one below an item": (
        "      - lamp: 4 ft",
        "      - lamp:\n          length: 4 ft\n           color: red",
    ),
    "dashes in an item above": (
        "- lamp: 4 ft",
        "- lamp: {length: 4 ft, color: red - x}\n       color: red",
    ),
    "item among names": ("  fan: {kind: fan, draws: 3 A}\n", "  - fan\n    x: y\n"),
    "item before names": ("  lamp:\n    kind: lamp\n", "  lamp:\n      - y\n    kind: lamp\n"),
    "two lines set in by one less, a blank line between": (
        "    draws: 6 W\n    note: a lamp\n",
        "    where: here\n   draws: 6 W\n\n   note: a lamp\n",
    ),
    "part set in among the words of the one above": (
        "  right switch: {kind: two-way switch}\n",
        "    right switch:\n      kind: two-way switch\n    note: by the door\n",
    ),
    "group set in by one": ("  lamp:\n    kind: lamp\n", "   lamp:\n     kind: lamp\n"),
    "comma forgotten before the next line": ("draws: 3 A}", "draws: 3 A\n    note: x}"),
    "curly quotes around braces": ("{kind: switch}", "\u201c{kind: switch}\u201d"),
    "empty braces": ("switch: {kind: switch}", "switch: {}"),
    "comma in a number in brackets": ("[3 A, 5 A]", "[7,5 A, 5 A]"),
}
"""Slips of signs, brackets, colons, characters and names: what stood there, what was written instead, by name."""

SLIPS_OF_WORDS = {
    # values
    "empty value": ("draws: 6 W", "draws:"),
    "list for a value": ("draws: 6 W", "draws: [6 W]"),
    "group for a value": ("draws: 6 W", "draws: {most: 6 W}"),
    "group for a count": ("ways: 8", "ways: {all: 8}"),
    "group for a colour": ("sold as: pair", "feed: {base: red}"),
    "value for a group": ("remote: {kind: receiver, outputs: 2}", "remote: receiver"),
    "half a way": ("ways: 8", "ways: 8.5"),
    "cold insulation": ("insulation: 90 C", "insulation: 20 C"),
    "hot insulation": ("insulation: 90 C", "insulation: 500 C"),
    "thin wire": ("16 AWG, 14", "30 AWG, 14"),
    "thin wire in millimetres": ("16 AWG, 14 AWG", "0.14 mm\u00b2"),
    "wire of electronics": ("16 AWG, 14", "22 AWG, 14"),
    "thin wire between two sizes": ("16 AWG, 14", "19 AWG, 14"),
    "size of two wires": ("16 AWG, 14", "2 x 16 AWG, 14"),
    "colour of no wire": ("sold as: pair", "feed: mauve"),
    "format 2": ("format: 1", "format: 2"),
    "yes for a colour": ("sold as: pair", "feed: yes"),
    "unknown assumption": ("copper temperature: 60 C", "weather: fine"),
    "assumption without its words": ("copper temperature: 60 C", "hours of fan: always"),
    "copper colder than any": ("copper temperature: 60 C", "copper temperature: -50 C"),
    "insulation colder than any": ("copper temperature: 60 C", "insulation temperature: 50 C"),
    "insulation hotter than any": ("copper temperature: 60 C", "insulation temperature: 201 C"),
    "charging at half a volt": ("copper temperature: 60 C", "charging voltage: 0.5 V"),
    "sun of 61 V": ("copper temperature: 60 C", "solar voltage: 61 V"),
    "drop of 9 V": ("copper temperature: 60 C", "drop allowed in a feed: 9 V"),
    "fuse of 600 A": ("copper temperature: 60 C", "smallest fuse: 600 A"),
    "fuse in watts": ("copper temperature: 60 C", "smallest fuse: 3 W"),
    "bond of 30 m": ("copper temperature: 60 C", "frame bond length: 30 m"),
    "day of 25 h": ("copper temperature: 60 C", "hours of fan: 25 h"),
    "bundle of 70": ("copper temperature: 60 C", "wires side by side: 70 wires"),
    "drop of 200 %": ("copper temperature: 60 C", "drop aimed at: 200 %"),
    "stock of no size": ("red 16 AWG: 3 m", "red: 3 m"),
    "stock of a size between": ("red 16 AWG: 3 m", "red 15 AWG: 3 m"),
    "stock of no colour": ("red 16 AWG: 3 m", "16 AWG: 3 m"),
    "stock of a strange colour": ("red 16 AWG: 3 m", "rod 16 AWG: 3 m"),
    "terminal of no kind": ("ring 16 AWG: 2", "16 AWG: 2"),
    "part in stock that is none": ("labels: 5", "parts: [fan, zeppelin]"),
    "list for stock": ("wire: {red 16 AWG: 3 m}", "wire: [red 16 AWG]"),
    "blank left": ("draws: 6 W", "draws: ___"),
    "blank left for a name": ("  remote: {kind", "  ___: {kind"),
    # paths
    "two-way switch in the middle": ("stair lamp: {kind: lamp}", "stair lamp: {kind: two-way switch}"),
    "path through the battery": ("stair lamp: 2 ft]", "stair lamp: 2 ft, battery: 1 ft, fan: 2 ft]"),
    "branch from the front box": (
        "path: [remote: 1 ft, porch lamp: 9 ft], branches: [{from: fuse",
        "from: tow plug battery, path: [remote: 1 ft, porch lamp: 9 ft, front box: 1 ft], branches: [{from: front box",
    ),
    "branch from a coil": ("from: fuse, path: [relay", "from: relay, path: [relay"),
    "unknown output": ("from: fuse, path", "from: remote, output: 3, path"),
    "output of a plug": ("branches: [{from: fuse", "branches: [{from: porch lamp, output: 1"),
    "path of 101 items": ("[plug: 2 ft, fan: 12 ft]", f"[{'plug: 2 ft, ' * 100}fan: 12 ft]"),
    "start from nothing": ("fan: {path: [plug", "fan: {from: moon, path: [plug"),
    "start from another contact": ("fan: {path: [plug", "fan: {from: tow plug fog, path: [plug"),
    "return to nothing": ("fan: 12 ft]}", "fan: 12 ft], return: zeppelin}"),
    "return to a lamp": ("fan: 12 ft]}", "fan: 12 ft], return: lamp}"),
    "part not described": ("[plug: 2 ft, fan: 12 ft]", "[plug: 2 ft, vent: 12 ft]"),
    "item without its colon": ("fan: 12 ft]", "fan 12 ft]"),
    "to the tow plug": ("fan: 12 ft]", "fan: 12 ft, tow plug: 1 ft]"),
    "way by letter": ("plug: 2 ft", "plug: {length: 2 ft, terminal: b}"),
    "way beyond the last": ("plug: 2 ft", "plug: {length: 2 ft, terminal: 9}"),
    "fuse and its rating twice": ("fan: {path: [plug", "fan: {fuse: 3 A, way: 1, from: battery, path: [plug"),
    "road lamp with a switch": ("[plug: 17 ft, rear", "[switch: 17 ft, rear"),
    "road lamp behind a splice": ("[plug: 17 ft, rear", "[road splice: 17 ft, rear"),
    "road lamp without a way": (", path: [plug: 17 ft, rear lamp: 3 ft]", ""),
    "road lamp that shows nothing": ("shows: [tail, stop, turn]", "shows: []"),
    "road lamp that shows a word twice": ("[tail, stop, turn]", "[tail, tail]"),
    "functions without brackets": ("[tail, stop, turn]", "tail, stop"),
    "road lamp in the middle": ("side: both", "side: middle"),
    "draw of a road lamp": ("side: both", "side: both, draws: 2 A"),
    "road lamp without a length": ("rear lamp: 3 ft]", "rear lamp]"),
    "colour of a function not shown": ("side: both", "side: both, shines: {plate: white}"),
    "shared wire of two lengths": (
        "road lamps:",
        "road lamps:\n  plate lamp: {shows: plate, path: [plug: 9 ft, plate lamp: 1 ft]}",
    ),
    "face of a millimetre": (
        "front box: {",
        "front box face: {inside: {width: 1 mm, height: 300 mm}}\nfront box: {",
    ),
    "spare without a length": ("in stock:", "spares: {rear spare: {from: here, to: there}}\nin stock:"),
    "brakes without a kind": ("in stock:", "brakes: {drum: 10 in}\nin stock:"),
    "drum between two sizes": ("in stock:", "brakes: {kind: electric, drum: 9 in}\nin stock:"),
    "plug of one pin less": ("7-way blade", "6-way blade"),
    "spare from nowhere": ("in stock:", "spares: {rear spare: {to: there, wire: 3 ft}}\nin stock:"),
    "reflector without a place": ("in stock:", "reflectors: {rear reflector: {side: both}}\nin stock:"),
    "build without a name": ("name: Bean Row, ", ""),
    "first line without a colon": ("format: 1", "format 1"),
    "first line set in by two": ("format: 1", "  format: 1"),
    "comma in a number in braces": ("draws: 3 A}", "draws: 3,5 A}"),
    "comma in a number": ("draws: 6 W", "draws: 6,5 W"),
    "unit left out": ("draws: 6 W", "draws: 6"),
    "unit of another kind": ("draws: 6 W", "draws: 6 V"),
    "kind misspelt": ("kind: lamp\n", "kind: lmap\n"),
    "kind of no part": ("kind: lamp\n", "kind: zeppelin\n"),
    "word that does not fit": ("draws: 6 W", "draws: 6 W\n    ways: 3"),
    "part wired twice": ("fan: 12 ft]", "fan: 12 ft, lamp: 2 ft]"),
    "supply in a path": ("relay: {kind: relay}", "relay: {kind: solar module}"),
    "nameless fuse": ("[plug: 2 ft, fan", "[fuse: 2 ft, fan"),
    "relay without a coil": ("as: coil", "as: contact"),
    "no tow plug": ("tow plug: {pattern: 7-way blade, to front box: 7 ft}\n", ""),
    "no battery": (
        "battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 4 ft}\n",
        "",
    ),
    "no front box": ("front box: {fuse ways: 6, fuses: blade, fuses on the shelf: [3 A, 5 A]}\n", ""),
    "fuses without brackets": ("fuses on the shelf: [3 A, 5 A]", "fuses on the shelf: 3 A, 5 A, 10 A"),
    "output without a letter": ("outputs: 2", 'outputs: ["**", door]'),
    "curly quotes around an output": ("outputs: 2", "outputs: [\u201cdoor\u201d, sink]"),
    "draw of a two-way switch": ("{kind: two-way switch}", "{kind: two-way switch, draws: 1 A}"),
    "name of signs in a list": ("labels: 5,", 'labels: 5, parts: ["**"],'),
    "misspelt word of a ground bar": (
        "in stock:",
        "front box face: {inside: {width: 30 cm, height: 30 cm}, "
        "ground bar: {width: 20 cm, height: 2 cm, numberd: down}}\nin stock:",
    ),
    "third lamp with too few filaments": (
        "road lamps:\n",
        "road lamps:\n  plate lamp: {shows: plate, wire: 9 ft}\n"
        "  marker lamp: {shows: marker, side: both, bulb: 67, wire: 9 ft}\n"
        "  tail lamp: {shows: [tail, turn], bulb: 1156, side: both, wire: 9 ft}\n",
    ),
}
"""Slips of values, parts and paths, written down in the same way."""

SLIPS = SLIPS_OF_SIGNS | SLIPS_OF_WORDS


def build_with(slip: str) -> bytes:
    """Return the sound build with one slip in it."""
    there, instead = SLIPS[slip]
    assert there in SOUND
    return SOUND.replace(there, instead, 1).encode("utf-8", "surrogatepass")
