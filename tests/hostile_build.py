"""A build whose every name and free text tries to be more than text, and a harmless one of the same shape."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping

NAMES: Mapping[str, str] = {
    "trailer": '</title><script>alert("t")</script> & Co | {{ config }}',
    "number": '7"><b>x</b>',
    "lamp": "<script>alert(1)</script>",
    "switch": "\"quoted\" and 'single' | pipe || pipe",
    "dimmer": "[a link](https://example.org) ![picture](x.png)",
    "fan": "{{ x }} {% if y %} {# z #} %(n)s %s",
    "pump": "{: onclick=alert(2) .c #i }",
    "relay": "*_#_* **strong** ~~gone~~ # head",
    "relay switch": "`code` ``` fence",
    "alarm": "🔥 emoji 🚐",
    "socket": "שלום עולם",
    "meter": "=1+1",
    "splice": "x" * 100,
    "left lamp": "con",
    "right lamp": "aux.",
    "connector": "&amp; &#60;b&#62; &lt;i&gt;",
    "hinge lamp": "</td></tr></table></div> tail",
    "loose fuse": "<b>bold</b> 50% of a/b fuse",
    "strip": "-- minus 'and' -- --",
    "spare": "@SUM(1+9) spare",
    "rear lamp": '<img src=x onerror="alert(3)"> lamp',
    "circuit 1": "<SCRIPT>ALERT(1)</SCRIPT>",
    "circuit 2": "Con",
    "circuit 3": "AUX.",
    "circuit 4": "=cmd|' /C calc'!A0",
    "circuit 5": "../../etc/passwd",
    "circuit 6": "C:\\windows\\nul",
    "circuit 7": "a --> b <!-- c -->",
    "circuit 9": "\\begin{document} $$\\frac{1}{2}$$ %",
    "circuit 8": "javascript:alert(4)",
    "receiver": 'digraph {a -> b [label="x"]}',
    "output left": "a\\Nb \\G",
    "output right": "ends in a backslash \\",
    "bar": "node:port",
    "lamp 1": "]]> <![CDATA[ x ]]>",
    "lamp 2": "<?php echo 1 ?> <!DOCTYPE x>",
    "lamp 3": "${7*7} #{7*7} <%= 7*7 %>",
    "lamp 4": "[^1] [[x]] ![[y]] [TOC]",
    "lamp 5": "<https://example.org> www.example.org",
    "lamp 6": "!!! note ??? x ::: y --8<-- z",
    "lamp 7": ":smile: ==mark== ^^ins^^ ++ctrl++",
    "lamp 8": "prn.html",
    "lamp 9": "مصباح القراءة",
    "lamp 10": "data:text/html,<script>alert(9)</script>",
    "lamp 11": "-2+3+cmd|' /C calc'!A0",
    "lamp 12": "&lt;script&gt; &#x202e; &nbsp; &zwnj;",
    "lamp 13": "漢字" * 30,
    "lamp 14": "</script></style></textarea></svg>",
    "lamp 15": "*[HTML]: x {.y} {#z}",
    "lamp 16": "com1 lpt9: * ? < >",
}
"""Every name by its place in the build. Some are equal to another one but for capitals."""

TEXTS: Mapping[str, str] = {
    "description": "1. <iframe src=//example.org></iframe> --- | a | b |",
    "where lamp": "- [ ] <a href='javascript:alert(5)'>here</a>",
    "where box": "    indented ``` <style>*{display:none}</style>",
    "where plug": '<details open ontoggle=alert(6)> & "there"',
    "where fuse": '=HYPERLINK("x") <!-- hidden -->',
    "note": "# not a heading {: .c } $x$ <svg onload=alert(7)>",
    "waiting": "*soon* <u>or</u> | later",
    "spare from": "+one end <p>",
    "spare to": "@other end </p>",
    "mains": "<h1>inlet</h1>",
    "done by": "{{ nobody }}",
    "part note": "{% raw %} <b onmouseover=alert(8)>x</b>",
    "box": "\\text{<b>&}",
    "through": "\"'></text><text>",
    "leads": "<style>@import 'x'</style>",
}
"""Every free text by its place."""


def harmless(texts: Mapping[str, str]) -> dict[str, str]:
    """Return texts with words as long as the hostile ones, of letters alone."""
    made = {}
    for place, (key, text) in enumerate(texts.items()):
        plain = re.sub(r"\S", "q", text.strip())
        made[key] = re.sub(r"\S\S$", f"{place:02d}", plain)
    return made


def build(names: Mapping[str, str], texts: Mapping[str, str]) -> bytes:
    """Return the build file with these names and texts in it."""
    n = {key: json.dumps(name, ensure_ascii=False) for key, name in names.items()}
    t = {key: json.dumps(text, ensure_ascii=False) for key, text in texts.items()}
    lamps = [n[f"lamp {number}"] for number in range(1, 17)]
    more = "\n".join(f"  {lamp}: {{kind: lamp, draws: 1 W}}" for lamp in lamps)
    twigs = "\n".join(f"      - {{from: {n['bar']}, path: [{lamp}: 2 ft]}}" for lamp in lamps[2:])
    return f"""\
format: 1
build: {{name: {n["trailer"]}, number: {n["number"]}, country: US, description: {t["description"]}}}
battery: {{chemistry: agm, capacity: 90 Ah, to main fuse: 5 in, to front box: 4 ft,
  where: {t["where box"]}, box: {t["box"]}}}
front box: {{fuse ways: 12, fuses: blade regular, where: {t["where box"]}}}
tow plug: {{pattern: 7-way blade, to front box: 7 ft, where: {t["where plug"]}}}
wire: {{on the shelf: [16 AWG, 14 AWG, 12 AWG, 10 AWG, 8 AWG], sold as: single, feed: red, return: black}}
parts:
  {n["lamp"]}: {{kind: lamp, draws: 5 W, where: {t["where lamp"]}, note: {t["note"]}}}
  {n["switch"]}: {{kind: switch, where: {t["where lamp"]}}}
  {n["dimmer"]}: {{kind: dimmer, draws when idle: 5 mA}}
  {n["fan"]}: {{kind: fan, draws: 2 A, own switch: yes, leads: 10 in, leads come out: {t["leads"]},
    note: {t["part note"]}}}
  {n["pump"]}: {{kind: pump, draws: 4 A}}
  {n["relay"]}: {{kind: relay, draws: 0.15 A}}
  {n["relay switch"]}: {{kind: switch}}
  {n["alarm"]}: {{kind: alarm, draws: 80 mA}}
  {n["socket"]}: {{kind: socket, draws: 10 W}}
  {n["meter"]}: {{kind: meter, draws: 10 mA}}
  {n["splice"]}: {{kind: splice}}
  {n["left lamp"]}: {{kind: lamp, draws: 2 W}}
  {n["right lamp"]}: {{kind: lamp, draws: 2 W}}
  {n["connector"]}: {{kind: connector, ways: 8}}
  {n["hinge lamp"]}: {{kind: lamp, draws: 3 W}}
  {n["loose fuse"]}: {{kind: fuse, rating: 5 A, where: {t["where fuse"]}}}
  {n["strip"]}: {{kind: lamp, draws: 1.5 W per ft, lit length: 5 ft}}
  {n["receiver"]}: {{kind: receiver, outputs: [{n["output left"]}, {n["output right"]}]}}
  {n["bar"]}: {{kind: bar}}
{more}
circuits:
  {n["circuit 1"]}: {{path: [{n["switch"]}: 6 ft, {n["lamp"]}: 8 ft], note: {t["note"]}}}
  {n["circuit 2"]}: {{path: [{n["dimmer"]}: 6 ft, {n["strip"]}: 8 ft]}}
  {n["circuit 3"]}: {{path: [{n["fan"]}: 6 ft]}}
  {n["circuit 4"]}:
    path: [{n["relay"]}: 1 ft, {n["pump"]}: 8 ft]
    branches: [{{from: fuse, path: [{n["relay switch"]}: 4 ft, {n["relay"]}: {{length: 4 ft, as: coil}}]}}]
  {n["circuit 5"]}:
    path: [{n["splice"]}: 6 ft, {n["left lamp"]}: 2 ft]
    branches: [{{from: {n["splice"]}, path: [{n["right lamp"]}: 2 ft]}}]
  {n["circuit 6"]}: {{path: [{n["connector"]}: 6 ft, {n["hinge lamp"]}: 2 ft]}}
  {n["circuit 7"]}: {{path: [{n["socket"]}: 6 ft]}}
  {n["circuit 9"]}:
    path: [{n["receiver"]}: {{length: 4 ft, through: {t["through"]}}}, {n["bar"]}: 3 ft, {n["lamp 1"]}: 2 ft]
    branches:
      - {{from: {n["receiver"]}, output: {n["output right"]}, path: [{n["lamp 2"]}: 2 ft]}}
{twigs}
  {n["circuit 8"]}: {{from: battery, path: [{n["loose fuse"]}: 4 in, {n["alarm"]}: 8 ft, {n["meter"]}: 2 ft]}}
road lamps:
  {n["rear lamp"]}: {{shows: [tail, stop, turn], side: both, wire: 14 ft, where: {t["where plug"]}}}
spares:
  {n["spare"]}: {{from: {t["spare from"]}, to: {t["spare to"]}, wire: 14 ft, size: 14 AWG}}
waiting: {{{n["socket"]}: {t["waiting"]}}}
mains: {{what: {t["mains"]}, done by: {t["done by"]}}}
""".encode()
