"""Words that send somebody round a protector, under a cover, or on when unsure; and what turns them into a warning.

The lists are from common practice: what people are heard to say at pedestals. What is forbidden in the same clause,
or is for the park or an electrician to do, is no such advice.
"""

from __future__ import annotations

import re

from .advice import ENDED, Advice, after_last

ITS = (
    r"(?:(?:the|a|an|your|our|its|that|this|any|every|all|whole|outlet|pedestal|metal|inner|outer|front|back|"
    r"screwed|rear)(?:'s)? )*"
)
COVER = r"(?:covers?|panels?|face ?plates?|dead fronts?|enclosures?|housings?|junction box(?:es)?)"
GUARD = (
    r"(?:protectors?|surge guards?|ground pins?|earth pins?|ground wires?|breaker(?:'s handle)?s?|interlocks?|"
    r"ground[- ]fault (?:outlet|breaker)s?)"
)
LIFT = r"(?:open(?:ing)?|remov(?:e|ing)|unscrew(?:ing)?|loosen|pry|prise|tak(?:e|ing) off|lift off|unlock)"
ROUND = (
    r"(?:bridge|disable|override|(?:go|get|work) (?:a?round)|(?:cut|break) off|bend away|hold in|wedge|"
    r"(?:tape|tie) down|cheat)"
)
INSIDE = r"(?:pedestal|outlet|slots?|box|panel|case)"
UNSURE = (
    r"(?:not (?:quite |really |entirely |completely )?(?:sure|certain)|unsure|uncertain|in doubt|don't know|"
    r"do not know|no idea)"
)
YOU = r"(?:you are |you're |you |still |somebody is )*"
ON = (
    r"(?:go on|carry on|keep going|continue|proceed|plug (?:it )?in|switch (?:[\w']+ ){0,4}on|"
    r"(?:try|measure|use it|do it) anyway)"
)

SENDS = {
    "under a cover": (
        rf"\b{LIFT} {ITS}{COVER}\b",
        rf"\b(?:take|taking|lift|pull|have) {ITS}{COVER} (?:of [a-z ]+)?(?:off|away|open)\b",
        r"\bscrewdriver\b",
        r"\bundo the screws\b",
        rf"\b(?:reach|put your (?:hand|fingers?)) (?:in|into|inside|behind) {ITS}{INSIDE}\b",
    ),
    "round a protector": (
        r"\b(?:bypass|bypassing|by-pass|jumper|jumpering|short out|defeat)\b",
        rf"\b{ROUND} {ITS}{GUARD}\b",
        rf"\b(?:leave|take|unplug) {ITS}protectors? (?:out|off|away) (?:and|to|so)\b",
        rf"\b(?:plug|run|use|try|connect|switch)\b[^.]*\b(?:without|past) {ITS}(?:protector|ground pin|ground)\b",
        r"\bgo (?:a?round|past) it\b",
        r"\b(?:cheater|suicide cord|double[- ]male)\b",
    ),
    "on when unsure": (
        rf"\b{ON}\b[^.?]*\b(?:if|when|though|although|while) {YOU}{UNSURE}",
        rf"\b(?:if|when|though|although|while) {YOU}{UNSURE}\W+(?:just |then |still )*{ON}\b",
        rf"\b{UNSURE}[^.?!]*\?\s+(?:just |then |still )*{ON}\b",
        r"\b(?:should be|is probably|probably|most likely) (?:fine|safe|all right|ok|okay|harmless)\b",
        r"\b(?:ignore|disregard) (?:the|this|that|any|its|a|all)\b",
        r"\bjust a ghost\b",
        r"\bsay (?:that you are )?sure\b|(?<=choose \")sure\b",
        r"\bforce (?:it|the (?:plug|probe|handle|lid)|your plug)\b",
    ),
}
"""Where words send somebody, and patterns of such words."""

LETTERS = """
    cover panel plate front enclos hous junction screw reach finger bypass by-pass jumper short defeat bridge disable
    override round cut break off bend hold wedge tape tie cheat protector without past suicide double sure certain doubt
    know idea fine safe right ok harmless ignore disregard ghost force
"""
CLAUSE = re.compile(r"[.;:?!,()]|\b(?:then|and|but)\b", re.IGNORECASE)


def _clause(head: str) -> str:
    """Return what stands before the words in their clause; a list that ends in `or` is one clause."""
    return after_last(ENDED if head.rstrip().endswith(" or") else CLAUSE, head)


DANGERS = Advice(SENDS, LETTERS, _clause)
