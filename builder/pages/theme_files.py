"""Where the theme's files are: beside the package in the wheel, at the top of a checkout otherwise."""

from __future__ import annotations

from functools import cache
from importlib import resources
from importlib.resources.abc import Traversable
from pathlib import Path

THEME = "manual"
"""The folder under ``themes/`` that holds what a reader of the manual sees."""


@cache
def theme_folder() -> Traversable:
    """Return the folder of the theme; raises FileNotFoundError when the installation lacks it."""
    packed = resources.files("builder") / "themes" / THEME
    if packed.is_dir():
        return packed
    checkout = Path(__file__).resolve().parents[2] / "themes" / THEME
    if checkout.is_dir():
        return checkout
    raise FileNotFoundError("the folder themes/manual is missing from this installation")


def theme_text(path: str) -> str:
    """Return a file of the theme as text; ``path`` has forward slashes."""
    return theme_folder().joinpath(*path.split("/")).read_text(encoding="utf-8")


def theme_assets() -> dict[str, str]:
    """Return the style sheets and scripts of the theme by their path in the manual source."""
    folder = theme_folder() / "assets"
    names = sorted(item.name for item in folder.iterdir() if item.name.endswith((".css", ".js", ".svg")))
    return {f"assets/{name}": (folder / name).read_text(encoding="utf-8") for name in names}
