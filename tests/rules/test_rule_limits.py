"""Each rule at its limit: silent just inside, speaking just outside at the right word, cured by what it prints."""

from __future__ import annotations

from dataclasses import dataclass

import pytest
from rule_builds import BATTERY, build, findings, line_of, marked

from builder.rules.finding import Level

PLUG = "tow plug: {pattern: 7-way blade, to front box: 7 ft}\n"
FAN = "parts: {fan: {kind: fan, draws: 3 A}}\ncircuits:\n  fan: {fuse: 10 A, path: [fan: 6 ft]}\n"
HEATER = "parts: {heater: {kind: heater, draws: 8 A}}\ncircuits:\n  heater: {fuse: 10 A, path: [heater: 2 ft]}\n"
LAMP = "parts: {lamp: {kind: lamp, draws: 3 W}}\ncircuits:\n  lamp: {path: [lamp: 6 ft]}\n"
MAIN_30 = "battery: {chemistry: agm, capacity: 60 Ah, path: [main fuse: 5 in, isolating switch: 6 in, front box: 2 ft], fuse: 30 A, size: 8 AWG}"
ALARM = "parts: {alarm: {kind: alarm, draws: 80 mA}}\ncircuits:\n  alarm: {from: main fuse, size: 10 AWG, path: [alarm: 6 ft]}\n"
SHORE = (
    "mains: {what: inlet, done by: licensed electrician}\nparts: {shore converter: {kind: shore converter, gives: 10 A}}\n"
    "circuits:\n  charging: {from: shore converter, size: 10 AWG, path: [front box: 5 ft]}\n"
)
THICK = "battery: {chemistry: agm, capacity: 60 Ah, size: 8 AWG, to main fuse: 5 in, to front box: 2 ft}"
PUMP = "parts: {pump: {kind: pump, draws: 4 A}}\ncircuits:\n  pump: {path: [pump: 6 ft]}\n"
FRIDGE = "parts: {box: {kind: fridge, draws: 4 A, works from: 9.6 V}}\ncircuits:\n  cool: {path: [box: 8 ft]}\n"
TWO = "parts: {fan: {kind: fan, draws: 1 A}, lamp: {kind: lamp, draws: 3 W}}\ncircuits:\n  fan: {path: [fan: 6 ft]}\n  light: {path: [lamp: 6 ft]}\n"
HATCH = (
    "parts: {hatch plug: {kind: connector, ways: 2}, lamp: {kind: lamp, draws: 3 W}}\n"
    "circuits:\n  lamp: {path: [hatch plug: {length: 6 ft, terminal: 1}, lamp: 2 ft]}\n"
)
ROAD = PLUG + "road lamps:\n  plate lamp: {shows: plate, wire: 9 ft}\n  front marker: {shows: marker, side: both, wire: 5 ft}\n"
FRAMED = "battery: {chemistry: agm, capacity: 60 Ah, to main fuse: 5 in, to front box: 2 ft, frame bond: 8 AWG}"
CHARGE = (
    "parts: {charger: {kind: dc charger, gives: 10 A}}\ncircuits:\n  charge: {from: tow plug battery, size: 10 AWG, "
    "path: [charger: 7 ft, battery fuse: 2 ft, battery: 7 in]}\n"
)


@dataclass(frozen=True)
class Limit:
    """One limit: a build inside it, the one change that leaves it, what is said then, and the ways out.

    ``breaks`` and each of ``ways_out`` are words of the file and what stands in their place; the second part of
    ``says`` is what the help must print. A way out is applied to the build outside.
    """

    name: str
    rule: str
    inside: str
    breaks: tuple[str, str]
    at: tuple[str, str]
    level: Level
    says: tuple[str, ...]
    ways_out: tuple[tuple[str, str, str], ...]

    @property
    def outside(self) -> str:
        """The build just outside the limit."""
        return changed(self.inside, *self.breaks)


def changed(text: str, old: str, new: str) -> str:
    """Return a text with one word changed, which must be there."""
    assert old in text, old
    return text.replace(old, new, 1)


LIMITS = (
    # FAA AC 43.13-1B Table 11-3: 16 AWG 10 A, 14 AWG 15 A, 12 AWG 20 A; breakers 16 AWG 15 A, 14 AWG 20 A.
    Limit("a fuse on 16 AWG", "fuse above wire", build(FAN), ("fuse: 10 A", "fuse: 15 A"), ("fan: {fuse", "15 A"),
          Level.MUST, ("15 A fuse", "1A (16 AWG)", "10 A"),
          (("fuse: 10 A", "fuse: 15 A", "fuse: 10 A"), ("size: 14 AWG", "fuse: 15 A", "fuse: 15 A, size: 14 AWG"))),
    Limit("a fuse on 14 AWG", "fuse above wire", build(changed(FAN, "10 A", "15 A"), shelf="14 AWG"), ("15 A", "20 A"),
          ("fan: {fuse", "20 A"), Level.MUST, ("20 A fuse", "14 AWG", "15 A"),
          (("fuse: 15 A", "20 A", "15 A"), ("size: 12 AWG", "fuse: 20 A", "fuse: 20 A, size: 12 AWG"))),
    Limit("a breaker on 16 AWG goes by the chart's own column", "fuse above wire",
          build("parts: {guard breaker: {kind: breaker, rating: 15 A}, fan: {kind: fan, draws: 3 A}}\ncircuits:\n"
                "  fan: {path: [guard breaker: 1 ft, fan: 6 ft]}\n"), ("rating: 15 A", "rating: 20 A"),
          ("parts", "guard breaker"), Level.MUST, ("20 A breaker", "15 A"),
          (("rating: 15 A", "rating: 20 A", "rating: 15 A"), ("size: 14 AWG", "fan: {path", "fan: {size: 14 AWG, path"))),
    # 33 CFR 183.455(c)(1) on 183.425 Table 5: 150 % of 15 A for 16 AWG at 60 °C is 22.5 A.
    Limit("the boat rule, where the file asks for it", "fuse above wire",
          build(changed(FAN, "10 A", "20 A"), box="front box: {fuse ways: 4, check against: boat rule}"),
          ("20 A", "25 A"), ("fan: {fuse", "25 A"), Level.MUST, ("25 A fuse", "22.5 A"),
          (("fuse: 20 A", "25 A", "20 A"),)),
    Limit("a metric size goes by the gauge below it", "fuse above wire",
          build(changed(FAN, "10 A", "15 A"), shelf="2.5 mm²", more="country: DE"), ("15 A", "20 A"),
          ("fan: {fuse", "20 A"), Level.MUST, ("2.5 mm²", "15 A"),
          (("fuse: 15 A", "20 A", "15 A"), ("size: 4 mm²", "fuse: 20 A", "fuse: 20 A, size: 4 mm²"))),
    Limit("a load that needs its fuse", "fuse above wire",
          build("parts: {heater: {kind: heater, draws: 12 A}}\ncircuits:\n  heater: {fuse: 15 A, size: 14 AWG, path: [heater: 1 ft]}\n"),
          ("size: 14 AWG", "size: 16 AWG"), ("heater: {fuse", "15 A"), Level.MUST, ("16 AWG",),
          (("size: 14 AWG", "size: 16 AWG", "size: 14 AWG"),)),
    # The same chart: a 30 A fuse needs 10 AWG.
    Limit("no fuse between the main fuse and a thin wire", "no own fuse", build(ALARM, battery=MAIN_30),
          ("size: 10 AWG", "size: 12 AWG"), ("alarm: {from", "alarm"), Level.MUST,
          ("no fuse of its own", "30 A main fuse", "12 AWG", "20 A"),
          (("fuse: 3 A", "from: main fuse", "from: main fuse, fuse: 3 A"),)),
    Limit("no fuse behind the isolating switch", "no own fuse",
          build(changed(ALARM, "main fuse", "isolating switch"), battery=MAIN_30), ("size: 10 AWG", "size: 12 AWG"),
          ("alarm: {from", "alarm"), Level.MUST, ("30 A main fuse",),
          (("fuse: 3 A", "from: isolating switch", "from: isolating switch, fuse: 3 A"),)),
    Limit("a charging line without a fuse at the front box", "no own fuse", build(SHORE, battery=MAIN_30),
          ("size: 10 AWG", "size: 12 AWG"), ("charging: {from", "charging"), Level.MUST, ("30 A main fuse", "12 AWG"),
          (("path: […, charging fuse: 3 ft, front box: 5 in]", "path: [front box: 5 ft]",
            "path: [charging fuse: 3 ft, front box: 5 in]"),)),
    # 33 CFR 183.455(b)(1): 7 in.
    Limit("a fuse of its own that stands far along", "no own fuse",
          build(changed(ALARM, "size: 10 AWG, path: [", "size: 16 AWG, path: [alarm fuse: 7 in, "), battery=MAIN_30),
          ("alarm fuse: 7 in", "alarm fuse: 7.5 in"), ("alarm: {from", "alarm fuse"), Level.SHOULD, ("30 A main fuse",),
          (("at most 7 in", "alarm fuse: 7.5 in", "alarm fuse: 7 in"), ("size: 10 AWG", "size: 16 AWG", "size: 10 AWG"))),
    Limit("a load at its fuse's rating", "load above fuse",
          build(changed(HEATER, "8 A", "10 A"), shelf="10 AWG"), ("draws: 10 A", "draws: 10.01 A"),
          ("heater: {fuse", "10 A"), Level.MUST, ("10.01 A", "10 A fuse"),
          (("fuse: 15 A", "fuse: 10 A", "fuse: 15 A"),)),
    Limit("an assumed load above its fuse is not a must fix", "load above fuse",
          build("parts: {heater: {kind: heater}}\ncircuits:\n  heater: {fuse: 4 A, path: [heater: 2 ft]}\n"),
          ("fuse: 4 A", "fuse: 3 A"), ("heater: {fuse", "3 A"), Level.SHOULD, ("4 A", "3 A fuse"),
          (("fuse: 5 A", "fuse: 3 A", "fuse: 5 A"),)),
    Limit("a load at four fifths of its fuse", "load above fuse", build(HEATER, shelf="14 AWG"),
          ("draws: 8 A", "draws: 8.01 A"), ("heater: {fuse", "10 A"), Level.WORTH, ("8.01 A", "80 %"),
          (("fuse: 15 A", "fuse: 10 A", "fuse: 15 A"),)),
    Limit("a larger fuse needs thicker wire", "load above fuse", build(HEATER, battery=THICK), ("draws: 8 A", "draws: 8.01 A"),
          ("heater: {fuse", "10 A"), Level.WORTH, ("8.01 A",),
          (("fuse: 15 A, and thicker wire in place of 1A: size: 14 AWG", "fuse: 10 A", "fuse: 15 A, size: 14 AWG"),)),
    # 16 AWG: the older table for recreational vehicles, from memory, allows 8 A, and 7.5 A is the rating below it.
    Limit("no rating between load and wire by a table from memory", "load above fuse",
          build("parts: {heater: {kind: heater, draws: 6 A}}\ncircuits:\n  heater: {path: [heater: 2 ft]}\n", battery=THICK),
          ("draws: 6 A", "draws: 6.1 A"), ("heater: {path", "heater"), Level.SHOULD, ("needs 10 A", "16 AWG", "8 A"),
          (("size: 14 AWG", "heater: {path", "heater: {size: 14 AWG, path"),)),
    Limit("no rating between load and wire by the chart", "load above fuse",
          build("parts: {heater: {kind: heater, draws: 12 A}}\ncircuits:\n  heater: {size: 14 AWG, path: [heater: 1 ft]}\n", battery=THICK),
          ("size: 14 AWG", "size: 16 AWG"), ("heater: {size", "heater"), Level.MUST, ("15 A", "16 AWG", "10 A"),
          (("size: 14 AWG", "size: 16 AWG", "size: 14 AWG"),)),
    Limit("no rating at hand", "load above fuse",
          build(changed(HEATER, "fuse: 10 A, ", ""), shelf="12 AWG", box="front box: {fuse ways: 4, fuses on the shelf: [3 A, 10 A]}"),
          ("[3 A, 10 A]", "[3 A]"), ("heater: {path", "heater"), Level.SHOULD, ("no fuse at hand", "10 A"),
          (("add 10 A to fuses on the shelf", "[3 A]", "[3 A, 10 A]"),)),
    # 33 CFR 183.455(b)(1): 7 in; NEC 552.10(E)(4): 18 in; ABYC E-11.10.1.1: 72 in in a sheath.
    Limit("7 in to the main fuse", "battery fuse", build(LAMP, battery=changed(BATTERY, "5 in", "7 in")),
          ("to main fuse: 7 in", "to main fuse: 7.5 in"), ("battery", "7.5 in"), Level.WORTH, ("7 1/2 in", "7 in"),
          (("to main fuse: 5 in", "7.5 in", "5 in"),)),
    Limit("no main fuse", "battery fuse", build(LAMP), ("to main fuse: 5 in, ", ""), ("battery", "agm"), Level.MUST,
          ("no fuse protects “battery line”",), (("to main fuse: 5 in", "to front box", "to main fuse: 5 in, to front box"),)),
    Limit("no main fuse in a path", "battery fuse", build(LAMP, battery=MAIN_30), ("main fuse: 5 in, ", ""),
          ("battery", "agm"), Level.MUST, ("no fuse",), (("in a path: [main fuse: 5 in, …]", "path: [", "path: [main fuse: 5 in, "),)),
    Limit("a circuit from the post", "battery fuse",
          build(changed(LAMP, "{path: [", "{from: battery, path: [lamp fuse: 7 in, ")), ("lamp fuse: 7 in, ", ""),
          ("lamp: {from", "lamp"), Level.MUST, ("no fuse protects “lamp”",),
          (("path: [lamp fuse: 5 in, …]", "path: [", "path: [lamp fuse: 5 in, "),)),
    Limit("the switch before the main fuse", "battery fuse",
          build(changed(LAMP, "{path: [", "{from: isolating switch, path: [lamp fuse: 2 in, "),
                battery="battery: {chemistry: agm, capacity: 60 Ah, path: [isolating switch: 4 in, main fuse: 2 in, front box: 2 ft]}"),
          ("lamp fuse: 2 in", "lamp fuse: 4 in"), ("lamp: {from", "lamp fuse"), Level.WORTH, ("8 in", "7 in"),
          (("within 7 in", "lamp fuse: 4 in", "lamp fuse: 3 in"),)),
    Limit("a branch that no fuse protects", "battery fuse",
          build("parts: {lamp: {kind: lamp, draws: 3 W}, meter: {kind: meter}, joint: {kind: splice}}\ncircuits:\n  lamp: {from: battery, "
                "path: [lamp fuse: 3 in, joint: 1 ft, lamp: 1 ft], branches: [{from: joint, path: [meter: 1 ft]}]}\n"),
          ("lamp fuse: 3 in, joint: 1 ft", "joint: 1 in, lamp fuse: 3 in"), ("lamp: {from", "lamp"), Level.MUST, ("no fuse",),
          (("path: [lamp fuse: 5 in, …]", "joint: 1 in, lamp fuse: 3 in", "lamp fuse: 5 in, joint: 1 in"),)),
    Limit("what charges the battery", "battery fuse", build(PLUG + CHARGE), ("battery: 7 in", "battery: 7.5 in"),
          ("charge: {from", "battery fuse"), Level.WORTH, ("7 1/2 in",), (("battery: 5 in", "7.5 in", "5 in"),)),
    Limit("a charging line without a fuse", "battery fuse", build(PLUG + CHARGE), ("battery fuse: 2 ft, ", ""),
          ("charge: {from", "charge"), Level.MUST, ("no fuse protects “charge”",),
          (("path: […, charge fuse: 2 ft, battery: 5 in]", "battery: 7 in", "charge fuse: 2 ft, battery: 5 in"),)),
    # ABYC E-11 11.14.2.6: 3 % for pumps.
    Limit("3 % at a pump", "drop above advice", build(changed(PUMP, "6 ft", "6 ft 7 in")), ("pump: 6 ft 7 in", "pump: 6 ft 8 in"), ("pump: {path", "pump"),
          Level.SHOULD, ("“pump”", "3.1 %", "3 % is advised"), (("size: 14 AWG", "pump: {path", "pump: {size: 14 AWG, path"),)),
    Limit("3 % at a pump, through a battery line that is thin", "drop above advice",
          build(changed(PUMP, "pump: 6 ft", "pump: {length: 6 ft, size: 10 AWG}"),
                battery=changed(BATTERY, "2 ft", "8 ft, size: 14 AWG")),
          ("8 ft, size: 14 AWG", "16 ft, size: 14 AWG"), ("pump: {path", "pump"), Level.SHOULD, ("3 % is advised",),
          (("size: 12 AWG under battery", "size: 14 AWG}", "size: 12 AWG}"),)),
    Limit("10 % at road lamps", "drop above advice",
          build(PLUG + "road lamps:\n  lamps: filament\n  rear lamp: {shows: stop, side: left, path: [rear lamp: 9 ft]}\n", shelf="18 AWG"),
          ("rear lamp: 9 ft", "rear lamp: 40 ft"), ("rear lamp", "rear lamp"), Level.SHOULD, ("10 % is advised",),
          (("size: 16 AWG at each item", "rear lamp: 40 ft", "rear lamp: {length: 40 ft, size: 16 AWG}"),)),
    Limit("the voltage a part works from, by its sheet", "too low voltage", build(FRIDGE), ("9.6 V", "11.7 V"),
          ("cool: {path", "box"), Level.MUST, ("“box”", "12.00 V", "11.70 V"), (("its supply falls to 11.50 V by itself: choose a part that works from less", "11.7 V", "9.6 V"),)),
    Limit("thicker wire brings the voltage", "too low voltage",
          build(changed(FRIDGE, "9.6 V", "11 V"), battery=changed(BATTERY, "60 Ah", "60 Ah, size: 8 AWG")),
          ("box: 8 ft", "box: 12 ft"), ("cool: {path", "box"), Level.SHOULD, ("11.50 V", "11.00 V"),
          (("“cool”: size: 14 AWG", "cool: {path", "cool: {size: 14 AWG, path"),)),
    Limit("the voltage that is usual for a kind", "too low voltage",
          build("parts: {box: {kind: fridge, draws: 5 A}}\ncircuits:\n  cool: {path: [box: 20 ft]}\n"), ("box: 20 ft", "box: 24 ft"),
          ("cool: {path", "box"), Level.SHOULD, ("10.40 V",),
          (("works from: 10.3 V", "draws: 5 A", "draws: 5 A, works from: 10.3 V"), ("size: 14 AWG", "{path", "{size: 14 AWG, path"))),
    Limit("as many ways as circuits", "too many circuits", build(TWO, box="front box: {fuse ways: 2}"), ("fuse ways: 2", "fuse ways: 1"),
          ("light", "light"), Level.MUST, ("“light” takes fuse way 2", "has 1"), (("fuse ways: 2", "fuse ways: 1", "fuse ways: 2"),)),
    Limit("a way beyond the block", "too many circuits", build(TWO), ("fan: {path", "fan: {way: 5, path"), ("fan: {way", "fan"),
          Level.MUST, ("fuse way 5", "has 4"), (("fuse ways: 5", "fuse ways: 4", "fuse ways: 5"),)),
    Limit("as many connector ways as wires", "too many wires", build(HATCH), ("ways: 2", "ways: 1"), ("parts", "hatch plug"),
          Level.MUST, ("2 wires go through “hatch plug”", "take 1"), (("ways: 2", "ways: 1", "ways: 2"),)),
    Limit("a way that the connector does not have", "too many wires", build(HATCH), ("terminal: 1", "terminal: 3"),
          ("parts", "hatch plug"), Level.MUST, ("way 3 of “hatch plug”",),
          (("terminal: 3 out", ", terminal: 3", ""), ("ways: 3", "ways: 2", "ways: 3"))),
    Limit("a screw for each wire", "too many wires", build(TWO, box="front box: {fuse ways: 4, ground bar: 3}"),
          ("ground bar: 3", "ground bar: 2"), ("front box", "front box"), Level.MUST, ("3 wires land on the ground bar", "take 2"),
          (("ground bar: 3", "ground bar: 2", "ground bar: 3"),)),
    Limit("a position for each wire of the tow plug", "too many wires", build(ROAD, box="front box: {fuse ways: 4, strip: 3}"),
          ("strip: 3", "strip: 2"), ("front box", "front box"), Level.MUST, ("3 positions", "2"), (("strip: 3", "strip: 2", "strip: 3"),)),
    Limit("a part that no path names", "part not wired", build(changed(TWO, "[fan: 6 ft]", "[fan: 6 ft, lamp: 6 ft]").rpartition("  light")[0]),
          (", lamp: 6 ft", ""), ("parts", "lamp"), Level.SHOULD, ("no wire goes to “lamp”",),
          (("path: [lamp: 6 ft]", "circuits:", "circuits:\n  light: {path: [lamp: 6 ft]}"), ("take it out of parts", ", lamp: {kind: lamp, draws: 3 W}", ""))),
    Limit("a return to a frame that nothing bonds", "part not wired", build(changed(LAMP, "{path", "{return: frame, path"), battery=FRAMED),
          (", frame bond: 8 AWG", ""), ("lamp: {return", "lamp"), Level.SHOULD, ("the frame",),
          (("frame bond: 8 AWG", "2 ft}", "2 ft, frame bond: 8 AWG}"), ("take return: frame out", "return: frame, ", ""))),
    Limit("the frame as a return", "frame return", build(LAMP, battery=FRAMED), ("{path", "{return: frame, path"), ("lamp: {return", "lamp"),
          Level.SHOULD, ("“lamp” uses the frame",), (("take return: frame out", "return: frame, ", ""),)),
    Limit("mains that nobody signed", "mains unnamed", build("mains: {what: inlet, done by: licensed electrician}\n" + LAMP),
          (", done by: licensed electrician", ""), ("mains", "mains"), Level.SHOULD, ("mains",),
          (("done by: licensed electrician", "what: inlet", "what: inlet, done by: licensed electrician"),)),
    Limit("a converter from shore power", "mains unnamed", build(changed(SHORE, "front box: 5 ft", "charging fuse: 3 ft, front box: 5 in")),
          ("mains: {what: inlet, done by: licensed electrician}\n", ""), ("parts", "shore converter"), Level.SHOULD, ("“shore converter”",),
          (("mains: {what: …, done by: licensed electrician}", "parts:", "mains: {what: inlet, done by: licensed electrician}\nparts:"),)),
)  # fmt: skip
"""One line or more for each rule; the tables that the numbers come from stand above them."""

EVERY_LIMIT = pytest.mark.parametrize("limit", LIMITS, ids=lambda limit: f"{limit.rule}: {limit.name}")


@EVERY_LIMIT
def test_it_is_silent_just_inside(limit: Limit) -> None:
    """Or says no more than what is worth knowing, where its limit for more is tried."""
    order = list(Level)
    found = findings(limit.inside, limit.rule)
    assert [f.message for f in found if order.index(f.level) <= order.index(limit.level)] == []


@EVERY_LIMIT
def test_it_speaks_just_outside_at_the_right_word(limit: Limit) -> None:
    (finding,) = findings(limit.outside, limit.rule)
    start, word = limit.at
    assert marked(limit.outside, finding) == (line_of(limit.outside, start), word)
    assert finding.level is limit.level
    for words in limit.says:
        assert words in finding.message
    for printed, _, _ in limit.ways_out:
        assert printed in finding.help


@EVERY_LIMIT
def test_the_printed_way_out_makes_it_silent(limit: Limit) -> None:
    assert limit.ways_out
    for _, old, new in limit.ways_out:
        assert findings(changed(limit.outside, old, new), limit.rule) == ()


@pytest.mark.parametrize(
    ("far", "level"),
    [
        ("7 in", None),
        ("7.5 in", Level.WORTH),
        ("18 in", Level.WORTH),
        ("18.5 in", Level.SHOULD),
        ("72 in", Level.SHOULD),
        ("73 in", Level.MUST),
    ],
)
def test_the_distance_to_the_main_fuse(far: str, level: Level | None) -> None:
    """33 CFR 183.455(b)(1) 7 in, NEC 552.10(E)(4) 18 in, ABYC E-11.10.1.1 72 in."""
    found = findings(build(LAMP, battery=changed(BATTERY, "5 in", far)), "battery fuse")
    assert [finding.level for finding in found] == ([] if level is None else [level])


def test_a_metric_build_is_told_in_millimetres() -> None:
    text = build(LAMP, battery=changed(BATTERY, "5 in", "20 cm"), shelf="2.5 mm²", more="country: DE")
    (finding,) = findings(text, "battery fuse")
    assert finding.message == "the fuse of “battery line” is 200 mm of wire from the battery: 178 mm is the most"
    assert "to main fuse: 12 cm" in finding.help


def test_every_rule_has_its_limit_tried() -> None:
    from builder.rules.registry import RULES  # noqa: PLC0415 - only this test looks at the table

    assert {limit.rule for limit in LIMITS} == {rule.name for rule in RULES}
