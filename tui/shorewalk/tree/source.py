"""One YAML file read without implicit typing: `no`, `on`, `50`, `1:20` and `010` stay the words they are.

Whatever could make one text mean two things is refused, each with its place: duplicate keys, anchors,
aliases, merge keys, tags, several documents, invisible or direction-changing characters. Sizes are bounded.
"""

from __future__ import annotations

import gc
import os
import stat
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import field
from pathlib import Path
from typing import Any, NamedTuple

import yaml

from .model import Route
from .record import record
from .words import quoted

LARGEST = 5_000_000
"""Largest file, in characters or bytes."""

QUICK = getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_CLOEXEC", 0) | getattr(os, "O_BINARY", 0)
"""Do not wait for whoever writes into a pipe; hand the file to no other program; leave its bytes alone."""

MOST = 100
"""Most problems of one file that are told at once."""

DEEPEST = 40
LONGEST = 20_000
"""Deepest nesting, and longest single value in characters, that a file may hold."""


def words_only(parser: Any) -> Any:
    """Return a loader on either of PyYAML's parsers that looks for no types: every scalar is a word."""

    class Words(parser):  # type: ignore[misc]
        def resolve(self, kind: object, value: object, implicit: object) -> str:
            del kind, value, implicit
            return ""

        def descend_resolver(self, node: object, index: object) -> None: ...

        def ascend_resolver(self) -> None: ...

    return Words


LOADER = words_only(getattr(yaml, "CBaseLoader", yaml.BaseLoader))

Data = dict[str, "Data"] | list["Data"] | str
Steps = dict[str | int, tuple[yaml.Node, yaml.Node]]


class Place(NamedTuple):
    """Where something is written; line and column count from 1, columns in characters."""

    file: str
    line: int
    column: int

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}"


class Problem(NamedTuple):
    """What is wrong at a place: what was found, what is allowed, what to do, on one line."""

    place: Place
    message: str
    unread: bool = False  # the file's content could not be had, so nothing is known of it

    def __str__(self) -> str:
        return f"{self.place}: {self.message}"


class TreeError(Exception):
    """A file cannot be used. All that is wrong with it at once, in the order of the places."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(sorted(set(problems)))
        super().__init__("\n".join(map(str, self.problems)))


@record()
class Source:
    """A file's text, its plain data, and where each value of it stands."""

    file: str
    text: str
    data: dict[str, Data]
    root: yaml.Node = field(repr=False, compare=False)
    _steps: dict[int, Steps] = field(default_factory=dict, repr=False, compare=False)

    def place(self, route: Route, *, key: bool = False) -> Place:
        """Return where the value at `route` is written (its key with `key`), or its nearest ancestor.

        What stands alone where a list may be is the first of it.
        """
        name = node = self.root
        for step in route:
            if id(node) not in self._steps:
                self._steps[id(node)] = _steps_in(node)
            found = self._steps[id(node)].get(step)
            if found is None and step == 0:
                continue
            if found is None:
                break
            name, node = found
        return place_of(self.file, (name if key else node).start_mark)

    def span(self, route: Route) -> tuple[Place, Place]:
        """Return where the key at `route` begins, and the first place behind its value."""
        node = self.root
        for step in route:
            node = _steps_in(node)[step][1]
        return self.place(route, key=True), place_of(self.file, node.end_mark)


def place_of(file: str, mark: Any) -> Place:
    """Return a mark of either parser as a place; a parser may give none."""
    return Place(file, mark.line + 1, mark.column + 1) if mark else Place(file, 1, 1)


def stands(path: Path) -> bool:
    """Tell whether something has this name, be it a file that can be read or not."""
    return path.exists() or path.is_symlink()


def read_bytes(path: Path) -> bytes:
    """Return what is in a file; raise `TreeError` where it cannot be had, or is too large to be looked at.

    A pipe or a device would be waited for, or would never end.
    """
    try:
        with open(os.open(path, os.O_RDONLY | QUICK), "rb") as file:  # noqa: PTH123 (a path cannot be opened so)
            found = os.fstat(file.fileno())
            if not stat.S_ISREG(found.st_mode):
                raise _unread(path, "This is no file but a folder, a pipe or a device. Name a file.")
            if found.st_size > LARGEST:
                size = f"The file has {found.st_size} bytes; at most {LARGEST} are read. Split it into parts."
                raise _unread(path, size)
            return file.read(LARGEST + 1)
    except (OSError, ValueError) as error:
        raise _unread(path, f"The file cannot be read ({getattr(error, 'strerror', error)}).") from None


def _unread(path: Path, what: str) -> TreeError:
    return TreeError([Problem(Place(str(path), 1, 1), what, unread=True)])


def read_source(text: str | bytes, file: str) -> Source:
    """Return the content of one file, or raise `TreeError` with everything that is wrong with its text."""
    from .text import clean, refused_marks, said

    text = clean(text, file)
    if problems := refused_marks(text, file):
        raise TreeError(problems)
    with not_collecting():
        loader = LOADER(text)
        try:
            root = loader.get_single_node()
            if not isinstance(root, yaml.MappingNode):
                found = "is empty" if root is None else "does not begin with a key"
                what = (
                    f"The file {found}. Write keys and values, the first line like `tree: {file_stem(file)}`."
                )
                raise TreeError([Problem(Place(file, 1, 1), what)])
            data = _plain_mapping(root, file, problems, 1)
        except (yaml.YAMLError, RecursionError) as error:
            raise TreeError([said(error, text, file)]) from None
        finally:
            loader.dispose()
    if problems:
        raise TreeError(problems)
    return Source(file, text, data, root)


@contextmanager
def not_collecting() -> Iterator[None]:
    """Turn the garbage collector off for work that makes many objects and no garbage: 5 times quicker."""
    collecting = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if collecting:
            gc.enable()


def file_stem(file: str) -> str:
    """Return the name a file gives to what it holds."""
    return file.replace("\\", "/").rsplit("/", 1)[-1].removesuffix(".yaml")


def _steps_in(node: yaml.Node) -> Steps:
    """Return what each key or position in `node` leads to: the node of the key, and that of the value."""
    if isinstance(node, yaml.MappingNode):
        return {
            key.value: (key, value)
            for key, value in reversed(node.value)  # a twin gives way to the first
            if isinstance(key, yaml.ScalarNode)  # a list as a key is told as one, and leads nowhere
        }
    return (
        {at: (item, item) for at, item in enumerate(node.value)}
        if isinstance(node, yaml.SequenceNode)
        else {}
    )


def _plain(node: yaml.Node, file: str, problems: list[Problem], depth: int) -> Data:
    if isinstance(node, yaml.ScalarNode):
        value: str = node.value
        if len(value) > LONGEST:
            _complain(
                problems, file, node, f"This value has {len(value)} characters; at most {LONGEST} are read."
            )
        return value
    if depth >= DEEPEST:
        _complain(problems, file, node, f"This is nested more than {DEEPEST} deep. Write it flatter.")
        return ""
    if isinstance(node, yaml.SequenceNode):
        return [_plain(item, file, problems, depth + 1) for item in node.value]
    assert isinstance(node, yaml.MappingNode)  # noqa: S101 - YAML has three kinds of node
    return _plain_mapping(node, file, problems, depth + 1)


def _plain_mapping(node: yaml.MappingNode, file: str, problems: list[Problem], depth: int) -> dict[str, Data]:
    data: dict[str, Data] = {}
    firsts: Steps = {}
    for key, value in node.value:
        name = key.value
        if not isinstance(key, yaml.ScalarNode):
            _complain(problems, file, key, "A list or mapping stands where a key belongs. A key is one word.")
            continue
        if name in data:
            firsts = firsts or _steps_in(node)
            first = firsts[name][0].start_mark
            where = f"line {first.line + 1}, column {first.column + 1}"
            what = f"The key {quoted(name)} stands here a second time; the first is at {where}."
            _complain(problems, file, key, f"{what} Keep one of the two.")
        elif name == "<<":
            _complain(problems, file, key, 'A merge key ("<<") is not read. Write the keys out.')
        elif not name or len(name) > 200:
            what = (
                "There is no key before this colon."
                if not name
                else "This key is longer than 200 characters."
            )
            _complain(problems, file, key, f"{what} A key is one word.")
        data[name] = _plain(value, file, problems, depth)
    return data


def _complain(problems: list[Problem], file: str, node: yaml.Node, message: str) -> None:
    problems.append(Problem(place_of(file, node.start_mark), message))
    if len(problems) >= MOST:
        raise TreeError(first_of(problems))


def first_of(problems: Sequence[Problem]) -> list[Problem]:
    """Return the first `MOST` problems of a file, and that there are more: nobody reads thousands."""
    if len(problems) < MOST:
        return list(problems)
    first = sorted(problems)[:MOST]
    more = (
        f"Here the {MOST} first things that are wrong in this file end. Mend them; then what is left is told."
    )
    return [*first[:-1], first[-1]._replace(message=f"{first[-1].message} {more}")]
