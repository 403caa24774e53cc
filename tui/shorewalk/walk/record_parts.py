"""What stands in a record: the ending first, then readings, sums, how things stand, every answer, the cautions."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import tzinfo

from shorewalk.paper.blocks import Block, Heading, Items, Quote, Rows, Text
from shorewalk.tree.model import End

from .asked import Gone, gone_over
from .ending import CALLS, FIRST, VERDICTS, ending
from .known import Known, Worked
from .meter import Meter
from .stands import stands
from .sums import sum_of
from .times import Times
from .walk import Walk
from .wording import bounds

READINGS = ("reading", "shows", "lies between", "grade", "time")
ASKED = ("#", "time", "question", "answer", "grade")
GRADES = "Grades rise from ok over watch and stop to danger. A reading lies between its bounds by the meter's error."


def title_of(walk: Walk) -> str:
    """Return what a record is called."""
    return f"Record: {walk.library.tree(walk.tree).symptom or walk.tree}"


def record_parts(
    walk: Walk, site: str | None, park: str | None, zone: tzinfo, also: Iterable[str] = ()
) -> Iterator[Block]:
    """Yield the record from top to bottom. `also`: dangers that are possible and the tree does not name."""
    times = Times((answered.time for answered in walk.answers), zone)
    gone = gone_over(walk)
    yield Heading(title_of(walk))
    yield Items(tuple(_head(walk, site, park, times)))
    if isinstance(walk.now.node, End):
        yield from _ending(walk, site)
        if possible := tuple(also):
            yield Heading("Also possible, by the numbers alone", 2)
            yield Items(possible)
    else:
        yield Heading("Not finished", 2)
        yield Text(walk.now.text, lead="Asked next:")
    yield from _readings(walk, times)
    yield from _sums(walk.now.worked_all)
    if how := tuple(f"{called}: {shows}" for _, called, shows in stands(walk.now.state, walk.library.site)):
        yield Heading("How things stood at the end", 2)
        yield Items(how)
    yield from _answers(gone, times)


def meter_words(meter: Meter) -> str:
    """Return a meter in words, with its error as the maker states it."""
    digits = {True: "shows tenths", False: "shows whole volts", None: "tenths not known"}[meter.tenths]
    return f"{meter.name}, {meter.percent:g} % + {meter.counts:g} counts, {digits}"


def _head(walk: Walk, site: str | None, park: str | None, times: Times) -> Iterator[str]:
    if park:
        yield f"Park: {park}"
    if site:
        yield f"Site: {site}"
    yield f"When: {times.span() or 'not noted'}"
    yield f"Meter: {meter_words(walk.now.meter)}"
    yield f"Tree: {walk.tree}, {'ended' if walk.ended else 'stands'} at {walk.now.tree} {walk.now.node.name}"


def _ending(walk: Walk, site: str | None) -> Iterator[Block]:
    end = ending(walk, site)
    call = CALLS[end.call]
    first = f"{FIRST.get(end.first, end.first)} first, then {call}" if end.first else call
    yield Heading(VERDICTS[end.verdict], 2)
    yield Text(end.because)
    yield Text(end.safe_action, lead="Do:")
    yield Text(first + (f", if {end.call_when}" if end.call_when else ""), lead="Call:")
    yield Text("The message:")
    yield Quote(end.say)
    if end.not_ruled_out:
        yield Heading("Not ruled out", 2)
        yield Items(end.not_ruled_out)


def _readings(walk: Walk, times: Times) -> Iterator[Block]:
    read = sorted((known for known in walk.now.known if known.place), key=lambda known: known.index)
    if read:
        yield Heading("Readings", 2)
        yield Text(GRADES)
        yield Rows(READINGS, tuple(_reading(known, times) for known in read), (22, 10, 12, 5, 8))


def _reading(known: Known, times: Times) -> tuple[str, ...]:
    shows = f"{known.shows}, counts for nothing" if known.void else known.shows
    return known.says, shows, _between(known), known.grade or "", times.at(known.time)


def _between(known: Known) -> str:
    if known.low is None or known.high is None or not known.unit:
        return ""
    return bounds(known.low, known.high, known.unit)


def _sums(worked: tuple[Worked, ...]) -> Iterator[Block]:
    if worked:
        yield Heading("What was worked out", 2)
        yield Items(
            tuple(
                f"{each.says}: {sum_of(each)}"
                + (f", {each.grade}" if each.grade else "")
                + f". Formula: {each.formula}"
                for each in worked
            )
        )


def _answers(gone: Gone, times: Times) -> Iterator[Block]:
    yield Heading("What was asked", 2)
    rows = tuple(
        (str(at), times.at(asked.time), asked.question, asked.shows, asked.grade)
        for at, asked in enumerate(gone.asked, 1)
    )
    yield Rows(ASKED, rows, (2, 6, 24, 14, 5))
    if gone.cautions:
        yield Heading("Cautions that were shown", 2)
        yield Items(gone.cautions)
