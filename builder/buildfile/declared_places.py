"""The words of the geometry: named places, the ways that wires run through, what covers them, and openings."""

from __future__ import annotations

from typing import Annotated, Any

from pydantic import BeforeValidator, Field, model_validator

from builder.buildfile.choices import CarriesWord, ChaseKindWord, FastenedFrom, WallWord, listed
from builder.buildfile.declared_base import Words
from builder.buildfile.nodes import Text
from builder.buildfile.value_reading import trouble
from builder.buildfile.value_words import FreeText, Name
from builder.buildfile.values import (
    BendM,
    BoreM,
    EdgeM,
    FastenerM,
    OpeningDeg,
    PlaceM,
    PlateM,
    SlackM,
    SupportM,
    YesNo,
)


class PlaceWords(Words):
    """One named place, measured from the middle of the body's front, at its underside; facing forward."""

    back: PlaceM | None = Field(None, description="how far behind the body's front")
    ahead: PlaceM | None = Field(None, description="how far ahead of the body's front, as on the tongue")
    left: PlaceM | None = Field(None, description="how far left of the middle; in the middle without a side")
    right: PlaceM | None = Field(
        None, description="how far right of the middle; in the middle without a side"
    )
    up: PlaceM | None = Field(None, description="how far above the underside of the body")
    down: PlaceM | None = Field(None, description="how far below the underside of the body")


class ChaseWords(Words):
    """One way that wires run through, from place to place in a straight line each."""

    through: Annotated[list[Name], BeforeValidator(listed), Field(min_length=1)] = Field(
        description="the places it runs through, in their order: wires enter and leave it there and nowhere else"
    )
    kind: ChaseKindWord | None = Field(
        None, description="groove, channel, conduit, open bay or hinge loop; groove where left out"
    )
    bore: BoreM | None = Field(None, description="inside diameter of a conduit")
    slack: SlackM | None = Field(
        None, description="wire of a hinge loop beyond the distance between its two places"
    )
    hinge: Annotated[list[Name], Field(min_length=1)] | None = Field(
        None, description="two places on the axis of the hinge that a hinge loop passes"
    )
    opens: OpeningDeg | None = Field(None, description="how far the hinge of a hinge loop opens")
    plate: PlateM | None = Field(
        None,
        description="how thick the steel plates are that lie between its wires and the skins over them; "
        "with holes or from the edge over its bored holes alone",
    )
    bend_radius: BendM | None = Field(None, description="the smallest radius at which it bends")
    holes: BoreM | None = Field(
        None, description="diameter of the holes bored for it through frames and studs"
    )
    from_the_edge: EdgeM | None = Field(
        None, description="how much wood is left between those holes and the nearest edge, at the least"
    )
    supports_every: SupportM | None = Field(
        None, description="how far apart the clips or other supports of its wires are"
    )
    passes_sheet_at: Annotated[list[Name], BeforeValidator(listed), Field(min_length=1)] | None = Field(
        None, description="its places at which it passes sheet metal"
    )
    grommets: YesNo | None = Field(
        None, description="whether there are grommets where it passes sheet metal or the body's skin"
    )
    sealed: YesNo | None = Field(None, description="whether its hole through the body's skin is sealed")
    strain_relief: YesNo | None = Field(
        None, description="whether the tow plug's cable is held where it enters the body"
    )
    drip_loop: YesNo | None = Field(
        None, description="whether the tow plug's cable hangs lower than its hole before it enters the body"
    )
    carries: CarriesWord | None = Field(
        None,
        description="wires, mains, or both: no wire of this file is led through a chase that carries mains",
    )
    divided: YesNo | None = Field(
        None, description="whether a divider or a conduit parts mains from the other wires"
    )
    near_heat: FreeText | None = Field(
        None, description="what gets hot beside it, such as a heater, a flue or a cooker"
    )
    pull_string: YesNo | None = Field(
        None, description="whether a string is left in it to pull a wire through later"
    )
    where: FreeText | None = Field(None, description="where it is, in words")

    @model_validator(mode="before")
    @classmethod
    def _no_ends(cls, value: Any) -> Any:
        """Tell of ``from`` and ``to``, which a wire has and a chase has not."""
        ends = [key for key in value if key in ("from", "to")] if isinstance(value, dict) else []
        if not ends or "through" in value:
            return value
        names = [value[key].value if isinstance(value[key], Text) else "" for key in sorted(ends)]
        listed = ", ".join(names) if len(names) == 2 and all(names) else "front box, left wall, galley"
        raise trouble(
            ends[0].origin,
            "unknown word",
            f"“{ends[0]}” is not a word used in this chase: it has all its places in one list",
            f"write them in their order, as in through: [{listed}]",
        )


class SkinWords(Words):
    """One skin that hides wires: between which places it lies, and how far its fasteners go in."""

    corners: Annotated[list[Name], Field(min_length=1)] | None = Field(
        None, description="places at its corners, in their order round it"
    )
    lies_on: Annotated[list[WallWord], BeforeValidator(listed), Field(min_length=1)] | None = Field(
        None,
        description="the walls, roof or floor of the body that it lies on, by their outline, instead of corners",
    )
    fasteners_go_in: FastenerM = Field(description="how far its screws or staples go in behind it")
    from_: FastenedFrom | None = Field(
        None, description="from where they are driven in: outside or inside; outside where left out"
    )
    where: FreeText | None = Field(None, description="which one it is, in words")


class PanelWords(Words):
    """One panel that comes off: between which places it lies, and what holds it."""

    corners: Annotated[list[Name], Field(min_length=1)] = Field(
        description="places at its corners, in their order round it"
    )
    held_by: FreeText | None = Field(None, description="what holds it, such as 6 screws")
    behind: Annotated[list[Name], BeforeValidator(listed), Field(min_length=1)] | None = Field(
        None, description="all chases that run behind it, or nothing: without it no screw length is printed"
    )
    also_behind: FreeText | None = Field(
        None,
        description="what else runs behind it, such as a gas pipe, a water pipe or a mains cable; or nothing",
    )
    from_: FastenedFrom | None = Field(
        None,
        description=(
            "from where it comes off: inside, the side towards the middle of the trailer, or outside, as a panel that "
            "one sees from behind under an open hatch; inside where left out"
        ),
    )
    where: FreeText | None = Field(None, description="where it is, in words")
