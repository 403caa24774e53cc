"""The emergency card: what to do when somebody is hurt or something burns, most urgent first.

Rescue from electric shock, where first-aid sources agree: hands off the person, help called while one
acts, power off where that is safe, never water, then breathing, a doctor even if all seems well.
"""

from __future__ import annotations

TITLE = "Emergency"

CARD = (
    "Do not touch anybody who is in contact with the current.",
    "Have somebody call the emergency number (911 in the US and Canada) while you act.",
    "Cut the power if you can do it dry and safely: pedestal breaker, handle only.",
    "If you cannot, stay 10 feet (3 m) away and keep everybody away.",
    "Never use water. Never push with anything damp or of metal.",
    "Fire or smoke: get everybody out. Do not go back in.",
    "Inside a rig whose metal may be live: stay in until the power is off. In a fire, jump clear, feet together.",
    "Person free, power off: no breath, or only gasps? Push hard and fast on the middle of the chest.",
    "A doctor must see them, even if all seems well. Then call the park: they switch off the loop.",
)
"""One action a line; the first is the one that saves the helper."""
