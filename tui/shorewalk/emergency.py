"""The emergency card: what to do when somebody is hurt or something burns, most urgent first.

Where sources agree (5 lines of it are in every first-aid text on electric shock): hands off the
person, power off if that is safe, help called meanwhile, no water, breathing, a doctor even if well.
"""

from __future__ import annotations

CARD = (
    "Do not touch anybody who is in contact with the current, nor what they touch.",
    "Call the emergency number (911 in the US and Canada), or have somebody call while you act.",
    "Cut the power if you can do it dry and safely: the pedestal breaker, its handle only. "
    "If you cannot, stay 10 feet (3 m) away and keep others away.",
    "Never use water. Never push with anything damp or of metal.",
    "Fire or smoke: get everybody out and do not go back in.",
    "Inside a rig whose metal is live: stay inside until the power is off. "
    "If you must leave, jump clear with both feet together. Never touch rig and ground at once.",
    "Only when the person is free and the power is off: check the breathing. "
    "No breathing: begin CPR and send for a defibrillator.",
    "See a doctor after any shock, even if all seems well.",
    "Then call the park office: only they can switch off the whole loop.",
)
"""One action a line; the first line is the one that saves the helper."""

TITLE = "Emergency"
