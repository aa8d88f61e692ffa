"""The one configuration of the publisher, for all the ways a manual is published.

Only settings that MkDocs with the Material theme and the successor named by its makers both read.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Any

from builder.pages.source import ManualSource, NavEntry

SEARCH_SHIM = "assets/iframe-worker.js"
PICTURES = "builder.publish.pictures"
"""Our Markdown extension, by the name that a configuration gives it."""
_SHIM_WORD = "iframe-worker"  # the theme's offline plugin looks for this word before it adds a public copy
_LIVE_AMPERSAND = re.compile(r"&(?=[A-Za-z#])")
_TO_DARK = "Dark page"
_TO_LIGHT = "Light page"


def as_text(title: str) -> str:
    """Write a plain title so that HTML shows it letter by letter.

    The theme puts titles into its pages as they are, and into some attributes escaped once more, so an
    ampersand that cannot be read as an entity stays as it is.

    Arguments: ``title``, plain text. Returns text for HTML. Source: HTML Living Standard, ambiguous
    ampersand (from memory).
    """
    text = _LIVE_AMPERSAND.sub("&amp;", title)
    return text.replace("<", "&lt;").replace(">", "&gt;").replace('"', "&quot;")


def mkdocs_settings(source: ManualSource, pictures_folder: str | None = None) -> dict[str, Any]:
    """Build the publisher's configuration for one manual.

    Arguments: ``source``, the manual; ``pictures_folder``, where our Markdown extension finds pictures when
    the configuration is written to a file, or None when it is not to be named there.
    Returns plain dicts, lists, texts and booleans, fit for YAML. Raises ``ValueError`` when the manual
    lacks the search shim. Source: common practice (settings of MkDocs 1.6 and of the theme).
    """
    if not any(_SHIM_WORD in script for script in source.scripts):
        raise ValueError(f"the manual source lists no script {SEARCH_SHIM}")
    extensions: list[Any] = [{"toc": {"permalink": False}}]
    if pictures_folder is not None:
        extensions.append({PICTURES: {"folder": pictures_folder}})
    return {
        "site_name": as_text(source.title),
        "use_directory_urls": False,
        "strict": True,
        "theme": _theme(source),
        "plugins": ["search", "offline"],
        "extra": {"generator": False, "polyfills": [s for s in source.scripts if _SHIM_WORD in s]},
        "extra_css": list(source.style_sheets),
        "extra_javascript": [s for s in source.scripts if _SHIM_WORD not in s],
        "markdown_extensions": extensions,
        "validation": {
            "nav": {"omitted_files": "ignore", "not_found": "warn", "absolute_links": "warn"},
            "links": dict.fromkeys(("not_found", "anchors", "absolute_links", "unrecognized_links"), "warn"),
        },
        "nav": _nav(source.nav),
    }


def _theme(source: ManualSource) -> dict[str, Any]:
    return {
        "name": "material",
        "language": source.language,
        "font": False,
        "favicon": _favicon(source.files),
        "features": ["navigation.footer", "search.highlight"],
        "palette": [
            _palette("light", "default", _TO_DARK, "material/weather-night"),
            _palette("dark", "slate", _TO_LIGHT, "material/weather-sunny"),
        ],
    }


def _favicon(paths: Iterable[str]) -> str:
    ours = sorted(path for path in paths if path.startswith("assets/favicon."))
    return ours[0] if ours else "data:,"  # an empty one: the theme's own is its makers' sign


def _palette(prefers: str, scheme: str, switch: str, icon: str) -> dict[str, Any]:
    return {
        "media": f"(prefers-color-scheme: {prefers})",
        "scheme": scheme,
        "primary": "custom",
        "accent": "custom",
        "toggle": {"icon": icon, "name": switch},
    }


def _nav(entries: Iterable[NavEntry]) -> list[dict[str, Any]]:
    return [{as_text(entry.title): entry.path or _nav(entry.children)} for entry in entries]
