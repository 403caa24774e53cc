"""How things stand, in words: the cord, the breaker, the main, as far as is known."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from shorewalk.tree.facts import Site

from .wording import bare

HIDDEN = ("cautions", "meter-proved", "shown-dead")
"""States that are the engine's bookkeeping rather than something to look at."""


def stands(state: Mapping[str, str], site: Site) -> Iterator[tuple[str, str, str]]:
    """Yield each state: its name, what it is called, and how it stands (`off`, `in the 30 A outlet`)."""
    for name, value in state.items():
        fact = site.states.get(name)
        if fact is None or name in HIDDEN:
            continue
        place = site.places.get(value)
        called = bare(fact.says).replace(" and the ", " and ")
        yield name, called, f"in {place.says}" if place else value.replace("-", " ")
