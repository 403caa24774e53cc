"""Taking an answer: what it tells, the grade it gives, the way it goes. Refuses what cannot be."""

from __future__ import annotations

from dataclasses import replace

from shorewalk.tree.graded import grade_of_choice, grade_of_unsure
from shorewalk.tree.model import AGAIN, Ask, End, Measure, Step, Tally, worse

from .answers import Answer, Cannot, Choose, Done, Read, Running, Unable, Unsure
from .interval import Amount, finite
from .judge import judge_bands, judge_node
from .ledger import Ledger
from .looks import TRIPPED, Silent
from .measuring import take_reading, take_unable
from .refused import Refused
from .tallying import displayed_amps, total_amps
from .telling import grade_of, tell
from .wording import number, says_sign


def take(ledger: Ledger, answer: Answer, time: str | None) -> None:
    """Take `answer` to the open question, or raise `Refused`; a refused ledger is to be thrown away."""
    match ledger.node, answer:
        case Ask() as node, Choose(name):
            _choose(ledger, node, name, time)
        case Ask() as node, Unsure():
            _unsure(ledger, node, time)
        case Step() as node, Done():
            ledger.given[ledger.key()] = "done"
            ledger.known.pop(ledger.key(), None)
            ledger.reach(node.leaves)
            ledger.go(node.done)
        case Step() as node, Cannot():
            _cannot(ledger, node, time)
        case Measure() as node, Read():
            take_reading(ledger, node, answer, time)
        case Measure() as node, Unable():
            take_unable(ledger, node, "could not be measured", time)
        case Tally() as node, Running():
            _running(ledger, node, answer, time)
        case Tally() as node, Read(text):
            amount = displayed_amps("/".join(ledger.key()), text, ledger.meter)
            _tallied(ledger, node, amount, f"{_shows_span(amount)} by a display", time)
        case Tally() as node, Unsure():
            ledger.void([ledger.key()])
            ledger.given[ledger.key()] = "unsure"
            tell(ledger, _says_out(node, ledger), "not sure", grade_of(node.unsure), time)
            ledger.go(node.unsure)
        case _:
            raise Refused(_wants(ledger))


def _wants(ledger: Ledger) -> str:
    match ledger.node:
        case Ask(choices=choices):
            names = ", ".join(choice.id for choice in choices)
            return f"Answer with one of: {names}; or say that you are not sure."
        case Step():
            return "Say that it is done, or that you cannot do it."
        case Measure():
            return "Answer with what the meter shows, or say that you cannot measure it."
        case Tally():
            return "Say how many of each were running, or the amps on a display, or that you are not sure."
        case End():
            return "This walk has ended. Take back the last answer to change it."
    return "There is no question to answer here."


def _choose(ledger: Ledger, node: Ask, name: str, time: str | None) -> None:
    choice = next((choice for choice in node.choices if choice.id == name), None)
    if choice is None:
        raise Refused(f"There is no choice '{name}' here. {_wants(ledger)}")
    grade = grade_of_choice(node, choice, ledger.site)
    ledger.raise_to(grade)
    ledger.given[ledger.key()] = name
    ledger.reached[(node.sign, name)] = ledger.moment
    if (node.sign, name) == ("breaker-position", TRIPPED):
        ledger.reached[(TRIPPED, ledger.outlet_at_hand or "")] = ledger.moment
    if node.sign == "tenths":
        ledger.meter = replace(ledger.meter, tenths=name == "yes")
    elif node.sign == "outlet-used":
        ledger.outlet_answer = f"pedestal-{name}"
    elif node.sign == "near-voltage":
        ledger.silent = Silent(ledger.standing, ledger.moment) if name == "silent" else None
    tell(ledger, says_sign(node, ledger.site), choice.says, grade, time, sign=node.sign)
    ledger.go(choice.way)


def _unsure(ledger: Ledger, node: Ask, time: str | None) -> None:
    grade = grade_of_unsure(node, ledger.site)
    ledger.raise_to(grade)
    ledger.given[ledger.key()] = "unsure"
    if node.sign == "tenths":
        ledger.meter = replace(ledger.meter, tenths=False)
    elif node.sign == "outlet-used":
        ledger.outlet_answer = None
    elif node.sign == "near-voltage":
        ledger.silent = None
    told = None if grade == "ok" else grade  # nobody is told that what they do not know is good
    tell(ledger, says_sign(node, ledger.site), "not sure", told, time, sign=node.sign)
    ledger.go(node.unsure)


def _cannot(ledger: Ledger, node: Step, time: str | None) -> None:
    """A step that could not be done may have been done in part: both stay possible."""
    ledger.given[ledger.key()] = "cannot"
    ledger.perhaps(node.leaves)
    tell(ledger, node.text, "could not be done", grade_of(node.cannot), time)
    ledger.go(node.cannot)


def _says_out(node: Tally, ledger: Ledger) -> str:
    fact = ledger.site.results.get(node.out)
    return fact.says if fact else node.out.replace("-", " ")


def _running(ledger: Ledger, node: Tally, answer: Running, time: str | None) -> None:
    site = ledger.site
    for load, count in answer.loads:
        if load not in node.loads:
            raise Refused(f"'{load}' is not in this list. It has: {', '.join(node.loads)}.")
        if not 0 <= count <= 99:
            raise Refused(f"{count} of '{load}' cannot be. Say how many were running, 0 to 99.")
    if not node.takes_nothing and not any(count for _, count in answer.loads):
        # What its amps are divided into would be anything.
        raise Refused("Nothing is ticked. Tick what was on, or say that you are not sure.")
    volts = ledger.amount(node.at_voltage) if node.at_voltage else None
    amount = total_amps("/".join(ledger.key()), dict(answer.loads), volts, site)
    _tallied(ledger, node, amount, _shows_span(amount), time)


def _tallied(ledger: Ledger, node: Tally, amount: Amount, shows: str, time: str | None) -> None:
    """Judge the amps, whatever told them, and go on."""
    site, key = ledger.site, ledger.key()
    ledger.void([key])
    ledger.results[key] = amount
    fact = site.results.get(node.out)
    floor = judge_bands(fact.floor, amount, site.limits).grade if fact and fact.floor else None
    judged = judge_node(node, amount, site.limits)
    grade = judged.grade
    grade = None if grade == AGAIN else worse(grade, floor)
    ledger.raise_to(grade)
    ledger.note(*judged.notes)
    low, high = map(finite, amount.span)
    tell(
        ledger,
        _says_out(node, ledger),
        shows,
        grade,
        time,
        value=finite(amount.value),
        unit=amount.unit,
        low=low,
        high=high,
    )
    ledger.go(judged.way)


def _shows_span(amount: Amount) -> str:
    """Return the amps of what was running, and from where to where labels or a display leave them."""
    shows, *ends = (number(value, amount.unit) for value in (amount.value, *amount.span))
    low, high = (end.partition(" ")[0] for end in ends)
    return shows if low == high else f"{shows} ({low} to {high})"
