"""From YAML's events to our node tree.

Nothing here calls itself, so that no depth of brackets can exhaust the stack; depth and number of entries
are counted as the events arrive.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import yaml
from yaml import events

from builder.buildfile.nodes import Items, Node, Pair, Pairs, Text
from builder.buildfile.problems import Problem
from builder.buildfile.reading_characters import named
from builder.buildfile.reading_names import different_names
from builder.buildfile.reading_scalars import Role, Scalar, Source, missing_space_pairs, read_scalar, span
from builder.trailer.origin import Origin

DEEPEST = 40
MOST_ENTRIES = 20_000

_MERGE_KEY = "<<"


class CannotGoOnError(Exception):
    """Reading of this text ends here: ``problem`` says why; ``whole_file`` if nothing else can be read."""

    def __init__(self, problem: Problem, whole_file: bool) -> None:
        super().__init__(problem.message)
        self.problem = problem
        self.whole_file = whole_file


@dataclass(slots=True)
class Budget:
    """How many entries may still be read, over all headings of a file."""

    entries: int = MOST_ENTRIES


@dataclass(frozen=True, slots=True)
class Composed:
    """What a text holds; ``root`` is None where it holds nothing, ``top_pairs`` may hold equal names."""

    root: Node | None
    top_pairs: tuple[Pair, ...]
    problems: tuple[Problem, ...]


def compose(lines: Sequence[str], first_line: int, budget: Budget) -> Composed:
    """Compose cleaned lines into nodes.

    Args:
        lines: cleaned lines without tabs and hidden characters.
        first_line: the number of the first of them in the file, counted from 1.
        budget: is drawn upon.

    Raises:
        yaml.YAMLError: the text is not YAML.
        ValueError, OverflowError: an escape names a character that does not exist.
        CannotGoOnError: nested too deeply, or too many entries.

    """
    tree = _Tree(Source(lines, first_line), budget)
    for event in yaml.parse("\n".join(lines) + "\n", Loader=yaml.SafeLoader):
        tree.take(event)
    return tree.finish()


@dataclass(slots=True)
class _Open:
    """A list or mapping whose end has not come yet; ``key`` waits for its value."""

    origin: Origin
    pairs: bool
    flow: bool
    items: list[Node] = field(default_factory=list)
    entries: list[Pair] = field(default_factory=list)
    key: Text | None = None
    key_seen: bool = False
    wanted: bool = True


@dataclass(slots=True)
class _Anchor:
    origin: Origin
    node: Node | None = None
    open: bool = True
    told: bool = False
    used_in: list[int] = field(default_factory=list)


class _Tree:
    """Takes events one by one; knows which lists and mappings are open."""

    def __init__(self, source: Source, budget: Budget) -> None:
        self._source = source
        self._budget = budget
        self._open: list[_Open] = []
        self._root: Node | None = None
        self._top: tuple[Pair, ...] = ()
        self._problems: list[Problem] = []
        self._anchors: dict[str, _Anchor] = {}
        self._all_anchors: list[tuple[str, _Anchor]] = []
        self._anchor_of: list[_Anchor | None] = []

    def take(self, event: events.Event) -> None:
        if isinstance(event, events.ScalarEvent):
            self._scalar(event)
        elif isinstance(event, events.AliasEvent):
            self._alias(event)
        elif isinstance(event, events.CollectionStartEvent):
            self._begin(event)
        elif isinstance(event, events.CollectionEndEvent):
            self._end(event)

    def finish(self) -> Composed:
        untold = [(name, anchor) for name, anchor in self._all_anchors if not anchor.told]
        self._problems += [_anchor_problem(name, anchor) for name, anchor in untold]
        return Composed(self._root, self._top, tuple(self._problems))

    def _scalar(self, event: events.ScalarEvent) -> None:
        self._count(event)
        self._refuse_tag(event)
        anchor = self._note_anchor(event)
        parent = self._open[-1] if self._open else None
        as_key = parent is not None and parent.pairs and not parent.key_seen
        role: Role = (
            "root" if parent is None else "item" if not parent.pairs else "name" if as_key else "value"
        )
        scalar = read_scalar(event, self._source, role)
        self._problems += scalar.problems
        if as_key:
            self._name(scalar)
            return
        if anchor:
            anchor.open, anchor.node = False, scalar.text
        if scalar.own_line and self._spaced(scalar, in_list=role == "item"):
            return
        # What was meant behind a sign such as & is told where the sign stands.
        self._add(scalar.text, scalar.wanted and not (anchor and scalar.text is None))

    def _spaced(self, scalar: Scalar, in_list: bool) -> bool:
        """Take ``fuse:3 A`` on a line of its own as a pair that lacks a space; say whether it was one."""
        pairs, problems = missing_space_pairs(scalar, self._source)
        different, told = different_names(pairs)
        self._problems += [*problems, *told]
        if pairs:
            self._add(Pairs(different, different[0].key.origin, in_list), scalar.wanted)
        elif problems:
            self._add(None, wanted=False)
        return bool(problems)

    def _name(self, scalar: Scalar) -> None:
        parent = self._open[-1]
        parent.key_seen = True
        parent.key = scalar.text if scalar.wanted else None
        if scalar.text and scalar.text.value == _MERGE_KEY and not scalar.text.quoted:
            parent.key, parent.wanted = None, False
            help_ = "write the values out in each place where they are wanted"
            self._problems.append(
                Problem(scalar.text.origin, "merge key", "`<<` (merging) is not used here", help_)
            )

    def _alias(self, event: events.AliasEvent) -> None:
        self._count(event)
        name = str(event.anchor)
        origin = self._source.origin(*span(event))
        anchor = self._anchors.get(name)
        if anchor is None:
            message = "a value may not start with *"
            self._problems.append(Problem(origin, "sign at the start", message, "put the value in quotes"))
        elif anchor.open:
            message = f"{named('*' + name)} refers to the very thing that it stands in"
            self._problems.append(Problem(origin, "refers to itself", message, "write the value out"))
            anchor.told = True
        else:
            anchor.used_in.append(origin.line)
        parent = self._open[-1] if self._open else None
        # Only a text is filled in: a list could grow without bound.
        node = anchor.node if anchor and isinstance(anchor.node, Text) else None
        if parent and parent.pairs and not parent.key_seen:
            parent.key, parent.key_seen = None, True
        else:
            self._add(Text(node.value, origin, node.quoted) if node else None, wanted=node is not None)

    def _begin(self, event: events.CollectionStartEvent) -> None:
        self._count(event)
        self._refuse_tag(event)
        anchor = self._note_anchor(event)
        origin = self._source.origin(*span(event))
        if len(self._open) == DEEPEST:
            message = f"this is nested too deeply (more than {DEEPEST})"
            help_ = "a build file needs five or six levels; look for brackets that are never closed"
            raise CannotGoOnError(Problem(origin, "nested too deeply", message, help_), whole_file=False)
        opened = _Open(origin, isinstance(event, events.MappingStartEvent), bool(event.flow_style))
        if self._open and self._open[-1].pairs and not self._open[-1].key_seen:
            opened.wanted = False
            message = "a name is wanted before the colon, not a list or a group"
            help_ = "write a plain name; brackets belong behind the colon"
            self._problems.append(Problem(origin, "name is not a text", message, help_))
        self._open.append(opened)
        self._anchor_of.append(anchor)

    def _end(self, event: events.CollectionEndEvent) -> None:
        closed = self._open.pop()
        anchor = self._anchor_of.pop()
        if anchor:
            anchor.open = False
        origin = closed.origin
        if closed.flow:
            origin = self._source.grown(origin, span(event)[1])
        if not closed.pairs:
            self._add(Items(tuple(closed.items), origin), closed.wanted)
            return
        if not self._open:
            self._top = tuple(closed.entries)
        different, problems = different_names(closed.entries)
        if not closed.flow and different:
            origin = different[0].key.origin
        self._problems += problems if self._open else []
        self._add(Pairs(different, origin, closed.flow), closed.wanted)

    def _add(self, node: Node | None, wanted: bool) -> None:
        """Give a finished node to what is open; what is not ``wanted`` is left out with its name."""
        if not self._open:
            self._root = node if wanted else None
            return
        parent = self._open[-1]
        if not parent.pairs:
            parent.items += [node] if node and wanted else []
        elif not parent.key_seen:
            parent.key_seen = True
        else:
            if parent.key and wanted:
                parent.entries += self._pair(parent, parent.key, node)
            parent.key, parent.key_seen = None, False

    def _pair(self, parent: _Open, key: Text, value: Node | None) -> list[Pair]:
        """Return a pair; ``{size:16 AWG}`` is taken apart where the colon lacks its space."""
        if value is None and parent.flow and not key.quoted:
            pairs, problems = missing_space_pairs(Scalar(key), self._source)
            self._problems += problems
            if problems:
                return pairs
        bare = value is None and parent.flow and not self._source.behind(key.origin).startswith(":")
        return [Pair(key, value, bare)]

    def _count(self, event: events.Event) -> None:
        self._budget.entries -= 1
        if self._budget.entries < 0:
            origin = self._source.origin(*span(event))
            message = f"this file has more than {MOST_ENTRIES:,} entries; it is read up to this line only"
            help_ = "keep one trailer in a file, and keep measurements in files of their own"
            raise CannotGoOnError(Problem(origin, "too many entries", message, help_), whole_file=True)

    def _note_anchor(self, event: events.ScalarEvent | events.CollectionStartEvent) -> _Anchor | None:
        if event.anchor is None:
            return None
        name = str(event.anchor)
        anchor = _Anchor(self._source.sign(span(event)[0], "&" + name))
        self._anchors[name] = anchor
        self._all_anchors.append((name, anchor))
        return anchor

    def _refuse_tag(self, event: events.ScalarEvent | events.CollectionStartEvent) -> None:
        if event.tag is None:
            return
        origin, word = self._source.tag(span(event)[0])
        message = f"tags are not used here: {named(word)}"
        help_ = "leave the tag out"
        if not word.startswith("!!"):
            message = f"a value may not start with !: YAML takes {named(word)} for a tag"
            help_ = "put the value in quotes"
        self._problems.append(Problem(origin, "tag", message, help_))


def _anchor_problem(name: str, anchor: _Anchor) -> Problem:
    if not anchor.used_in:
        message = "a value may not start with &"
        return Problem(anchor.origin, "sign at the start", message, "put the value in quotes")
    places = ", ".join(map(str, anchor.used_in[:5])) + (" …" if len(anchor.used_in) > 5 else "")
    where = f"line{'s' if len(anchor.used_in) > 1 else ''} {places}"
    message = f"anchors and aliases are not used here: {named('&' + name)}, referred to in {where}"
    help_ = "write the value out in each place where it is wanted"
    return Problem(anchor.origin, "anchor", message, help_)
