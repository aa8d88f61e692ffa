"""The one declaration of the build file: every key, its meaning and its type.

The reader, the JSON Schema, the reference of words and the hints all come from these models.
"""

from __future__ import annotations

import re
from typing import Annotated, Any

from pydantic import (
    BeforeValidator,
    Field,
    PlainValidator,
    WithJsonSchema,
    model_validator,
)

from builder.buildfile.amounts import AmountText
from builder.buildfile.choices import (
    BrakeKind,
    BulbWord,
    CheckAgainst,
    Chemistry,
    CoilOrContact,
    Country,
    Drum,
    FormatWord,
    Fuses,
    KindWord,
    LampPlace,
    LightColour,
    NameKey,
    Numbers,
    Paper,
    PlugWord,
    ReflectorPlace,
    RoadFunction,
    SecondPlugWord,
    Side,
    SoldAs,
    Stage,
    Units,
    key_name,
    listed,
    one_for_all,
)
from builder.buildfile.declared_base import Words
from builder.buildfile.declared_body import BlockWords, BodyWords, FrameWords, OpeningWords
from builder.buildfile.declared_changes import ChangeWords
from builder.buildfile.declared_closing import ClosedBayWords
from builder.buildfile.declared_face import FrontBoxFaceWords
from builder.buildfile.declared_landings import EntryHoleWords, StudWords
from builder.buildfile.declared_places import ChaseWords, PanelWords, PlaceWords, SkinWords
from builder.buildfile.nodes import Text
from builder.buildfile.stock_keys import BoreKey, BulbKey, FuseKey, SizeKey, TerminalKey, WireKey
from builder.buildfile.values import (
    CapacityAh,
    ColourWords,
    ConnectorWays,
    Count,
    CurrentA,
    DiameterM,
    DrawText,
    Few,
    FreeText,
    LabelM,
    LengthM,
    MassKg,
    Name,
    PercentOf,
    Places,
    RiseM,
    RollM,
    ShortM,
    SizeText_,
    StudText,
    TemperatureC,
    VoltageV,
    Ways,
    YesNo,
    trouble,
)
from builder.buildfile.written import Key, Written, origin_of
from builder.quantities import read_length
from builder.tables.assumptions import defaults

_LENGTH_LIKE = re.compile(
    r"\s*[\d.½¼¾][\d\s.,/½¼¾]*\s*(?:(?!st|nd|rd|th)[a-z]{1,2}\b|feet|inch|$|['\"′″])",
    re.IGNORECASE,
)
"""A return that was meant as a length even where it is misread; a splice may begin with a number, too."""


class BuildWords(Words):
    """Which trailer this is."""

    name: Name = Field(description="the trailer's name, as every page carries it")
    number: FreeText | None = Field(None, description="its number among yours, as you write it")
    country: Country | None = Field(None, description="where it will be used: decides units and paper")
    stage: Stage | None = Field(
        None, description="walls open or walls closed: what is advised depends on it; open where left out"
    )
    units: Units | None = Field(None, description="feet or metric on the pages; by country where left out")
    paper: Paper | None = Field(None, description="letter, A4 or A5; by country where left out")
    description: FreeText | None = Field(None, description="one sentence for the first page")
    address: FreeText | None = Field(
        None, description="where this manual is online: the code on the lid label holds it"
    )
    manual_kept: FreeText | None = Field(
        None, description="where the printed manual lies in the trailer, for the lid label"
    )
    ask: FreeText | None = Field(None, description="whom to ask about the wiring, for the lid label")
    numbers: Numbers | None = Field(
        None,
        description="issued once wiring-manual number has run: a file of numbers that is lost is then told",
    )


class TrailerWords(Words):
    """How large the trailer is, over everything, tongue included."""

    length: LengthM | None = Field(None, description="overall length, tongue included")
    width: LengthM | None = Field(None, description="overall width")
    width_over_fenders: LengthM | None = Field(
        None, description="width over rigid fenders and all else that is solid, where they stand out further"
    )
    gross_weight: MassKg | None = Field(None, description="the most it may weigh, loaded")


class ItemWords(Words):
    """One item of a path: to what, and how long the wire to it is."""

    name: Name = Field(description="the part, written as the item's own name")
    length: LengthM | None = Field(None, description="wire from the item before it")
    size: SizeText_ | None = Field(None, description="size of the wire to it, where you decide it yourself")
    through: Annotated[list[Name], BeforeValidator(listed)] = Field(
        [], description="chases or places that it runs through, where it is not the shortest way"
    )
    color: ColourWords | None = Field(None, description="colour of the feed to it")
    terminal: FreeText | None = Field(None, description="way of a connector that the feed takes")
    as_: CoilOrContact | None = Field(
        None, description="coil or contact of a relay, where its place in the path does not say it"
    )

    @model_validator(mode="before")
    @classmethod
    def _from_item(cls, item: Any) -> Any:
        """Turn ``name``, ``name: length`` and ``name: {…}`` into one shape."""
        if isinstance(item, Text):
            return {"name": item}
        if isinstance(item, dict) and "name" in item and len(item) > 1:
            key = next(k for k in item if k == "name")
            raise trouble(
                key.origin,
                "item in the wrong form",
                "“name” is not a word of a path: the part's own name stands before the colon",
                "write it as step lamp: 6 ft, or step lamp: {length: 6 ft}",
            )
        if not isinstance(item, dict) or len(item) != 1:
            keys = list(item) if isinstance(item, dict) else []
            raise trouble(
                keys[1].origin if len(keys) > 1 else origin_of(item),
                "item in the wrong form",
                "an item of a path is one name with one length",
                "write each item on its own, as in [step switch: 14 ft, step lamp: 6 ft]",
            )
        name, value = next(iter(item.items()))
        if isinstance(value, dict):
            if "name" in value:
                raise trouble(
                    next(k for k in value if k == "name").origin,
                    "unknown word",
                    "“name” is not a word used in a path item",
                    "the name stands before the colon",
                )
            return {"name": name, **value}
        return {"name": name, "length": value}


class ReturnWords(Words):
    """Where the return goes, when not the way that the feed came."""

    to: Name | None = Field(None, description="name of a splice or bar, ground bar, or frame")
    length: LengthM | None = Field(None, description="length of the return")

    @model_validator(mode="before")
    @classmethod
    def _short(cls, value: Any) -> Any:
        """Read a lone length or a lone name."""
        if isinstance(value, Text):
            is_length = (
                isinstance(read_length(value.value), float) or _LENGTH_LIKE.match(value.value) is not None
            )
            return {"length": value} if is_length else {"to": value}
        return value


class BranchWords(Words):
    """A branch of a circuit: from which item it leaves, and its own path."""

    from_: Name = Field(description="the item it leaves from, or fuse for the circuit's own fuse")
    output: FreeText | None = Field(None, description="which output, where the part has several")
    path: list[ItemWords] = Field(min_length=1, description="to what and how long, item by item")
    return_: ReturnWords | None = Field(None, description="where its returns go, when not the same way")


class CircuitWords(Words):
    """One circuit: the path of its current from the fuse on."""

    path: list[ItemWords] = Field(
        min_length=1, description="to what and how long, item by item, from the fuse on"
    )
    branches: list[BranchWords] = Field(
        [], description="further paths that leave from an item of this circuit"
    )
    from_: Name | None = Field(None, description="where it starts, when not at a fuse in the front box")
    fuse: CurrentA | None = Field(None, description="rating of its fuse, where you decide it yourself")
    way: Count | None = Field(None, description="fuse way it takes; the circuit's number where left out")
    size: SizeText_ | None = Field(None, description="size of all its wires, where you decide it yourself")
    color: ColourWords | None = Field(None, description="colour of its feeds")
    return_color: ColourWords | None = Field(None, description="colour of its returns")
    return_: ReturnWords | None = Field(None, description="where its returns go, when not the same way")
    note: FreeText | None = Field(None, description="one sentence for its page")


class BatteryWords(Words):
    """The house battery and its line to the front box."""

    chemistry: Chemistry = Field(description="flooded, agm, gel or lithium")
    capacity: CapacityAh = Field(description="capacity that its label gives, in Ah")
    to_main_fuse: ShortM | None = Field(
        None, description="wire from the post to the main fuse (short form of path)"
    )
    to_front_box: LengthM | None = Field(
        None, description="wire from there to the front box (short form of path)"
    )
    path: list[ItemWords] = Field(
        [], description="main fuse, isolating switch, front box; parts may tell where"
    )
    fuse: CurrentA | None = Field(None, description="rating of the main fuse, where you decide it yourself")
    size: SizeText_ | None = Field(None, description="size of the battery's line")
    return_: ReturnWords | None = Field(
        None, description="length of the return from the ground bar to the battery"
    )
    frame_bond: SizeText_ | None = Field(
        None, description="size of the bond from the ground bar to the frame"
    )
    where: FreeText | None = Field(None, description="where it stands, in words")
    place: Name | None = Field(
        None, description="its place among the places, where that has another name than battery"
    )
    rise: RiseM | None = Field(None, description="wire from its place up, down or across to the thing itself")
    box: FreeText | None = Field(None, description="its box, such as own box, vented outside")


class FrontBoxWords(Words):
    """The one box where every wire lands."""

    fuse_ways: Ways = Field(description="ways of the fuse block")
    fuses: Fuses | None = Field(None, description="blade mini, blade regular or blade maxi")
    fuses_on_the_shelf: list[CurrentA] = Field(
        [], description="ratings at hand; the standard series where left out"
    )
    ground_bar: Places | None = Field(None, description="screws of the ground bar")
    strip: Places | None = Field(None, description="positions of the strip for the tow plug's wires")
    check_against: CheckAgainst | None = Field(None, description="the table that fuses are judged by")
    where: FreeText | None = Field(None, description="where it is, in words")
    place: Name | None = Field(
        None, description="its place among the places, where that has another name than front box"
    )
    rise: RiseM | None = Field(None, description="wire from its place up, down or across to the thing itself")


class TowPlugWords(Words):
    """The plug to the tow vehicle."""

    pattern: PlugWord = Field(description="the plug's pattern")
    to_front_box: LengthM = Field(
        description="its cable from the plug to the front box; what starts at the plug has lengths of its own"
    )
    where: FreeText | None = Field(None, description="where it is kept, in words")
    place: Name | None = Field(
        None, description="its place among the places, where that has another name than tow plug"
    )
    rise: RiseM | None = Field(None, description="wire from its place up, down or across to the thing itself")


class SecondPlugWords(Words):
    """A plug beside the tow plug, with contacts that the first one lacks."""

    pattern: SecondPlugWord = Field(description="the second plug's pattern")
    to_front_box: LengthM = Field(
        description="its cable from the plug to the front box; what starts at the plug has lengths of its own"
    )
    where: FreeText | None = Field(None, description="where it is kept, in words")


class WireWords(Words):
    """The wire at hand."""

    on_the_shelf: Annotated[list[SizeText_], Field(min_length=1)] | None = Field(
        None, description="sizes at hand, in any order; the usual ones of the country where left out"
    )
    sold_as: SoldAs | None = Field(None, description="pair or single; pair where left out")
    insulation: TemperatureC | None = Field(None, description="what its insulation bears, as printed on it")
    feed: ColourWords | None = Field(None, description="colour of feeds; red where left out")
    return_: ColourWords | None = Field(
        None, description="colour of returns (ground wires); black where left out"
    )
    outside_diameters: dict[SizeKey, DiameterM] = Field(
        {}, description="how thick your wire is over its insulation, by its size, for the fill of conduits"
    )
    label_length: LabelM | None = Field(
        None, description="how much of a label's length is written on: longer labels are then told"
    )
    rings: dict[SizeKey, Annotated[list[StudText], BeforeValidator(listed), Field(min_length=1)]] = Field(
        {}, description="ring terminals at hand, by size of wire: the studs that their holes are made for"
    )


class PartWords(Words):
    """One part."""

    kind: KindWord = Field(description="what it is")
    draws: DrawText | None = Field(
        None, description="what it takes: watts or amperes; per length for a strip"
    )
    at: VoltageV | None = Field(
        None, description="voltage that its watts or amperes are for; 12.0 V where left out"
    )
    lit_length: LengthM | None = Field(None, description="length of a strip that is sold by length")
    draws_when_idle: CurrentA | None = Field(None, description="what it takes all the time")
    own_switch: YesNo | None = Field(None, description="yes when its switch is built into it")
    outputs: FreeText | Annotated[list[Name], Field()] | None = Field(
        None, description="how many outputs, or their names"
    )
    ways: ConnectorWays | None = Field(None, description="ways of a connector")
    works_from: VoltageV | None = Field(None, description="lowest voltage it works at, from its sheet")
    rating: CurrentA | None = Field(
        None, description="rating of a fuse, breaker, switch, dimmer or relay, or of each way of a connector"
    )
    gives: DrawText | None = Field(None, description="what a supply or charger delivers: watts or amperes")
    gives_at: VoltageV | None = Field(None, description="voltage of what it delivers")
    efficiency: PercentOf | None = Field(None, description="what it gives out of what it takes")
    leads: ShortM | None = Field(None, description="length of its own leads: wires join them by splices")
    leads_come_out: FreeText | None = Field(None, description="on which side its leads come out")
    opening: Name | None = Field(
        None, description="the opening that it sits in: its wires then end where its leads come out"
    )
    where: FreeText | None = Field(None, description="where it is, in words")
    place: Name | None = Field(
        None, description="its place among the places, where that has another name than the part"
    )
    rise: RiseM | None = Field(None, description="wire from its place up, down or across to the thing itself")
    note: FreeText | None = Field(None, description="a remark for its row on the pages")


def _function_draws(value: object) -> object:
    if isinstance(value, dict):
        return value
    raise trouble(
        origin_of(value),
        "wrong shape",
        "a road lamp's draw is given for each function",
        "write it as draws: {tail: 0.6 A, stop: 2.1 A}",
    )


class RoadLampWords(Words):
    """One road lamp, or a pair of them."""

    shows: Annotated[list[RoadFunction], BeforeValidator(listed)] = Field(
        min_length=1, description="its functions"
    )
    side: Side | None = Field(
        None, description="left, right, middle, or both for a pair; middle where left out"
    )
    wire: LengthM | None = Field(None, description="wire from the front box (short form of path)")
    path: list[ItemWords] = Field([], description="from the front box to the lamp, item by item")
    draws: Annotated[dict[NameKey, DrawText], BeforeValidator(_function_draws)] = Field(
        {}, description="what it takes, for each function"
    )
    bulb: Annotated[dict[NameKey, BulbWord], BeforeValidator(one_for_all)] = Field(
        {}, description="its filament bulb, such as 1157 or P21W; for each function where they differ"
    )
    own_wires: YesNo | None = Field(None, description="yes when it shares no wire with other road lamps")
    at: LampPlace | None = Field(None, description="front, middle or rear of the trailer")
    shines: Annotated[dict[NameKey, LightColour], BeforeValidator(one_for_all)] = Field(
        {}, description="red, amber or white; for each function where they differ"
    )
    height: ShortM | None = Field(None, description="height of its middle above the road, on level ground")
    in_from_the_side: ShortM | None = Field(
        None, description="from the trailer's outermost side in to the lamp"
    )
    back_from_the_front: LengthM | None = Field(
        None, description="from the foremost point, tongue included, back to the lamp"
    )
    count: Few | None = Field(None, description="how many alike are in one housing, such as 3")
    reflector: YesNo | None = Field(None, description="yes when a reflector is built into it")
    on_the_hatch: YesNo | None = Field(None, description="yes when it swings up with a hatch or door")
    where: FreeText | None = Field(None, description="where it is, in words")
    place: Name | None = Field(
        None, description="its place among the places, where that has another name than the lamp"
    )
    rise: RiseM | None = Field(None, description="wire from its place up, down or across to the thing itself")


class ReflectorWords(Words):
    """One reflector, or a pair of them."""

    at: ReflectorPlace = Field(description="front, rear, or which part of a side")
    side: Side | None = Field(
        None, description="left, right, middle, or both for a pair; middle where left out"
    )
    color: LightColour | None = Field(None, description="red, amber or white")
    triangle: YesNo | None = Field(
        None, description="yes for a triangle, as a European trailer has at its rear"
    )
    height: ShortM | None = Field(None, description="height of its middle above the road, on level ground")
    in_from_the_side: ShortM | None = Field(
        None, description="from the trailer's outermost side in to the reflector"
    )
    back_from_the_front: LengthM | None = Field(
        None, description="from the trailer's foremost point, tongue included, back to the reflector"
    )


class SpareWords(Words):
    """A spare wire with both ends recorded."""

    from_: FreeText = Field(description="where one end is: a place, a part, or words of your own")
    to: FreeText = Field(description="where the other end is: a place, a part, or words of your own")
    wire: LengthM | None = Field(
        None, description="its length; by its way where left out and both ends are places"
    )
    through: Annotated[list[Name], BeforeValidator(listed)] = Field(
        [], description="chases or places that it runs through, where it is not the shortest way"
    )
    size: SizeText_ | None = Field(None, description="its size")
    color: ColourWords | None = Field(None, description="its colour")
    where: FreeText | None = Field(None, description="where its two ends lie there, in words")


class OptionWords(Words):
    """What may come later, or another version of what is there: its parts and circuits, as they would be written."""

    parts: dict[NameKey, PartWords] = Field(
        {}, description="its parts by name; under a name that is there already, another version of that part"
    )
    circuits: dict[NameKey, CircuitWords] = Field(
        {},
        description="its circuits by name; under a name that is there already, another version of that one",
    )
    branches: dict[NameKey, Annotated[list[BranchWords], Field(min_length=1)]] = Field(
        {}, description="further paths on circuits that are there, by the circuit's name"
    )
    spares: Annotated[list[Name], BeforeValidator(listed)] = Field(
        [],
        description=(
            "spare wires that it takes: each stands for the wire with its own two ends, else for the longest that it "
            "reaches"
        ),
    )
    note: FreeText | None = Field(None, description="what it is, in words")


class MainsWords(Words):
    """Mains (shore power) that the trailer has: named here, never designed here."""

    what: FreeText = Field(description="what there is, such as inlet, breaker and one socket")
    done_by: FreeText | None = Field(
        None, description="the licensed person who did it, and where the paper is"
    )


class BrakesWords(Words):
    """Brakes of the wheels: their current and breakaway battery; never their adjustment."""

    kind: BrakeKind = Field(description="electric, or surge (worked by the coupling)")
    drum: Drum | None = Field(None, description="diameter of the drums; 10 in where left out")
    magnets: Few | None = Field(None, description="how many brakes have a magnet; 2 where left out")
    breakaway_battery: CapacityAh | None = Field(
        None, description="capacity of the battery that brakes when the trailer breaks away"
    )
    where: FreeText | None = Field(None, description="where breakaway switch and battery are, in words")
    done_by: FreeText | None = Field(
        None, description="who fitted and set the brakes, and where the paper is"
    )


class StockWords(Words):
    """What is already there, so that the shopping list leaves it out."""

    wire: dict[WireKey, Annotated[list[RollM], BeforeValidator(listed), Field(min_length=1)]] = Field(
        {},
        description="wire by colour and size, or pair and size, each with its length, a list for several spools",
    )
    fuses: dict[FuseKey, Count] = Field(
        {}, description="fuses by rating, and by kind where it is not the front box's, each with how many"
    )
    terminals: dict[TerminalKey, Count] = Field(
        {}, description="terminals (ring, push-on, splice, contact) by size of wire, each with how many"
    )
    bulbs: dict[BulbKey, Count] = Field(
        {}, description="filament bulbs of road lamps by name, each with how many"
    )
    labels: Count | None = Field(None, description="labels for wire ends")
    conduit: dict[BoreKey, Annotated[list[RollM], BeforeValidator(listed), Field(min_length=1)]] = Field(
        {}, description="conduit by its bore, each with its length, a list for several pieces"
    )
    clips: Count | None = Field(None, description="clips for wires")
    grommets: Count | None = Field(None, description="grommets for boxes, and for holes in skin and metal")
    parts: Annotated[list[Name], BeforeValidator(listed)] = Field(
        [], description="parts that are bought already, by their names"
    )


AssumptionKey = Annotated[
    Key, PlainValidator(key_name), WithJsonSchema({"type": "string", "enum": list(defaults())})
]


class BuildFileWords(Words):
    """A whole build file: its headings."""

    format: FormatWord = Field(description="the version of this file's form: 1")
    build: BuildWords = Field(description="which trailer this is")
    trailer: TrailerWords | None = Field(None, description="how large it is")
    battery: BatteryWords | None = Field(None, description="the house battery and its line")
    front_box: FrontBoxWords | None = Field(None, description="the box where every wire lands")
    front_box_face: FrontBoxFaceWords | None = Field(
        None, description="measures of the front box, to draw its face to scale"
    )
    terminal_studs: dict[NameKey, StudWords] = Field(
        {}, description="studs and screws that rings go on: of supply bar, ground bar, battery or a part"
    )
    entry_holes: dict[NameKey, EntryHoleWords] = Field(
        {}, description="holes through which wires leave the front box, by name"
    )
    tow_plug: TowPlugWords | None = Field(None, description="the plug to the tow vehicle")
    second_plug: SecondPlugWords | None = Field(
        None, description="a second plug beside it, such as a 12S beside a 12N"
    )
    wire: WireWords | None = Field(None, description="the wire at hand")
    parts: dict[NameKey, PartWords] = Field({}, description="every part by its name")
    circuits: dict[NameKey, CircuitWords] = Field({}, description="every circuit by its name")
    road_lamps: dict[NameKey, RoadLampWords] = Field(
        {}, description="road lamps by name; lamps: led or filament"
    )
    reflectors: dict[NameKey, ReflectorWords] = Field({}, description="reflectors by name")
    spares: dict[NameKey, SpareWords] = Field({}, description="spare wires by name")
    places: dict[NameKey, PlaceWords] = Field(
        {}, description="places by name, as a tape measure finds them: parts, corners, ends of chases"
    )
    chases: dict[NameKey, ChaseWords] = Field(
        {}, description="grooves, channels, conduits and other ways that wires run through, by name"
    )
    skins: dict[NameKey, SkinWords] = Field({}, description="what hides wires and is fastened over them")
    panels: dict[NameKey, PanelWords] = Field({}, description="panels that come off, by name")
    body: BodyWords | None = Field(
        None, description="the body's outline, for the drawings of where the wires run"
    )
    openings: dict[NameKey, OpeningWords] = Field(
        {}, description="doors, hatch, windows, fan and other openings in the body, by name"
    )
    frames: dict[NameKey, FrameWords] = Field(
        {}, description="frames, studs and ribs of the body by name, one entry for all that are alike"
    )
    backing_blocks: dict[NameKey, BlockWords] = Field(
        {}, description="pieces of wood built in behind the skins to hold screws, by name"
    )
    waiting: dict[NameKey, FreeText] = Field(
        {}, description="parts whose wire is in and which are not there yet"
    )
    pulled: dict[NameKey, FreeText] = Field(
        {},
        description="circuits and spare wires whose wires are in, each with when or by whom; everything for all",
    )
    closed_bays: dict[NameKey, ClosedBayWords] = Field(
        {}, description="bays that were closed, by the names of the closing list, each with its photo"
    )
    changes: dict[NameKey, ChangeWords] = Field(
        {}, description="what was done otherwise than planned, by a wire's number or a name: the plan stays"
    )
    options: dict[NameKey, OptionWords] = Field(
        {}, description="what may come later, or another version: judged as if it were there, counted nowhere"
    )
    brakes: BrakesWords | None = Field(None, description="brakes of the wheels, and their breakaway battery")
    mains: MainsWords | None = Field(None, description="mains that the trailer has, and who did it")
    in_stock: StockWords | None = Field(
        None, description="what is already there: the shopping list leaves it out"
    )
    prices: dict[NameKey, AmountText] = Field(
        {},
        description="what things cost, by the names of the shopping list: for one, or per ft or m; in one currency",
    )
    assume: dict[AssumptionKey, FreeText] = Field(
        {}, description="values that replace assumptions, by their id"
    )


WrittenText = Written[str]
