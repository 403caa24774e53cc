"""A limit, a load and a caution say where they come from: a document by name, or "common practice".

Whoever doubts a number must be able to look it up. A source names the body that issued it (in capitals, as it
signs), or the year; or it says "common practice", "computed", "as told by" whom or "from memory", so that it can be
looked up later.

Bad:

    # site/loads.yaml
    kettle: {says: a kettle, watts: ["1000", "1500"], follows: resistive, source: to be found}

Good:

    # site/loads.yaml
    kettle: {says: a kettle, watts: ["1000", "1500"], follows: resistive, source: common practice}
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from shorewalk.tree.facts import Appliance, Caution, Limit
from shorewalk.tree.words import quoted

from ..finding import Finding, Severity
from ..rule import Rule
from ..view import View

ID = "fact-without-source"

SOURCE = re.compile(
    r"\bcommon practice\b|\bfrom memory\b|\bcomputed\b|\bas told (?:by|in)\b|\b[A-Z]{2,}\b|\b(?:19|20)\d\d\b"
)
NONE = re.compile(r"\b(?:TBD|TODO|FIXME|XXX|N/A|NA|NONE|UNKNOWN)\b")


def check(view: View) -> Iterator[Finding]:
    """Find facts whose source is none."""
    assert view.site  # noqa: S101 - the rule asks for it
    facts: dict[str, Mapping[str, Limit | Appliance | Caution]] = {
        "limits": view.site.limits,
        "loads": view.site.loads,
        "cautions": view.site.cautions,
    }
    for file, some in facts.items():
        for id_, fact in some.items():
            source = NONE.sub("", fact.source)
            if not SOURCE.search(source):
                message = f"{quoted(fact.source)} is no source that somebody could look up."
                hint = 'Name the standard, clause and edition, or write "common practice".'
                yield Finding(ID, Severity.ERROR, view.fact(file, (id_, "source")), message, hint=hint)


RULE = Rule(ID, "A limit, a load and a caution have a source.", check)
