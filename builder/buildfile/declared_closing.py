"""The words of closing up: a bay that was closed, and on what photo."""

from __future__ import annotations

from pydantic import Field

from builder.buildfile.declared_base import Words
from builder.buildfile.value_words import FreeText
from builder.buildfile.values import YesNo


class ClosedBayWords(Words):
    """One bay that was closed, by the name that the closing list gives it."""

    photo: FreeText | None = Field(None, description="the name of the photo that was taken before")
    ends_insulated: YesNo | None = Field(
        None, description="whether the ends that wait in it are insulated, each by itself"
    )
    date: FreeText | None = Field(None, description="when it was closed, in words")
    note: FreeText | None = Field(None, description="what else is to be known of it, in words")
