"""What a file allows is a rule that may be silenced, and something there breaks it.

`allows: {rule-id: reason}` in a node, or at the top of a file, silences what that rule finds there. The reason
must be written. Rules of wording and style may be silenced; rules of shape and safety never.

Bad:

    nodes:
      keep_out:
        end: unplug-now
        because: It is not known to be safe.
        safe_action: Keep the cord out.
        call: park
        allows: {end-incomplete: the park knows what to do}

Good:

    nodes:
      keep_out:
        end: unplug-now
        because: >-
          It is not known to be safe, and the park has asked that these words of its own stand here whole, without any
          of them left out.
        safe_action: Keep the cord out.
        call: park
        allows: {long-sentence: the park asked for these very words}
"""

from __future__ import annotations

from collections.abc import Iterator

from shorewalk.tree.words import nearest, quoted

from ..allowing import allows_in
from ..finding import Finding, Severity
from ..rule import Rule
from ..view import View

ID = "allows"


def check(view: View) -> Iterator[Finding]:
    """Find rules that are not there or may not be silenced; what is allowed in vain, `silence` finds."""
    from . import RULES  # which holds this one

    known = {rule.id: rule for rule in RULES}
    for allow in allows_in(view):
        rule = known.get(allow.rule)
        if rule is None:
            may = [rule.id for rule in RULES if rule.silenceable]
            message = f"There is no rule {quoted(allow.rule)}.{nearest(allow.rule, may)}"
            hint = "`shorewalk lint --explain` lists the rules."
            yield Finding(ID, Severity.ERROR, allow.place, message, hint=hint)
        elif not rule.silenceable:
            message = (
                f"The rule {quoted(allow.rule)} may not be silenced: it keeps trees whole or people safe."
            )
            hint = "Take this line out, and mend what the rule finds."
            yield Finding(ID, Severity.ERROR, allow.place, message, hint=hint)


RULE = Rule(ID, "What a file allows may be silenced, and is there.", check, site=False)
