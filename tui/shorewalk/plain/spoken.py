"""A walk in sentences: the open question, what the last answer told, what is known, the ending."""

from __future__ import annotations

from collections.abc import Iterator

from shorewalk.marks import grade_mark, verdict_mark
from shorewalk.pages.aloud import aloud_words
from shorewalk.pages.ending import LOWERED, call_words
from shorewalk.pages.options import options_of
from shorewalk.pages.question import picture_of
from shorewalk.pages.sags import sags_in_words
from shorewalk.pages.sums import beside
from shorewalk.tree.facts import Appliance, Site
from shorewalk.tree.model import Measure, Step, Tally
from shorewalk.walk.message import Ending, message_text
from shorewalk.walk.sums import shows_span
from shorewalk.walk.walk import Known, Position, Walk, Worked

from .face import probes_in_words
from .prompt import sentence


def question(walk: Walk) -> Iterator[str]:
    """Yield the lines of the open question, the answers numbered."""
    now = walk.now
    yield heading(now)
    for caution in now.cautions if now.cautions_full else ():
        yield f"Caution: {caution.text}"
    if now.cautions and not now.cautions_full:
        yield f"Remember: {'; '.join(caution.short for caution in now.cautions)}."
    if now.why and isinstance(now.node, Step):
        yield f"{now.text} {now.why}"
    else:
        yield now.text
    if (picture := picture_of(walk)) and (where := probes_in_words(picture)):
        yield where
    if now.normal:
        yield f"Normal: {now.normal.rstrip('.')}."
    if now.hint:
        yield f"Hint: {now.hint}"
    yield from choices(walk)


def aloud(walk: Walk, room: int) -> Iterator[str]:
    """Yield the open question as one reads it to another: in few words, the answers numbered."""
    now = walk.now
    yield f"Question {now.step}."
    for caution in now.cautions if now.cautions_full else ():
        yield f"Caution: {caution.text}"
    yield aloud_words(now, walk.library.site, room)
    yield from choices(walk)
    if now.cautions and not now.cautions_full:
        yield f"Remember: {'; '.join(caution.short for caution in now.cautions)}."


def heading(now: Position) -> str:
    """Return where in the walk this is."""
    low, high = now.left
    left = f"about {low} to {high} left" if high > low else f"about {low} left"
    group = f" {now.node.group}." if now.node.group else ""
    return f"Question {now.step}, {left}.{group}" if high else f"Question {now.step}.{group}"


def choices(walk: Walk) -> Iterator[str]:
    """Yield the answers to choose from, and what to type where no number will do."""
    node, site = walk.now.node, walk.library.site
    for option in options_of(node, site, {}):
        watts = f", {_watts(site.loads[option.load])}" if option.load else ""
        yield f"  {option.number}. {option.says}{watts}"
    if isinstance(node, Measure):
        yield "Type what the meter shows. x: I can't measure that."
    elif isinstance(node, Tally):
        yield "Type the numbers of all that were running, spaces between. Twice for two of a kind."
        yield "Or the amps that a display in the rig shows, as in 12 A."


def _watts(load: Appliance) -> str:
    low, high = load.watts
    return f"{low:g} watts" if low == high else f"{low:g} to {high:g} watts"


def told(walk: Walk) -> Iterator[str]:
    """Yield what the last answer told: its grade, what was worked out, what to say about it."""
    now = walk.now
    for known in now.known:
        if known.index == len(walk.answers) - 1:
            yield f"Noted: {of_known(known)}"
    site = walk.library.site
    yield from (of_worked(worked, site) for worked in now.worked)
    yield from sags_in_words((worked for worked in now.worked if worked.grade != "ok"), site)
    yield from now.notes


def of_worked(worked: Worked, site: Site, *, whole: bool = False) -> str:
    """Return one result: first what came out, then what it is held against; its sum where it is not good.

    `whole`: its sum in any case.
    """
    grade = f", {grade_mark(worked.grade).word}" if worked.grade else ""
    against = "" if worked.grade == "ok" else beside(worked, site)
    total = f" The sum: {worked.numbers}." if whole or worked.grade != "ok" else ""
    return f"Worked out: {worked.says}: {shows_span(worked)}{grade}{'; ' if against else ''}{against}.{total}"


def of_known(known: Known) -> str:
    """Return one thing that is known, as a sentence."""
    says = known.says.rstrip(".")
    if known.void:
        return f"{says}: {known.shows}. It counts for nothing."
    grade = f", {grade_mark(known.grade).word}" if known.grade else ""
    return f"{says}: {known.shows}{grade}."


def end_in_words(end: Ending, number: int | None, placed: str | None = None) -> Iterator[str]:
    """Yield the ending: the verdict and the action first, the words to say, what may still be wrong.

    `placed`: where the site of the message is from, if it was not said of this walk.
    """
    yield f"The end: {verdict_mark(end.verdict).word}."
    yield f"Do this: {end.safe_action}"
    yield f"Why: {end.because}"
    yield f"Call: {call_words(end)}"
    yield f"Say: {message_text(end)}"
    if placed:
        yield placed
    if end.lowered:
        yield f"Note: {LOWERED}"
    if end.not_ruled_out:
        yield "Not ruled out:"
        yield from (f"  {sentence(fault)}" for fault in end.not_ruled_out)
    if number is not None:
        yield f"The record is kept as walk {number}."
