"""What is known so far, and changing an earlier answer."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from shorewalk.heard_words import goes_back
from shorewalk.pages.sags import sags_in_words
from shorewalk.walk.stands import stands
from shorewalk.walk.walk import Refused, Walk, resume

from . import spoken
from .asides import show_picture
from .heard import screen_of
from .leaving import leave
from .prompt import Prompt
from .voice import number_in
from .words import command_in, commands_for

if TYPE_CHECKING:
    from .talk import Talk

BESIDE = ("picture", "repeat", "leave")
"""What can be asked for while an answer is changed; all else is for the open question."""
LEAVE_IT = "Enter: leave it as it is."


class Known(Prompt):
    """Where a number asks that question again, and the commands are those of the list of what is known."""

    screen = "known"
    back = "back to the question"


def change_known(talk: Talk) -> None:
    """Say what is known, the latest first, and let one answer be changed."""
    voice, walk = talk.session.voice, talk.walk
    listed = walk.now.known
    if not listed:
        voice.say("Nothing is known yet. Steps that were done are taken back with b.")
        return
    voice.write("\n")
    voice.say_in_parts([*known_lines(walk)], what="lines are left")
    ending = "ending" if walk.ended else "question"
    while True:
        voice.say(f"Type the number of an answer to change it. Enter: back to the {ending}.")
        typed = voice.listen()
        here = Known(talk.session)
        if not typed or goes_back(typed):
            talk.do_repeat()
            return
        number = number_in(typed)
        if number is not None and 1 <= number <= len(listed):
            _revise(talk, listed[number - 1].index)
            return
        if command := here.command_in(typed):
            (talk if command.id == "leave" else here).obey(command)
            continue
        if talk.command_in(typed):  # what works at the question is not lost here
            voice.hear_again(typed)
            return
        voice.say(f'There is no answer "{typed}" to change.')


def known_lines(walk: Walk) -> Iterator[str]:
    """Yield what is known by number, the latest first, what was worked out from it, and how things stand."""
    site, worked = walk.library.site, walk.now.worked_all
    numbered = [*enumerate(walk.now.known, 1)]
    yield from (f"  {number}. {spoken.of_known(known)}" for number, known in reversed(numbered))
    yield from (spoken.of_worked(each, site, whole=True) for each in worked)
    yield from sags_in_words(worked, site)
    standing = [f"{called} {shows}" for _, called, shows in stands(walk.now.state, site)]
    if standing:
        yield f"How things stand: {'; '.join(standing)}."


def _revise(talk: Talk, index: int) -> None:
    """Ask an earlier question again; what was answered later and still fits is kept."""
    voice, walk = talk.session.voice, talk.walk
    earlier = resume(walk.library, walk.tree, walk.meter, walk.answers[:index])[0]
    voice.say(f"Changing this answer. {LEAVE_IT}", *talk.question(earlier), before="\n")
    while (typed := voice.listen()) and not goes_back(typed):
        asked = command_in(typed, commands_for(screen_of(earlier.now.node)))
        if asked and asked.id in BESIDE:
            _beside(talk, earlier, asked.id)
            continue
        try:
            revised = walk.revise(index, talk.understood(typed, earlier), talk.keeper.clock())
        except Refused as refused:
            talk.say_refused(typed, refused)
            continue
        lost = len(walk.answers) - len(revised.answers)
        talk.go_to(revised, "Changed.", *([f"{lost} later answers no longer fit."] if lost > 0 else []))
        return
    talk.do_repeat()


def _beside(talk: Talk, earlier: Walk, asked: str) -> None:
    if asked == "leave":
        leave(talk.session, talk.keeper)
    elif asked == "picture":
        show_picture(talk.session.voice, earlier)
    else:
        talk.session.voice.say(*talk.question(earlier), before="\n")
    talk.session.voice.say(f"Still changing this answer. {LEAVE_IT}")
