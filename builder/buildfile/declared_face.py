"""The words under ``front box face``: what a tape measure says of the front box and of what is screwed into it."""

from __future__ import annotations

from pydantic import Field

from builder.buildfile.choices import Numbered
from builder.buildfile.declared_base import Words
from builder.buildfile.values import FaceM, FacePlaceM, FaceRows


class InsideWords(Words):
    """The room inside the front box, looked at with its lid open."""

    width: FaceM = Field(description="from the left wall to the right wall, inside")
    height: FaceM = Field(description="from the upper wall to the lower wall, inside")


class PieceWords(Words):
    """A piece inside the front box: how large it is, and where its upper left corner sits."""

    width: FaceM = Field(description="from its left edge to its right edge, as it hangs in the box")
    height: FaceM = Field(description="from its upper edge to its lower edge, as it hangs in the box")
    from_left: FacePlaceM | None = Field(
        None, description="from the left wall inside the box to its left edge"
    )
    from_top: FacePlaceM | None = Field(
        None, description="from the upper wall inside the box to its upper edge"
    )


class RowsWords(PieceWords):
    """A piece with places in rows: a fuse block, a strip or a ground bar."""

    rows: FaceRows | None = Field(
        None, description="rows of its places, along its longer side; one where left out"
    )
    numbered: Numbered | None = Field(
        None,
        description="along each row, or across the rows; always from the upper left; along where left out",
    )


class FrontBoxFaceWords(Words):
    """What you measured on the front box, so that its face can be drawn to scale."""

    inside: InsideWords = Field(description="the room inside the box")
    fuse_block: RowsWords | None = Field(None, description="the fuse block")
    supply_bar: PieceWords | None = Field(None, description="the bar or stud that the supply lands on")
    strip: RowsWords | None = Field(None, description="the strip for the tow plug's wires")
    ground_bar: RowsWords | None = Field(None, description="the ground bar")
