"""What can be asked for beside the question: the picture, the files of a walk."""

from __future__ import annotations

from pathlib import Path

from shorewalk.faces import draw
from shorewalk.journal import Keeper
from shorewalk.lines import as_text
from shorewalk.pages.question import picture_of
from shorewalk.saving import save_page, save_record
from shorewalk.walk.walk import Walk

from .face import probes_in_words
from .files import save_in, saved_words, why
from .possible import also_possible
from .session import Session
from .voice import Voice


def show_picture(voice: Voice, walk: Walk) -> None:
    """Say where the probes go, then draw it in characters that every terminal has."""
    picture = picture_of(walk)
    if picture is None:
        voice.say("There is no picture for this.")
        return
    if words := probes_in_words(picture):
        voice.say(words)
    rows = draw(picture, ascii_only=True, small=voice.room < 30)
    voice.say(f"The same as a picture, {len(rows)} lines of letters:")
    voice.write(as_text(rows) + "\n")
    voice.say("End of the picture.")


def hand_walk_over(session: Session, walk: Walk, keeper: Keeper, then: str = "") -> None:
    """Hand the walk over in a new file."""
    from shorewalk.handing import NothingToHandOver, hand_over, what_to_do

    voice = session.voice
    try:
        path = save_in(lambda folder: hand_over(walk, keeper, folder))
    except NothingToHandOver as nothing:
        voice.say(str(nothing))
    except OSError as error:
        voice.say(f"The walk could not be saved: {why(error)}.")
    else:
        voice.say(*what_to_do(walk, keeper, str(path)), *filter(None, [then]))


def save(session: Session, walk: Walk, site: str | None, park: str | None) -> None:
    """Save the record as text and to print, each in a new file."""
    voice, now, also = session.voice, session.journal.clock(), also_possible(walk, session.ruling)
    try:
        path = save_in(lambda folder: save_record(walk, site, folder, now, park, also=also))
    except OSError as error:
        voice.say(f"The record could not be saved: {why(error)}.")
        return
    voice.say(saved_words(path))
    try:
        page: Path = save_page(walk, site, path, now, park, also=also)
    except OSError as error:
        voice.say(f"The page to print could not be saved: {why(error)}.")
    else:
        voice.say(f"To print, beside it: {page.name}")
