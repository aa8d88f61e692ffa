"""The one declaration of the build file: every key, its meaning and its type.

The reader, the JSON Schema, the reference of words and the hints all come from these models.
"""

from __future__ import annotations

from typing import Annotated

from pydantic import (
    BeforeValidator,
    Field,
    PlainValidator,
    WithJsonSchema,
)

from builder.buildfile.amounts import AmountText
from builder.buildfile.choices import (
    Country,
    FormatWord,
    NameKey,
    Numbers,
    Paper,
    Stage,
    Units,
    key_name,
    listed,
)
from builder.buildfile.declared_base import Words
from builder.buildfile.declared_body import BlockWords, BodyWords, FrameWords, OpeningWords
from builder.buildfile.declared_changes import ChangeWords
from builder.buildfile.declared_circuits import BranchWords, CircuitWords
from builder.buildfile.declared_closing import ClosedBayWords
from builder.buildfile.declared_face import FrontBoxFaceWords
from builder.buildfile.declared_landings import EntryHoleWords, StudWords
from builder.buildfile.declared_parts import BatteryWords, FrontBoxWords, PartWords, WireWords
from builder.buildfile.declared_places import ChaseWords, PanelWords, PlaceWords, SkinWords
from builder.buildfile.declared_road import (
    BrakesWords,
    ReflectorWords,
    RoadLampWords,
    SecondPlugWords,
    TowPlugWords,
)
from builder.buildfile.stock_keys import BoreKey, BulbKey, FuseKey, TerminalKey, WireKey
from builder.buildfile.value_sizes import SizeText_
from builder.buildfile.value_words import ColourWords, FreeText, Name
from builder.buildfile.values import (
    Count,
    LengthM,
    MassKg,
    RollM,
)
from builder.buildfile.written import Key, Written
from builder.tables.assumptions import defaults
from builder.trailer.stock import TERMINAL_KINDS


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
        {},
        description=f"terminals ({', '.join(TERMINAL_KINDS)}) by size of wire, a ring by its stud too, "
        "each with how many",
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
        description="what things cost, by the names of the shopping list: for one, or per ft or m; in one currency. "
        "fuse is the fuses of all ratings without a price of their own, fuse holder the holders",
    )
    assume: dict[AssumptionKey, FreeText] = Field(
        {}, description="values that replace assumptions, by their id"
    )


WrittenText = Written[str]
