"""Practice: a pedestal with a hidden fault, a meter in the learner's hands, and what went wrong on the way.

The walk is the real one. Steps that are answered as done are done at the pedestal; readings are the learner's own.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field

from shorewalk.tree.model import ALLOW_USE, Ask, Measure, Pairs, Step
from shorewalk.walk.answers import Answer, Choose, Done, Read
from shorewalk.walk.ending import Ending
from shorewalk.walk.walk import Walk

from .faults import Fault
from .meter import LIVE, PracticeMeter, Tip
from .park import OUTLETS
from .person import Person

NUMBER = re.compile(r"\d+(?:[.,]\d+)?")
CAUTIONS_FIRST = "Read the cautions before the meter is in your hands."
BLACK_FIRST = "Black probe first, and last out."
DIAL_FIRST = "Look at the dial before every touch."
DEAD_FIRST = "Breaker off, and every pair read dead, before the plug goes in or out."
METAL_FIRST = "Read the rig's metal with probes alone before anybody touches it."
LOOK = "Look (l) before you answer what is to be seen."
READ_FIRST = "Put both probes where the question says, and type what the display shows."
NEAR_PERCENT, NEAR_VOLTS = 3.0, 1.0
"""How far a number may be from the display, and still be what it showed."""


@dataclass(frozen=True, slots=True)
class Mistake:
    """Something that the learner did. `hurts`: at a real pedestal it could have. `next`: what to do the next time."""

    says: str
    hurts: bool = False
    next: str = ""


@dataclass
class Bench:
    """What the learner stands before. `person` knows all that is so there."""

    fault: Fault
    person: Person
    meter: PracticeMeter
    mistakes: list[Mistake] = field(default_factory=list)

    def follow(self, walk: Walk) -> None:
        """Let the pedestal stand as the walk says, with the test load on where the question wants it."""
        self.person.stand.follow(walk.now.state)
        node = walk.now.node
        if isinstance(node, Measure):
            self.person.load(on=node.load.amount != "none")

    def put(self, probe: str, tip: Tip | None, walk: Walk) -> str:
        """Put the black or the red probe somewhere; return why it cannot go there, or nothing."""
        if tip and (why := self.meter.reach(tip)):
            return why
        setattr(self.meter, probe, tip)
        if tip is None:
            return ""
        if walk.now.state.get("cautions") != "read":
            self._wrong("You probed before the cautions were read.", CAUTIONS_FIRST, hurts=True)
        if probe == "red" and self.meter.black is None:
            self._wrong(
                "The red probe went in before the black one: the black tip in your hand was live.",
                BLACK_FIRST,
                hurts=self._live(tip),
            )
        return ""

    def _live(self, tip: Tip) -> bool:
        node = self.person.stand.node(*tip)
        return node is not None and float(self.person.stand.solve().read(node)[0]) > LIVE

    def read(self) -> str:
        """Return the display; a meter on ohms at a live slot is a mistake that bursts meters."""
        if self.meter.dial == "ohms" and self.meter.volts() > LIVE:
            said = "The meter was set to ohms on live slots. It may burst in the hand."
            self._wrong(said, DIAL_FIRST, hurts=True)
        return self.meter.read()

    def look(self, node: Ask) -> str:
        """Return what is seen where the question looks, in the words of its answers."""
        seen = self.person.tells(node.sign)
        if seen is None:
            return "Nothing here tells. Answer as you like."
        says = {choice.id: choice.says for choice in node.choices}
        return says.get(seen, "You cannot tell.")

    def answered(self, before: Walk, answer: Answer) -> None:
        """Compare an answer with what was so, and do what was answered as done."""
        node = before.now.node
        match node, answer:
            case Step(), Done():
                leaves = (*node.leaves, *node.done.leaves)
                self._touch(leaves, before)
                self.person.stand.done(leaves, node.text)
            case Measure(), Read(text=text):
                self._compare(node, text)
            case Ask(), Choose(id=chosen):
                seen = self.person.tells(node.sign)
                says = {choice.id: choice.says for choice in node.choices}
                if seen in says and seen != chosen:
                    self._wrong(f'"{node.text}" You said "{says[chosen]}"; it was "{says[seen]}".', LOOK)
                self.person.own.setdefault(node.sign, chosen)

    def _compare(self, node: Measure, text: str) -> None:
        found, shown = NUMBER.search(text), NUMBER.search(self.meter.display)
        where = f"{node.from_} to {node.to}"
        if found is None:
            return
        if shown is None:
            self._wrong(f"You typed {text} for {where} without a look at the meter.", READ_FIRST)
            return
        typed, display = (float(each[0].replace(",", ".")) for each in (found, shown))
        if abs(typed - display) > max(NEAR_VOLTS, display * NEAR_PERCENT / 100):
            self._wrong(f"You typed {text} for {where}; the display said {self.meter.display}.", READ_FIRST)
        tips = {tip[1] for tip in (self.meter.black, self.meter.red) if tip}
        if tips != {node.from_, node.to}:
            self._wrong(
                f"Asked for {where}, you had the probes at {' and '.join(sorted(tips)) or 'nothing'}.",
                READ_FIRST,
            )
        self.meter.display = ""

    def _touch(self, leaves: Pairs, before: Walk) -> None:
        """See whether what a hand does now meets power: a plug and live slots, a hand and the rig's metal."""
        stand, states = self.person.stand, before.library.site.states
        for name, value in leaves:
            if name == "cord" and value.startswith("pedestal-") and self._any_live(value):
                self._wrong("The plug went into a live outlet.", DEAD_FIRST, hurts=True)
            touches = states[name].touches.get(value) if name in states else None
            if touches == "rig" and stand.switched.cord and self._live(("rig-skin", "skin")):
                self._wrong("A hand was at the rig while its metal was live.", METAL_FIRST, hurts=True)

    def _any_live(self, place: str) -> bool:
        slots = OUTLETS[place.removeprefix("pedestal-")]
        return any(self._live((place, slot)) for slot in slots)

    def _wrong(self, says: str, then: str, *, hurts: bool = False) -> None:
        mistake = Mistake(says, hurts, then)
        if mistake not in self.mistakes:
            self.mistakes.append(mistake)

    def right(self, end: Ending, walk: Walk) -> bool:
        """Tell whether the ending fits what was wrong: no use under a danger that it does not name."""
        if end.verdict in ALLOW_USE:
            return self.fault.danger == "none" or self.fault.named_in(end, walk.library.site)
        return self.fault.danger != "none" or bool(self.fault.idle)

    def debrief(self, walk: Walk, end: Ending) -> Iterator[str]:
        """Yield what was wrong, whether the walk found it, what told, and what to do otherwise."""
        yield f"What was wrong: {self.fault.says}"
        told = [known for known in walk.now.known if known.grade in ("stop", "danger") and not known.void]
        if self.right(end, walk):
            yield "Your walk ended as it should."
        elif end.verdict in ALLOW_USE:
            yield "Your walk ended in use. It should not have."
        else:
            yield "Your walk ended without power. This pedestal was sound."
        if told:
            yield "What told: " + "; ".join(f"{known.says}: {known.shows}" for known in told) + "."
        hurting = [mistake for mistake in self.mistakes if mistake.hurts]
        other = [mistake for mistake in self.mistakes if not mistake.hurts]
        if hurting:
            yield "What could have hurt you:"
            yield from (f"  - {mistake.says}" for mistake in hurting)
        if other:
            yield "What else went wrong:"
            yield from (f"  - {mistake.says}" for mistake in other)
        if not self.mistakes:
            yield "You made no mistake that was seen."
        lessons = dict.fromkeys(mistake.next for mistake in self.mistakes)
        yield f"Next time: {' '.join(lessons) or self._go_on(walk, end)}"

    def _go_on(self, walk: Walk, end: Ending) -> str:
        """Return what to do the next time where no mistake was seen."""
        if self.right(end, walk):
            return "a nastier site, or a surprise."
        return 'leave no reading out, and take "not sure" where you are not.'
