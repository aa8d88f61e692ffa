"""The commands: one short function each. Results go to stdout, messages to stderr.

Whatever a command does not need is imported inside it, so that ``check`` answers at once and loads no publisher.
"""
# ruff: noqa: PLC0415 - imports stand in the commands that need them

from __future__ import annotations

import io
import os
import signal
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

import builder
from builder.buildfile.problems import visible
from builder.console import (
    NOT_PRINTED,
    REFUSED,
    Stop,
    Stopped,
    asker,
    colour_wanted,
    did_you_mean,
    open_streams,
    painted,
    print_bytes,
    print_json,
    progress,
    reason,
    say,
    stopped_by_signals,
    to_nowhere,
    typed,
)
from builder.found_build import BUILD_FILE, Build, find_build, smallest_build

if TYPE_CHECKING:
    from builder.pages.source import ManualSource
    from builder.pages.verdict import Judgement, Verdict

_SHOWN_AT_ONCE = 50


class Commands(click.Group):
    """The group of commands; Ctrl-C, and what else asks to end, ends each with one line."""

    def main(self, *arguments: Any, **named: Any) -> Any:
        """Run from the command line; help that cannot be printed ends in a sentence too."""
        open_streams()
        try:
            return super().main(*arguments, **named)
        except OSError as error:
            if error.filename is not None:
                raise
            to_nowhere(sys.stdout)
            say(NOT_PRINTED.format(reason=reason(error)) + "\n", err=True)
            sys.exit(REFUSED)

    def invoke(self, ctx: click.Context) -> Any:
        """Run the command that was asked for."""
        try:
            with stopped_by_signals():
                return super().invoke(ctx)
        except KeyboardInterrupt as stop:
            say("".join(("Stopped.", *getattr(stop, "__notes__", ()), "\n")), err=True)
            ctx.exit(128 + (stop.number if isinstance(stop, Stopped) else signal.SIGINT))


BUILD = click.argument("build", metavar="BUILD")
INTO = click.option(
    "--into",
    required=True,
    metavar="FOLDER",
    type=click.Path(path_type=Path, readable=False),  # what is wrong with it is told in our words
    help="Folder to write.",
)
EDITION = click.option(
    "--edition",
    type=click.Choice(["workshop", "owner"]),
    default="workshop",
    show_default=True,
    help="workshop holds everything; owner is handed over with the trailer.",
)
_BUILD_HELP = f"""\
BUILD is a build file, a folder that holds {BUILD_FILE}, or - for standard input.

\b
Exit code: 2 when the file has a problem (then nothing is written),
1 when it was read and something must be fixed, else 0.

"""


def _examples(*lines: str, more: str = "") -> str:
    return more + "\b\nExamples:\n" + "\n".join(f"  wiring-manual {line}" for line in lines)


@click.group(
    name="wiring-manual",
    cls=Commands,
    context_settings={"help_option_names": ["-h", "--help"]},
    epilog="""\b
First steps:
  wiring-manual begin my-trailer                       the smallest build file
  wiring-manual check my-trailer                       what is wrong, and what to do
  wiring-manual publish my-trailer --into my-manual    the manual, for a browser""",
)
@click.version_option(builder.__version__, prog_name="wiring-manual", message="%(prog)s %(version)s")
@click.pass_context
def main(ctx: click.Context) -> None:
    """From one build file to the wiring manual of a small camping trailer."""
    ctx.color = colour_wanted(os.environ)
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="backslashreplace")  # a terminal may not know all our signs


@main.command(epilog=_examples("begin my-trailer"))
@click.argument("folder", metavar="FOLDER", type=click.Path(path_type=Path, readable=False))
def begin(folder: Path) -> None:
    """Write the smallest build file into FOLDER, never over a file."""
    from builder.publish.new_file import write_new_file

    path = folder / BUILD_FILE
    try:
        write_new_file(path, smallest_build())
    except FileExistsError as error:
        what = f"{path} is there already" if folder.is_dir() else f"{folder} is a file, not a folder"
        raise Stop(f"{what}; nothing was written. Name another folder.") from error
    except (OSError, ValueError) as error:
        raise Stop(f"{path} could not be written ({reason(error)}). Name another folder.") from error
    manual = folder.resolve().name + "-manual"
    say(
        f"Wrote {visible(str(path))}, the smallest build that makes a manual.\n"
        "Change it to your own trailer, one line at a time, then:\n"
        f"  wiring-manual check {typed(folder)}\n"
        f"  wiring-manual publish {typed(folder)} --into {typed(folder.parent / manual)}\n"
    )


@main.command(
    epilog=_examples(
        "check my-trailer", "check trailer.yaml --brief", "check my-trailer --fix", more=_BUILD_HELP
    )
)
@BUILD
@click.option("--json", "as_json", is_flag=True, help="Everything as JSON, for other programs.")
@click.option("--brief", is_flag=True, help="One line each.")
@click.option("--all", "every", is_flag=True, help=f"Show all, not the first {_SHOWN_AT_ONCE}.")
@click.option(
    "--fix", is_flag=True, help="Offer changes of the file, problem by problem; ask before writing."
)
@click.option(
    "--yes", is_flag=True, help="With --fix: write what is a matter of spelling alone, without asking."
)
@click.pass_context
def check(
    ctx: click.Context, build: str, as_json: bool, brief: bool, every: bool, fix: bool, yes: bool
) -> None:
    """Tell what is wrong with a build and what to do about it."""
    if as_json and brief:
        raise click.UsageError("--json and --brief are two shapes of one answer: choose one.")
    if fix and (as_json or brief):
        raise click.UsageError("--fix changes the file and talks to you: leave --json and --brief out.")
    if yes and not fix:
        raise click.UsageError("--yes belongs to --fix: it writes without asking.")
    found = find_build(build)
    if fix:
        ctx.exit(_fixed(found, yes))
    from builder.pages import verdict as answers

    verdict = answers.judge_build(found.data, found.name, found.numbers)
    if as_json:
        print_json(answers.answer_record(verdict))
    else:
        limit = None if every else _SHOWN_AT_ONCE
        text = answers.answer_brief(verdict, limit) if brief else answers.answer_text(verdict, limit)
        say(painted(text) + ("\n" if text and not brief else ""))
        say(answers.counted(verdict, limit) + "\n", err=brief)  # brief: each line of stdout is one problem
    ctx.exit(verdict.exit_code)


@main.command(epilog=_examples("figures my-trailer > figures.json", more=_BUILD_HELP))
@BUILD
@click.pass_context
def figures(ctx: click.Context, build: str) -> None:
    """Print every computed figure and finding as JSON."""
    judged = _judged_or_stop(find_build(build))
    from builder.pages.record import record, to_text

    print_bytes(to_text(record(judged.trailer, judged.figures, judged.findings)))
    _tell_must_fix(judged, build)
    ctx.exit(judged.exit_code)


@main.command(epilog=_examples("source my-trailer --into my-source", more=_BUILD_HELP))
@BUILD
@INTO
@EDITION
@click.option("--plain", is_flag=True, help="Make a source that builds without wiring-manual installed.")
@click.pass_context
def source(ctx: click.Context, build: str, into: Path, edition: str, plain: bool) -> None:
    """Write the manual's Markdown and pictures, for mkdocs build."""
    found = find_build(build)
    judged = _judged_or_stop(found)
    _refuse_owner(ctx, judged, build, edition)
    with _publishing():
        from builder.publish.source_folder import write_source

        write_source(_manual(found, judged, edition), into, plain, found.path)
    say(f"Wrote the source of the manual into {visible(str(into))}. To publish it, run there: mkdocs build\n")
    _tell_must_fix(judged, build, "; a banner in the manual says so")
    ctx.exit(judged.exit_code)


@main.command(
    epilog=_examples(
        "publish my-trailer --into my-manual",
        "publish my-trailer --into for-the-buyer --edition owner",
        more=_BUILD_HELP,
    )
)
@BUILD
@INTO
@EDITION
@click.pass_context
def publish(ctx: click.Context, build: str, into: Path, edition: str) -> None:
    """Publish the manual into a folder that opens in a browser."""
    found = find_build(build)
    judged = _judged_or_stop(found)
    _refuse_owner(ctx, judged, build, edition)
    with _publishing(), progress() as tell:
        from builder.publish.site import publish_site

        publish_site(_manual(found, judged, edition), into, tell, found.path)
    index = visible(str(into / "index.html"))
    say(f"Published the {edition} edition into {visible(str(into))}. Open {index} in a browser.\n")
    _tell_must_fix(judged, build, "; a banner in the manual says so")
    ctx.exit(judged.exit_code)


@main.command(
    epilog=_examples(
        "number my-trailer --tell",
        "number my-trailer",
        'number my-trailer --renamed "left lamp" "step lamp"',
        more=_BUILD_HELP.replace(", a folder", " or a folder").replace(", or - for standard input", ""),
    )
)
@BUILD
@click.option("--tell", is_flag=True, help="Tell what would be issued and retired; write nothing.")
@click.option(
    "--renamed",
    "names",
    nargs=2,
    multiple=True,
    metavar="OLD NEW",
    help="A part, a circuit or a spare wire only got another name; its wires keep their numbers.",
)
@click.option(
    "--back", multiple=True, metavar="NUMBER", help="A retired number is on its wire, or circuit, again."
)
@click.option(
    "--pulled-out", multiple=True, metavar="NUMBER", help="A retired wire does not lie in a wall any more."
)
@click.option("--as-new", is_flag=True, help="What looks renamed is new: retire the numbers of the old.")
@click.option("--same-trailer", is_flag=True, help="The trailer itself only got another name or number.")
@click.pass_context
def number(  # noqa: PLR0913, PLR0917 - one for each option
    ctx: click.Context,
    build: str,
    tell: bool,
    names: tuple[tuple[str, str], ...],
    back: tuple[str, ...],
    pulled_out: tuple[str, ...],
    as_new: bool,
    same_trailer: bool,
) -> None:
    """Issue the wire numbers of a build for ever, and write them beside it.

    An issued number stays with its wire whatever is changed around it. The number of a wire that is no more is
    retired. Nothing but this command writes the file of numbers.
    """
    from builder import issuing_numbers as numbers
    from builder.buildfile.issuing import issue
    from builder.buildfile.ledger_changes import Changes
    from builder.buildfile.ledger_doubts import doubts
    from builder.electrics.computing import compute
    from builder.pages.numbering_words import doubts_text, issue_text, left_text

    found = find_build(build)
    if found.path is None:
        raise Stop("Numbers are kept beside a build file, and standard input is none. Name a build file.")
    said = numbers.with_changes(found.data, found.numbers, Changes(names, back, same_trailer))
    judged = _judged_or_stop(replace(found, numbers=said))
    numbers.refuse_gone(judged.trailer, back)
    asked = () if as_new else doubts(judged.trailer)
    if asked:
        say(doubts_text(asked, typed(build)), err=True)
        ctx.exit(REFUSED)
    planned = compute(judged.trailer.plan) if judged.trailer.plan else judged.figures
    made = issue(judged.trailer, {number: wire.size for number, wire in planned.wires.items()})
    made = replace(made, ledger=numbers.without_pulled_out(made.ledger, pulled_out))
    retired = numbers.newly_retired(made.retired, found.numbers)
    done = numbers.write_numbers(found.path, found.numbers, made.ledger, tell=tell)
    say(issue_text(judged.trailer, made, retired, written=not tell) + left_text(made.ledger, retired) + done)
    if made.new and not tell and judged.trailer.identity.numbers_issued is None:
        say("Write “numbers: issued” under build: in the build file; then a lost file of numbers is told.\n")
    _tell_must_fix(judged, build)
    ctx.exit(judged.exit_code)


@main.command(epilog=_examples("preview my-trailer", "preview trailer.yaml --port 9000"))
@BUILD
@click.option(
    "--port",
    type=click.IntRange(0, 65535),
    metavar="NUMBER",
    help="Port to serve on, 0 for any free one. Without it: 8012, or the next free one.",
)
def preview(build: str, port: int | None) -> None:
    """Show the workshop manual in a browser and follow BUILD as you save it.

    BUILD is a build file, or a folder that holds trailer.yaml. Only this machine can open the preview.
    """
    if build == "-":
        raise Stop("A preview follows a file as it is saved, and standard input is none. Name a build file.")
    from builder.publish.errors import PublishError
    from builder.publish.preview import BuildFile, run_preview

    found = find_build(build)
    path = found.path or Path(build)

    def read() -> bytes:
        try:
            return find_build(str(path)).data
        except Stop as stop:
            raise PublishError(stop.message) from stop

    with _publishing():
        run_preview(BuildFile(found.name, path, read), port, _say_painted, progress)


@main.command(epilog=_examples("explain", "explain fuse above wire", "explain unknown word"))
@click.argument("name", nargs=-1)
def explain(name: tuple[str, ...]) -> None:
    """Explain a rule or a problem by its NAME: what, why, the way out, and a build that fails."""
    from builder.pages.explaining import explained, list_of_names, nearest_name

    asked = " ".join(name)
    text = explained(asked) if asked else f"{list_of_names()}To read one: wiring-manual explain NAME\n"
    if text is None:
        near = did_you_mean(nearest_name(asked))
        raise Stop(f"There is no rule or problem “{asked}”.{near}\n{list_of_names()}")
    say(text)


@main.command(epilog=_examples("words", "words draws", "words front box", "words kind"))
@click.argument("word", nargs=-1)
def words(word: tuple[str, ...]) -> None:
    """Show the words of the build file, or all about one WORD."""
    from builder.buildfile import reference

    asked = " ".join(word)
    text = reference.word_text(asked) if asked else reference.reference_text()
    if text is None:
        near = did_you_mean(reference.nearest_known(asked))
        raise Stop(f"“{asked}” is not a word known here.{near} All words: wiring-manual words")
    say(text)


@main.command(epilog=_examples("schema > trailer.schema.json"))
def schema() -> None:
    """Print the JSON Schema of the build file, for editors."""
    from builder.buildfile.schema import build_schema

    print_json(build_schema())


@main.command(hidden=True, epilog=_examples("texts > themes/manual/texts/manual.pot"))
def texts() -> None:
    """Print the template of the catalogue: every text of the manual, for translators."""
    from builder.pages.collecting import template_text

    print_bytes(template_text())


def _refuse_owner(ctx: click.Context, judged: Judgement, build: str, edition: str) -> None:
    """End the command where the owner's edition is asked for and something must be fixed."""
    if edition == "owner" and judged.must_fix:
        say(
            "The owner's manual is not published while something must be fixed; nothing was written.\n",
            err=True,
        )
        _tell_must_fix(judged, build)
        ctx.exit(judged.exit_code)


def _fixed(found: Build, yes: bool) -> int:
    """Offer edits and write those that are chosen; return the exit code of the file as it is then."""
    if found.path is None:
        raise Stop("--fix changes a file, and standard input is none. Name a build file.")
    from builder.fixing.fixing import fix_file
    from builder.fixing.saving import SaveError
    from builder.pages.verdict import counted, judge_build

    try:
        data = fix_file(found.path, found.name, found.data, _say_painted, asker(), yes)
    except SaveError as error:
        raise Stop(str(error)) from error
    verdict = judge_build(data, found.name, found.numbers)
    say(f"{counted(verdict)} To see: wiring-manual check {typed(found.name)}\n")
    return verdict.exit_code


def _judged_or_stop(found: Build) -> Judgement:
    """Return the judged build; a build with problems ends the command, with them on stderr."""
    from builder.pages.verdict import answer_text, counted, judge_build

    verdict: Verdict = judge_build(found.data, found.name, found.numbers)
    if verdict.judged is None:
        text = painted(answer_text(verdict, _SHOWN_AT_ONCE))
        say(f"{text}\n{counted(verdict, _SHOWN_AT_ONCE)} Nothing was written.\n", err=True)
        raise click.exceptions.Exit(verdict.exit_code)
    return verdict.judged


def _manual(found: Build, judged: Judgement, edition: str) -> ManualSource:
    from builder.pages.manual import content_number, manual_source

    return manual_source(judged, content_number(found.data, found.numbers), edition)


def _say_painted(text: str) -> None:
    say(painted(text))


@contextmanager
def _publishing() -> Iterator[None]:
    """End the command in the publisher's own sentence when it cannot go on."""
    from builder.publish.errors import PublishError

    try:
        yield
    except PublishError as error:
        raise Stop(str(error)) from error


def _tell_must_fix(judged: Judgement, build: str, more: str = "") -> None:
    count = len(judged.must_fix)
    if count:
        what = "1 finding must be fixed" if count == 1 else f"{count} findings must be fixed"
        say(f"{what}{more}. To see: wiring-manual check {typed(build)}\n", err=True)


if __name__ == "__main__":
    main(prog_name="wiring-manual")
