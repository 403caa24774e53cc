"""A step leaves what its words say: whoever is told to switch the main off has switched it off when it is done.

Safety rules are proved from what steps leave, and people do what the words say. Only plain words are compared, as in
"Switch the rig's main breaker off"; what a step leaves besides is its own affair.

Bad:

    nodes:
      main_off:
        step: Switch the rig's main breaker off.
        leaves: {rig-main: "on"}
        done: stop_here
        cannot: stop_here

Good:

    nodes:
      main_off:
        step: Switch the rig's main breaker off.
        leaves: {rig-main: "off"}
        done: stop_here
        cannot: stop_here
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import NamedTuple

from shorewalk.tree.model import Step
from shorewalk.tree.words import listed, quoted

from ..finding import Finding, Severity
from ..rule import Rule
from ..view import View
from ..words.prose import prose

ID = "word-and-deed"
ON_OFF = {"on": ("on",), "off": ("off",)}
PLUGGED = ("pedestal-50", "pedestal-30", "pedestal-20", "plugged")


class Deed(NamedTuple):
    """Words of a step, the state that they change, and the values that will do, by the word found where it tells."""

    words: re.Pattern[str]
    state: str
    values: Mapping[str, tuple[str, ...]]


def _deed(words: str, state: str, values: Mapping[str, tuple[str, ...]] | str) -> Deed:
    return Deed(
        re.compile(words, re.IGNORECASE), state, {"": (values,)} if isinstance(values, str) else values
    )


DEEDS = (
    _deed(r"\bswitch (?:the|your) rig's main breaker (on|off)\b", "rig-main", ON_OFF),
    _deed(
        r"\bswitch (?:the|your) (?:pedestal breaker|breaker of \S+) (on|off)\b", "pedestal-breaker", ON_OFF
    ),
    _deed(r"\bpedestal breaker switched (on|off)\b", "pedestal-breaker", ON_OFF),
    _deed(r"\bswitch every breaker in the pedestal (off)\b", "pedestal-breaker", ON_OFF),
    _deed(
        r"^push the handles? (?:of [^.]*)?(?:fully )?(?:to|off, then) (on|off)\b", "pedestal-breaker", ON_OFF
    ),
    _deed(r"\bswitch every branch breaker[^.]*\boff\b", "rig-branches", "all-off"),
    _deed(r"\bswitch the branch breakers on\b", "rig-branches", "on"),
    _deed(r"\bswitch on the branch of your test load\b", "rig-branches", "test-only"),
    _deed(r"^switch the generator (?:and the inverter )?(on|off)\b", "other-source", ON_OFF),
    _deed(r"^pull (?:the plug|both plugs) out\b", "cord", "unplugged"),
    _deed(r"^push the (?:cord's plug|plug|protector) in(?:to)?\b", "cord", {"": PLUGGED}),
    _deed(r"^join the protector to\b", "protector", "fitted"),
    _deed(r"^plug (?:\w+ )+into the 20 A outlet\b", "test-load", "pedestal-20"),
    _deed(r"^unplug the test load\b", "test-load", "off"),
    _deed(r"^switch (?:the|your) heater off\b", "test-load", "off"),
    _deed(r"^push a (?:metal )?tent peg\b", "earth-peg", "set"),
    _deed(r"^try the meter on an outlet\b", "meter-proved", "yes"),
    _deed(r"^pull (?:them|the person) clear\b", "freed", "yes"),
)
"""What people are told to do, in the trade's words."""


def check(view: View) -> Iterator[Finding]:
    """Find steps that leave something else than they say."""
    for written, speeches in prose(view):
        for speech in speeches:
            if isinstance(speech.node, Step) and speech.said and speech.said[0].key == "step":
                step, said = speech.node, speech.said[0]
                left = dict((*step.leaves, *step.done.leaves))
                for words, state, values in told(said.text):
                    found = left.get(state)
                    if found not in values and not str(found).startswith("$"):
                        leaves = (
                            f"leaves {state} {quoted(found)}" if found else f"leaves nothing said of {state}"
                        )
                        message = f"The step says {quoted(words)} and {leaves}."
                        place = view.place(written.file, said.route)
                        hint = f"Write `leaves: {{{state}: {listed(map(quoted, values))}}}`, or other words."
                        yield Finding(ID, Severity.ERROR, place, message, hint=hint)


def told(text: str) -> Iterator[tuple[str, str, tuple[str, ...]]]:
    """Yield the words of a step that tell of a deed, its state, and the values that will do."""
    for deed in DEEDS:
        if found := deed.words.search(text):
            yield found[0], deed.state, deed.values[found[1].lower() if found.re.groups else ""]


RULE = Rule(ID, "A step leaves what its words say.", check, site=False)
