"""Read the text of a PDF that Chromium printed (ISO 32000-1, 9.4 and 9.10), and no more of the format."""

from __future__ import annotations

import re
import zlib
from collections.abc import Iterator

_OBJECT = re.compile(rb"(\d+) 0 obj\b(.*?)\bendobj", re.DOTALL)
_STREAM = re.compile(rb"stream\r?\n(.*)endstream", re.DOTALL)
_FONT = re.compile(rb"/(F\d+) (\d+) 0 R")
_STEP = re.compile(rb"/(F\d+) [\d.]+ Tf|<([0-9A-Fa-f]+)>|\b(Tm|Td|ET)\b")
_RANGE = re.compile(rb"<(\w{4})> <(\w{4})> (?:<(\w+)>|\[([^\]]*)\])")
_ONE = re.compile(rb"<(\w{4})> <(\w+)>")


def pdf_text(pdf: bytes) -> str:
    """All text of the sheets, in the order of drawing, without spaces that are not drawn."""
    return "\n".join(pdf_sheets(pdf))


def pdf_sheets(pdf: bytes) -> list[str]:
    """The text of each sheet, as in `pdf_text`."""
    objects = dict(_OBJECT.findall(pdf))
    fonts = {
        name: _letters(objects[font], objects)
        for body in objects.values()
        for name, font in _FONT.findall(body)
        if b"/Font" in objects.get(font, b"")
    }
    streams = (_unpacked(objects[n]) for body in objects.values() for n in _contents(body))
    return [_drawn(stream, fonts) for stream in streams]


def _contents(body: bytes) -> list[bytes]:
    found = re.search(rb"/Contents (\d+) 0 R", body)
    return [found.group(1)] if found else []


def _unpacked(body: bytes) -> bytes:
    found = _STREAM.search(body)
    # packed bytes may end in what looks like the line's end: the packing itself says where it stops
    return zlib.decompressobj().decompress(found.group(1)) if found else b""


def _letters(font: bytes, objects: dict[bytes, bytes]) -> dict[int, str]:
    found = re.search(rb"/ToUnicode (\d+) 0 R", font)
    return dict(_mapping(_unpacked(objects[found.group(1)]))) if found else {}


def _mapping(table: bytes) -> Iterator[tuple[int, str]]:
    for part in re.findall(rb"beginbfchar(.*?)endbfchar", table, re.DOTALL):
        for code, letter in _ONE.findall(part):
            yield int(code, 16), _letter(letter)
    for part in re.findall(rb"beginbfrange(.*?)endbfrange", table, re.DOTALL):
        for first, last, letter, letters in _RANGE.findall(part):
            codes = range(int(first, 16), int(last, 16) + 1)
            if letter:
                yield from ((code, chr(int(letter, 16) + code - codes[0])) for code in codes)
            else:
                yield from zip(codes, map(_letter, re.findall(rb"<(\w+)>", letters)), strict=True)


def _letter(code: bytes) -> str:
    return bytes.fromhex(code.decode()).decode("utf-16-be")


def _drawn(stream: bytes, fonts: dict[bytes, dict[int, str]]) -> str:
    text, letters = [], {}
    for font, code, moved in _STEP.findall(stream):
        if font:
            letters = fonts.get(font, {})
        elif code:
            text += [letters.get(int(code[at : at + 4], 16), "") for at in range(0, len(code), 4)]
        elif moved == b"ET":
            text.append("\n")
    return "".join(text)
