"""What each command prints, where it prints it, and what it exits with."""

from __future__ import annotations

import json
import sys
from pathlib import Path

import click
import pytest
from click.testing import CliRunner, Result

import builder
from builder import cli, console
from builder.buildfile.ledger_text import ledger_text
from builder.guide.making import guides
from builder.pages.record import record, to_text
from builder.pages.verdict import judge_build
from builder.rules.page import page_of
from builder.rules.registry import RULES, rule_named
from builder.trailer.ledger import Ledger

ROOT = Path(__file__).parents[2]
SMALLEST = ROOT / "example_build" / "smallest" / "trailer.yaml"
FIRST_LINE = "format: 1\nbuild: {name: Quarry Bend, country: US}\n"
FUZE = FIRST_LINE + "parts: {fan: {kind: fan}}\ncircuits: {fan: {path: [fan: 12 ft], fuze: 3 A}}\n"
MAINS_PAGE = page_of(next(rule for rule in RULES if rule.name == "mains unnamed"))
NOBODY_NAMED, SOMEBODY_NAMED = MAINS_PAGE.failing, MAINS_PAGE.passing
COLOURS = {"NO_COLOR": None, "FORCE_COLOR": None, "TERM": "xterm"}


def must_fix_build() -> str:
    rule = rule_named("fuse above wire")
    assert rule is not None
    return page_of(rule).failing


def run(
    *arguments: str | Path, text: str | bytes | None = None, terminal: bool = False, **environ: str
) -> Result:
    runner = CliRunner(env={**COLOURS, **environ})
    return runner.invoke(cli.main, [str(each) for each in arguments], input=text, color=terminal)


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


def write(folder: Path, text: str) -> Path:
    path = folder / "trailer.yaml"
    path.write_text(text, encoding="utf-8", newline="\n")
    return path


def test_version_is_the_package_s() -> None:
    result = run("--version")
    assert (result.exit_code, result.stdout) == (0, f"wiring-manual {builder.__version__}\n")


@pytest.mark.parametrize("command", sorted(cli.main.commands))
def test_the_help_of_every_command_teaches_by_example(command: str) -> None:
    result = run(command, "--help")
    assert result.exit_code == 0
    assert f"wiring-manual {command}" in result.stdout.partition("Examples:")[2]
    assert (command in run("--help").stdout) != cli.main.commands[command].hidden


def test_a_misspelt_command_is_refused_with_the_nearest() -> None:
    result = run("chekc")
    assert result.exit_code == 2
    assert "check" in result.stderr


# begin


def test_begin_writes_the_smallest_build_and_says_what_to_do_next(here: Path) -> None:
    result = run("begin", "my trailer")
    assert result.exit_code == 0
    assert (here / "my trailer" / "trailer.yaml").read_bytes() == SMALLEST.read_bytes()
    assert 'wiring-manual check "my trailer"' in result.stdout
    assert run("check", "my trailer").exit_code == 0


def test_begin_never_writes_over_a_file(here: Path) -> None:
    path = write(here, "mine\n")
    result = run("begin", ".")
    assert result.exit_code == 2
    assert "is there already" in result.stderr
    assert path.read_text() == "mine\n"


def test_begin_refuses_a_folder_that_is_a_file(here: Path) -> None:
    (here / "file").write_text("mine")
    for name in ("file", "file/inside"):
        result = run("begin", name)
        assert result.exit_code == 2
        assert result.stderr.count("\n") == 1
    assert (here / "file").read_text() == "mine"


# check


def test_check_tells_a_problem_with_its_line_a_mark_and_a_way_out(here: Path) -> None:
    result = run("check", write(here, FUZE))
    assert result.exit_code == 2
    assert result.stderr == ""
    assert result.stdout.splitlines()[1:] == [
        "   4 | circuits: {fan: {path: [fan: 12 ft], fuze: 3 A}}",
        "     |                                      ^^^^",
        "     help: did you mean “fuse”?",
        "",
        "To read more:",
        "  wiring-manual explain unknown word",
        "",
        "1 problem.",
    ]
    assert result.stdout.startswith(f"{here / 'trailer.yaml'}:4:38: “fuze” is not a word")


def test_check_tells_a_finding_in_the_same_shape_with_what_it_rests_on(here: Path) -> None:
    result = run("check", write(here, must_fix_build()))
    assert result.exit_code == 1
    head, source, mark, help_, basis, *rest = result.stdout.splitlines()
    line, column = (int(part) for part in head.removeprefix(f"{here / 'trailer.yaml'}:").split(":")[:2])
    assert head.split(": ")[1] == "must fix"
    assert source == f"   {line} | {must_fix_build().splitlines()[line - 1]}"
    assert mark.index("^") == len("   1 | ") + column - 1
    assert help_.startswith("     help: ")
    assert basis.startswith("     based on: FAA AC 43.13-1B")
    assert "  wiring-manual explain fuse above wire" in rest
    assert "1 must fix" in rest[-1]


def test_check_exits_0_with_what_only_should_be_fixed(here: Path) -> None:
    result = run("check", write(here, NOBODY_NAMED))
    assert result.exit_code == 0
    assert ": should fix: " in result.stdout
    assert "1 should fix" in result.stdout.splitlines()[-1]


def test_check_is_never_silent(here: Path) -> None:
    result = run("check", write(here, SOMEBODY_NAMED))
    assert (result.exit_code, result.stdout.count("\n")) == (0, 1)
    assert "nothing to fix" in result.stdout


@pytest.mark.parametrize(("text", "code"), [(FUZE, 2), (must_fix_build(), 1), (NOBODY_NAMED, 0)])
def test_brief_prints_one_line_each_and_the_count_beside_it(here: Path, text: str, code: int) -> None:
    path = write(here, text)
    result = run("check", path, "--brief")
    assert result.exit_code == code
    told = json.loads(run("check", path, "--json").stdout)
    found = [*told["problems"], *told["findings"]]
    lines = result.stdout.splitlines()
    assert [line.split(": ")[0] for line in lines] == [
        f"{path}:{one['line']}:{one['column']}" for one in found
    ]
    assert all(line.endswith(one["message"]) for line, one in zip(lines, found, strict=True))
    assert result.stderr.count("\n") == 1


def test_check_shows_the_first_fifty_and_all_when_asked(here: Path) -> None:
    path = write(here, FIRST_LINE + "parts:\n" + "".join(f"  p{n}: {{kind: zzz}}\n" for n in range(70)))
    assert run("check", path).stdout.count("help:") == 50
    assert run("check", path).stdout.endswith("70 problems, the first 50 shown (--all shows every one).\n")
    assert run("check", path, "--all").stdout.count("help:") == 70
    assert run("check", path, "--brief", "--all").stdout.count("\n") == 70
    assert len(json.loads(run("check", path, "--json").stdout)["problems"]) == 70


def test_check_as_json(here: Path) -> None:
    path = write(here, FUZE)
    told = json.loads(run("check", path, "--json").stdout)
    assert (told["shape"], told["file"], told["exit"], told["findings"]) == (1, str(path), 2, [])
    (problem,) = told["problems"]
    assert problem["page"] == "wiring-manual explain unknown word"
    assert [
        (edit["line"], edit["column"], edit["end_column"], edit["text"]) for edit in problem["edits"]
    ] == [(4, 38, 42, "fuse")]
    assert (problem["line"], problem["column"], problem["length"], problem["name"]) == (
        4,
        38,
        4,
        "unknown word",
    )
    write(here, must_fix_build())
    told = json.loads(run("check", path, "--json").stdout)
    assert (told["exit"], told["problems"]) == (1, [])
    assert told["findings"] == json.loads(run("figures", path).stdout)["findings"]


def test_two_shapes_of_an_answer_are_refused() -> None:
    result = run("check", SMALLEST, "--json", "--brief")
    assert (result.exit_code, result.stdout) == (2, "")


def test_a_build_may_be_a_file_a_folder_or_standard_input() -> None:
    data = SMALLEST.read_bytes()
    answers = [run("check", SMALLEST), run("check", SMALLEST.parent), run("check", "-", text=data)]
    assert {answer.exit_code for answer in answers} == {0}
    last = [answer.stdout.splitlines()[-1].partition(": ") for answer in answers]
    assert {said for _, _, said in last} == {last[0][2]}
    assert last[2][0] == "-"


# what cannot be read


@pytest.mark.parametrize(
    "command", [["check"], ["figures"], ["source", "--into", "x"], ["publish", "--into", "x"]]
)
@pytest.mark.parametrize(
    "name", ["missing.yaml", ".", "a\x00b", "big.yaml", "/dev/null", "missing/../trailer.yaml"]
)
def test_a_file_that_cannot_be_read_is_told_in_a_sentence(here: Path, command: list[str], name: str) -> None:
    with (here / "big.yaml").open("wb") as file:
        file.truncate(2_000_001)
    result = run(*command, name)
    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr.count("\n") == 1
    assert not (here / "x").exists()


def test_the_largest_file_is_still_read(here: Path) -> None:
    text = FUZE + "#" * (2_000_000 - len(FUZE.encode()))
    result = run("check", write(here, text))
    assert result.exit_code == 2
    assert "larger than" not in result.output


def test_standard_input_has_the_same_limit() -> None:
    result = run("check", "-", text=b"#" * 2_000_001)
    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr == "standard input is larger than 2 MB, the most that a build file may be.\n"


# figures


def test_figures_are_the_record(here: Path) -> None:
    path = write(here, must_fix_build())
    judged = judge_build(path.read_bytes(), path.name).judged
    result = run("figures", path)
    assert result.exit_code == 1
    made = guides(judged.trailer, judged.figures)
    assert made
    assert result.stdout == to_text(record(judged.trailer, judged.figures, judged.findings, made))
    assert "1 finding must be fixed" in result.stderr


@pytest.mark.parametrize("command", [["figures"], ["source", "--into", "x"], ["publish", "--into", "x"]])
def test_with_a_problem_nothing_is_written(here: Path, command: list[str]) -> None:
    write(here, FUZE)
    result = run(*command, ".")
    assert (result.exit_code, result.stdout) == (2, "")
    assert "did you mean “fuse”?" in result.stderr
    assert result.stderr.endswith("1 problem. Nothing was written.\n")
    assert [path.name for path in here.iterdir()] == ["trailer.yaml"]


# source and publish


def test_publish_writes_the_workshop_edition_and_says_so(here: Path) -> None:
    result = run("publish", SMALLEST, "--into", "manual")
    assert (result.exit_code, result.stderr) == (0, "")
    assert result.stdout.count("\n") == 1
    assert str(Path("manual", "index.html")) in result.stdout
    assert (here / "manual" / "findings.html").is_file()


def test_publish_the_owner_s_edition(here: Path) -> None:
    result = run("publish", SMALLEST, "--into", "manual", "--edition", "owner")
    assert result.exit_code == 0
    assert (here / "manual" / "index.html").is_file()
    assert not (here / "manual" / "findings.html").exists()


def test_with_a_must_fix_the_workshop_edition_is_published(here: Path) -> None:
    write(here, must_fix_build())
    result = run("publish", ".", "--into", "manual")
    assert result.exit_code == 1
    assert "1 finding must be fixed; a banner in the manual says so" in result.stderr
    assert (here / "manual" / "index.html").is_file()


def test_with_a_must_fix_the_owner_s_edition_is_refused(here: Path) -> None:
    write(here, must_fix_build())
    result = run("publish", ".", "--into", "manual", "--edition", "owner")
    assert (result.exit_code, result.stdout) == (1, "")
    assert "nothing was written" in result.stderr
    assert [path.name for path in here.iterdir()] == ["trailer.yaml"]


def test_a_should_fix_keeps_no_edition_back(here: Path) -> None:
    write(here, NOBODY_NAMED)
    assert run("publish", ".", "--into", "manual", "--edition", "owner").exit_code == 0


def test_an_unknown_edition_is_refused_with_the_choices(here: Path) -> None:
    result = run("publish", SMALLEST, "--into", "manual", "--edition", "public")
    assert result.exit_code == 2
    assert "workshop" in result.stderr
    assert "owner" in result.stderr


@pytest.mark.parametrize("command", ["source", "publish"])
def test_a_folder_of_others_is_left_alone(here: Path, command: str) -> None:
    (here / "mine").mkdir()
    (here / "mine" / "letter.txt").write_text("mine")
    result = run(command, SMALLEST, "--into", "mine")
    assert (result.exit_code, result.stdout) == (2, "")
    assert [path.name for path in (here / "mine").iterdir()] == ["letter.txt"]
    write(here, SMALLEST.read_text(encoding="utf-8"))
    assert run(command, ".", "--into", ".").exit_code == 2


def test_source_writes_what_mkdocs_builds(here: Path) -> None:
    for name, more in (("ours", []), ("plain", ["--plain"])):
        result = run("source", SMALLEST, "--into", name, *more)
        assert (result.exit_code, result.stderr) == (0, "")
        assert (here / name / "mkdocs.yml").is_file()
        assert (here / name / "docs" / "index.md").is_file()
    assert "builder" not in (here / "plain" / "mkdocs.yml").read_text(encoding="utf-8")


# explain, words, schema


@pytest.mark.parametrize("name", [rule.name for rule in RULES])
def test_every_rule_explains_itself_by_a_build_that_speaks_and_one_that_does_not(
    name: str, here: Path
) -> None:
    result = run("explain", *name.split())
    assert result.exit_code == 0
    assert run("explain", name.upper().replace(" ", "-")).stdout == result.stdout
    failing, passing = result.stdout.partition("Failing example:")[2].split("Passing example:")
    for text, speaks in ((failing, True), (passing, False)):
        build = "\n".join(line.removeprefix("    ") for line in text.strip("\n").splitlines()) + "\n"
        if "numbers: issued" in build:  # what is said of numbers is said where there is a file of them
            (here / "trailer.numbers.csv").write_text(ledger_text(Ledger("Example", "")), encoding="utf-8")
        (here / "trailer.yaml").write_text(build, encoding="utf-8")
        found = json.loads(run("check", "trailer.yaml", "--json").stdout)
        (here / "trailer.numbers.csv").unlink(missing_ok=True)
        assert found["problems"] == []
        assert (name in {finding["rule"] for finding in found["findings"]}) is speaks


def test_explain_alone_lists_the_rules() -> None:
    result = run("explain")
    assert result.exit_code == 0
    assert all(rule.name in result.stdout for rule in RULES)


def test_an_unknown_rule_is_refused_with_the_nearest_and_the_list() -> None:
    result = run("explain", "fuse", "abov", "wire")
    assert (result.exit_code, result.stdout) == (2, "")
    assert "Did you mean “fuse above wire”?" in result.stderr
    assert all(rule.name in result.stderr for rule in RULES)


def test_words() -> None:
    assert "road lamps" in run("words").stdout
    assert "as in: draws: 3 W" in run("words", "draws").stdout
    assert "fuse ways" in run("words", "front", "box").stdout
    result = run("words", "fuze")
    assert (result.exit_code, result.stdout) == (2, "")
    assert "Did you mean “fuse”?" in result.stderr


def test_schema_is_json() -> None:
    result = run("schema")
    assert result.exit_code == 0
    assert json.loads(result.stdout)["properties"]["circuits"]


# colour, hidden characters, an interrupt


def test_colour_only_where_it_is_wanted(here: Path) -> None:
    path = write(here, must_fix_build())
    plain = run("check", path).stdout
    assert "\x1b" not in plain
    coloured = run("check", path, terminal=True).stdout
    assert "\x1b[" in coloured
    assert click.unstyle(coloured) == plain
    assert run("check", path, FORCE_COLOR="1").stdout == coloured
    assert run("check", path, FORCE_COLOR="").stdout == plain
    assert run("check", path, terminal=True, NO_COLOR="").stdout == coloured
    assert run("check", path, terminal=True, NO_COLOR="1").stdout == plain
    assert run("check", path, NO_COLOR="1", FORCE_COLOR="1").stdout == plain
    assert "\x1b" not in run("check", path, "--json", terminal=True, FORCE_COLOR="1").stdout


def test_no_name_moves_the_cursor(here: Path) -> None:
    name = "\x1b[2J\u202e.yaml"
    (here / name).write_text(FUZE.replace("fuze", "'\\u001b[31m'"), encoding="utf-8")
    for result in (run("check", name), run("check", name + "x"), run("explain", name), run("words", name)):
        assert not {"\x1b", "\u202e"} & set(result.output)


def test_an_interrupt_is_one_line(monkeypatch: pytest.MonkeyPatch, here: Path) -> None:
    def interrupted(*_arguments: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("builder.publish.site.build", interrupted)
    result = run("publish", SMALLEST, "--into", "manual")
    assert (result.exit_code, result.stdout, result.stderr) == (
        130,
        "",
        "Stopped. What was there before is untouched.\n",
    )
    assert list(here.iterdir()) == []


def test_progress_stays_on_one_line_of_a_terminal_and_leaves_it_blank(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    with console.progress() as tell:
        assert tell is None
    monkeypatch.setattr(sys.stderr, "isatty", lambda: True)
    with console.progress() as tell:
        assert tell is not None
        tell("page 1 of 20")
        tell("done")
    shown = capsys.readouterr().err
    assert "\rpage 1 of 20 \rdone        \r" in shown
    assert "\n" not in shown
    assert shown.endswith("\r    \r")
