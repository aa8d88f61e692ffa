"""Any bytes as a build file: an answer with exit code 0, 1 or 2, never a traceback."""

from __future__ import annotations

import json
from pathlib import Path

from click.testing import CliRunner
from hypothesis import example, given, settings
from hypothesis import strategies as st

from builder.cli import main

SMALLEST = Path(__file__).parents[2].joinpath("example_build", "smallest", "trailer.yaml").read_bytes()
PIECES = (b"'", b'"', b": ", b"{", b"}", b"[", b"]", b"\n", b"- ", b"#", b"&a ", b"*a", b"| ", b"\t", b"\x00", b"\xff",
          b"0 ft", b"1e9 ft", b"-3 A", b"99999999999 W", b"frame", b"fuse", b"battery", b"both", b"\xe2\x80\xae",
          b"fuse: 5 A, ", b"return: frame, ", b"from: battery, ", b"size: 30 AWG, ", b"{kind: relay}")  # fmt: skip


@st.composite
def broken_builds(draw: st.DrawFn) -> bytes:
    """The smallest build with a few slices taken out, doubled, or replaced by a piece."""
    data = SMALLEST
    for _ in range(draw(st.integers(1, 4))):
        start = draw(st.integers(0, len(data)))
        end = min(len(data), start + draw(st.integers(0, 30)))
        data = data[:start] + draw(st.sampled_from([b"", data[start:end] * 2, *PIECES])) + data[end:]
    return data


def answer(data: bytes, *options: str) -> str:
    result = CliRunner().invoke(main, ["check", "-", *options], input=data)
    assert result.exception is None or isinstance(result.exception, SystemExit), data
    assert result.exit_code in {0, 1, 2}
    assert "Traceback" not in result.output
    assert result.output
    return result.stdout


@given(st.binary(max_size=300))
@example(b"")
@example(b"\xff\xfe\x00")
@example(b"[" * 5000)
@example(b"{a: " * 5000)
@example(b"format: 2\n")
@settings(max_examples=100, derandomize=True, deadline=None)
def test_any_bytes_are_answered(data: bytes) -> None:
    answer(data)


@given(broken_builds())
@settings(max_examples=250, derandomize=True, deadline=None)
def test_a_build_broken_anywhere_is_answered(data: bytes) -> None:
    answer(data)
    told = json.loads(answer(data, "--json"))
    assert (told["exit"] == 2) == bool(told["problems"])
    assert (told["exit"] == 1) == any(finding["level"] == "must fix" for finding in told["findings"])
