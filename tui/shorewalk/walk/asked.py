"""Every question of a walk with its answer, and the cautions that were shown, gone over once more from the start."""

from __future__ import annotations

from shorewalk.tree.record import record

from .answers import Answered, Cannot, Choose, Done, Read, Running, Unable, Unsure
from .known import Known
from .walk import Walk, begin


@record()
class Asked:
    """One answer: the question in words, what was answered, its grade, and when."""

    question: str
    shows: str
    grade: str
    time: str | None


@record()
class Gone:
    """What a walk asked, and the cautions it showed whole, each once."""

    asked: tuple[Asked, ...]
    cautions: tuple[str, ...]


def gone_over(walk: Walk) -> Gone:
    """Return what a walk asked and showed, in order."""
    shown = {known.index: known for known in walk.now.known}
    step = begin(walk.library, walk.tree, walk.meter)
    asked: list[Asked] = []
    cautions: dict[str, None] = {}
    for index, answered in enumerate(walk.answers):
        now = step.now
        cautions.update(dict.fromkeys(caution.text for caution in now.cautions if now.cautions_full))
        step = step.again(answered)
        known = shown.get(index) or _then(step, index)
        asked.append(_asked(now.text, answered, known))
    return Gone(tuple(asked), tuple(cautions))


def _then(step: Walk, index: int) -> Known | None:
    """Return an answer as it stood when given; a later one of the same question has taken its place."""
    return next((known for known in step.now.known if known.index == index), None)


def _asked(question: str, answered: Answered, known: Known | None) -> Asked:
    shows = known.shows if known else _plain(answered)
    if known and known.note:
        shows += f" ({known.note})"
    return Asked(question, shows, (known and known.grade) or "", answered.time)


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
