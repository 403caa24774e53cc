"""Saying that a site was taken over from an earlier walk, where nobody said it of this one."""

from __future__ import annotations

from shorewalk.journal.placing import Placing

from .times import moment


def placed_words(placing: Placing, verdict: str) -> str | None:
    """Return what to say beside the message of an ending: from which walk its site is, or why it has none."""
    site, before = placing.where.site, placing.taken_from
    if not site or before is None:
        return None
    walk = f"from your walk of {moment(before.begun)}"
    if placing.site_for(verdict) is None:
        return f"Site {site} is {walk}, so it is left out; t adds it."
    return f"Site {site} is {walk}; t changes it."
