"""What a meter may be off by, as its maker states it: percent of the reading plus counts.

A count is one step of the last digit. Which digit that is, is a property of the meter, asked
once; it is never guessed from what was typed.
"""

from __future__ import annotations

import re

from shorewalk.tree.record import record

PROFILES: dict[str, tuple[float, float]] = {
    # Ordinary makers' statements for AC volts; common practice.
    "basic": (1.2, 5.0),
    "good": (0.8, 3.0),
}
SHOWS = {"tenths": True, "whole": False}
WANTED = "Say basic, good or your meter's own error like 1%+3; then, if you know it, ,tenths or ,whole."

MOST_PERCENT = 3.0
MOST_COUNTS = 10.0
"""A meter further off than this cannot tell 104 V from 114 V, and the trees rest on that (common practice)."""


@record()
class Meter:
    """A meter: percent of the reading, counts of the last digit, whether it shows tenths of a volt.

    `tenths` is None while nobody has said.
    """

    name: str
    percent: float
    counts: float
    tenths: bool | None = None

    def step(self, unit: str, what: str = "ac-volts") -> float:
        """Return one count of the last digit, in `unit`.

        Volts: 0.1 where the meter shows tenths, else 1, which is the cautious one. DC volts of a
        battery are read on a lower range with two more digits than whole volts; hertz, amperes
        and ohms show tenths on the plainest meters (common practice).
        """
        if what == "dc-volts":
            return 0.01
        return 0.1 if self.tenths or unit != "V" else 1.0


def parse_meter(text: str) -> Meter:
    """Return the meter that `text` names: `basic`, `good`, `1.5%+3`, each with `,tenths` or `,whole`.

    Raise `ValueError` with a sentence where it names none.
    """
    said = "".join(text.split()).lower()
    head, comma, last = said.rpartition(",")
    name, shows = (head, SHOWS[last]) if comma and last in SHOWS else (said, None)
    if name in PROFILES:
        return Meter(name, *PROFILES[name], shows)
    own = re.fullmatch(r"([0-9]+(?:[.,][0-9]+)?)%(?:\+([0-9]{1,4}))?", name)
    if own is None:
        raise ValueError(f"'{text[:40]}' is no meter. {WANTED}")
    percent, counts = float(own[1].replace(",", ".")), float(own[2] or 0)
    if percent > MOST_PERCENT or counts > MOST_COUNTS:
        raise ValueError(
            f"A meter with an error of {percent:g} % + {counts:g} counts cannot judge a supply. "
            f"The most is {MOST_PERCENT:g} % + {MOST_COUNTS:g}. {WANTED}"
        )
    return Meter(f"{percent:g} % + {counts:g}", percent, counts, shows)
