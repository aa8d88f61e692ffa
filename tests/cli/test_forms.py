"""Text, brief and JSON carry the same problems; no command sends an escape byte where none is wanted."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from click.testing import CliRunner

from builder import cli
from builder.buildfile.problems import to_json, visible
from builder.pages.verdict import answer_brief, answer_text, judge_build
from builder.rules.page import page_of
from builder.rules.registry import RULES

ROOT = Path(__file__).parents[2]
SMALLEST = ROOT / "example_build" / "smallest" / "trailer.yaml"
BROKEN = sorted((ROOT / "tests" / "broken").glob("*.yaml"))
HEAD = re.compile(r"^trailer\.yaml:(\d+):(\d+): (.*)$", re.MULTILINE)
HELP = re.compile(r"^ +help: (.*)$", re.MULTILINE)
READ_MORE = re.compile(r"^  wiring-manual explain (.*)$", re.MULTILINE)


def test_text_brief_and_json_carry_the_same_problems() -> None:
    for path in BROKEN:
        verdict = judge_build(path.read_bytes(), "trailer.yaml")
        text, brief = answer_text(verdict), answer_brief(verdict)
        told = to_json(verdict.problems, "trailer.yaml")
        heads = [(str(one["line"]), str(one["column"]), visible(str(one["message"]))) for one in told]
        assert HEAD.findall(text) == HEAD.findall(brief) == heads, path
        assert brief.count("\n") == len(heads)
        assert HELP.findall(text) == [visible(str(one["help"])) for one in told]
        names = list(dict.fromkeys(one["name"] for one in told))
        assert READ_MORE.findall(text) == names, path
        assert {one["page"] for one in told} == {f"wiring-manual explain {name}" for name in names}


@pytest.mark.parametrize(
    ("terminal", "environ"), [(False, {}), (True, {"NO_COLOR": "1"}), (True, {"TERM": "dumb"})]
)
def test_no_command_sends_an_escape_byte_unasked(
    terminal: bool, environ: dict[str, str], tmp_path: Path
) -> None:
    problem, finding = tmp_path / "problem.yaml", tmp_path / "finding.yaml"
    problem.write_text("format: 1\nbuild: {name: Quarry Bend, zzz: 1}\n")
    finding.write_text(page_of(RULES[0]).failing)
    commands: list[list[str | Path]] = [
        ["--help"],
        ["begin", tmp_path / "new"],
        ["begin", tmp_path / "new"],
        *(["check", path, *more] for path in (problem, finding) for more in ([], ["--brief"], ["--json"])),
        ["check", problem, "--fix"],
        ["check", problem, "--fix", "--yes"],
        ["check", tmp_path / "nothing.yaml"],
        ["figures", finding],
        ["figures", problem],
        ["source", problem, "--into", tmp_path / "source"],
        ["publish", problem, "--into", tmp_path / "site"],
        ["explain"],
        ["explain", "unknown word"],
        ["explain", "zzz"],
        ["words"],
        ["words", "draws"],
        ["words", "zzz"],
        ["schema"],
        ["texts"],
        ["preview", "-"],
        ["number", "-"],
        ["number", finding, "--tell"],
        ["number", finding],
        ["number", finding, "--renamed", "zzz", "yyy"],
        ["number", problem],
        ["zzz"],
    ]
    assert {str(command[0]) for command in commands} > set(cli.main.commands)
    base = {"NO_COLOR": None, "FORCE_COLOR": None, "TERM": "xterm"}
    for command in commands:
        runner = CliRunner(env={**base, **environ})
        result = runner.invoke(cli.main, [str(word) for word in command], color=terminal)
        assert result.output, command
        assert "\x1b" not in result.output, command
        assert not isinstance(result.exception, Exception), command
