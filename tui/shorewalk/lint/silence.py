"""Findings that a file allows to stand, with a reason, where they are: `allows: {rule-id: reason}`.

It holds for a node, or at the top of a file for all of it. Only rules of wording and style may be silenced.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from shorewalk.tree.source import Place
from shorewalk.tree.words import quoted

from .allowing import allows_in
from .finding import Finding, Severity, merge
from .report import Silenced
from .rule import Rule
from .rules.allows import ID
from .view import View


def silence(
    view: View, findings: Iterable[Finding], rules: Mapping[str, Rule], ran: set[str]
) -> tuple[list[Finding], list[Silenced]]:
    """Return the findings that stay, and those that are silenced; of `rules`, those that `ran` were heard.

    An `allows` that silences nothing is found, where it is sure that nothing is there.
    """
    # Nodes come before whole files, so that the nearest `allows` answers for a finding.
    allows = [allow for allow in allows_in(view) if allow.rule in rules and rules[allow.rule].silenceable]
    allows.sort(key=lambda allow: allow.begin is None)
    kept: list[Finding] = []
    silenced: list[Silenced] = []
    used: set[Place] = set()
    for finding in findings:
        allow = next((allow for allow in allows if allow.covers(finding)), None)
        if allow is None:
            kept.append(finding)
        else:
            used.add(allow.place)
            silenced.append(Silenced(finding, allow.reason, allow.place))
    for allow in allows:
        if allow.place not in used and allow.sure and allow.rule in ran and ID in ran:
            message = f"Nothing here breaks the rule {quoted(allow.rule)}, so there is nothing to allow."
            kept.append(Finding(ID, Severity.WARNING, allow.place, message, hint="Take this line out."))
    return merge(kept), silenced
