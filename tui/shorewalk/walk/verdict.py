"""Does the evidence carry the verdict? If not, the engine gives a lesser one and says why.

The trees are to be right by themselves. This is the second lock: it only ever lowers.
"""

from __future__ import annotations

from shorewalk.tree.model import ALLOW_USE, End, worse
from shorewalk.tree.record import record

from . import state as states
from .fallback import COME_OUT, KEEP_OFF, STAY_OUT
from .judge import rank
from .ledger import Ledger

USE_NEEDS = ("full-look", "look-b", "skin")
GOOD_NEEDS = ("earth-look", "look-a")
LOOK_SAYS = {
    "full-look": "not every pair of slots was read",
    "earth-look": "nothing was read against the earth",
    "look-a": "the empty slots were not read with the test load on",
    "look-b": "nothing was read through your own plug with a load on",
    "skin": "the rig's metal was not read after the power came on",
}
AGED_SAYS = {
    "full-look": "the slots were",
    "earth-look": "the earth was",
    "look-a": "the slots with the test load on were",
}
OUT = ("stay-unplugged", "unplugged")
NOTHING_FOUND = ("leave-as-is", "unplugged")
AFTER_STOP = ("unplug-now", "hands-off", "emergency")


@record()
class Verdict:
    """The verdict that holds, the action where it differs from the tree's, and why it does."""

    verdict: str
    action: str | None = None
    reasons: tuple[str, ...] = ()


def worst_in_all(ledger: Ledger) -> str | None:
    """Return the worst grade, with the least grades of readings that nothing has judged."""
    worst = ledger.worst
    for grade in ledger.unjudged.values():
        worst = worse(worst, grade)
    return worst


def verdict_of(ledger: Ledger, end: End) -> Verdict:
    """Return the verdict of an ending, lowered to what is known."""
    facts, standing = ledger.site.states, ledger.standing
    worst = worst_in_all(ledger)
    verdict = end.verdict
    reasons: list[str] = []
    if verdict in ALLOW_USE:
        reasons = _against_use(ledger, worst)
        if reasons:
            return _lower(ledger, worst, reasons)
        if verdict == "good-to-use" and (doubts := _against_good(ledger, worst)):
            return Verdict("use-with-care", None, tuple(doubts))
        return Verdict(verdict)
    if verdict in OUT and not states.must(standing, "cord", "unplugged", facts):
        return _lower(ledger, worst, ["the cord is not known to be out"])
    if rank(worst) >= rank("stop") and verdict in NOTHING_FOUND:
        return _lower(ledger, worst, ["something was found that means stop"])
    energised = states.may(standing, states.ENERGISED, "yes", facts)
    if rank(worst) >= rank("stop") and energised and verdict not in AFTER_STOP:
        return _lower(ledger, worst, ["something was found that means off, and the power may still be on"])
    return Verdict(verdict)


def _against_use(ledger: Ledger, worst: str | None) -> list[str]:
    facts, standing = ledger.site.states, ledger.standing
    reasons = []
    if rank(worst) >= rank("stop"):
        reasons.append("something was found that means stop")
    if not states.must(standing, states.ENERGISED, "yes", facts):
        reasons.append("the rig is not known to be plugged in and on")
    if not states.must(standing, "rig-main", "on", facts):
        reasons.append("the rig's main is not known to be on")
    return reasons + _lacking(ledger, USE_NEEDS)


def _against_good(ledger: Ledger, worst: str | None) -> list[str]:
    reasons = _lacking(ledger, GOOD_NEEDS)
    if rank(worst) >= rank("watch"):
        reasons.append("something needs watching")
    if not states.must(ledger.standing, "protector", "fitted", ledger.site.states):
        reasons.append("no protector is fitted")
    return reasons


def _lacking(ledger: Ledger, wanted: tuple[str, ...]) -> list[str]:
    looks, aged = ledger.looks(), ledger.looks(aging=False)
    if ledger.outlet is None:
        return ["no outlet was looked at"]
    lacking = [name for name in wanted if name in looks and not looks[name]]
    return [_too_old(ledger, name) if aged[name] else LOOK_SAYS[name] for name in lacking]


def _too_old(ledger: Ledger, name: str) -> str:
    minutes = ledger.site.places[ledger.outlet or ""].looks[name].lasts or 0
    return (
        f"{AGED_SAYS.get(name, 'the slots were')} read more than {minutes:g} minutes before the power came on"
    )


def _lower(ledger: Ledger, worst: str | None, reasons: list[str]) -> Verdict:
    if worst == "danger":
        return Verdict("hands-off", KEEP_OFF, tuple(reasons))
    if states.must(ledger.standing, "cord", "unplugged", ledger.site.states):
        return Verdict("stay-unplugged", STAY_OUT, tuple(reasons))
    return Verdict("unplug-now", COME_OUT, tuple(reasons))
