"""What rules must not say, must say, and how gravely: whole systems rather than single limits."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest
from generated_builds import GeneratedBuild, builds
from hypothesis import HealthCheck, assume, given, settings
from rule_builds import BATTERY, build, findings, read

from builder.buildfile.resolving import read_build
from builder.electrics.computing import compute
from builder.quantities.examples import in_metric
from builder.rules.finding import Finding, Level, Remark, Rule
from builder.rules.registry import RULES, _finding, find, sentences
from builder.trailer.circuits import CircuitKind
from builder.trailer.model import Trailer
from builder.trailer.origin import NOWHERE
from builder.trailer.size import Size

EXAMPLES = Path(__file__).parents[2] / "example_build"
MAIN_30 = "battery: {chemistry: agm, capacity: 60 Ah, to main fuse: 5 in, to front box: 2 ft, fuse: 30 A, size: 8 AWG}"
PLUG = "tow plug: {pattern: 7-way blade, to front box: 7 ft}\n"
DECIDES = {"read", "quoted", "file"}


def told(text: str, rule: str = "") -> list[str]:
    """Return the messages of a build's findings; few of the short builds here charge their battery."""
    found = findings(text, rule)
    return [finding.message for finding in found if rule or finding.rule != "battery not charged"]


# ---- how grave ----


@pytest.mark.parametrize("known", ["memory", "practice", "", "somewhere"])
@pytest.mark.parametrize("level", [None, *Level])
def test_a_limit_from_memory_or_practice_never_makes_a_must_fix(known: str, level: Level | None) -> None:
    for rule in RULES:
        remark = Remark(NOWHERE, "said", "help", known, "basis", level=level)
        assert _finding(rule, remark).level is not Level.MUST


@pytest.mark.parametrize("known", sorted(DECIDES))
def test_a_rules_own_level_holds_where_the_remark_has_none(known: str) -> None:
    rule = Rule("one", Level.MUST, lambda *_: (), "")
    assert _finding(rule, Remark(NOWHERE, "said", "help", known, "basis")).level is Level.MUST
    worth = Remark(NOWHERE, "said", "help", known, "basis", level=Level.WORTH)
    assert _finding(rule, worth).level is Level.WORTH


def test_the_gravest_stand_first() -> None:
    text = build(
        "parts: {lamp: {kind: lamp}, spare: {kind: lamp}}\ncircuits:\n  lamp: {fuse: 15 A, path: [lamp: 6 ft]}\n",
        battery=BATTERY.replace("5 in", "8 in"),
    )
    levels = [finding.level for finding in findings(text)]
    assert set(levels) == set(Level)
    assert levels == sorted(levels, key=list(Level).index)


def test_of_the_smallest_build_there_is_nothing_to_mend_and_little_to_know() -> None:
    """Its lamps are taken for filament ones, for it does not say what they are."""
    found = {(one.rule, one.level) for one in findings((EXAMPLES / "smallest" / "trailer.yaml").read_text())}
    assert found == {
        ("battery not charged", Level.WORTH),
        ("lamp missing", Level.WORTH),
        ("plug converter overloaded", Level.WORTH),
    }


def test_the_example_has_no_must_fix() -> None:
    found = findings((EXAMPLES / "trailer.yaml").read_text())
    assert [finding.message for finding in found if finding.level is Level.MUST] == []


# ---- fuses and wires ----


def test_a_thin_wire_behind_a_fuse_of_its_own_is_not_held_against_the_fuse_before_it() -> None:
    text = build(
        "parts: {joint: {kind: bar}, heater: {kind: heater, draws: 14 A}, meter: {kind: meter}}\n"
        "circuits:\n  power: {fuse: 20 A, size: 10 AWG, path: [joint: 2 ft, heater: 2 ft], branches: "
        "[{from: joint, path: [meter fuse: {length: 5 in, size: 16 AWG}, meter: {length: 2 ft, size: 16 AWG}]}]}\n"
    )
    assert told(text, "fuse above wire") == []
    assert told(text.replace("5 in, size: 16 AWG", "8 in, size: 16 AWG"), "fuse above wire") != []
    assert told(text.replace("meter fuse: {length: 5 in, size: 16 AWG}, ", ""), "fuse above wire") != []


def test_the_returns_behind_a_fuse_count_as_its_wires() -> None:
    text = build(
        "parts: {joint: {kind: splice}, fan: {kind: fan, draws: 3 A}}\ncircuits:\n  fan: {fuse: 15 A, size: 14 AWG, "
        "path: [joint: {length: 2 ft, size: 16 AWG}, fan: 2 ft]}\n"
    )
    assert told(text, "fuse above wire") != []
    assert told(text.replace("2 ft, size: 16 AWG", "2 ft, size: 14 AWG"), "fuse above wire") == []


def test_a_charging_line_has_its_fuses_at_both_ends() -> None:
    text = build(
        PLUG + "parts: {charger: {kind: dc charger, gives: 10 A}, car-side fuse: {kind: fuse, rating: 20 A}, "
        "battery fuse: {kind: fuse, rating: 15 A}}\ncircuits:\n  charge: {from: tow plug battery, path: "
        "[car-side fuse: 6 in, charger: {length: 7 ft, size: 12 AWG}, battery fuse: {length: 2 ft, size: 14 AWG}, "
        "battery: 5 in], size: 12 AWG}\n",
        battery=MAIN_30,
    )
    assert [f.message for f in findings(text) if f.level is Level.MUST] == []
    thin = text.replace("2 ft, size: 14 AWG", "2 ft, size: 16 AWG")
    assert any("15 A fuse of “charge”" in message for message in told(thin, "fuse above wire"))


@pytest.mark.parametrize(
    "lines",
    [
        PLUG
        + "parts: {lamp: {kind: lamp, draws: 3 W}}\ncircuits:\n  lamp: {from: tow plug battery, path: [lamp: 9 ft]}\n",
        "parts: {sun: {kind: solar module, gives: 100 W}, controller: {kind: charge controller}}\n"
        "circuits:\n  sun: {from: sun, path: [controller: 9 ft, sun fuse: 2 ft, battery: 5 in]}\n",
    ],
    ids=["the car's fuse", "a solar module"],
)
def test_a_wire_that_the_battery_cannot_reach_needs_no_fuse_here(lines: str) -> None:
    assert told(build(lines, battery=MAIN_30), "no own fuse") == []
    assert told(build(lines, battery=MAIN_30), "battery fuse") == []


def test_a_solar_line_without_a_fuse_is_told_once_at_the_battery() -> None:
    text = build(
        "parts: {sun: {kind: solar module, gives: 100 W}, controller: {kind: charge controller}}\n"
        "circuits:\n  sun: {from: sun, path: [controller: 9 ft, battery: 5 in]}\n",
        battery=MAIN_30,
    )
    assert told(text) == ["no fuse protects “sun” at the battery"]


def test_a_circuit_with_neither_fuse_nor_thin_wire_hangs_on_the_main_fuse_in_peace() -> None:
    text = build(
        "parts: {alarm: {kind: alarm}}\ncircuits:\n  alarm: {from: main fuse, path: [alarm: 3 ft]}\n",
        battery=MAIN_30.replace("fuse: 30 A", "fuse: 10 A"),
    )
    assert told(text) == []
    assert len(told(text.replace("fuse: 10 A", "fuse: 15 A"), "no own fuse")) == 1


def test_a_main_fuse_that_the_tool_chose_counts_as_well() -> None:
    text = build(
        "parts: {alarm: {kind: alarm}, heater: {kind: heater, draws: 12 A}}\ncircuits:\n"
        "  heater: {size: 12 AWG, "
        "path: [heater: 1 ft]}\n  alarm: {from: main fuse, size: 16 AWG, path: [alarm: 3 ft]}\n",
        battery=BATTERY.replace("60 Ah", "60 Ah, size: 8 AWG"),
    )
    (finding,) = findings(text, "no own fuse")
    assert "A main fuse before it is larger than its wire 2A (16 AWG)" in finding.message


def test_each_fuse_of_a_row_is_judged_by_its_own_wires() -> None:
    text = build(
        "parts: {guard breaker: {kind: breaker, rating: 10 A}, fan: {kind: fan, draws: 3 A}}\ncircuits:\n"
        "  fan: {fuse: 20 A, size: 12 AWG, path: [guard breaker: 4 ft, fan: {length: 2 ft, size: 16 AWG}]}\n",
        battery=MAIN_30,
    )
    assert told(text, "fuse above wire") == []
    (message,) = told(text.replace("rating: 10 A", "rating: 20 A"), "fuse above wire")
    assert "20 A breaker" in message


# ---- voltage ----


def test_what_is_usual_at_12_volts_is_not_asked_of_5_volts() -> None:
    text = build(
        "parts: {converter: {kind: converter, gives at: 5 V}, phone: {kind: socket, draws: 10 W, at: 5 V}}\n"
        "circuits:\n  phone: {path: [converter: 2 ft, phone: 1 ft]}\n"
    )
    assert told(text, "too low voltage") == []
    own = text.replace("at: 5 V}}", "at: 5 V, works from: 5.1 V}}")
    (finding,) = findings(own, "too low voltage")
    assert finding.level is Level.MUST


def test_a_part_of_two_loads_is_told_once() -> None:
    text = build(
        "parts: {dimmer: {kind: dimmer, draws when idle: 5 mA}, "
        "heater: {kind: air heater, draws: 4 A, draws when idle: 30 mA}}\n"
        "circuits:\n  heat: {path: [dimmer: 9 ft, heater: 9 ft]}\n"
    )
    assert len(told(text, "drop above advice")) == 1


# ---- wired or not ----

RELAY = (
    "parts: {relay: {kind: relay}, button: {kind: switch}, lamp: {kind: lamp, "
    "draws: 3 W}, night lamp: {kind: lamp, draws: 1 W}}\n"
    "circuits:\n  lamp: {path: [relay: 2 ft, lamp: 3 ft], "
    "branches: [{from: relay, output: rest, path: [night lamp: 2 ft]}, "
    "{from: fuse, path: [button: 2 ft, relay: {length: 3 ft, as: coil}]}]}\n"
)


def test_what_a_relay_feeds_at_rest_is_fed() -> None:
    assert told(build(RELAY)) == []


def test_a_relay_with_neither_coil_nor_contact_is_not_wired() -> None:
    text = build(
        "parts: {relay: {kind: relay}, lamp: {kind: lamp}}\ncircuits:\n  lamp: {path: [lamp: 3 ft]}\n"
    )
    assert told(text, "part not wired") == ["no wire goes to “relay”"]


def test_every_branch_with_the_frame_as_return_is_one_finding_a_circuit() -> None:
    text = build(
        "parts: {a: {kind: lamp}, b: {kind: lamp}}\ncircuits:\n  both: {return: frame, path: [a: 2 ft], "
        "branches: [{from: fuse, path: [b: 3 ft], return: frame}]}\n",
        battery=BATTERY.replace("2 ft}", "2 ft, frame bond: 8 AWG}"),
    )
    assert told(text) == ["“both” uses the frame as its return"]


# ---- every build ----


def _pattern(sentence: str) -> str:
    parts = re.split(r"\{\w+\}", sentence.replace("{{", "\0").replace("}}", "\1"))
    return ".+".join(re.escape(part.replace("\0", "{").replace("\1", "}")) for part in parts)


SAID = re.compile(
    "|".join(_pattern(text) for name, text in sentences().items() if name.endswith("_SAYS")), re.DOTALL
)
HELPS = re.compile(
    "|".join(
        _pattern(spelt)
        for name, text in sentences().items()
        if name.endswith("_HELP")
        for spelt in (text, in_metric(text))
    ),
    re.DOTALL,
)


def _check_shape(finding: Finding, lines: tuple[str, ...]) -> None:
    assert finding.level is not Level.MUST or finding.known in DECIDES
    assert SAID.fullmatch(finding.message), finding.message
    assert HELPS.fullmatch(finding.help), finding.help
    assert finding.basis
    assert 1 <= finding.origin.line <= len(lines)
    assert finding.origin.column <= len(lines[finding.origin.line - 1])
    assert "None" not in finding.help
    assert not re.search(
        r"\b(safe|compliant|certified|guaranteed)\b", finding.message + finding.help + finding.basis
    )


def _thicker(trailer: Trailer, number: int, size: Size, *, items_too: bool = False) -> Trailer:
    """Return a trailer as if ``size:`` stood at one circuit; wires with a size of their own keep it or take it too."""
    old = trailer.circuit(number).size
    return replace(
        trailer,
        circuits=tuple(replace(c, size=size) if c.number == number else c for c in trailer.circuits),
        wires=tuple(
            replace(w, size=size) if w.circuit == number and (items_too or w.size in (None, old)) else w
            for w in trailer.wires
        ),
    )


@settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))
@given(builds())
def test_the_size_that_is_named_against_a_drop_mends_it_in_any_build(made: GeneratedBuild) -> None:
    assume(read_build(made.data).trailer is not None)  # that it reads is tried elsewhere
    trailer, figures = read(made.text)
    line = next((c.number for c in trailer.circuits if c.kind is CircuitKind.BATTERY), 0)
    for finding in find(trailer, figures):
        named = re.search(r"(”: |of it: |too much: )size: (\S+) (AWG|mm²)", finding.help)
        if named is None or finding.rule not in ("drop above advice", "too low voltage"):
            continue
        size = Size("AWG" if named[3] == "AWG" else "mm2", named[2])
        number = line if "under battery" in finding.help else finding.circuit
        assert number is not None
        items_too = "there and at the items" in finding.help
        mended = _thicker(trailer, number, size, items_too=items_too)
        left = [
            f for f in find(mended, compute(mended)) if (f.rule, f.origin) == (finding.rule, finding.origin)
        ]
        assert left == []


@settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))
@given(builds())
def test_what_is_found_in_any_build_has_one_shape(made: GeneratedBuild) -> None:
    assume(read_build(made.data).trailer is not None)
    for finding in findings(made.text):
        _check_shape(finding, tuple(made.text.split("\n")))


# ---- several at once ----

HOUSE = """\
format: 1
build: {name: Reed, country: US}
battery: {chemistry: agm, capacity: 60 Ah, to main fuse: 5 in, to front box: 2 ft}
front box: {fuse ways: 4}
"""


def test_a_way_that_is_surely_above_is_not_hidden_by_one_that_may_carry_more() -> None:
    """42 W at 12 V are 3.5 A, stated; the heater's draw is assumed and higher."""
    text = f"""{HOUSE}parts:
  plug: {{kind: connector, ways: 4, rating: 3 A}}
  heater: {{kind: heater}}
  lamp: {{kind: lamp, draws: 42 W}}
circuits:
  heat: {{path: [plug: 3 ft, heater: 3 ft]}}
  light: {{path: [plug: 3 ft, lamp: 3 ft]}}
"""
    (finding,) = findings(text, "connector overloaded")
    assert finding.level is Level.MUST
    assert "3.5 A" in finding.message


def test_an_alarm_that_only_the_car_feeds_is_told() -> None:
    text = f"""{HOUSE}{PLUG}parts: {{gas alarm: {{kind: alarm, draws: 80 mA}}}}
circuits:
  alarm: {{from: tow plug battery, fuse: 3 A, path: [gas alarm: 6 ft]}}
"""
    (finding,) = findings(text, "alarm switched off")
    assert "“gas alarm” hangs on “tow plug” alone" in finding.message
    after = text.replace("from: tow plug battery", "from: main fuse")
    assert findings(after, "alarm switched off") == ()


def test_a_battery_that_charges_itself_is_not_charged() -> None:
    text = f"""{HOUSE}parts: {{dc: {{kind: dc charger, gives: 10 A}}}}
circuits:
  round: {{path: [dc: 2 ft, battery fuse: 1 ft, battery: 6 in]}}
"""
    text = text.replace("parts: {dc", "parts: {battery fuse: {kind: fuse, rating: 15 A}, dc")
    assert len(findings(text, "battery not charged")) == 1


@pytest.mark.parametrize(
    "line",
    [
        "drop allowed in a feed: 0.3 V",
        "drop allowed in a return: 0.05 V",
        "drop allowed at a switch: 0.2 V",
        "error of a cheap meter: 4 %",
        "surrounding temperature: 60 °C",
    ],
)
@pytest.mark.parametrize("chemistry", ["agm", "flooded"])
def test_an_assumption_can_be_any_value_of_its_range(line: str, chemistry: str) -> None:
    text = f"""{HOUSE.replace("agm", chemistry)}parts: {{lamp: {{kind: lamp, draws: 6 W}}}}
circuits:
  light: {{path: [lamp: 9 ft]}}
assume: {{{line}}}
"""
    assert read_build(text.encode()).problems == ()
    findings(text)


# ---- how far fasteners may go in ----

SHALLOW_BEYOND = """format: 1
build: {name: Example, country: US}
battery: {chemistry: agm, capacity: 60 Ah, to main fuse: 5 in, to front box: 2 ft}
front box: {fuse ways: 6}
wire: {on the shelf: [16 AWG]}
places:
  front box: {back: 1 ft, right: 24 in, up: 2 ft}
  lamp: {back: 5 ft, right: 24 in, up: 2 ft}
  far: {back: 5 ft, right: RIGHT, up: 2 ft 6 in}
  low front: {back: 0 in, right: 26 in, up: 0 in}
  low rear: {back: 8 ft, right: 26 in, up: 0 in}
  high rear: {back: 8 ft, right: 26 in, up: 4 ft}
  high front: {back: 0 in, right: 26 in, up: 4 ft}
  left: {back: 1 ft, left: 2 ft, up: 1 ft}
chases:
  groove: {through: [front box, lamp]}
  riser: {through: [lamp, far]}
skins:
  right wall: {corners: [low front, low rear, high rear, high front], fasteners go in: 2 1/2 in}
parts:
  lamp: {kind: lamp, draws: 3 W}
  fan: {kind: fan, draws: 1 A, place: lamp}
  pump: {kind: pump, draws: 1 A, place: far}
circuits: {lamp: {path: [lamp]}, fan: {path: [fan]}, pump: {path: [pump]}}
"""


@pytest.mark.parametrize("chases", ["apart", "one"])
@pytest.mark.parametrize(("right", "most"), [("24 in", "1 1/4 in"), ("25 in", "3/8 in"), ("25 1/2 in", "")])
def test_a_length_for_fasteners_keeps_clear_of_all_wires_behind_the_skin(
    right: str, most: str, chases: str
) -> None:
    """Six wires of 3.0 mm lie 2 in deep: less 9 mm of them and 10 mm of tape, 31.8 mm. Two rise to 1 in: 12.4 mm."""
    text = SHALLOW_BEYOND.replace("RIGHT", right)
    if chases == "one":
        text = text.replace("[front box, lamp]}\n  riser: {through: [lamp, far]}", "[front box, lamp, far]}")
    told_of = findings(text, "fastener reaches wire")
    assert told_of
    for finding in told_of:
        assert (f"go in {most} at most" in finding.help) == bool(most)
        assert ("at most" in finding.help) == bool(most)


@pytest.mark.parametrize(("side", "told_length"), [("outside", True), ("inside", False)])
def test_no_length_is_told_for_fasteners_that_go_out_through_a_bent_lining(
    side: str, told_length: bool
) -> None:
    """Between its corners it bulges towards the wires outside of it; to a roof's screws from outside it is further."""
    deep = "24 in" if side == "outside" else "28 in"
    text = SHALLOW_BEYOND.replace("RIGHT", deep).replace("right: 24 in", f"right: {deep}")
    text = text.replace(
        "chases:",
        "  top rear: {back: 8 ft, right: 20 in, up: 5 ft}\n"
        "  top front: {back: 0 in, right: 20 in, up: 5 ft}\nchases:",
        1,
    )
    text = text.replace("high rear, high front]", "high rear, top rear, top front, high front]")
    text = text.replace("fasteners go in: 2 1/2 in", f"fasteners go in: 2 1/2 in, from: {side}")
    told_of = findings(text, "fastener reaches wire")
    assert told_of
    assert all(("at most" in finding.help) is told_length for finding in told_of)


@pytest.mark.parametrize(
    ("corners", "says"),
    [
        ("[low front, low rear, low front]", "lie in one line, or at one point"),
        ("[low front, low front, low front]", "lie in one line, or at one point"),
        ("[low front, high rear, low rear, high front]", "do not follow each other round it"),
        ("[low front, low rear, high rear, left]", "lie in no plane, nor in a strip of planes"),
    ],
)
def test_what_is_wrong_with_the_corners_of_a_skin_is_called_by_its_name(corners: str, says: str) -> None:
    text = SHALLOW_BEYOND.replace("RIGHT", "24 in")
    text = text.replace("[low front, low rear, high rear, high front]", corners)
    (finding,) = findings(text, "cover not laid")
    assert finding.message == f"the corners of “right wall” {says}"
