"""How exact the meter is."""

from __future__ import annotations

from shorewalk.heard_words import goes_back, leaves
from shorewalk.pages.meter import KINDS, QUESTION, TEXT, meter_in

from .session import Session


def ask_meter(session: Session) -> None:
    """Ask how exact the meter is, until it is understood, or left with Enter."""
    voice = session.voice
    voice.say(f"{QUESTION} Now it is taken to be {session.meter.name}.", before="\n")
    voice.say(*TEXT, *(f"  {number}. {says}." for number, _, says in KINDS), "Enter: leave it as it is.")
    while (typed := voice.listen()) not in ("", "0"):
        if leaves(typed) or goes_back(typed):
            break
        try:
            session.meter, session.meter_set = meter_in(typed), True
        except ValueError as error:
            voice.say(str(error))
            continue
        break
    voice.say(f"Your meter: {session.meter.name}.")
