"""The words of changes: what was done otherwise than planned."""

from __future__ import annotations

from pydantic import Field

from builder.buildfile.declared_base import Words
from builder.buildfile.values import ColourWords, CurrentA, DrawText, FreeText, LengthM, SizeText_


class ChangeWords(Words):
    """What was done otherwise at one wire (by its issued number), circuit or part (by its name)."""

    length: LengthM | None = Field(None, description="how long the wire really is")
    size: SizeText_ | None = Field(
        None, description="the size that was really laid, of one wire or a circuit"
    )
    color: ColourWords | None = Field(None, description="the colour that the wire really has")
    fuse: CurrentA | None = Field(None, description="rating of the fuse that really protects the circuit")
    draws: DrawText | None = Field(None, description="what the part that was really fitted takes")
    date: FreeText | None = Field(None, description="when it was done, in words")
    note: FreeText | None = Field(None, description="what was done, and why, in words")
