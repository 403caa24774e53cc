"""What can be begun, said: some at a time, each under its heading, all with numbers that stay the same."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from shorewalk.counted import counted
from shorewalk.pages.start import FEW, Begin
from shorewalk.sections import headers_in
from shorewalk.tree.library import Header

from .prompt import listed, sentence
from .voice import Voice

LEFT = "Walks that were left unfinished"
HOW = "Type a number, or in your own words what is wrong."
PRACTICE = "To practise where nothing is live, type practice."


class Block(NamedTuple):
    """What stands under a heading."""

    heading: str
    items: Sequence[str]


def say_blocks(voice: Voice, blocks: Sequence[Block], how: str, last: str, *, at_once: int = 1) -> bool:
    """Say blocks, numbered across: the first ones at once, one more with each Enter, last of all `last`.

    Whatever is typed instead of Enter ends it, and is heard next; then it returns False.
    """
    first = 1
    for at, block in enumerate(blocks):
        voice.say(f"{block.heading}:", *listed(block.items, first))
        first += len(block.items)
        rest = blocks[at + 1 :]
        if rest and at + 1 >= at_once:
            heading = rest[0].heading
            count = sum(len(each.items) for each in rest)
            voice.say(f"{how} Enter: {count} more, next {heading[:1].lower()}{heading[1:]}.")
            if typed := voice.listen():
                voice.hear_again(typed)
                return False
    voice.say(last)
    return True


def say_begin(voice: Voice, begin: Begin) -> bool:
    """Say what was left and what may not wait; with each Enter what stands under the next heading.

    Returns whether all was said.
    """
    blocks = [
        Block(section.says, [header.symptom for header in section.headers]) for section in begin.sections
    ]
    if begin.left:
        left = [f"{sentence(one.symptom)} {one.told}" for one in begin.left]
        blocks.insert(0, Block(LEFT, left))
    voice.write("\n")
    last = f"{PRACTICE} {HOW} Enter: all else you can do."
    return say_blocks(voice, blocks, HOW, last, at_once=2 if begin.left else 1)


def say_found(voice: Voice, begin: Begin) -> None:
    """Say what fits the words that were typed, or comes nearest; of a few what they tell apart."""
    headers = headers_in(begin.sections)
    if not headers:
        voice.say(f'Nothing here is about "{begin.asked}". Other words? Enter: the whole list.', before="\n")
        return
    says = (
        f'Nothing fits "{begin.asked}". Is it one of these?'
        if begin.nearest
        else f'"{begin.asked}" may mean {counted(len(headers), "thing")}:'
    )
    voice.say(says, before="\n")
    voice.say_in_parts(
        [*listed(_told(header, few=len(headers) <= FEW and not begin.nearest) for header in headers)]
    )
    voice.say("Type its number, or other words. Enter: the whole list.")


def _told(header: Header, *, few: bool) -> str:
    if few and header.tells:
        return f"{sentence(header.symptom)} It tells apart: {'; '.join(header.tells)}"
    return header.symptom
