"""When two walks are one: only where nothing that a walk looks at differs.

What is not looked at: how answers read on a screen, and answers to signs that void no look.
"""

from __future__ import annotations

from shorewalk.walk import state as states

from .plain import Seen

VOIDERS = ("cord", "protector")


def key_of(ledger: Seen) -> object:
    """Return all that a walk looks at, with moments by their order."""
    counted = ledger.arrivals.items()
    happened = {name: at for name, at in ledger.changed.items() if name in VOIDERS}
    reached = {
        what: at
        for what, at in ledger.reached.items()
        if what[0] in ("cord", "tripped") or what == ("weather", "thunder")
    }
    moments = {one.moment for one in ledger.taken.values()} | {*happened.values(), *reached.values()}
    moments |= {ledger.moment} | ({ledger.silent.moment} if ledger.silent else set())
    order = {moment: at for at, moment in enumerate(sorted(moments))}
    return (
        ledger.key(),
        _frozen(ledger.standing),
        ledger.worst,
        frozenset((key, at) for key, at in counted if ledger.trees.tree(key[0]).nodes[key[1]].at_most),
        frozenset(ledger.given.items()),
        frozenset(
            (key, one.amount.span, one.amount.shown, _frozen(one.standing), order[one.moment])
            for key, one in ledger.taken.items()
        ),
        frozenset((key, *sorted(one.bases)) for key, one in ledger.results.items()),
        frozenset((name, order[at]) for name, at in happened.items()),
        frozenset((what, order[at]) for what, at in reached.items()),
        order[ledger.moment],
        (_frozen(ledger.silent.standing), order[ledger.silent.moment]) if ledger.silent else None,
        ledger.outlet_answer,
        ledger.outlet_looked_at,
        bool(ledger.meter.tenths),
        ledger.judged,
    )


def _frozen(standing: states.Standing) -> frozenset[tuple[str, frozenset[str]]]:
    return frozenset(standing.items())
