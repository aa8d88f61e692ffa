"""The words of the geometry: named places, the ways that wires run through, what covers them, and openings."""

from __future__ import annotations

from typing import Annotated

from pydantic import BeforeValidator, Field

from builder.buildfile.choices import ChaseKindWord, FastenedFrom, WallWord, listed
from builder.buildfile.declared_base import Words
from builder.buildfile.values import BoreM, FastenerM, FreeText, Name, OpeningDeg, PlaceM, PlateM, SlackM


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
        None, description="how thick the steel plates are that lie between its wires and the skins over them"
    )
    where: FreeText | None = Field(None, description="where it is, in words")


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
    where: FreeText | None = Field(None, description="where it is, in words")
