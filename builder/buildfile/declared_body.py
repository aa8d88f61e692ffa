"""The words of the body: its profile and width, the openings in it, its frames, and blocks that hold screws."""

from __future__ import annotations

from typing import Annotated

from pydantic import BeforeValidator, Field

from builder.buildfile.choices import WallWord, listed
from builder.buildfile.declared_base import Words
from builder.buildfile.value_words import FreeText
from builder.buildfile.values import PlaceM, ShortM, YesNo


class CornerWords(Words):
    """One point of the body's profile, and how it is reached from the point before."""

    back: PlaceM = Field(description="how far behind the body's front")
    up: PlaceM = Field(description="how far above the underside of the body")
    radius: ShortM | None = Field(
        None, description="radius of the arc from the point before; a straight line where left out"
    )
    hollow: YesNo | None = Field(
        None, description="yes where the arc bends into the body; out where left out"
    )


class BodyWords(Words):
    """The body itself, without tongue, fenders and lamps: its profile seen from the side, and its width."""

    profile: Annotated[list[CornerWords], Field(min_length=1)] = Field(
        description="points round it in their order, each with back and up, and the radius of the arc to it"
    )
    width: ShortM = Field(description="from its left outside to its right outside")


class PatchWords(Words):
    """A rectangle in one wall: where it is, and how large; what is measured to where says each kind of it."""

    in_: WallWord = Field(
        description="left wall, right wall, front wall, rear wall, roof or floor, facing forward"
    )
    back: PlaceM | None = Field(None)
    up: PlaceM | None = Field(None)
    left: PlaceM | None = Field(
        None, description="how far left of the middle its own middle is; in the middle without a side"
    )
    right: PlaceM | None = Field(
        None, description="how far right of the middle its own middle is; in the middle without a side"
    )
    length: ShortM | None = Field(None, description="from its front edge to its rear edge; in roof or floor")
    width: ShortM = Field(description="from its one side to the other, as one looks at it")
    height: ShortM | None = Field(None, description="from its lower edge to its upper edge; in a wall")


class OpeningWords(PatchWords):
    """One opening: in which wall, where it begins, and how large it is."""

    back: PlaceM | None = Field(
        None, description="from the body's front to its front edge; in a side wall, roof or floor"
    )
    up: PlaceM | None = Field(
        None, description="from the body's underside to its lower edge; in a side, front or rear wall"
    )
    radius: ShortM | None = Field(None, description="radius of its corners; square where left out")


class FrameWords(Words):
    """Frames or studs alike: upright ones at a distance from the front, or level ones at a height."""

    in_: Annotated[list[WallWord], BeforeValidator(listed)] = Field(
        [], description="the walls, roof or floor that they are in; all round the body where left out"
    )
    back: Annotated[list[PlaceM], BeforeValidator(listed)] = Field(
        [], description="how far behind the body's front the middle of each is: upright ones"
    )
    up: Annotated[list[PlaceM], BeforeValidator(listed)] = Field(
        [], description="how far above the body's underside the middle of each is: level ones"
    )
    thick: ShortM | None = Field(None, description="how thick they are, as seen in a drawing of their wall")


class BlockWords(PatchWords):
    """One backing block: a piece of wood built in behind a skin, by its middle and its size, to hold screws."""

    back: PlaceM | None = Field(
        None, description="from the body's front to its middle; in a side wall, roof or floor"
    )
    up: PlaceM | None = Field(
        None, description="from the body's underside to its middle; in a side, front or rear wall"
    )
    thick: ShortM | None = Field(None, description="how thick it is, from the skin inwards")
    holds: FreeText | None = Field(None, description="what is screwed to it, such as a shelf or a lamp")
