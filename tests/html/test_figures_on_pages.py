"""Every figure that a page shows is the figure computed, and every figure that it must show is there."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest
from example_site import EXAMPLE, KEYS, Site, kind_of, printed, record_of, source_of, value_at

UNITS = {"a": "A", "v": "V", "percent": "%", "ah": "Ah", "ohm": "Ω", "wh": "Wh"}
MUST_SHOW: dict[str, tuple[str, ...]] = {
    "index": (),
    "circuit": (
        r"circuits/{n}/load_current_a",
        r"wires/{n}[A-Z]+/length_m",
    ),
    "fuses": (r"fuses/.+/rating_a",),
    "wires": (r"wires/.+/length_m", r"plug/\d+/current_a", r"spares/.+/length_m"),
    "find": (r"fuses/.+/rating_a",),
    "worked": (r"circuits/\d+/loads/\d+/drop_v", r"energy/day/\d+/use_ah/\d", r"energy/nights/\d"),
    "assumed": (r"assumptions/.+/value", r"assumptions/.+/low", r"assumptions/.+/high"),
    "findings": (),
}
MAY_SHOW: dict[str, tuple[str, ...]] = {
    "circuit": (
        r"fuses/.+/(rating_a|load_a|starting_a|needed_a|ceiling_a)",
        r"circuits/{n}/loads/\d+/(current_a|drop_v|drop_percent)",
        r"circuits/{n}/size/(aim_v|next_smaller_drop_v)",
    ),
    "worked": (
        r"fuses/.+/(rating_a|load_a|starting_a|needed_a|ceiling_a)",
        r"circuits/\d+/size/(aim_v|next_smaller_drop_v|hand_formula/size)",
        r"energy/(idle_a|off_a|weeks_to_half/\d|day/\d+/(current_a|hours/\d))",
        r"circuits/\d+/loads/\d+/drop_percent",
        r"assumptions/copper temperature/value",
    ),
}
WORKSHOP_ALSO: dict[str, tuple[str, ...]] = {
    "circuit": (r"wires/{n}[A-Z]+/(current_a|ampacity_a|drop_v)", r"switches/.+/(load_a|least_rating_a)"),
}


def all_paths(value: object, path: str = "") -> Iterator[str]:
    """Yield the path of every value in a record, entries of keyed lists under their key."""
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from all_paths(inner, f"{path}/{key}".lstrip("/"))
    elif isinstance(value, list):
        key = KEYS.get(path)
        for place, inner in enumerate(value):
            step = str(inner[key]) if key else str(place)
            yield from all_paths(inner, f"{path}/{step}")
    else:
        yield path


def allowed(kind: str, edition: str, number: str) -> list[re.Pattern[str]]:
    patterns = [*MUST_SHOW[kind], *MAY_SHOW.get(kind, ())]
    if edition == "workshop":
        patterns += WORKSHOP_ALSO.get(kind, ())
    return [re.compile(pattern.replace("{n}", number)) for pattern in patterns]


def number_of(name: str) -> str:
    found = re.match(r"circuit-(\d+)", name)
    return str(int(found.group(1))) if found else ""


def test_every_figure_on_a_page_is_the_figure_computed(site: Site) -> None:
    for name in site.pages:
        for span in site.article(name).select("[data-figure]"):
            path, text = str(span["data-figure"]), span.get_text()
            unit = text.partition("\N{NO-BREAK SPACE}")[2]
            if path.startswith("assumptions/") and re.search(r"\d (ft|in)\b", text):
                unit = "m"
            assert text == printed(site.record, path, unit, site.edition), (name, path)


def test_units_are_those_of_the_record(site: Site) -> None:
    for name in site.pages:
        for span in site.article(name).select("[data-figure]"):
            ending = str(span["data-figure"]).rpartition("/")[2].rpartition("_")[2]
            unit = span.get_text().partition("\N{NO-BREAK SPACE}")[2]
            if ending in UNITS and unit:
                assert unit == UNITS[ending], (name, span)


def test_a_page_shows_the_figures_of_its_kind_and_no_other(site: Site) -> None:
    every = list(all_paths(site.record))
    for name in site.pages:
        kind, number = kind_of(name), number_of(name)
        shown = {str(span["data-figure"]) for span in site.article(name).select("[data-figure]")}
        patterns = allowed(kind, site.edition, number)
        strange = {path for path in shown if not any(p.fullmatch(path) for p in patterns)}
        assert not strange, (name, sorted(strange)[:5])
        for pattern in MUST_SHOW[kind]:
            wanted = {path for path in every if re.fullmatch(pattern.replace("{n}", number), path)}
            if pattern.startswith(r"plug"):
                wanted = {
                    p
                    for p in wanted
                    if "circuit" in next(c for c in site.record["plug"] if f"plug/{c['contact']}/" in p)
                }
            if kind == "worked" and "loads" in pattern:
                wanted -= idle_drops(site)
            assert wanted <= shown, (name, pattern, sorted(wanted - shown)[:5])


def idle_drops(site: Site) -> set[str]:
    return {
        f"circuits/{circuit['number']}/loads/{place}/drop_v"
        for circuit in site.record["circuits"]
        for place, load in enumerate(circuit["loads"])
        if load.get("what") == "idle"
    }


def figures_of(text: str) -> dict[str, dict[str, str]]:
    """Return for each page of a manual its figures: path to printed text."""
    found = {}
    for name, content in source_of(text).files.items():
        if name.endswith(".md"):
            pairs = re.findall(r'data-figure="([^"]+)">([^<]*)<', str(content))
            found[name] = dict(pairs)
    return found


def test_a_stronger_lamp_changes_the_dependent_numbers_and_no_other() -> None:
    before_text = EXAMPLE.read_text(encoding="utf-8")
    line = "  left step lamp: {kind: lamp, draws: 3 W,"
    assert line in before_text
    after_text = before_text.replace(line, line.replace("3 W", "30 W"))
    before, after = record_of(before_text), record_of(after_text)
    known = set(all_paths(before))
    changed = {
        path
        for path in all_paths(after)
        if path not in known or value_at(before, path) != value_at(after, path)
    }
    assert "circuits/1/load_current_a" in changed
    assert "wires/1A/current_a" in changed
    assert "wires/1C/current_a" not in changed  # the other side of the same circuit
    assert not any(
        re.fullmatch(r"wires/2[A-Z]+/(current_a|resistance_ohm|drop_v|length_m)", p) for p in changed
    )
    old, new = figures_of(before_text), figures_of(after_text)
    assert old.keys() == new.keys()
    for name, figures in new.items():
        for path, text in figures.items():
            if path not in old[name]:  # a reason that was not there before brings its own figures
                reason = "/".join([*path.split("/")[:2], "size", "reason"])
                own = path.startswith(("circuits/1/", "fuses/way 1/", "wires/1"))
                assert own or path in changed or reason in changed, (name, path)
            elif text != old[name][path]:
                assert path in changed, (name, path)
    assert new["circuit-01-step-lights.md"]["circuits/1/load_current_a"] != "0.5\N{NO-BREAK SPACE}A"


@pytest.mark.parametrize("figures", [2])
def test_the_owner_reads_two_figures_at_most(owner: Site, figures: int) -> None:
    for name in owner.pages:
        for span in owner.article(name).select("[data-figure]"):
            path = str(span["data-figure"])
            if path.endswith(("length_m", "rating_a", "size")) or "assumptions" in path:
                continue
            digits = re.match(r"[\d.]+", span.get_text())
            assert digits, (name, span)
            assert len(digits.group().replace(".", "").lstrip("0").rstrip("0")) <= figures, (name, span)
