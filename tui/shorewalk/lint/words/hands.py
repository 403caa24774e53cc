"""Orders that put a hand where none belongs, or use force: what is left of a warning that lost its "not".

An order begins a sentence or a clause; what the sentence has forbidden before counts for the list that follows.
The lists are from common practice: what warnings at pedestals warn of.
"""

from __future__ import annotations

from functools import partial

from .advice import ENDED, Advice, after_last

ORDERS = ("step", "ask", "tally", "says", "hint", "safe_action", "call_when", "text")
"""The keys of texts that tell somebody what to do."""

BEGINS = r"(?:^|(?<=[.;:?!,]\s)|(?<=\band\s)|(?<=\bor\s)|(?<=\bbut\s)|(?<=\bthen\s)|(?<=\bstill\s))"
ALL = r"(?:every|any|some)(?:body|one)"
LIVE = (
    r"(?:(?:the|its|any|that|bare|rig's) )*(?:metal|frame|skin|wires?|blades?|pins?|rig|pedestal|person|body)"
)

PUTS = {
    "to what may be live": (
        rf"{BEGINS}(?:touch|grab) (?:it|them|him|her|{LIVE})\b(?! as little)",
        rf"\b{ALL} (?:else )?touch(?:es)?\b",
        rf"{BEGINS}(?:wade|reach into)\b",
        rf"{BEGINS}(?:pull on|set it upright)\b",
    ),
    "into what burns": (
        rf"{BEGINS}go back\b(?! to)",
        rf"{BEGINS}(?:use water|cool (?:it|them) with water)\b",
        rf"\b{ALL} (?:goes?|runs?) (?:back|near|in)\b",
    ),
    "near what nobody looked at": (rf"\b{ALL} (?:goes? to|uses?|pulls?|tries) ",),
    "to use force": (
        rf"{BEGINS}(?:force|hammer|poke|pry|prise|bend|file|grease|spray|brush|prop)\b",
        rf"{BEGINS}(?:push|press) it to (?!on|off)",
        rf"{BEGINS}drive it in\b",
        rf"{BEGINS}tape (?:the |your |a )?plug\b|\btape it in\b",
        rf"{BEGINS}cut off\b",
        rf"{BEGINS}join two outlets\b",
        rf"{BEGINS}coil it\b",
        rf"{BEGINS}add acid\b",
    ),
}
"""Where an order sends a hand, and patterns of such orders."""

LETTERS = """
    touch grab wade reach pull go back water body one force hammer poke pry prise bend file grease spray brush prop push
    press drive tape cut join coil acid
"""
HANDS = Advice(PUTS, LETTERS, partial(after_last, ENDED))
