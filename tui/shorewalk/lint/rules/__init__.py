"""The rules, in the order in which they look. A new one is a module here and a line in `RULES`."""

from __future__ import annotations

from . import (
    allows,
    bands_order,
    end_incomplete,
    exit_not_connected,
    grade_too_mild,
    missing_way,
    needs_hold,
    never_judged,
    no_ending,
    no_good_after_stop,
    no_last_band,
    own_facts,
    rows_order,
    unbounded_loop,
    unknown_limit,
    unreachable,
    unresolved_name,
    verdict_fits_state,
)

RULES = (
    unresolved_name.RULE,
    exit_not_connected.RULE,
    unreachable.RULE,
    no_ending.RULE,
    unbounded_loop.RULE,
    missing_way.RULE,
    unknown_limit.RULE,
    bands_order.RULE,
    rows_order.RULE,
    no_last_band.RULE,
    own_facts.RULE,
    end_incomplete.RULE,
    grade_too_mild.RULE,
    never_judged.RULE,
    needs_hold.RULE,
    verdict_fits_state.RULE,
    no_good_after_stop.RULE,
    allows.RULE,
)
