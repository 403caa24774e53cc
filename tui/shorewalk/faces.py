"""Pictures of where the probes go: outlet faces the right way up, and simple views of the rest.

In a drawing a capital or digit is a cell of that slot, a run of small letters the room for its label;
dots are nothing, and what else there is stands as it is. A slot with a probe in it is filled and says
RED or BLACK, so the picture reads without colour. Faces are drawn ground down and turned by half a
turn where the outlet is mounted ground up.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import groupby
from typing import NamedTuple

from .art import ART, Art
from .lines import Line, Span, line, wrap
from .tree.facts import PlaceFact

PROBES = {"red": "RED", "black": "BLACK"}
FILLED, EMPTY = "█", "░"
ASCII = str.maketrans("█░╭╮╰╯─│▼┴├┤┬▢", "#:..''-|V++++o")
TURNED = str.maketrans("()", ")(")
WORDS = {"hot": "hot", "neutral": "neutral", "ground": "ground"}


class Picture(NamedTuple):
    """What to draw: a place, the terminal of each probe, the way up (None: not known), and how."""

    place: PlaceFact
    red: str
    black: str
    ground_up: bool | None = None

    def probe(self, terminal: str) -> str:
        """Return which probe goes there: `red`, `black` or nothing."""
        return "red" if terminal == self.red else "black" if terminal == self.black else ""


def art_of(place: PlaceFact) -> Art:
    """Return the drawing for a place: its outlet's face, else one for its kind."""
    face = place.face if place.kind in ("outlet", "rig-outlet") else place.kind
    return ART.get(face or place.kind, ART["other"])


def draw(picture: Picture, *, small: bool = False, ascii_only: bool = False) -> list[Line]:
    """Return the picture in lines, with what lies outside the outlet (the earth peg) under it."""
    art = art_of(picture.place)
    rows = art.small if small else art.large
    if art.turns and picture.ground_up:
        rows = tuple(row[::-1].translate(TURNED) for row in reversed(rows))
    letters = {letter: name for letter, name in art.slots.items() if name in picture.place.terminals}
    drawn = [
        _row(row, letters, picture, _sides(rows, letters), small=small)
        for row in rows
        if not any(picture.probe(art.slots[x.upper()]) == "" for x in row if x.upper() in art.optional)
    ]
    if art.turns:
        drawn = _framed(drawn, len(rows[0]), _way_up(picture, small=small))
    if "earth" in (picture.red, picture.black) and "earth" not in art.slots.values():
        drawn.append(_peg(picture, len(rows[0])))
    return (
        [tuple(Span(s.text.translate(ASCII), s.role) for s in row) for row in drawn] if ascii_only else drawn
    )


def caption(picture: Picture, room: int) -> list[Line]:
    """Return what to say under a picture whose way up is not known."""
    if not art_of(picture.place).turns or picture.ground_up is not None:
        return []
    return wrap("Round hole on top? Then turn this picture upside down.", room, "quiet")


def _way_up(picture: Picture, *, small: bool) -> str:
    """Return the words in the frame that say which way up the outlet is drawn."""
    if picture.ground_up is None:
        return ""
    words = f"hole {'on top' if picture.ground_up else 'at bottom'}"
    return words if small else f"round {words}"


def legend(picture: Picture, room: int) -> list[Line]:
    """Return which probe goes where, in words, the black one first."""
    rows: list[Line] = []
    for probe, terminal in (("black", picture.black), ("red", picture.red)):
        fact = picture.place.terminals.get(terminal)
        rows += wrap(fact.says if fact else terminal, room, first=(Span(f"{PROBES[probe]:<6}", probe),))
    return rows


def _sides(rows: tuple[str, ...], letters: Mapping[str, str]) -> dict[str, int]:
    """Return the leftmost column of each slot: labels lean towards it."""
    return {letter: min(row.index(letter) for row in rows if letter in row) for letter in letters}


def _row(
    row: str, letters: Mapping[str, str], picture: Picture, sides: Mapping[str, int], *, small: bool
) -> Line:
    def spans() -> Iterator[Span]:
        for letter, run in groupby(row):
            text = "".join(run)
            slot = letters.get(letter.upper())
            probe = picture.probe(slot) if slot else ""
            if slot is None:
                yield Span(text.replace(".", " "), "quiet")
            elif letter.islower() and letter.upper() in letters and letter != letter.upper():
                yield from _label(
                    text, slot, probe, picture, small=small, right=row.index(text) > sides[letter.upper()]
                )
            else:
                yield Span((FILLED if probe else EMPTY) * len(text), probe or "quiet")

    return tuple(spans())


def _label(room: str, slot: str, probe: str, picture: Picture, *, small: bool, right: bool) -> Iterator[Span]:
    role = picture.place.terminals[slot].role
    twins = sum(fact.role == role for fact in picture.place.terminals.values()) > 1
    word = slot if small or twins or role not in WORDS else WORDS[role]
    text, kind = (PROBES[probe], probe) if probe else (word, "quiet")
    gap = Span(" " * (len(room) - len(text)))
    if right:
        yield from (Span(text, kind), gap)
    else:
        yield from (gap, Span(text, kind))


def _framed(rows: list[Line], room: int, words: str) -> list[Line]:
    edge = Span("│", "quiet")
    top = line(Span(f"╭{'─' * room}╮", "quiet"))
    under = f"─ {words} " if words else ""
    bottom = line(Span(f"╰{under}{'─' * (room - len(under))}╯", "quiet"))
    return [top, *((edge, *row, edge) for row in rows), bottom]


def _peg(picture: Picture, room: int) -> Line:
    probe = "red" if picture.red == "earth" else "black"
    words = "earth peg "
    before = max(2, (room + 2 - len(words) - len(PROBES[probe])) // 2 - 2)
    return line(Span("─" * before + "▼ ", "quiet"), Span(words), Span(PROBES[probe], probe))
