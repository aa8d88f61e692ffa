"""Names and texts from the build file on their way into Markdown, addresses and spreadsheets."""

from __future__ import annotations

import html
import re
import unicodedata

_MARKDOWN = re.compile(r"([\\`*_{}\[\]()#+\-.!|~^<>&:$%=\"'@/])")
_RESERVED = {"con", "prn", "aux", "nul", *(f"{name}{n}" for name in ("com", "lpt") for n in range(1, 10))}
_BIDI = re.compile("[\u202a-\u202e\u2066-\u2069\u200e\u200f]")
LONGEST_SLUG = 60


def markdown_text(text: str) -> str:
    """Return a text so that Markdown shows it letter by letter: every sign that could act is an entity."""
    return _MARKDOWN.sub(lambda sign: f"&#{ord(sign.group(1))};", " ".join(text.split()))


def slug(name: str) -> str:
    """Return a name as part of an address: a–z, 0–9 and dashes, at most 60 signs, never a reserved word.

    Different names can give one slug; the caller sets a number before it.
    """
    plain = unicodedata.normalize("NFKD", name.casefold()).encode("ascii", "ignore").decode("ascii")
    text = re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:LONGEST_SLUG].strip("-")
    if not text or text in _RESERVED:
        text = f"{text}-x".strip("-")
    return text


def unique_slugs(names: list[str], prefix: str = "") -> dict[str, str]:
    """Return an address part for each name, unlike every other one: equal slugs get a number."""
    taken: dict[str, int] = {}
    found: dict[str, str] = {}
    for name in names:
        base = prefix + slug(name)
        taken[base] = taken.get(base, 0) + 1
        found[name] = base if taken[base] == 1 else f"{base}-{taken[base]}"
        while list(found.values()).count(found[name]) > 1:
            taken[base] += 1
            found[name] = f"{base}-{taken[base]}"
    return found


def spreadsheet_cell(text: str) -> str:
    """Return a text that no spreadsheet runs as a formula: a quote stands before a sign that would start one."""
    is_number = re.fullmatch(r"-?\d+(\.\d+)?", text) is not None
    starts_formula = text.startswith(("=", "+", "-", "@", "\t", "\r"))
    return f"'{text}" if starts_formula and not is_number else text


def css_string(text: str) -> str:
    """Return a text as a whole CSS string, quotes included; what could end it is written as an escape."""
    return '"' + "".join(c if c.isalnum() or c in " .,-" else f"\\{ord(c):06x} " for c in text) + '"'


def html_text(text: str) -> str:
    """Return a text as HTML; direction marks are left out, for they could turn what stands beside them."""
    return html.escape(_BIDI.sub("", text))
