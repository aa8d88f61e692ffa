"""What each declaration is called, an example of it, and how a missing word of it is added: told by problems."""

from __future__ import annotations

from collections.abc import Mapping

from pydantic import BaseModel

from builder.buildfile import declared as words
from builder.buildfile import declared_body as body
from builder.buildfile import declared_circuits as circuits
from builder.buildfile import declared_closing as closing
from builder.buildfile import declared_face as face
from builder.buildfile import declared_landings as landing
from builder.buildfile import declared_parts as parts
from builder.buildfile import declared_places as places
from builder.buildfile import declared_road as road
from builder.buildfile.problems import BLANK

CALLED: Mapping[type[BaseModel], str] = {
    words.BuildFileWords: "the build file",
    words.BuildWords: "the heading “build”",
    parts.BatteryWords: "the battery",
    parts.FrontBoxWords: "the front box",
    face.FrontBoxFaceWords: "the heading “front box face”",
    face.InsideWords: "the inside of the front box",
    face.PieceWords: "this piece of the front box",
    face.RowsWords: "this piece of the front box",
    landing.StudWords: "this entry of “terminal studs”",
    landing.EntryHoleWords: "this entry hole",
    road.TowPlugWords: "the tow plug",
    road.SecondPlugWords: "the second plug",
    words.TrailerWords: "the heading “trailer”",
    parts.WireWords: "the heading “wire”",
    words.MainsWords: "the heading “mains”",
    road.BrakesWords: "the heading “brakes”",
    road.ReflectorWords: "this reflector",
    parts.PartWords: "this part",
    circuits.CircuitWords: "this circuit",
    circuits.BranchWords: "this branch",
    circuits.ItemWords: "this item of the path",
    circuits.ReturnWords: "this return",
    road.RoadLampWords: "this road lamp",
    words.SpareWords: "this spare wire",
    words.OptionWords: "this option",
    words.StockWords: "the heading “in stock”",
    places.PlaceWords: "this place",
    places.ChaseWords: "this chase",
    places.SkinWords: "this skin",
    places.PanelWords: "this panel",
    body.BodyWords: "the heading “body”",
    body.CornerWords: "this point of the profile",
    body.OpeningWords: "this opening",
    body.FrameWords: "this frame",
    closing.ClosedBayWords: "this closed bay",
    body.BlockWords: "this backing block",
}

EXAMPLES = {
    "kind": "kind: lamp",
    "path": "path: [step switch: 14 ft, step lamp: 6 ft]",
    "capacity": "capacity: 35 Ah",
    "chemistry": "chemistry: agm",
    "fuse ways": "fuse ways: 8",
    "inside": "inside: {width: 12 in, height: 14 in}",
    "terminal studs": "terminal studs: {supply bar: {count: 2, size: 5/16 in}}",
    "entry holes": "entry holes: {left hole: {bore: 1 in, in: left wall}}",
    "rings": "rings: {16 AWG: [No. 8, No. 10]}",
    "bore": "bore: 1 in",
    "takes": "takes: [tow plug, battery]",
    "width": "width: 4 in",
    "height": "height: 6 1/2 in",
    "pattern": "pattern: 4-way flat",
    "to front box": "to front box: 7 ft",
    "on the shelf": "on the shelf: [16 AWG, 14 AWG, 12 AWG]",
    "name": "name: Quarry Bend",
    "shows": "shows: [tail, stop, turn]",
    "from": "from: fuse",
    "to": "to: rear wall",
    "wire": "wire: 21 ft",
    "what": "what: inlet, breaker and one socket",
    "format": "format: 1",
    "build": "build: {name: Quarry Bend, number: 1, country: US}",
    "hinge": "hinge: [hinge left, hinge right]",
    "branches": "branches: [{from: fuse, path: [step lamp: 6 ft]}]",
    "fuses on the shelf": "fuses on the shelf: [3 A, 5 A]",
    "parts": "parts: {fan: {kind: fan, draws: 3 A}}",
    "circuits": "circuits: {fan: {path: [fan: 12 ft]}}",
    "road lamps": "road lamps: {plate lamp: {shows: plate, wire: 17 ft}}",
    "reflectors": "reflectors: {rear reflector: {at: rear, side: both, color: red, height: 20 in}}",
    "spares": "spares: {rear spare: {from: front box, to: rear wall, wire: 21 ft}}",
    "places": "places: {front box: {back: 10 in, right: 4 in, up: 14 in}}",
    "chases": "chases: {left groove: {through: [front box, left wall, galley], kind: groove}}",
    "skins": "skins: {left wall: {fasteners go in: 1 in, from: outside}}",
    "panels": "panels: {galley panel: {corners: [upper left, upper right, lower right, lower left]}}",
    "through": "through: [front box, left wall, galley]",
    "fasteners go in": "fasteners go in: 1 in",
    "corners": "corners: [upper left, upper right, lower right, lower left]",
    "profile": "profile: [{back: 0 in, up: 0 in}, {back: 8 ft, up: 0 in}, {back: 8 ft, up: 4 ft}]",
    "back": "back: 4 ft 6 in",
    "up": "up: 1 ft 2 in",
    "in": "in: left wall",
    "body": "body: {profile: [{back: 0 in, up: 0 in}, {back: 8 ft, up: 0 in}, {back: 8 ft, up: 4 ft}], width: 5 ft}",
    "openings": "openings: {left door: {in: left wall, back: 3 ft, up: 4 in, width: 26 in, height: 36 in}}",
    "frames": "frames: {left studs: {in: left wall, back: [16 in, 32 in], thick: 3/4 in}}",
    "backing blocks": "backing blocks: {shelf block: {in: left wall, back: 4 ft, up: 2 ft, width: 8 in, height: 3 in}}",
    "changes": "changes: {4A: {length: 15 ft, note: round the wheel well}}",
    "options": "options: {second fan: {parts: {bed fan: {kind: fan}}, circuits: {bed fan: {path: [bed fan: 9 ft]}}}}",
    "waiting": "waiting: {charging socket: its wire is coiled behind the panel}",
    "pulled": "pulled: {fan: 3 May}",
    "closed bays": "closed bays: {left wall bay 1: {photo: left-wall-bay-1.jpg}}",
    "prices": "prices: {red 16 AWG: 0.35 USD per ft, clip: 0.10 USD}",
    "in stock": "in stock: {wire: {red 16 AWG: 20 ft}, fuses: {5 A: 3}}",
    "assume": "assume: {surrounding temperature: 35 C}",
}

EXAMPLES_THERE: Mapping[tuple[type[BaseModel], str], str] = {
    (road.BrakesWords, "kind"): "kind: electric",
    (road.ReflectorWords, "at"): "at: rear",
    (words.SpareWords, "from"): "from: front box",
    (body.BodyWords, "width"): "width: 5 ft",
    (body.OpeningWords, "width"): "width: 26 in",
    (body.BlockWords, "width"): "width: 8 in",
}
"""Words that mean something else there than elsewhere, or are larger."""

GROUPS: Mapping[type[BaseModel], str] = {
    parts.PartWords: "fan: {kind: fan, draws: 3 A}",
    circuits.CircuitWords: "fan: {path: [fan: 12 ft]}",
    road.RoadLampWords: "plate lamp: {shows: plate, wire: 17 ft}",
    road.ReflectorWords: "rear reflector: {at: rear, side: both, color: red}",
    parts.BatteryWords: "battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 4 ft}",
    parts.FrontBoxWords: "front box: {fuse ways: 8}",
    face.FrontBoxFaceWords: "front box face: {inside: {width: 12 in, height: 14 in}}",
    face.InsideWords: "inside: {width: 12 in, height: 14 in}",
    face.PieceWords: "supply bar: {width: 4 in, height: 1 in}",
    face.RowsWords: "fuse block: {width: 4 in, height: 6 1/2 in}",
    landing.StudWords: "supply bar: {count: 2, size: 5/16 in}",
    landing.EntryHoleWords: "left hole: {bore: 1 in, in: left wall}",
    road.TowPlugWords: "tow plug: {pattern: 4-way flat, to front box: 7 ft}",
    road.SecondPlugWords: "second plug: {pattern: 7-pin 12S, to front box: 7 ft}",
    parts.WireWords: "wire: {on the shelf: [16 AWG, 14 AWG]}",
    words.BuildWords: "build: {name: Quarry Bend, country: US}",
    words.TrailerWords: "trailer: {length: 12 ft, width: 5 ft}",
    words.SpareWords: "rear spare: {from: front box, to: rear wall, wire: 21 ft}",
    words.MainsWords: "mains: {what: inlet and one socket, done by: …}",
    road.BrakesWords: "brakes: {kind: electric, drum: 10 in, magnets: 2, breakaway battery: 5 Ah}",
    circuits.BranchWords: "branches: [{from: fuse, path: [step lamp: 6 ft]}]",
    words.StockWords: "in stock: {wire: {red 16 AWG: 20 ft}, fuses: {5 A: 3}}",
    places.PlaceWords: "roof fan: {back: 5 ft, left: 4 in, up: 6 ft}",
    places.ChaseWords: "left groove: {through: [front box, left wall, galley]}",
    places.SkinWords: "left wall: {fasteners go in: 1 in, from: outside}",
    places.PanelWords: "galley panel: {corners: [upper left, upper right, lower right, lower left]}",
    body.BodyWords: "body: {profile: [{back: 0 in, up: 0 in}, {back: 8 ft, up: 0 in}, {back: 8 ft, up: 4 ft}], "
    "width: 5 ft}",
    body.CornerWords: "{back: 2 ft, up: 4 ft, radius: 2 ft}",
    body.OpeningWords: "left door: {in: left wall, back: 3 ft, up: 4 in, width: 26 in, height: 36 in}",
    body.FrameWords: "left studs: {in: left wall, back: [16 in, 32 in], thick: 3/4 in}",
    closing.ClosedBayWords: "left wall bay 1: {photo: left-wall-bay-1.jpg}",
}

BLANK_OF = {
    "path": f"path: [{BLANK}: {BLANK}]",
    "format": "format: 1",
    "build": f"build: {{name: {BLANK}}}",
    "shows": f"shows: [{BLANK}]",
    "through": f"through: [{BLANK}]",
    "corners": f"corners: [{BLANK}]",
    "profile": f"profile: [{{back: {BLANK}, up: {BLANK}}}]",
}
"""How a missing word is added where more than a blank belongs behind its colon."""

ENDINGS = {"battery": "battery", "front box": "box"}
"""What the name of a second battery or box ends in."""

HEADING_OF: Mapping[type[BaseModel], str] = {words.StockWords: "in stock", parts.WireWords: "wire"}
"""Headings with groups of their own, whose examples the reference of words shows."""

EMPTY_IN_GROUP = {
    "wire": ("no length", "write how long each spool is, as in [20 ft, 6 ft], or take the line out"),
    "conduit": ("no length", "write how long each piece is, as in [20 ft, 6 ft], or take the line out"),
    "rings": (
        "no stud",
        "write the studs that these rings go on, as in [No. 8, No. 10], or take the line out",
    ),
}
"""What is missing in an empty list under a name in one of these groups, and the way out."""

NOTHING_IN = {
    "on the shelf": "no size",
    "path": "no item",
    "shows": "no function",
    "through": "no place",
    "takes": "no name",
    "rings": "no size",
    "corners": "no place",
    "profile": "no point",
}


PLACES: Mapping[type[BaseModel], str] = {
    words.BuildFileWords: "heading",
    words.BuildWords: "build",
    words.TrailerWords: "trailer",
    parts.BatteryWords: "battery",
    parts.FrontBoxWords: "front box",
    landing.StudWords: "studs",
    landing.EntryHoleWords: "hole",
    road.TowPlugWords: "tow plug",
    road.SecondPlugWords: "tow plug",
    parts.WireWords: "wire",
    parts.PartWords: "part",
    circuits.CircuitWords: "circuit",
    circuits.BranchWords: "branch",
    circuits.ItemWords: "item",
    circuits.ReturnWords: "return",
    road.RoadLampWords: "road lamp",
    words.SpareWords: "spare",
    words.MainsWords: "mains",
    words.StockWords: "stock",
    places.PlaceWords: "place",
    places.ChaseWords: "chase",
    places.SkinWords: "skin",
    places.PanelWords: "panel",
    body.BodyWords: "body",
    body.CornerWords: "corner",
    body.OpeningWords: "opening",
    body.FrameWords: "frame",
    body.BlockWords: "backing block",
}
"""The lists of synonyms that count among the words of each declaration."""

HOMES: Mapping[str, type[BaseModel]] = {
    "build": words.BuildWords,
    "trailer": words.TrailerWords,
    "battery": parts.BatteryWords,
    "front box": parts.FrontBoxWords,
    "tow plug": road.TowPlugWords,
    "wire": parts.WireWords,
    "in stock": words.StockWords,
}
