"""Practice in plain sentences: the walk as ever, and a make-believe meter beside it."""

from __future__ import annotations

from collections.abc import Iterable

from shorewalk.commands import ASKING, WALKING, Command
from shorewalk.heard_words import goes_back
from shorewalk.pages.aloud import LOOKS
from shorewalk.pages.bench import ACTS as NUMBERED
from shorewalk.pedestal.campground import Site
from shorewalk.pedestal.hands import ACTS, Hands
from shorewalk.pedestal.meter import DIALS, Tip
from shorewalk.practice_site import keep_how_it_ended
from shorewalk.tree.model import Ask
from shorewalk.walk.answers import Answer
from shorewalk.walk.message import ending

from .moving import GoTo
from .talk import Talk
from .voice import number_in

HELP = (
    "look: what is to be seen where the question looks.",
    f"dial, and one of {', '.join(DIALS)}: turn the meter's dial.",
    "black N, red L, black peg, red 20:L: put a probe somewhere. out: both probes out.",
    "meter: read the display again. All in one line works too: dial ac black N red L.",
    "u: the meter by numbers.",
)
BENCH = Command(
    "bench",
    ("u",),
    "meter",
    "The make-believe meter, by numbers.",
    ASKING,
    14,
    menu="Use the make-believe meter, by numbers",
)
SEE = Command(
    "see",
    ("l", "look"),
    "look",
    "Look where the question looks.",
    ASKING,
    15,
    menu="Look where the question looks",
)
SITES = Command(
    "sites",
    ("sites",),
    "sites",
    "To the sites one can practise at.",
    WALKING,
    16,
    menu="To the sites one can practise at",
)
BESIDE = (
    "Practice. Nothing here is live. Beside the answers there is u: your meter, by numbers; and look: what is to be "
    "seen. help says how the meter goes by words."
)
CALL_NOBODY = "This was practice: call nobody. At a real pedestal it would end so."
NOT_HANDED = "A practice walk is make-believe: it is not handed over."
NOT_LOGGED = "A practice walk is not kept, and is in no log."
NOT_KEPT = {
    "leave": "Leave; a practice walk is not kept",
    "start": "To the start; a practice walk is not kept",
}


class Practising(Talk):
    """A walk at a bench. What is typed for the meter never reaches the walk."""

    hands: Hands
    scene: str = ""
    site: Site | None = None

    def at(self, hands: Hands, scene: str = "", site: Site | None = None) -> Practising:
        """Stand at a bench; `scene` says where that is, `site` is what it is kept under how it ended."""
        self.hands, self.bench, self.scene, self.site = hands, hands.bench, scene, site
        return self

    def commands(self) -> list[Command]:
        """Return the same, and what only practice has."""
        own = [command for command in (BENCH, SEE, SITES) if command.applies(self.screen)]
        every = [command for command in super().commands() if command.id not in ("hand", "log")]
        return [_not_kept(command) for command in (*every, *own)]

    def help_lines(self) -> Iterable[str]:
        """Return how the meter is used."""
        return HELP

    def _begin(self) -> None:
        self._voice.say(*filter(None, (self.scene, BESIDE)))
        super()._begin()

    def _ask(self) -> None:
        self.bench.follow(self.walk)
        super()._ask()

    def say_end(self) -> None:
        """Say the ending as ever, and first that nobody is to be sent for it."""
        self._voice.say(CALL_NOBODY, before="\n")
        super().say_end()

    def say_more_of_end(self) -> None:
        """Say what was wrong here, what the learner did, and what to do the next time."""
        lines = self.bench.debrief(self.walk, ending(self.walk, None))
        self._voice.say("Of your practice.", *(line.replace("  - ", "  ", 1) for line in lines), before="\n")
        if self.site and (problem := keep_how_it_ended(self.site, self.hands, self.walk)):
            self._voice.say(problem)
        self._voice.say("sites: practise at another one.")

    def _turn(self, typed: str) -> None:
        first = typed.casefold().partition(" ")[0]
        if first in ACTS and not self.walk.ended:
            self._voice.say(self._shown(self.hands.do(typed, self.walk)))
        elif first == "practice":
            self._voice.say(*HELP)
        elif typed.casefold() in ("o", "hand over"):
            self._voice.say(NOT_HANDED)
        elif typed.casefold() in ("l", "log") and self.walk.ended:
            self._voice.say(NOT_LOGGED)
        else:
            super()._turn(typed)

    def _shown(self, told: str) -> str:
        """Return what the meter shows, each thing by its name; where something could not be done, why."""
        if not told.startswith("Dial:"):
            return told
        meter = self.bench.meter
        probes = [f"{name} {self._at(tip)}" for name, tip in (("black", meter.black), ("red", meter.red))]
        return f"Display: {meter.display or 'dark'}. Dial: {DIALS[meter.dial]}. Probes: {', '.join(probes)}."

    def _at(self, tip: Tip | None) -> str:
        if tip is None:
            return "in the air"
        place = self.walk.library.site.places.get(tip[0])
        terminal = place.terminals.get(tip[1]) if place else None
        return f"at {LOOKS.sub('', terminal.says)}" if terminal else f"at {tip[1]}"

    def do_see(self) -> None:
        """Look where the question looks."""
        node = self.walk.now.node
        seen = f"You look: {self.bench.look(node)}" if isinstance(node, Ask) else ""
        self._voice.say(seen or "Nothing is asked for your eyes here.")

    def do_bench(self) -> None:
        """Take the meter into the hands, until one goes back to the question."""
        voice, hands = self._voice, self.hands
        voice.say(
            *(f"  {number}. {says}." for number, says in NUMBERED), "Or in words: dial ac black N red L."
        )
        told = hands.shown()
        while True:
            voice.say(self._shown(told))
            typed = voice.listen()
            number = number_in(typed)
            if typed in ("", "0") or goes_back(typed):
                break
            if number is not None:
                told = hands.act(number, self.walk) or hands.shown()
            elif typed.casefold().partition(" ")[0] in ACTS:
                told = hands.do(typed, self.walk)
            else:
                voice.hear_again(typed)
                return
        self._ask()

    def do_sites(self) -> None:
        """Go to the sites one can practise at."""
        from .practice import Practice

        raise GoTo(Practice(self.session).run)

    def _take(self, answer: Answer) -> None:
        before = self.walk
        after = before.answer(answer, time=self.keeper.clock())
        self.bench.answered(before, answer)
        self.go_to(after)


def _not_kept(command: Command) -> Command:
    """Return a command that does not say of practice that it is kept."""
    says = NOT_KEPT.get(command.id)
    return command._replace(menu=says, help=f"{says}.") if says else command
