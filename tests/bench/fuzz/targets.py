"""What is given hostile input. Each target says in a few words what came of it, and raises where that may not be."""

from __future__ import annotations

import io
import json
import math
import re
import tempfile
from collections.abc import Callable
from contextlib import redirect_stderr
from dataclasses import dataclass
from pathlib import Path

from shorewalk.handing.handed import SUM, WALK, sum_of
from shorewalk.journal import Journal, Keeper
from shorewalk.journal.store import connect_in_memory
from shorewalk.jsonl import run as run_lines
from shorewalk.lint import lint_paths
from shorewalk.lint.report import Report
from shorewalk.plain import Talk
from shorewalk.printing.as_markdown import as_markdown
from shorewalk.printing.as_text import as_text
from shorewalk.printing.make import checklist
from shorewalk.replay import replay_files
from shorewalk.seen import seen
from shorewalk.tree.check import check_written
from shorewalk.tree.expand import expand
from shorewalk.tree.library import Library, shipped
from shorewalk.tree.source import TreeError, read_source
from shorewalk.walk.meter import parse_meter
from shorewalk.walk.reading import read
from shorewalk.walk.refused import Refused
from shorewalk.walk.walk import Walk, begin

from ..handed.damage import told
from .seeds import FACTS, LINES, OWN, READINGS, RECORDED, TREES, TYPED, WALK_FILES, sound_walk

PLAIN = re.compile(r'"[^"]*"|\'[^\']*\'|[0-9]+')
NOW = "2024-05-01T12:00:00Z"


@dataclass(frozen=True, slots=True)
class Target:
    """What is tried, with what it begins; `run` returns what came of one input."""

    name: str
    seeds: tuple[bytes, ...]
    run: Callable[[bytes], str]
    share: int = 1  # of the time
    fine: bool = False  # mostly changed so that it is still read


def _like(message: str) -> str:
    """Return a message without what is special to one input: messages alike are one outcome."""
    return PLAIN.sub("_", message)[:120]


def _loader(data: bytes) -> str:
    try:
        written = check_written(read_source(data, "t.yaml"))
        tree = expand(written, shipped().part) if written.kind == "tree" else None
    except TreeError as refused:
        problems = refused.problems
    else:
        return f"{written.kind}, {'' if tree is None else len(tree.nodes) // 10}"
    assert problems, "refused, and nothing told"
    for problem in problems:
        assert "\n" not in problem.message, problem.message
        assert seen(problem.message) == problem.message, "a message that cannot be seen"
        assert problem.place.line >= 1 <= problem.place.column
    return _like(problems[0].message)


def _linter(data: bytes) -> str:
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "own.yaml"
        file.write_bytes(data)
        report = lint_paths([file])
        _not_stumbled(report)
        found = " ".join(sorted({finding.rule for finding in report.findings}))
        return f"{found or 'sound'}, {_printed(Path(folder))}"


def _facts(data: bytes) -> str:
    """Lay facts over the shipped ones: the first word of the input is the name of their file."""
    name, _, text = data.partition(b"\n")
    with tempfile.TemporaryDirectory() as folder:
        (Path(folder) / "site").mkdir()
        file = name.decode(errors="replace") if name.isalpha() else "limits"
        (Path(folder) / "site" / f"{file[:20]}.yaml").write_bytes(text)
        (Path(folder) / "own.yaml").write_bytes(OWN[0])
        report = lint_paths([folder])
        _not_stumbled(report)
        return f"{' '.join(sorted({finding.rule for finding in report.findings})) or 'sound'}, {_printed(Path(folder))}"


def _not_stumbled(report: Report) -> None:
    """Hold that no rule gave up over an error of its own."""
    for stopped in report.stopped:
        assert not re.search(r"\b\w+Error\b|stumbled", stopped.message), stopped.message


def _printed(folder: Path) -> str:
    """Put a tree on paper, sound or not, as far as it can be read."""
    try:
        sheet = checklist(Library(folder), "own")
    except (TreeError, KeyError):
        return "no tree"
    assert as_text(sheet, 72)
    assert as_markdown(sheet)
    return f"{len(sheet.sections)} sections"


def _reading(data: bytes) -> str:
    text = data.decode(errors="surrogateescape")
    said = []
    for what in ("ac-volts", "dc-volts", "hertz", "ohms", "amps"):
        try:
            found = read(text, what, None, parse_meter("basic,tenths"))
        except Refused as refused:
            said.append(_like(refused.reason))
            continue
        assert found.low <= found.value <= found.high
        assert found.over or all(math.isfinite(n) for n in (found.low, found.value, found.high))
        said.append(found.unit + ("over" if found.over else ""))
    return " ".join(said)[:200]


def _walk() -> tuple[Walk, Keeper]:
    walk = begin(shipped(), "voltage-low", parse_meter("basic,tenths"))
    return walk, Keeper(Journal(connect_in_memory(), clock=lambda: NOW))


def _lines(data: bytes) -> str:
    walk, keeper = _walk()
    out = io.StringIO()
    with redirect_stderr(io.StringIO()):
        code = run_lines(walk, io.BytesIO(data), out, keeper)
    keeper.journal.close()
    told_back = [json.loads(line) for line in out.getvalue().splitlines()]
    assert out.getvalue().isascii()
    assert told_back, "nothing was asked"
    errors = {_like(line["error"]) for line in told_back if "error" in line}
    return f"{code} {len(told_back) // 8} {sorted(errors)[:3]}"


def _plain(data: bytes) -> str:
    walk, keeper = _walk()
    out = io.StringIO()
    with redirect_stderr(io.StringIO()):
        talk = Talk(walk, keeper, io.StringIO(data.decode(errors="surrogateescape")), out, 80)
        code = talk.run(offer=False)
    keeper.journal.close()
    return f"{code} {out.getvalue().count('Noted') // 2} {len(out.getvalue()) // 2000}"


def _recorded(data: bytes) -> str:
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "walk.yaml"
        file.write_bytes(data)
        lines: list[str] = []
        try:
            code = replay_files((file,), lines.append, lines.append)
        except TreeError as error:
            return _like(error.problems[0].message)
        return f"{code} {_like(lines[-1].rpartition(': ')[2]) if lines else ''}"


def _handed(data: bytes) -> str:
    return told(_sealed(data), sound_walk(), sealed=True)


def _sealed(data: bytes) -> bytes:
    """Return a file with the sum of what it holds, so that more than the sum is tried; others as they are."""
    try:
        whole = json.loads(data)
        return json.dumps(whole | {SUM: sum_of(whole[WALK])}).encode()
    except (ValueError, TypeError, KeyError, RecursionError):
        return data


TARGETS = {
    target.name: target
    for target in (
        Target("loader", TREES, _loader),
        Target("linter", OWN, _linter, share=4, fine=True),
        Target("facts", FACTS, _facts, share=2, fine=True),
        Target("reading", READINGS, _reading),
        Target("json-lines", LINES, _lines),
        Target("plain", TYPED, _plain),
        Target("recorded", RECORDED, _recorded),
        Target("handed", WALK_FILES, _handed, fine=True),
    )
}
