"""The functions behind the published values are those that the tool itself uses, not copies for the tests."""

from __future__ import annotations

import sys
from pathlib import Path
from types import FrameType

from answers import CLASS_A

from builder.pages.manual import manual_source_of_file
from builder.publish.site import publish_site

ROOT = Path(__file__).resolve().parents[2]

_TEXT_COLOURS = "the colours of the style sheets are checked with it by tests, not while a manual is made"
_NETWORK = "the hand formula takes each load at 12.0 V; nothing solves the network yet"
_METRIC = "the example is wired in AWG"

NOT_IN_THE_EXAMPLE = {
    "builder.tables.bulbs.bulb_power_w": "watts of a bulb are printed nowhere; its amperes are",
    "builder.drawings.contrast.meets_threshold": _TEXT_COLOURS,
    "builder.drawings.contrast.passes_aa": _TEXT_COLOURS,
    "builder.electrics.conductors.constant_power_current_a": _NETWORK,
    "builder.electrics.conductors.voltage_drop_per_wire_hot": _NETWORK,
    "builder.electrics.conductors.load_voltage_hot": _NETWORK,
    "builder.electrics.conductors.series_current_a": _NETWORK,
    "builder.electrics.conductors.iec60228_factor_to_20c": _METRIC,
    "builder.electrics.conductors.required_area_metric": _METRIC,
}
"""Functions that publishing the example has no use for, each with the reason; at most ten."""


def called_while_publishing(monkeypatch_folder: Path) -> set[str]:
    seen: set[str] = set()

    def note(frame: FrameType, event: str, _arg: object) -> None:
        if event == "call":
            module = frame.f_globals.get("__name__", "")
            if module.startswith("builder."):
                seen.add(f"{module}.{frame.f_code.co_name}")

    sys.setprofile(note)
    try:
        source = manual_source_of_file(ROOT / "example_build" / "trailer.yaml", "workshop")
        publish_site(source, monkeypatch_folder / "manual")
        manual_source_of_file(Path(__file__).parent / "brakes_and_bulbs.yaml", "workshop")
    finally:
        sys.setprofile(None)
    return seen


def test_publishing_the_example_calls_the_functions_that_answer_the_check_values(tmp_path: Path) -> None:
    answering = {name for names in CLASS_A.values() for name in names}
    used = called_while_publishing(tmp_path)
    unused = answering - used
    assert unused <= NOT_IN_THE_EXAMPLE.keys(), sorted(unused - NOT_IN_THE_EXAMPLE.keys())
    assert NOT_IN_THE_EXAMPLE.keys() <= unused, sorted(NOT_IN_THE_EXAMPLE.keys() - unused)
    assert len(NOT_IN_THE_EXAMPLE) <= 10
