"""How all that can be switched, plugged or tripped stands at a pedestal."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace

NAMED = re.compile(r"\b(20|30|50) A\b")


@dataclass(frozen=True, slots=True)
class Switched:
    """`breaker`: the handle of the outlet in use; `others`: outlets whose handles are on besides, None: all as it.

    `cord`, `load`: where it is plugged in, or nothing. `vain`: the breaker was switched on, and gives no power.
    `tripped`: outlets whose breaker has tripped; `popped`: the 20 A outlet has cut itself off for a leak.
    `protector`: absent, waiting, connected or refusing. `charger`: its breaker in the rig.
    """

    breaker: bool = False
    vain: bool = False
    cord: str | None = None
    main: bool = False
    branches: str = "all-off"
    load: str | None = None
    load_on: bool = False
    others: frozenset[str] | None = None
    tripped: frozenset[str] = frozenset()
    popped: bool = False
    protector: str = "absent"
    charger: bool = True

    def told(self, state: Mapping[str, str], outlet: str) -> Switched:
        """Return how it stands when a walk says so of some of it; `outlet` is the one in use.

        Where that is not known, a protector counts as letting the power through.
        """
        cord = state.get("cord", "").removeprefix("pedestal-")
        plugged = {"": self.cord, "plugged": self.cord, "unplugged": None}.get(cord, cord)
        load = state.get("test-load", self.load or "off")
        breaker = state.get("pedestal-breaker", "on" if self.breaker else "off") == "on"
        fitted = state.get("protector", "absent" if self.protector == "absent" else "fitted") == "fitted"
        afresh = self.protector == "absent" or plugged is None
        waits = fitted and bool(outlet)
        return replace(
            self,
            breaker=breaker,
            vain=self.vain and breaker,
            cord=plugged,
            main=state.get("rig-main", "on" if self.main else "off") == "on",
            branches=state.get("rig-branches", self.branches),
            load=None if load == "off" else load,
            load_on=self.load_on and load != "off",
            tripped=self.tripped if breaker else self.tripped - {outlet},
            protector="absent" if not waits else "waiting" if afresh else self.protector,
        )

    def handled(self, words: str, outlet: str, *, on: bool, vain: bool) -> Switched:
        """Return how it stands after a hand at the breakers of a sentence: one by its amps, all, or the one in use.

        Without words all go with the one in use.
        """
        named = NAMED.search(words)
        at = named[1] if named else outlet
        every = not words or not outlet or "every breaker" in words
        mine, others = at == outlet or every, self.others
        if every:
            others = None if on else frozenset()
        elif not mine:
            others = (others or frozenset()) | {at} if on else (others or frozenset()) - {at}
        elif on:
            others = others or frozenset()
        return replace(
            self,
            breaker=on if mine else self.breaker,
            others=others,
            vain=vain and on if mine else self.vain,
            tripped=frozenset() if every else self.tripped - {at},
            popped=self.popped and not (on and (every or at == "20")),
            protector="waiting" if self.protector != "absent" and on and mine else self.protector,
        )
