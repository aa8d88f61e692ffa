"""How the battery, the front box, the wire at hand and the parts are declared."""

from __future__ import annotations

from typing import Annotated

from pydantic import (
    BeforeValidator,
    Field,
)

from builder.buildfile.choices import (
    CheckAgainst,
    Chemistry,
    Fuses,
    KindWord,
    SoldAs,
    listed,
)
from builder.buildfile.declared_base import Words
from builder.buildfile.declared_circuits import ItemWords, ReturnWords
from builder.buildfile.stock_keys import SizeKey
from builder.buildfile.value_sizes import SizeText_, StudText
from builder.buildfile.value_words import ColourWords, FreeText, Name
from builder.buildfile.values import (
    CapacityAh,
    ConnectorWays,
    CurrentA,
    DiameterM,
    DrawText,
    LabelM,
    LengthM,
    PercentOf,
    Places,
    RiseM,
    ShortM,
    TemperatureC,
    VoltageV,
    Ways,
    YesNo,
)


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


class WireWords(Words):
    """The wire at hand."""

    on_the_shelf: Annotated[list[SizeText_], Field(min_length=1)] | None = Field(
        None, description="sizes at hand, in any order; the usual ones of the country where left out"
    )
    sold_as: SoldAs | None = Field(None, description="pair or single; pair where left out")
    insulation: TemperatureC | None = Field(
        None,
        description="what its insulation bears, as printed on it; between two columns of the table the lower counts: "
        "70 °C as 60 °C",
    )
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
