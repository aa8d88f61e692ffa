"""How far each entry of a build file goes: from which character to which, with its name and its value.

Columns and lines count from 0, ends are exclusive. Only what can be read as YAML has extents; a heading that
cannot leaves the others as they are.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

import yaml
from yaml import events

from builder.buildfile.reading_characters import clean_line
from builder.buildfile.reading_faults import NOT_YAML
from builder.buildfile.reading_headings import first_document, headings
from builder.buildfile.reading_scalars import span

Place = tuple[int, int]
Extent = tuple[Place, Place]


@dataclass(slots=True, eq=False)
class Group:
    """A list or a group of names; ``flow`` is true in brackets and braces."""

    extent: Extent
    flow: bool
    pairs: bool
    entries: list[Entry] = field(default_factory=list)


@dataclass(slots=True, eq=False)
class Entry:
    """A name with its value, or an item of a list; ``value`` is None where nothing stands behind the colon."""

    group: Group
    name: Extent | None
    value: Extent | None = None
    inside: Group | None = None

    @property
    def start(self) -> Place:
        """Where it begins."""
        if self.name:
            return self.name[0]
        return self.value[0] if self.value else self.group.extent[0]

    @property
    def end(self) -> Place:
        """Where it ends."""
        if self.value:
            return self.value[1]
        return self.name[1] if self.name else self.start


def entries_of(lines: Sequence[str]) -> tuple[Entry, ...]:
    """Return every entry of a file's lines, outer ones before those inside them."""
    document, _ = first_document([clean_line(line) for line in lines])
    whole = _entries(document, 0)
    if whole is not None:
        return tuple(whole)
    found: list[Entry] = []
    for heading in headings(document):
        found += _entries(heading.lines, heading.first_line - 1) or []
    return tuple(found)


def entry_at(entries: Sequence[Entry], place: Place) -> Entry | None:
    """Return the innermost entry that a place lies in."""
    return next(
        (entry for entry in reversed(entries) if entry.start <= place < max(entry.end, entry.start)), None
    )


def around(entries: Sequence[Entry], entry: Entry) -> Entry | None:
    """Return the entry whose value is the group that an entry stands in; None for a heading."""
    return next((outer for outer in entries if outer.inside is entry.group), None)


def _entries(lines: Sequence[str], first: int) -> list[Entry] | None:
    found: list[Entry] = []
    try:
        for entry in _walk(lines, first):
            found.append(entry)  # noqa: PERF402 - what was found counts only when the end is reached
    except NOT_YAML:
        return None
    return found


def _walk(lines: Sequence[str], first: int) -> Iterator[Entry]:
    open_groups: list[tuple[Group, Entry | None]] = []
    waiting: Entry | None = None
    for event in yaml.parse("\n".join(lines) + "\n", Loader=yaml.SafeLoader):
        if isinstance(event, events.CollectionEndEvent):
            group, outer = open_groups.pop()
            _close(group, outer, event, first)
            waiting = None
        elif isinstance(event, events.NodeEvent):
            group = open_groups[-1][0] if open_groups else Group(((0, 0), (0, 0)), flow=False, pairs=False)
            entry = waiting
            if entry is None:
                entry = Entry(group, None)
                group.entries.append(entry)
                yield entry
                if group.pairs:
                    entry.name = _extent(event, lines, first)
                    waiting = entry
            else:
                waiting = None
            if isinstance(event, events.CollectionStartEvent):
                opened = Group(
                    _extent(event, lines, first),
                    bool(event.flow_style),
                    isinstance(event, events.MappingStartEvent),
                )
                entry.inside = opened
                open_groups.append((opened, entry))
            elif entry is not waiting:
                entry.value = _extent(event, lines, first) if _says(event) else None


def _says(event: events.NodeEvent) -> bool:
    return not (isinstance(event, events.ScalarEvent) and event.style is None and not event.value)


def _close(group: Group, outer: Entry | None, event: events.CollectionEndEvent, first: int) -> None:
    start, mark = group.extent[0], span(event)[1]
    end = (mark.line + first, mark.column)
    if not group.flow:
        end = group.entries[-1].end if group.entries else start
    group.extent = (start, end)
    if outer is not None:
        outer.value = group.extent


def _extent(event: events.NodeEvent, lines: Sequence[str], first: int) -> Extent:
    start, end = span(event)
    line, column = end.line, end.column
    if isinstance(event, events.ScalarEvent) and event.style in ("|", ">"):
        # A block text ends where the next line begins.
        line, column = line - 1, len(lines[line - 1])
    return (start.line + first, start.column), (line + first, column)
