"""The whole record of a walk, for the electrician: what was asked, read, with which meter, when."""

from __future__ import annotations

from shorewalk.tree.model import End

from .answers import Answered, Cannot, Choose, Done, Read, Running, Unable, Unsure
from .ending import CALLS, FIRST, VERDICTS, ending
from .known import Known
from .sums import sum_of
from .walk import Walk, begin


def record_markdown(walk: Walk, site: str | None = None) -> str:
    """Return the record as Markdown."""
    now = walk.now
    meter = now.meter
    lines = [f"# Record: {walk.library.tree(walk.tree).symptom or walk.tree}", ""]
    if site:
        lines.append(f"- Site: {site}")
    if walk.answers and walk.answers[0].time:
        lines.append(f"- From {walk.answers[0].time} to {walk.answers[-1].time or 'not noted'}")
    lines += [f"- Meter: {meter_words(meter.name, meter.percent, meter.counts, meter.tenths)}", ""]
    if isinstance(now.node, End):
        lines += _ending(walk, site)
    lines += [
        "## What was asked",
        "",
        "| # | time | question | answer | grade |",
        "| --- | --- | --- | --- | --- |",
    ]
    shown = {known.index: known for known in now.known}
    step = begin(walk.library, walk.tree, walk.meter)
    for index, answered in enumerate(walk.answers):
        question = step.now.text
        step = step.answer(answered.answer, answered.time)
        lines.append(_row(index, answered, question, shown.get(index) or _then(step, index)))
    if now.worked_all:
        lines += ["", "## What was worked out", ""]
        lines += [
            f"- {worked.says}: {sum_of(worked)}" + (f", {worked.grade}" if worked.grade else "")
            for worked in now.worked_all
        ]
    return "\n".join(lines) + "\n"


def meter_words(name: str, percent: float, counts: float, tenths: bool | None) -> str:  # noqa: FBT001 (a fact)
    """Return a meter in words."""
    digits = {True: "shows tenths", False: "shows whole volts", None: "tenths not known"}[tenths]
    return f"{name}, {percent:g} % + {counts:g} counts, {digits}"


def _then(step: Walk, index: int) -> Known | None:
    """Return an answer as it stood when given; a later one of the same question has taken its place."""
    return next((known for known in step.now.known if known.index == index), None)


def _ending(walk: Walk, site: str | None) -> list[str]:
    end = ending(walk, site)
    call = CALLS[end.call]
    first = f"{FIRST.get(end.first, end.first)} first, then {call}" if end.first else call
    lines = [f"## {VERDICTS[end.verdict]}", "", end.because, "", f"**Do:** {end.safe_action}", ""]
    lines += [
        f"**Call:** {first}" + (f", if {end.call_when}" if end.call_when else ""),
        "",
        f"> {end.say}",
        "",
    ]
    if end.not_ruled_out:
        lines += ["Not ruled out:", "", *(f"- {fault}" for fault in end.not_ruled_out), ""]
    return lines


def _row(index: int, answered: Answered, question: str, known: Known | None) -> str:
    shows = known.shows if known else _plain(answered)
    if known and known.note:
        shows += f" ({known.note})"
    grade = known.grade if known and known.grade else ""
    cells = (str(index + 1), answered.time or "", question, shows, grade)
    return "| " + " | ".join(cell.replace("|", "/").replace("\n", " ") for cell in cells) + " |"


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
