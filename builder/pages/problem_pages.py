"""The pages of the problems: one text for ``explain`` and for the manual, read only when it is asked for."""

from __future__ import annotations

import re
import textwrap
from dataclasses import dataclass
from functools import cache

from builder.pages.theme_files import theme_text
from builder.rules.page import filled

_TEXT = "problems.txt"
_HEADED = re.compile(r"(What|Why|Way out): (.*)")
_CODE = re.compile(r"<(?:U\+([0-9A-F]{4,6})|0x([0-9A-F]{2})|([^<>]+?)\*(\d+))>")
_SOUND = {
    "format": "format: 1",
    "build": "build: {name: Bean Row, country: US}",
    "battery": "battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 4 ft}",
    "front box": "front box: {fuse ways: 6}",
    "parts": "parts:\n  fan: {kind: fan, draws: 3 A}",
    "circuits": "circuits:\n  fan: {path: [fan: 12 ft]}",
}


@dataclass(frozen=True, slots=True)
class ProblemPage:
    """One problem's page.

    Attributes:
        name: the problem's name in plain words.
        title: one sentence, what is wrong.
        paragraphs: heading and text of each: what, why, the way out.
        example: lines of a build file that are told of; ``<U+200B>`` stands for a character that cannot be seen.
        whole: whether the example is a whole file.
        of_numbers: whether it is the file of numbers of a small sound build.

    """

    name: str
    title: str
    paragraphs: tuple[tuple[str, str], ...]
    example: str
    whole: bool
    of_numbers: bool = False

    @property
    def numbers(self) -> bytes | None:
        """The example as a file of numbers; None where it is one of a build file."""
        return (
            _CODE.sub(_written, self.example).encode("utf-8", "surrogateescape") if self.of_numbers else None
        )

    @property
    def failing(self) -> bytes:
        """The example as a whole build file: its headings in the place of those of a small sound build."""
        text = "" if self.of_numbers else _CODE.sub(_written, self.example)
        if not self.whole:
            cut = re.split(r"^(?=\S)", text, flags=re.MULTILINE)
            own = {part.partition(":")[0]: part.rstrip("\n") for part in cut if part.strip()}
            text = "\n".join((_SOUND | own).values()) + "\n"
        return text.encode("utf-8", "surrogateescape")


@cache
def problem_pages() -> dict[str, ProblemPage]:
    """Return the page of every problem by its name, in alphabetical order."""
    blocks = re.split(r"^== ", theme_text(_TEXT), flags=re.MULTILINE)[1:]
    pages = [_page(block) for block in blocks]
    return {page.name: page for page in sorted(pages, key=lambda page: page.name)}


def page_text(page: ProblemPage) -> str:
    """Lay a page out as plain text of at most 88 columns, its example as it stands."""
    rows = [f"{page.name} (problem)", "", filled(page.title)]
    for heading, body in page.paragraphs:
        rows += ["", filled(f"{heading}: {body}")]
    if page.example:
        rows += ["", "Failing example:", "", textwrap.indent(page.example, "    ").rstrip()]
    return "\n".join(rows) + "\n"


def _page(block: str) -> ProblemPage:
    head, *rest = re.split(r"^(Example|Whole file|Numbers file):\n", block, flags=re.MULTILINE)
    name, title, *lines = head.strip().splitlines()
    paragraphs = tuple((found[1], found[2]) for line in lines if (found := _HEADED.fullmatch(line)))
    kind, example = (rest[0], textwrap.dedent(rest[1]).strip("\n") + "\n") if rest else ("", "")
    return ProblemPage(name, title, paragraphs, example, kind == "Whole file", kind == "Numbers file")


def _written(code: re.Match[str]) -> str:
    point, byte, text, count = code.groups()
    if point:
        return chr(int(point, 16))
    if byte:
        return bytes([int(byte, 16)]).decode("utf-8", "surrogateescape")
    return text * int(count)
