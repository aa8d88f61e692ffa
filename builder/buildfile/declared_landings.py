"""The words under ``terminal studs`` and ``entry holes``: what wires are screwed to, and how they leave the box."""

from __future__ import annotations

from typing import Annotated

from pydantic import BeforeValidator, Field

from builder.buildfile.choices import BoxWallWord, listed
from builder.buildfile.declared_base import Words
from builder.buildfile.value_sizes import StudText
from builder.buildfile.value_words import Name
from builder.buildfile.values import BoreM, FacePlaceM, Few, Places


class StudWords(Words):
    """The studs or screws of the supply bar, the ground bar, the battery or a part."""

    size: StudText | None = Field(None, description="the thread that a ring terminal goes on")
    count: Places | None = Field(
        None, description="how many studs or screws it has for each side: one where left out"
    )
    most_on_each: Few | None = Field(
        None, description="how many wires one of them takes, as its maker says; 4 on a stud where left out"
    )


class EntryHoleWords(Words):
    """A hole in a wall of the front box."""

    bore: BoreM = Field(description="its diameter, inside its grommet")
    takes: Annotated[list[Name], BeforeValidator(listed), Field(min_length=1)] | None = Field(
        None,
        description="whose wires go through it: circuits, parts, chases, spare wires; all that no other hole takes "
        "where left out",
    )
    in_: BoxWallWord | None = Field(None, description="the wall of the box that it is in, with the lid open")
    from_left: FacePlaceM | None = Field(
        None, description="from the left wall inside the box to its middle, of a hole above, below or behind"
    )
    from_top: FacePlaceM | None = Field(
        None, description="from the upper wall inside the box to its middle, of a hole at a side or behind"
    )
