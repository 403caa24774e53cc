"""A walk: a list of answers, and where they lead.

Everything is folded from the answers by `Walk.answer`, one at a time, so that the next question
costs no more than the last. A walk never changes: every answer makes a new one, and an answer
that is refused raises `Refused` and leaves all as it was.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import field, replace
from functools import cached_property

from shorewalk.tree.model import End, Way
from shorewalk.tree.record import record

from . import state as states
from .age import seconds_of
from .answers import Answer, Answered, Read
from .fallback import nowhere
from .known import Known, Position, Worked
from .ledger import Ledger, Trees
from .meter import Meter
from .passing import settle
from .placing import position_of
from .refused import Refused

__all__ = ["Known", "Position", "Refused", "Walk", "Worked", "begin", "resume"]


@record()
class Walk:
    """The tree begun with, the meter it began with, the answers so far.

    `now.meter` is the meter as known by now: whether it shows tenths may have been asked since.
    `ledger` is what the answers were folded into; only this package looks into it.
    """

    library: Trees = field(repr=False)
    tree: str
    meter: Meter
    answers: tuple[Answered, ...] = ()
    ledger: Ledger = field(default=None, repr=False, compare=False)  # type: ignore[assignment]

    @cached_property
    def now(self) -> Position:
        """The open question or the ending, and all that is known."""
        return position_of(self.ledger)

    @property
    def ended(self) -> bool:
        return isinstance(self.ledger.node, End)

    def answer(self, answer: Answer, time: str | None = None, resumed: str | None = None) -> Walk:
        """Return the walk with one more answer; raise `Refused` if it does not fit the question.

        `resumed`: when the walk was taken up again after it. The judges ahead see the clock as it stood then.
        """
        # What reads and judges an answer is not needed for the first question.
        from .at_rest import hold_to_rest
        from .taking import take

        ledger = self.ledger.copy()
        ledger.moment += 1
        ledger.clock = ledger.clock.after(time, ledger.moment)
        tree, at = ledger.key()
        nth = ledger.nth
        ledger.acknowledge()
        take(ledger, answer, time)
        if resumed is not None:
            ledger.clock = ledger.clock.after(resumed, ledger.moment + 1)
        settle(ledger)
        hold_to_rest(ledger)
        answered = Answered(tree, at, nth, answer, time, resumed)
        return Walk(self.library, self.tree, self.meter, (*self.answers, answered), ledger)

    def again(self, answered: Answered) -> Walk:
        """Return the walk with one more answer that was given before, with its times; raise `Refused` as `answer`.

        A reading that counted once is not asked for once more, whatever is doubted since.
        """
        walk = self.answer(_confirmed(answered.answer), answered.time, answered.resumed)
        return replace(walk, answers=(*self.answers, answered))

    def back(self, now: str | None = None) -> Walk:
        """Return the walk without its last answer; raise `Refused` if there is none.

        What is asked then is judged by the time `now`, or by the last that is known: no reading grows younger.
        """
        if not self.answers:
            raise Refused("This is the first question; there is nothing to take back.")
        before = _refold(self, self.answers[:-2])
        walk = before.again(self.answers[-2]) if self.answers[:-1] else before
        return _as_late(before, walk, self.answers, now)

    def revise(self, index: int, answer: Answer, time: str | None = None) -> Walk:
        """Return the walk with another answer at `index`, and the later answers that still fit.

        A later answer fits where the same question comes as often as before, and things stood as
        they do now when it was asked. The first question without one is asked. The answer keeps the
        time of the one it corrects, if that had any: a correction makes no reading younger. The question
        it comes to is judged by `time`, or by the last that is known.
        """
        if not 0 <= index < len(self.answers):
            raise Refused(f"There is no answer {index + 1} to change; there are {len(self.answers)}.")
        before = _refold(self, self.answers[:index])
        stood = _stood(before, self.answers[index:])
        old = self.answers[index]
        walk = before.answer(answer, old.time or time, old.resumed)
        later = {(a.tree, a.at, a.nth): (a, state) for a, state in stood[1:]}
        while not walk.ended:
            tree, at = walk.ledger.key()
            found = later.get((tree, at, walk.ledger.nth))
            if found is None or found[1] != walk.ledger.standing:
                break
            try:
                before, walk = walk, walk.again(found[0])
            except Refused:
                break
        return _as_late(before, walk, self.answers, time)


def _as_late(before: Walk, walk: Walk, given: Iterable[Answered], now: str | None) -> Walk:
    """Return `walk`, which is `before` with one more answer, as taken up `now`, if that makes any reading too old.

    `given`: all that was answered, also what is taken back; where a clock went back since, their last time stands.
    """
    times = [time for one in given for time in (one.time, one.resumed) if seconds_of(time) is not None]
    times += [now] if now and (not times or (seconds_of(now) or 0) >= (seconds_of(times[-1]) or 0)) else []
    if not times or not walk.answers or walk.ended:
        return walk
    late = before.again(replace(walk.answers[-1], resumed=times[-1]))
    return walk if _where(late) == _where(walk) else late


def _confirmed(answer: Answer) -> Answer:
    return Read(answer.text, confirmed=True) if isinstance(answer, Read) else answer


def _where(walk: Walk) -> tuple[object, ...]:
    return *walk.ledger.key(), walk.ledger.nth, walk.ledger.looks()


def _stood(walk: Walk, answers: Iterable[Answered]) -> list[tuple[Answered, states.Standing]]:
    """Return answers with how things stood when each was asked."""
    stood: list[tuple[Answered, states.Standing]] = []
    for answered in answers:
        stood.append((answered, walk.ledger.standing))
        walk = walk.again(answered)
    return stood


def _refold(walk: Walk, answers: Iterable[Answered]) -> Walk:
    again = begin(walk.library, walk.tree, walk.meter)
    for answered in answers:
        again = again.again(answered)
    return again


def begin(library: Trees, tree: str, meter: Meter) -> Walk:
    """Begin a walk in `tree`; raise what `library.tree` raises if there is none."""
    site, first = library.site, library.tree(tree)
    standing = states.at_begin(first.starts, site.states)
    ledger = Ledger(library, site, meter, first, nowhere(first.begin), standing, entered=frozenset({tree}))
    ledger.go(Way(first.begin))
    settle(ledger)
    return Walk(library, tree, meter, (), ledger)


def resume(
    library: Trees, tree: str, meter: Meter, answers: Iterable[Answered], now: str | None = None
) -> tuple[Walk, int]:
    """Return the walk with as many of `answers` as still fit, in order, and how many do not.

    Answers kept on disk may be older than the tree they are fed to. `now`: the walk is taken up at that time; where
    it is still open, the way on from the last answer is judged once more, by readings as old as they are now.
    """
    walk = before = begin(library, tree, meter)
    kept = list(answers)
    for answered in kept:
        at = walk.ledger
        if walk.ended or (answered.tree, answered.at, answered.nth) != (*at.key(), at.nth):
            break
        try:
            before, walk = walk, walk.again(answered)
        except Refused:
            break
    left = len(kept) - len(walk.answers)
    if now is not None and walk.answers and not walk.ended:
        walk = before.again(replace(walk.answers[-1], resumed=now))
    return walk, left
