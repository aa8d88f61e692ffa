"""How the tow plugs, road lamps, reflectors and brakes are declared."""

from __future__ import annotations

from typing import Annotated

from pydantic import (
    BeforeValidator,
    Field,
)

from builder.buildfile.choices import (
    BrakeKind,
    BulbWord,
    Drum,
    LampPlace,
    LightColour,
    NameKey,
    PlugWord,
    ReflectorPlace,
    RoadFunction,
    SecondPlugWord,
    Side,
    listed,
    one_for_all,
)
from builder.buildfile.declared_base import Words
from builder.buildfile.declared_circuits import ItemWords
from builder.buildfile.value_reading import trouble
from builder.buildfile.value_words import FreeText, Name
from builder.buildfile.values import (
    CapacityAh,
    DrawText,
    Few,
    LengthM,
    RiseM,
    ShortM,
    YesNo,
)
from builder.buildfile.written import origin_of


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
