"""Where to practise, in plain text: the sites of a campground that does not exist, by number."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby
from random import SystemRandom
from typing import IO, NoReturn

from shorewalk.exits import Exit
from shorewalk.heard_words import goes_back
from shorewalk.journal import Journal
from shorewalk.journal.practised import practised
from shorewalk.pedestal.campground import Site, campground
from shorewalk.practice_site import SURPRISE, begin_at, not_kept

from .moving import GoTo, converse
from .offering import Block, say_blocks
from .practising import Practising
from .prompt import Prompt
from .session import Session
from .voice import Room, Voice, number_in

PARK = "Someday Flats is a campground that does not exist. Nothing there is live. Most of its pedestals hide a fault."
HOW = "Type a number."
WHICH = "Type a number. start: all that can be begun for real. q: leave."
LEVELS = {"easy": "Easy sites", "fair": "Fair sites", "nasty": "Nasty sites"}
BEFORE = {
    None: "",
    True: " You were there, and ended as you should.",
    False: " You were there, and did not end as you should.",
}
SEEDS = 10_000


class Practice(Prompt):
    """Begins practice at a site."""

    screen = "sites"
    back = "the sites"

    def __init__(self, session: Session, seed: int | None = None) -> None:
        super().__init__(session)
        self._seed = seed
        self._names = [*campground(), SURPRISE]

    def run(self) -> NoReturn:
        """Say the sites and listen, until one goes to one of them, or elsewhere."""
        self._say()
        while True:
            typed = self.hear(self._say)
            if goes_back(typed):
                self.to_start()
            elif name := self._named(typed.casefold()):
                raise GoTo(practice_at(self.session, name, self._seed).walk_through)
            else:
                self._voice.say(f'There is no site "{typed}". {WHICH}')

    def do_start(self) -> None:
        """Go to the start."""
        self.to_start()

    def _named(self, word: str) -> str | None:
        number = number_in(word)
        if number is not None:
            return self._names[number - 1] if 1 <= number <= len(self._names) else None
        return word if word in self._names else None

    def _say(self) -> None:
        before = practised()
        self._voice.say(PARK, before="\n")
        blocks = [
            Block(LEVELS[level], [*_told(sites, before)])
            for level, sites in groupby(campground().values(), lambda site: site.level)
        ]
        last = blocks.pop()
        blocks.append(Block(last.heading, [*last.items, "A surprise: a site that nobody knows"]))
        say_blocks(self._voice, blocks, HOW, WHICH)


def _told(sites: Iterator[Site], before: dict[str, bool]) -> Iterator[str]:
    for site in sites:
        yield f"{site.says}.{BEFORE[before.get(site.id)]}"


def practice_at(session: Session, name: str, seed: int | None = None) -> Practising:
    """Return the talk at a site, or at a surprise; raise `Usage` for one that is not there."""
    at = begin_at(name, SystemRandom().randrange(SEEDS) if seed is None else seed)
    talk = Practising(at.walk, not_kept(), session=session)
    return talk.at(at.hands, at.scene, at.site)


def practise(name: str | None, seed: int | None, given: IO[str], out: IO[str], room: Room) -> Exit:
    """Practise at a site, or choose one first. Raises `Usage` for one that is not there."""
    session = Session(Voice(given, out, room), Journal.open())
    if name is None:
        return converse(Practice(session, seed).run, session)
    return converse(practice_at(session, name, seed).walk_through, session)
