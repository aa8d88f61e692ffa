"""Answers on colour codes and on contrast."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

from builder.drawings import contrast
from builder.tables import wire_colours as tables

if TYPE_CHECKING:
    from answers import Answerer
    from asked import Asked


def _names(asked: Asked) -> list[str]:
    """Colours are asked by name or by code."""
    known = tables.colour_words()
    return [word if word in known else tables.colour_of_code(word) for word in asked.words("colours")]


def _combination_allowed(asked: Asked) -> bool:
    use = cast("tables.ColourUse", asked.word("use", "any", "protective_conductor"))
    return tables.combination_allowed(_names(asked), use)


def _passes_aa(asked: Asked) -> bool:
    kind = cast("contrast.Kind", asked.word("kind", "text", "graphic"))
    return contrast.passes_aa(asked.text("a"), asked.text("b"), kind)


ANSWERS: dict[str, dict[str, Answerer]] = {
    "colour_code": {"code": lambda asked: tables.colour_code(asked.text("colour"))},
    "colour_combination_code": {"code": lambda asked: tables.combination_code(_names(asked))},
    "combination_allowed": {"bool": _combination_allowed},
    "relative_luminance": {"ratio": lambda asked: contrast.relative_luminance(asked.text("colour"))},
    "contrast_ratio": {"ratio": lambda asked: contrast.contrast_ratio(asked.text("a"), asked.text("b"))},
    "passes_aa": {"bool": _passes_aa},
    "ratio_meets_threshold": {
        "bool": lambda asked: contrast.meets_threshold(asked.number("ratio"), asked.number("threshold"))
    },
}

_OF = "builder.drawings.contrast."

CLASS_A = {
    "colour_combination_code": ("builder.tables.wire_colours.combination_code",),
    "combination_allowed": ("builder.tables.wire_colours.combination_allowed",),
    "relative_luminance": (_OF + "relative_luminance",),
    "contrast_ratio": (_OF + "contrast_ratio",),
    "passes_aa": (_OF + "passes_aa",),
    "ratio_meets_threshold": (_OF + "meets_threshold",),
}
