"""Build files drawn from the JSON Schema of the build file, and files spoiled byte by byte.

What is drawn from the schema knows nothing of wiring: a path may lead anywhere, a fuse may be of any size. Names come
from a small set, so that paths find parts, and values come from the schema's own examples and from beyond its edges.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping, Sequence
from typing import Any

import yaml
from hypothesis import strategies as st

from builder.buildfile.schema import build_schema

NAMES = (
    "lamp", "step switch", "fan", "pump", "relay", "splice", "bar", "connector", "converter", "solar module",
    "charge controller", "dc charger", "shore converter", "main fuse", "isolating switch", "two-way switch A",
    "two-way switch B", "four-way switch", "dimmer", "receiver", "battery", "front box", "fuse", "frame", "ground bar",
    "tow plug", "tow plug battery", "tow plug tail", "tow plug 12S 4", "second plug", "breakaway battery",
    "rear lamp left", "rear lamp", "left", "lamps", "output 1", "1",
    "<b>", "../x", "é", "x" * 120,
)  # fmt: skip
"""Words that name parts, places and terminals in the tests' builds, and some that nobody would write."""

VALUES = (
    "0", "-1", "1", "2", "40", "1e400", "nan", ".inf", "0 A", "-3 A", "1e9 A", "5 A", "0.000001 A", "12 V", "0 V",
    "-273.15 °C", "900 °C", "0 mm²", "-1 mm²", "16 AWG", "40 AWG", "4/0 AWG", "1000 mm²", "0 ft", "10 km", "14 ft 6 in",
    "1e-9 m", "1/0 ft", "999999999999999999999 W", "0 W", "3 W", "100 %", "0 %", "-5 %", "35 Ah", "1e308 Ah",
    "about 3 A",    "2-3 A", "red", "red with red", "both", "none", "yes", "~", "9" * 400, "½ in", "٣ A", "٣ m",
)  # fmt: skip
"""Texts for any value: at the edges of what is physical, beyond them, and of the wrong kind."""

SOUND: Mapping[str, Any] = {
    "format": 1,
    "build": {"name": "Alder", "country": "US"},
    "battery": {"chemistry": "agm", "capacity": "35 Ah", "to main fuse": "5 in", "to front box": "4 ft"},
    "front box": {"fuse ways": 12, "fuses": "blade regular", "ground bar": 20},
    "tow plug": {"pattern": "7-way blade", "to front box": "7 ft"},
    "wire": {"on the shelf": ["16 AWG", "12 AWG", "8 AWG"], "sold as": "single"},
    "parts": {
        "lamp": {"kind": "lamp", "draws": "3 W"},
        "step switch": {"kind": "switch"},
        "strip": {"kind": "lamp", "draws": "1.5 W per ft", "lit length": "5 ft"},
        "fan": {"kind": "fan", "draws": "2 A", "leads": "10 in"},
        "pump": {"kind": "pump", "draws": "4 A", "works from": "10.5 V"},
        "relay": {"kind": "relay", "draws": "0.15 A"},
        "splice": {"kind": "splice"},
        "bar": {"kind": "bar"},
        "connector": {"kind": "connector", "ways": 2},
        "converter": {"kind": "converter", "gives at": "5 V", "gives": "10 W"},
        "receiver": {"kind": "receiver", "draws when idle": "10 mA", "outputs": ["left", "right"]},
        "solar module": {"kind": "solar module", "gives": "5 A"},
        "charge controller": {"kind": "charge controller", "gives": "5 A"},
        "shore converter": {"kind": "shore converter", "gives": "20 A"},
        "dc charger": {"kind": "dc charger", "gives": "20 A"},
    },
    "circuits": {"light": {"path": [{"step switch": "14 ft"}, {"lamp": "6 ft"}]}},
}
"""Headings that read without a problem."""

FREE_TEXTS = (
    *NAMES,
    "{{ x }}",
    "=1+1",
    "a" * 2_000,
    "日本",
    "שלום",
    "🔥",
    "# a",
    "- b",
    "&amp;",
    "\\N",
    "$x$",
    "a: b",
    "'\"",
)

SCHEMA = build_schema()


class Drawer:
    """Draws values as the schema has them; some of them bad."""

    def __init__(self, draw: st.DrawFn) -> None:
        self.draw = draw
        self.badness = draw(st.sampled_from((0, 0, 40, 10)))
        """None of the values is bad, or one in this many."""

    def one_of(self, choices: Sequence[Any]) -> Any:
        return self.draw(st.sampled_from(choices))

    def bad(self) -> bool:
        return self.badness > 0 and self.draw(st.integers(1, self.badness)) == 1

    def name(self) -> str:
        """Return the name of a part that is there, or any other."""
        return str(self.one_of(NAMES if self.bad() else tuple(SOUND["parts"])))

    def value(self, rule: Mapping[str, Any]) -> Any:
        """Return a value of a rule of the schema."""
        while "$ref" in rule or "anyOf" in rule or "oneOf" in rule:
            several = rule.get("anyOf") or rule.get("oneOf")
            rule = self.one_of(several) if several else SCHEMA["$defs"][rule["$ref"].removeprefix("#/$defs/")]
        if "enum" in rule:
            return self.one_of(rule["enum"])
        if "pattern" in rule:
            return self.draw(st.from_regex(rule["pattern"], fullmatch=True))
        if rule["type"] == "object":
            return self.group(rule)
        if rule["type"] == "array":
            return [
                self.value(rule["items"]) for _ in range(self.draw(st.integers(0 if self.bad() else 1, 4)))
            ]
        return self.scalar(rule)

    def group(self, rule: Mapping[str, Any]) -> dict[str, Any]:
        """Return a mapping with the words that are needed, a few others, and names where it has names."""
        known = rule.get("properties", {})
        needed = [word for word in rule.get("required", ()) if not self.bad()]
        more = self.draw(st.sets(st.sampled_from(sorted(known)), max_size=3)) if known else ()
        made = {
            word: self.value(known[word]) for word in dict.fromkeys([*needed, *sorted(more)]) if word in known
        }
        others = rule.get("additionalProperties", True)
        if isinstance(others, Mapping) and (not known or "$ref" in others or self.bad()):
            most = min(rule.get("maxProperties", 3), 3)
            for _ in range(self.draw(st.integers(1, most))):
                made[self.name() if most == 1 else self.one_of(NAMES)] = self.value(others)
        return made

    def scalar(self, rule: Mapping[str, Any]) -> Any:
        """Return one of the words or examples of a value, a name, or anything."""
        if "enum" in rule:
            return self.one_of(rule["enum"])
        if "pattern" in rule:
            return self.draw(st.from_regex(rule["pattern"], fullmatch=True))
        if self.bad():
            return self.draw(st.one_of(st.sampled_from(VALUES), st.text(max_size=12)))
        if "examples" in rule:
            return self.one_of(rule["examples"])
        if "name" in rule.get("description", ""):
            return self.name()
        return self.draw(st.integers(1, 40)) if "integer" in rule["type"] else self.one_of(FREE_TEXTS)


@st.composite
def from_schema(draw: st.DrawFn) -> bytes:
    """Return build files drawn from the schema, most of them on the ground of headings that are sound."""
    drawer = Drawer(draw)
    tree: dict[str, Any] = {}
    headings = SCHEMA["properties"]
    for heading in draw(st.sets(st.sampled_from(sorted(headings)), min_size=1, max_size=4)):
        tree[heading] = drawer.value(headings[heading])
    for heading, sound in SOUND.items():
        if heading in ("parts", "circuits") and heading in tree:
            tree[heading] = {**sound, **tree[heading]}
        elif not drawer.bad():
            tree.setdefault(heading, sound)
    if draw(st.booleans()):
        return json.dumps(tree, ensure_ascii=False).encode("utf-8", "replace")
    return yaml.safe_dump(tree, sort_keys=False, allow_unicode=True, width=100).encode("utf-8", "replace")


PIECES = (
    b"'", b'"', b": ", b":", b"{", b"}", b"[", b"]", b"\n", b"\r", b"- ", b"#", b" #", b"&a ", b"*a", b"!!x ", b"| ",
    b">", b"\t", b"\x00", b"\xff", b"\xe2\x80\xae", b"\xc2\xa0", b"\xef\xbb\xbf", b"\\", b"%", b"0 ft", b"1e9 ft",
    b"-3 A", b"99999999999 W", b"frame", b"fuse", b"battery", b"both", b"\nfuse: 5 A\n", b"return: frame, ",
    b"from: battery, ", b"size: 30 AWG, ", b"{kind: relay}", b"---\n", b"? ", b"9" * 300, b"<<: ",
)  # fmt: skip


@st.composite
def spoiled(draw: st.DrawFn, sources: Sequence[bytes]) -> bytes:
    """Return one of the files with some slices taken out, doubled, moved, or replaced by bytes or a piece."""
    data = draw(st.sampled_from(sources))
    for _ in range(draw(st.integers(1, 5))):
        start = draw(st.integers(0, len(data)))
        end = min(len(data), start + draw(st.integers(0, 30)))
        other = draw(st.integers(0, len(data)))
        new = draw(
            st.one_of(
                st.sampled_from((b"", data[start:end] * 2, data[other : other + 25], *PIECES)),
                st.binary(max_size=3),
                st.sampled_from(VALUES).map(str.encode),
            )
        )
        data = data[:start] + new + data[end:]
    return data


@st.composite
def values_changed(draw: st.DrawFn, sources: Sequence[bytes]) -> bytes:
    """Return one of the files with some of its values replaced by others; its form stays sound."""
    text = draw(st.sampled_from(sources)).decode("utf-8", "replace")
    places = [found.span(1) for found in re.finditer(r":[ ]+([^\s,\[\]{}#][^,\[\]{}#\n]*)", text)]
    for start, end in sorted(
        draw(st.sets(st.sampled_from(places), max_size=3)) if places else (), reverse=True
    ):
        text = text[:start] + draw(st.one_of(st.sampled_from(VALUES), st.sampled_from(NAMES))) + text[end:]
    return text.encode()
