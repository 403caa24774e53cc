"""The whole record of a walk, for the electrician: what was asked, read, with which meter, when."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from typing import Literal

from shorewalk.paper.blocks import Block, Heading, Items, Quote, Rows, Text
from shorewalk.paper.markdown import as_markdown
from shorewalk.tree.model import End

from .answers import Answered, Cannot, Choose, Done, Read, Running, Unable, Unsure
from .ending import CALLS, FIRST, VERDICTS, ending
from .known import Known
from .sums import sum_of
from .walk import Walk, begin


def record_markdown(walk: Walk, site: str | None = None, park: str | None = None) -> str:
    """Return the record as Markdown. `site` and `park`: where it was, if anybody said."""
    return as_markdown(record_blocks(walk, site, park))


def record_pdf(
    walk: Walk,
    site: str | None = None,
    park: str | None = None,
    *,
    made: datetime,
    paper: Literal["letter", "a4"] = "letter",
) -> bytes:
    """Return the record as a PDF to print. `made`: the date it states, the caller's."""
    from shorewalk.paper.pdf import as_pdf

    return as_pdf(record_blocks(walk, site, park), title=_title(walk), made=made, paper=paper)


def record_blocks(walk: Walk, site: str | None = None, park: str | None = None) -> tuple[Block, ...]:
    """Return the record in blocks, which become Markdown or a page to print."""
    return tuple(_blocks(walk, site, park))


def meter_words(name: str, percent: float, counts: float, tenths: bool | None) -> str:  # noqa: FBT001 (a fact)
    """Return a meter in words."""
    digits = {True: "shows tenths", False: "shows whole volts", None: "tenths not known"}[tenths]
    return f"{name}, {percent:g} % + {counts:g} counts, {digits}"


def _title(walk: Walk) -> str:
    return f"Record: {walk.library.tree(walk.tree).symptom or walk.tree}"


def _blocks(walk: Walk, site: str | None, park: str | None) -> Iterator[Block]:
    now = walk.now
    yield Heading(_title(walk))
    yield Items(tuple(_where_and_when(walk, site, park)))
    if isinstance(now.node, End):
        yield from _ending(walk, site)
    yield Heading("What was asked", 2)
    yield Rows(("#", "time", "question", "answer", "grade"), tuple(_rows(walk)), (2, 6, 24, 14, 4))
    if now.worked_all:
        yield Heading("What was worked out", 2)
        yield Items(
            tuple(
                f"{worked.says}: {sum_of(worked)}" + (f", {worked.grade}" if worked.grade else "")
                for worked in now.worked_all
            )
        )


def _where_and_when(walk: Walk, site: str | None, park: str | None) -> Iterator[str]:
    if park:
        yield f"Park: {park}"
    if site:
        yield f"Site: {site}"
    if walk.answers and walk.answers[0].time:
        yield f"From {walk.answers[0].time} to {walk.answers[-1].time or 'not noted'}"
    meter = walk.now.meter
    yield f"Meter: {meter_words(meter.name, meter.percent, meter.counts, meter.tenths)}"


def _ending(walk: Walk, site: str | None) -> Iterator[Block]:
    end = ending(walk, site)
    call = CALLS[end.call]
    first = f"{FIRST.get(end.first, end.first)} first, then {call}" if end.first else call
    yield Heading(VERDICTS[end.verdict], 2)
    yield Text(end.because)
    yield Text(end.safe_action, lead="Do:")
    yield Text(first + (f", if {end.call_when}" if end.call_when else ""), lead="Call:")
    yield Quote(end.say)
    if end.not_ruled_out:
        yield Text("Not ruled out:")
        yield Items(end.not_ruled_out)


def _rows(walk: Walk) -> Iterator[tuple[str, ...]]:
    shown = {known.index: known for known in walk.now.known}
    step = begin(walk.library, walk.tree, walk.meter)
    for index, answered in enumerate(walk.answers):
        question = step.now.text
        step = step.again(answered)
        yield _row(index, answered, question, shown.get(index) or _then(step, index))


def _then(step: Walk, index: int) -> Known | None:
    """Return an answer as it stood when given; a later one of the same question has taken its place."""
    return next((known for known in step.now.known if known.index == index), None)


def _row(index: int, answered: Answered, question: str, known: Known | None) -> tuple[str, ...]:
    shows = known.shows if known else _plain(answered)
    if known and known.note:
        shows += f" ({known.note})"
    grade = known.grade if known and known.grade else ""
    return str(index + 1), answered.time or "", question, shows, grade


def _plain(answered: Answered) -> str:
    match answered.answer:
        case Choose(name):
            return name
        case Read(text):
            return text
        case Running(loads):
            return ", ".join(f"{count} {name}" for name, count in loads) or "nothing"
        case Unsure():
            return "not sure"
        case Unable():
            return "could not be measured"
        case Done():
            return "done"
        case Cannot():
            return "could not be done"
