"""The command that issues numbers: what it writes, what it asks first, and what it never does."""

from __future__ import annotations

import errno
import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from builder import cli
from builder.publish import new_file

BUILD = """\
format: 1
build: {name: Quarry Bend, number: 2, country: US}
battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 4 ft}
front box: {fuse ways: 6, fuses: blade}
parts:
  fan: {kind: fan, draws: 3 A, own switch: yes}
  step lamp: {kind: lamp, draws: 3 W, own switch: yes}
circuits:
  roof vent: {path: [fan: 12 ft]}
  step light: {path: [step lamp: 14 ft]}
"""
NUMBERS = "trailer.numbers.csv"


def run(*arguments: str | Path, text: str | None = None) -> Result:
    result = CliRunner().invoke(cli.main, [str(each) for each in arguments], input=text)
    assert not isinstance(result.exception, Exception), result.exception
    return result


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "trailer.yaml").write_text(BUILD, encoding="utf-8")
    return tmp_path


def edit(here: Path, *changes: tuple[str, str]) -> None:
    text = (here / "trailer.yaml").read_text(encoding="utf-8")
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    (here / "trailer.yaml").write_text(text, encoding="utf-8")


def numbers(result: Result) -> dict[str, bool]:
    """Return every wire of ``figures`` by its number, with whether it is a draft."""
    return {wire["number"]: wire["draft"] for wire in json.loads(result.stdout)["wires"]}


def test_it_issues_all_numbers_and_writes_one_file_beside_the_build(here: Path) -> None:
    drafts = numbers(run("figures", "."))
    assert all(drafts.values())
    assert "their numbers drafts" in run("check", ".").stdout
    told = run("number", ".", "--tell")
    assert told.exit_code == 0
    assert "Would issue 7 numbers" in told.stdout
    assert [path.name for path in here.iterdir()] == ["trailer.yaml"]
    result = run("number", ".")
    assert result.exit_code == 0
    assert (
        "Issued 7 numbers:\n  roof vent: 1A 1B\n  step light: 2A 2B\n  battery line: 3A 3B 3C\n"
        in result.stdout
    )
    assert f"Wrote {NUMBERS}." in result.stdout
    assert "numbers: issued" in result.stdout
    assert sorted(path.name for path in here.iterdir()) == [NUMBERS, "trailer.yaml"]
    assert (here / "trailer.yaml").read_text(encoding="utf-8") == BUILD
    assert numbers(run("figures", ".")) == dict.fromkeys(drafts, False)
    assert "draft" not in run("check", ".").stdout


def test_a_second_time_changes_no_byte(here: Path) -> None:
    run("number", ".")
    before = (here / NUMBERS).read_bytes().replace(b"\n", b"\r\n")
    (here / NUMBERS).write_bytes(before)
    result = run("number", "trailer.yaml")
    assert "is as it must be; nothing was written" in result.stdout
    assert (here / NUMBERS).read_bytes() == before


def test_no_other_command_writes_it(here: Path) -> None:
    run("number", ".")
    edit(
        here,
        ("fan: 12 ft", "vent switch: 2 ft, fan: 12 ft"),
        ("  fan: {", "  vent switch: {kind: switch}\n  fan: {"),
    )
    before = (here / NUMBERS).read_bytes()
    for command in (
        ["check", "."],
        ["figures", "."],
        ["source", ".", "--into", "s"],
        ["check", ".", "--fix"],
    ):
        run(*command)
    assert (here / NUMBERS).read_bytes() == before
    (finding,) = [
        one
        for one in json.loads(run("check", ".", "--json").stdout)["findings"]
        if one["rule"] == "numbers not issued"
    ]
    assert finding["level"] == "worth knowing"
    assert "1 of 8 wire numbers are drafts that can still change: 1C" in finding["message"]


def test_what_is_gone_is_retired_and_never_used_again(here: Path) -> None:
    run("number", ".")
    edit(here, ("  step light: {path: [step lamp: 14 ft]}\n", ""))
    result = run("number", ".")
    assert "Retired 2 numbers; no other wire ever gets one of them:\n  step light: 2A 2B\n" in result.stdout
    edit(here, ("circuits:\n", "circuits:\n  door light: {path: [step lamp: 3 ft]}\n"))
    assert sorted(numbers(run("figures", "."))) == ["1A", "1B", "3A", "3B", "3C", "4A", "4B"]
    assert "Issued 2 numbers:\n  door light: 4A 4B" in run("number", ".").stdout


def test_another_name_is_asked_about_before_a_number_is_retired(here: Path) -> None:
    run("number", ".")
    before = (here / NUMBERS).read_bytes()
    edit(here, ("step lamp", "door lamp"), ("roof vent", "air"))
    result = run("number", ".")
    assert (result.exit_code, result.stdout) == (2, "")
    assert '--renamed "step lamp" "door lamp"' in result.stderr
    assert '--renamed "roof vent" "air"' in result.stderr
    assert (here / NUMBERS).read_bytes() == before
    both = ("--renamed", "step lamp", "door lamp", "--renamed", "Roof  Vent", "air")
    result = run("number", ".", *both)
    assert result.exit_code == 0
    assert "Issued" not in result.stdout
    assert "Retired" not in result.stdout
    assert sorted(numbers(run("figures", "."))) == ["1A", "1B", "2A", "2B", "3A", "3B", "3C"]
    assert not any(numbers(run("figures", ".")).values())
    assert run("number", ".", *both).exit_code == 2  # nothing is called so any more


def test_what_is_said_to_be_new_is_new(here: Path) -> None:
    run("number", ".")
    edit(here, ("step lamp", "door lamp"))
    result = run("number", ".", "--as-new")
    assert "Issued 2 numbers:\n  step light: 2C 2D\nRetired 2 numbers" in result.stdout


def test_what_came_back_is_asked_about_and_taken_back(here: Path) -> None:
    run("number", ".")
    edit(here, ("  step light: {path", "# step light: {path"))
    run("number", ".")
    edit(here, ("# step light: {path", "  step light: {path"))
    result = run("number", ".")
    assert (result.exit_code, "--back 2" in result.stderr) == (2, True)
    assert run("number", ".", "--back", "2").exit_code == 0
    assert sorted(numbers(run("figures", "."))) == ["1A", "1B", "2A", "2B", "3A", "3B", "3C"]
    assert "no retired number" in run("number", ".", "--back", "2A").stderr


def test_a_number_comes_back_only_to_the_wire_that_had_it(here: Path) -> None:
    run("number", ".")
    edit(here, ("  step light: {path: [step lamp: 14 ft]}\n", ""))
    run("number", ".")
    before = (here / NUMBERS).read_bytes()
    assert "No wire of this build runs as 2" in run("number", ".", "--back", "2").stderr
    assert (here / NUMBERS).read_bytes() == before


def test_another_trailer_gets_no_numbers_of_this_one(here: Path) -> None:
    run("number", ".")
    before = (here / NUMBERS).read_bytes()
    edit(here, ("number: 2", "number: 3"))
    for command in (["check", "."], ["number", "."], ["figures", "."]):
        result = run(*command)
        assert result.exit_code == 2
        assert f"{NUMBERS}:5:9: these numbers are of `Quarry Bend`, number `2`" in result.output
    assert (here / NUMBERS).read_bytes() == before
    assert run("number", ".", "--same-trailer").exit_code == 0
    assert run("check", ".").exit_code == 0


def test_a_damaged_file_stops_every_command_and_is_left_as_it_is(here: Path) -> None:
    run("number", ".")
    whole = (here / NUMBERS).read_text(encoding="utf-8")
    (here / NUMBERS).write_text(whole.replace("2A,issued", "1B,issued"), encoding="utf-8")
    before = (here / NUMBERS).read_bytes()
    for command in (
        ["check", "."],
        ["number", "."],
        ["publish", ".", "--into", "m"],
        ["check", ".", "--json"],
    ):
        result = run(*command)
        assert result.exit_code == 2
        assert "number 1B stands here and in line" in result.output
    assert (here / NUMBERS).read_bytes() == before
    assert not (here / "m").exists()
    problem = json.loads(run("check", ".", "--json").stdout)["problems"][0]
    assert (problem["file"], problem["edits"]) == (NUMBERS, [])


def test_a_lost_file_is_told_where_the_build_says_that_numbers_are_issued(here: Path) -> None:
    edit(here, ("country: US", "country: US, numbers: issued"))
    for command in (["check", "."], ["number", "."]):
        result = run(*command)
        assert result.exit_code == 2
        assert "is not beside the build file" in result.output
    assert not (here / NUMBERS).exists()


def test_a_way_that_another_circuit_was_issued_is_told_in_the_build_file(here: Path) -> None:
    run("number", ".")
    edit(
        here,
        ("  fan: {", "  porch lamp: {kind: lamp}\n  fan: {"),
        ("circuits:\n", "circuits:\n  porch: {path: [porch lamp: 3 ft], way: 2}\n"),
    )
    result = run("check", ".")
    assert result.exit_code == 2
    line = (here / "trailer.yaml").read_text(encoding="utf-8").split("\n")[9]
    place = f"trailer.yaml:10:{line.index('2}') + 1}"
    assert f"{place}: fuse way 2 was issued to “step light”" in result.stdout
    problem = json.loads(run("check", ".", "--json").stdout)["problems"][0]
    assert (problem["file"], problem["line"], problem["edits"]) == ("trailer.yaml", 10, [])


@pytest.mark.parametrize("made", ["folder", "link"])
def test_what_is_no_file_is_told(here: Path, made: str) -> None:
    if made == "folder":
        (here / NUMBERS).mkdir()
    else:
        (here / NUMBERS).symlink_to("nowhere")
    result = run("number", ".")
    assert result.exit_code == 2
    assert "could not be read" in result.stderr


def test_a_file_that_may_not_be_looked_at_is_told(here: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refused(path: Path) -> bool:
        raise PermissionError(errno.EACCES, "Permission denied", str(path))

    monkeypatch.setattr(Path, "is_symlink", refused)
    result = run("check", "trailer.yaml")
    assert result.exit_code == 2, result.output
    assert "Permission denied" in result.output
    assert "Traceback" not in result.output


def test_standard_input_has_no_file_beside_it(here: Path) -> None:
    assert "standard input" in run("number", "-", text=BUILD).stderr
    run("number", ".")
    assert all(numbers(run("figures", "-", text=BUILD)).values())


def test_nothing_is_renamed_before_a_number_is_issued(here: Path) -> None:
    assert "No number was issued" in run("number", ".", "--renamed", "a", "b").stderr


def test_a_build_without_a_wire_gets_no_file(here: Path) -> None:
    (here / "trailer.yaml").write_text(
        "format: 1\nbuild: {name: Quarry Bend, country: US}\n", encoding="utf-8"
    )
    assert "There is no wire" in run("number", ".").stdout
    assert not (here / NUMBERS).exists()


def test_a_file_that_came_meanwhile_is_left(here: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def taken(path: Path, content: bytes) -> None:
        path.write_text("of somebody else")
        new_file.write_new_file(path, content)

    monkeypatch.setattr("builder.issuing_numbers.write_new_file", taken)
    result = run("number", ".")
    assert result.exit_code == 2
    assert "somebody else" in result.stderr
    assert (here / NUMBERS).read_text() == "of somebody else"


def test_a_disk_that_refuses_leaves_the_old_file_whole(here: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    run("number", ".")
    before = (here / NUMBERS).read_bytes()
    edit(
        here,
        ("fan: 12 ft", "step lamp: 3 ft, fan: 12 ft"),
        ("  step light: {path: [step lamp: 14 ft]}\n", ""),
    )

    def full(_handle: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("builder.fixing.saving.os.fsync", full)
    result = run("number", ".", "--as-new")
    assert result.exit_code == 2
    assert "No space left on device" in result.stderr
    assert (here / NUMBERS).read_bytes() == before
    assert sorted(path.name for path in here.iterdir()) == [NUMBERS, "trailer.yaml"]


def test_a_wire_retired_in_closed_walls_is_told_of_until_it_is_pulled_out(here: Path) -> None:
    edit(here, ("country: US}", "country: US, stage: walls closed}"))
    run("number", ".")
    edit(
        here,
        ("  fan: {kind: fan, draws: 3 A, own switch: yes}\n", ""),
        ("  roof vent: {path: [fan: 12 ft]}\n", ""),
    )
    told = run("number", ".", "--as-new").stdout
    assert "Perhaps still in a closed wall: 1A 1B" in told
    assert "old 1A: {from: front box, to: fan, wire: 10 ft}" in told
    assert "--pulled-out 1A" in told
    before = (here / NUMBERS).read_bytes()
    assert b"1A,left in the wall," in before
    refused = run("number", ".", "--pulled-out", "2A")
    assert refused.exit_code != 0
    assert "2A is no wire that was left in a wall; nothing was written." in refused.stderr
    assert (here / NUMBERS).read_bytes() == before
    run("number", ".", "--pulled-out", "1a", "--pulled-out", "1B")
    assert "left in the wall" not in (here / NUMBERS).read_text(encoding="utf-8")
    assert "perhaps still" not in run("check", ".").stdout
