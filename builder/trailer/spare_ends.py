"""Where the ends of a spare wire lie: free text, of which the beginning may name a thing."""

from __future__ import annotations

from builder.trailer.model import FRONT_BOX


def thing_of(end: str) -> str:
    """Return what the text of an end names, in small letters: all of it, or what stands before its first comma.

    >>> thing_of("Front Box, tied to the left")
    'front box'
    >>> thing_of("front boxes on the shelf")
    'front boxes on the shelf'
    """
    return " ".join(end.partition(",")[0].casefold().split())


def in_front_box(end: str) -> bool:
    """Tell whether an end of a spare wire lies in the front box.

    >>> in_front_box("front box"), in_front_box("Front Box, left"), in_front_box("front box lid")
    (True, True, False)
    """
    return thing_of(end) == FRONT_BOX
