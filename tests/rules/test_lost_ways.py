"""What ``through`` names for parts without a place is told of once, however many wires and sides it is about."""

from __future__ import annotations

from rule_builds import PLUG, build, findings, read

PLACES = (
    "places: {front box: {back: 1 ft, up: 2 ft}, corner: {back: 1 ft, left: 2 ft, up: 2 ft}}\n"
    "chases: {groove: {through: [front box, corner]}}\n"
)
RULE = "no way for wire"


def lost(rest: str) -> list[tuple[int, str]]:
    """Return the line and the message of each way that is not known."""
    return [(one.origin.line, one.message) for one in findings(build(rest), RULE)]


def test_both_sides_of_a_lamp_are_one_finding() -> None:
    rest = PLUG + PLACES + "road lamps: {marker: {shows: marker, side: both, path: [marker: WIRE]}}\n"
    ((line, message),) = lost(rest.replace("WIRE", "{length: 9 ft, through: groove}"))
    assert line == len(build(rest).splitlines())
    assert "since “marker left” and “marker right” have no place: “groove” under through" in message
    assert lost(rest.replace("WIRE", "9 ft")) == []


def test_a_return_beside_its_feeds_is_not_told_again() -> None:
    """The return of both lies along the two ways that its feeds were given."""
    rest = (
        PLACES
        + "parts: {switch: {kind: switch}, lamp: {kind: lamp, draws: 3 W}}\ncircuits:\n  light:\n    path:\n"
        "    - switch: {length: 3 ft, through: groove}\n    - lamp: {length: 3 ft, through: corner}\n"
    )
    trailer, figures = read(build(rest))
    assert set(figures.runs.unknown) >= {wire.number for wire in trailer.wires if wire.circuit == 1}
    told = lost(rest)
    assert [line - len(build(PLACES).splitlines()) for line, _ in told] == [5, 6]
    assert "the way of 1A, 1C is not known, since “switch” has no place: “groove”" in told[0][1]
    assert "the way of 1B, 1C is not known, since “switch” and “lamp” have no place: “corner”" in told[1][1]


def test_several_entries_to_one_part_are_one_finding() -> None:
    spare = "{from: front box, to: galley, wire: 8 ft, size: 16 AWG, through: groove}"
    ((line, message),) = lost(PLACES + f"spares:\n  one: {spare}\n  two: {spare}\n")
    assert line == len(build(PLACES).splitlines()) + 2
    assert message.startswith("the way of S1, S2 is not known, since “galley” has no place")


def test_the_battery_line_is_told_at_its_feed() -> None:
    battery = (
        "battery: {chemistry: agm, capacity: 60 Ah, "
        "path: [main fuse: 5 in, front box: {length: 2 ft, through: groove}]}"
    )
    text = build(PLACES, battery=battery)
    ((_, message),) = [(one.origin, one.message) for one in findings(text, RULE)]
    assert "since “main fuse” has no place" in message


def test_without_places_through_holds_words_of_ones_own() -> None:
    path = "path: [lamp: {length: 6 ft, through: left wall}]"
    assert lost(f"parts: {{lamp: {{kind: lamp, draws: 3 W}}}}\ncircuits:\n  lamp: {{{path}}}\n") == []
