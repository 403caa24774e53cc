"""What can be asked for beside the question: help, the picture, the record in a file."""

from __future__ import annotations

from pathlib import Path
from typing import NoReturn

from shorewalk.commands import ZERO, commands_on
from shorewalk.faces import draw
from shorewalk.journal import Keeper
from shorewalk.lines import as_text
from shorewalk.pages.fixed import MEANING, SAFETY
from shorewalk.pages.question import picture_of
from shorewalk.ruling import Ruling
from shorewalk.saving import save_page, save_record
from shorewalk.walk.walk import Walk

from .heard import screen_of
from .voice import Gone, Voice

NOT_HERE = ("code", "copy", "meter", "log")
"""Commands of the screens that plain text has no use for."""

KEEP_ELSEWHERE = """\
This walk is on no disk, and gone when you leave. To keep it, type a folder on a disk that can be written, as in \
/media/stick or ~/walks. Enter: leave without."""

TYPED_HERE = (
    ("0 to 9", f"The answer of that number. {ZERO}"),
    ("121.8", "What the meter shows. 118-121 if it wanders, OL if it says so."),
    ("Enter alone", "A menu of all that can be done here."),
    ("r", "The question again."),
)


def say_help(voice: Voice, walk: Walk) -> None:
    """Say what can be typed here, and what the words for grades mean."""
    lines = [f"{keys}: {what}" for keys, what in TYPED_HERE]
    lines += [f"{c.keys[0]}: {c.help}" for c in commands_on(screen_of(walk.now.node)) if c.id not in NOT_HERE]
    lines += [f"{word}: {meaning}." for word, meaning in MEANING.items()]
    voice.say("After each key or number press Enter.", *lines, SAFETY, before="\n")


def show_picture(voice: Voice, walk: Walk) -> None:
    """Draw where the probes go, in characters that every terminal has."""
    picture = picture_of(walk)
    if picture is None:
        voice.say("There is no picture for this.")
    else:
        voice.write(as_text(draw(picture, ascii_only=True)) + "\n")


def hand_walk_over(voice: Voice, walk: Walk, keeper: Keeper) -> None:
    """Hand the walk over in a file beside where the program was started, else at home."""
    from shorewalk.handing import NothingToHandOver, hand_over, what_to_do

    try:
        for folder in (Path.cwd(), Path.home()):
            try:
                path = hand_over(walk, keeper, folder)
            except OSError as error:
                why = error.strerror or str(error)
            else:
                voice.say(*what_to_do(walk, keeper, str(path)), "r: the question again.")
                return
    except NothingToHandOver as nothing:
        voice.say(str(nothing))
        return
    voice.say(f"The walk could not be saved: {why}.")


def save(voice: Voice, walk: Walk, keeper: Keeper, site: str | None, ruling: Ruling) -> None:
    """Save the record beside where the program was started, else at home."""
    park, when, also = keeper.placing.where.park, keeper.clock(), ruling.also(walk)
    for folder in (Path.cwd(), Path.home()):
        try:
            path = save_record(walk, site, folder, when, park, also=also)
        except OSError as error:
            why = error.strerror or str(error)
        else:
            voice.say(f"Saved as {path}")
            break
    else:
        voice.say(f"The record could not be saved: {why}.")
        return
    try:
        page = save_page(walk, site, path, when, park, also=also)
    except OSError as error:
        voice.say(f"The page to print could not be saved: {error.strerror or error}.")
    else:
        voice.say(f"To print: {page}")


def leave(voice: Voice, keeper: Keeper) -> NoReturn:
    """Leave; where the disk failed, offer before to keep the walk in another folder."""
    while keeper.journal.failed and keeper.number is not None:
        voice.say(KEEP_ELSEWHERE)
        folder = voice.listen()
        if not folder:
            break
        told = keeper.keep_in(folder)
        if keeper.journal.failed:
            voice.say(told)
    raise Gone
