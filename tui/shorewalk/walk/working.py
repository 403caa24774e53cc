"""Arithmetic on readings taken before: its number, error, grade and way."""

from __future__ import annotations

from shorewalk.tree.model import AGAIN, Work, worse

from .interval import Amount, finite, of_function
from .judge import condemns, judge_bands, judge_node
from .known import Worked
from .ledger import Ledger
from .wording import digits_of, shows_amount

COARSE = "Your meter shows whole volts only; it cannot tell so small a difference."


def pass_work(ledger: Ledger, node: Work) -> None:
    """Compute, judge and go on; where an input was not taken, or the meter is too coarse, go `missing`."""
    from shorewalk.electrics.using import FUNCTIONS

    key = ledger.key()
    ledger.results.pop(key, None)
    ledger.worked.pop(key, None)
    ledger.fresh.pop(key, None)
    formula = FUNCTIONS.get(node.using)
    inputs = {arg: ledger.amount(name) for arg, name in node.inputs}
    if formula is None or set(inputs) != set(formula.args) or None in inputs.values():
        ledger.go(node.missing)
        return
    amount = of_function(
        lambda known: formula.fn(**known),
        {arg: value for arg, value in inputs.items() if value is not None},
        formula.unit,
    )
    fact = ledger.site.results.get(node.out)
    floor = judge_bands(fact.floor, amount, ledger.site.limits).grade if fact and fact.floor else None
    small = formula.small or (fact is not None and fact.small)
    cuts = fact.floor if fact and fact.floor else node.bands
    if small and not ledger.meter.tenths and not condemns(cuts, amount, ledger.site.limits):
        ledger.note(COARSE)
        ledger.go(node.missing)
        return
    ledger.results[key] = amount
    judged = judge_node(node, amount, ledger.site.limits)
    grade = judged.grade
    if node.bands or grade:
        grade = grade if grade == AGAIN else worse(grade, floor)
    else:
        ledger.unjudged[key] = floor
    if grade == AGAIN:
        ledger.void([key])
    else:
        ledger.raise_to(grade)
    ledger.note(*judged.notes)
    low, high = map(finite, amount.span)
    ledger.worked[key] = Worked(
        tree=key[0],
        at=key[1],
        out=node.out,
        says=fact.says if fact else node.out.replace("-", " "),
        value=finite(amount.value),
        unit=amount.unit,
        formula=formula.says,
        numbers=formula.put_in({arg: _put_in(given) for arg, given in inputs.items() if given is not None}),
        shows=shows_amount(amount.value, amount.unit, node.out),
        low=low,
        high=high,
        grade=None if grade == AGAIN else grade,
        note=" ".join(judged.notes) or None,
        using=node.using,
        inputs=tuple((arg, _put_in(given)) for arg, given in inputs.items() if given is not None),
    )
    ledger.fresh[key] = None
    ledger.go(judged.way)


def _put_in(given: Amount) -> float:
    """Return a number as it stands in a sum: volts as they were read, what was worked out as it was shown."""
    return given.value if given.unit == "V" else round(given.value, digits_of(given.unit))
