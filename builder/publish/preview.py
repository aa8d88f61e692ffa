"""The live preview: shows the workshop manual on loopback and makes it anew when its file changes.

One thread, the process's own, looks at the file and makes the manual; others answer the browser from what was
made last. A file that gives no manual leaves the last good one where it is, under a banner. Nothing is
written but a passing folder while a manual is being made.
"""

from __future__ import annotations

import signal
import time
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager, nullcontext, suppress
from dataclasses import dataclass, replace
from pathlib import Path
from types import FrameType

from builder.buildfile.problems import render_brief, visible
from builder.numbers_beside import numbers_beside, numbers_path
from builder.pages.manual import content_number, manual_source
from builder.pages.previewed import panels, problems_banner, sentence_banner
from builder.pages.verdict import Judgement, Verdict, counted, judge_build
from builder.publish.errors import PublishError
from builder.publish.serving import served
from builder.publish.showing import Shown, answer
from builder.publish.site import published_files
from builder.publish.watching import GONE, Watch, in_folder, look_at

EDITION = "workshop"
LOOK_EVERY_S = 0.2
_SIGNALS = ("SIGINT", "SIGTERM", "SIGHUP", "SIGBREAK")
_HANG_UP = getattr(signal, "SIGHUP", None)
_STAYS = {True: "the last good manual stays", False: "there is no manual yet"}

Tell = Callable[[str], None]


@dataclass(frozen=True, slots=True)
class BuildFile:
    """The file that a preview follows: its name as the user wrote it, its place, and how its bytes are read.

    ``read`` raises ``PublishError`` in plain words.
    """

    name: str
    path: Path
    read: Callable[[], bytes]


class Preview:
    """What is shown of one build file, made anew whenever it changes."""

    def __init__(
        self, file: BuildFile, held: Callable[[], AbstractContextManager[None]] = nullcontext
    ) -> None:
        """``held`` gives what the time with a passing folder is spent in."""
        self._file = file
        self._held = held
        self._watch = Watch((file.path, numbers_path(file.path)))
        self.shown = Shown()

    def changed(self) -> bool:
        """Whether the build file, or a file that its manual takes in, has come to rest with new content."""
        return self._watch.changed()

    def renew(self, tell: Tell) -> str:
        """Make all that is shown anew; say in one line how it went.

        Arguments: ``tell``, called with a few words as the work goes on; what it raises ends the work.
        Returns the line, with a line end. Raises nothing else.
        """
        try:
            data = self._file.read()
        except PublishError as error:
            return self._not_read(str(error))
        try:
            numbers = numbers_beside(self._file.path)
            verdict = judge_build(data, self._file.name, numbers)
            if verdict.judged is None:
                return self._problems(verdict)
            self._make(verdict.judged, content_number(data, numbers), tell)
        except PublishError as error:
            return self._unmade(str(error))
        except Exception as error:  # whatever goes wrong, the next save may be well again
            fault = f"{type(error).__name__}: {error}"
            return self._unmade(f"This is a fault of wiring-manual, not of the file ({fault}).")
        return counted(verdict) + "\n"

    def _make(self, judged: Judgement, content: str, tell: Tell) -> None:
        source = manual_source(judged, content, EDITION)
        taken_in = in_folder(self._file.path.parent, source.taken_in)
        self._watch.follow((self._file.path, numbers_path(self._file.path), *taken_in))
        beside = panels(judged)
        with self._held():
            manual = published_files(source, tell)
        self.shown = Shown(manual, beside)

    @property
    def _kept(self) -> bool:
        return bool(self.shown.manual)

    def _lay_over(self, banner: str) -> None:
        self.shown = replace(self.shown, banner=banner)

    def _problems(self, verdict: Verdict) -> str:
        self._lay_over(problems_banner(verdict, self._kept))
        first = render_brief(verdict.problems[:1], verdict.name).strip()
        count = len(verdict.problems)
        many = "1 problem" if count == 1 else f"the first of {count} problems"
        return f"{first} ({many}; {_STAYS[self._kept]})\n"

    def _not_read(self, sentence: str) -> str:
        name = visible(self._file.name)
        if look_at(self._file.path, None, 0).content != GONE:
            self._lay_over(sentence_banner("unreadable", self._file.name, self._kept, sentence))
            return f"{visible(sentence)} ({_STAYS[self._kept]})\n"
        self._lay_over(sentence_banner("gone", self._file.name, self._kept))
        return f"{name} is not there now; the preview goes on when it is back ({_STAYS[self._kept]}).\n"

    def _unmade(self, sentence: str) -> str:
        self._lay_over(sentence_banner("unmade", self._file.name, self._kept, sentence))
        return f"{visible(self._file.name)}: {visible(sentence)} ({_STAYS[self._kept]})\n"


class End:
    """Whether a signal has asked to end.

    The signal breaks off what is going on, at once; only while a passing folder is there is it held back
    until the next step of the work, so that the folder can be removed.
    """

    def __init__(self) -> None:
        self.asked = False
        self._held = False

    def ask(self, _number: int = 0, _frame: FrameType | None = None) -> None:
        """Ask to end; a second time does not wait. Raises ``KeyboardInterrupt`` unless it is held back."""
        again, self.asked = self.asked, True
        if again or not self._held:
            raise KeyboardInterrupt

    @contextmanager
    def held(self) -> Iterator[None]:
        """Hold the end back while the block runs, but for the steps it tells of."""
        self._held = True
        try:
            yield
        finally:
            self._held = False

    def step(self, show: Tell | None) -> Tell:
        """Return a function that shows how far the work is, and breaks it off when the end was asked for."""

        def tell(words: str) -> None:
            if self.asked:
                raise KeyboardInterrupt
            if show is not None:
                show(words)

        return tell


def run_preview(
    file: BuildFile,
    port: int | None,
    say: Tell,
    working: Callable[[], AbstractContextManager[Tell | None]],
) -> None:
    """Show a build file's workshop manual until a signal ends it.

    Arguments: ``file``; ``port``, see ``serving.served``; ``say`` prints a line; ``working`` gives, for the
    time of one piece of work, a function that shows how far it is, or None where nobody looks.
    Returns nothing, when SIGINT, SIGTERM or the end of the terminal asked for it. Raises ``PublishError``
    when it cannot begin. Source: own work.
    """
    end = End()
    preview = Preview(file, end.held)
    with (
        suppress(KeyboardInterrupt),
        _on_signals(end.ask),
        served(port, lambda request: answer(preview.shown, request)) as address,
    ):
        say(f"Open {address} in a browser; it follows {visible(file.name)} as you save it. Ctrl-C ends it.\n")
        while not end.asked:
            with working() as show:
                line = preview.renew(end.step(show))
            say(line)
            while not (end.asked or preview.changed()):
                time.sleep(LOOK_EVERY_S)


@contextmanager
def _on_signals(ask: Callable[[int, FrameType | None], None]) -> Iterator[None]:
    """Have the signals that end a program call a function."""
    numbers = [getattr(signal, name) for name in _SIGNALS if hasattr(signal, name)]
    if _HANG_UP is not None and signal.getsignal(_HANG_UP) is signal.SIG_IGN:
        numbers.remove(_HANG_UP)  # started to outlive its terminal
    before = {number: signal.signal(number, ask) for number in numbers}
    try:
        yield
    finally:
        for number, handler in before.items():
            signal.signal(number, handler)
