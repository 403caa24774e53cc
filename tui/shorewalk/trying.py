"""`shorewalk trial`: what was asked for, walked and told."""

from __future__ import annotations

import sys
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import click

from .exits import Exit
from .pedestal.faults import read_faults, shipped_faults
from .pedestal.told import trial_json, trial_text
from .pedestal.trial import Trial
from .seen import seen
from .starting import find
from .walk.meter import parse_meter


@dataclass(frozen=True, slots=True)
class Wanted:
    """What was asked for."""

    tree: str
    variants: int
    seed: int
    meter: str
    without: frozenset[str]
    faults: Path | None
    form: str


def tell_trial(wanted: Wanted, tell: Callable[[str], object]) -> int:
    """Tell how the walks ended; how far it is goes to the standard error. Raises `ValueError` for a wrong meter."""
    faults = read_faults(wanted.faults) if wanted.faults else shipped_faults()
    meter = parse_meter(wanted.meter)
    library, tree = find(wanted.tree, "trial")
    trial = Trial(library, tree, meter, wanted.variants, wanted.seed, wanted.without)
    with click.progressbar(
        faults.values(),
        label=f"Trying {tree}",
        file=sys.__stderr__,  # it draws over its own line, which is more than text
        width=0,
        item_show_func=lambda fault: fault and seen(fault.id),
    ) as each:
        tried = list(trial.walks(each))
    if wanted.form == "json":
        tell(trial_json(tree, tried))
    else:
        tell("\n".join(trial_text(tree, tried)))
    return Exit.FINDINGS if any(one.harm for one in tried) else Exit.CLEAN
