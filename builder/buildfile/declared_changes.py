"""The words of changes: what was done otherwise than planned."""

from __future__ import annotations

from typing import Annotated

from pydantic import BeforeValidator, Field

from builder.buildfile.choices import NameKey, listed, one_for_all
from builder.buildfile.declared_base import Words
from builder.buildfile.value_sizes import SizeText_
from builder.buildfile.value_words import ColourWords, FreeText, Name
from builder.buildfile.values import CurrentA, DrawText, LengthM

WHOLE = "all"
"""The name under which a lone value of ``draws`` stands: what all of a part takes."""


class ChangeWords(Words):
    """What was done otherwise at one wire (by its issued number), circuit or part (by its name)."""

    length: LengthM | None = Field(None, description="how long the wire really is")
    size: SizeText_ | None = Field(
        None, description="the size that was really laid, of one wire or a circuit"
    )
    color: ColourWords | None = Field(None, description="the colour that the wire really has")
    fuse: CurrentA | None = Field(None, description="rating of the fuse that really protects the circuit")
    through: Annotated[list[Name], BeforeValidator(listed)] = Field(
        [], description="chases or places that the wire really runs through"
    )
    draws: Annotated[dict[NameKey, DrawText], BeforeValidator(one_for_all)] = Field(
        {}, description="what the part that was really fitted takes; of a road lamp for each function"
    )
    date: FreeText | None = Field(None, description="when it was done, in words")
    note: FreeText | None = Field(None, description="what was done, and why, in words")
