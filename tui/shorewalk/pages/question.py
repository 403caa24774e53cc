"""The open question: the page with the question big and alone, and the side with picture and knowledge."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from shorewalk.faces import Picture, caption, draw, legend
from shorewalk.lines import BLANK, Line, Span, beside, centred, line, width, wrap
from shorewalk.marks import grade_mark
from shorewalk.tree.facts import PlaceFact, Site
from shorewalk.tree.model import Ask, Measure
from shorewalk.walk.answers import Choose
from shorewalk.walk.known import Position
from shorewalk.walk.walk import Walk
from shorewalk.walk.wording import probe_order

from .knowns import side_list, state_lines
from .options import Option, option_lines, options_of
from .possible import count_line
from .sags import DRAWN, sags_in
from .sums import beside as beside_sum
from .sums import told_of

READABLE = 64
"""Longest line of running text, in cells."""

AMPS = re.compile(r"(\d+) A\b")
"""What names an outlet in a sentence."""


@dataclass(frozen=True, slots=True)
class View:
    """All that the walk screen shows."""

    now: Position
    site: Site
    title: str
    options: tuple[Option, ...]
    picture: Picture | None = None
    picked: int | None = None
    revising: int | None = None  # the number of the earlier answer that is being changed
    ascii_only: bool = False
    possible: tuple[int, int] | None = None  # how many faults the readings leave, of how many


def view_of(
    walk: Walk,
    *,
    picked: int | None = None,
    running: Mapping[str, int] | None = None,
    revising: int | None = None,
    ascii_only: bool = False,
    possible: tuple[int, int] | None = None,
) -> View:
    """Return what to show of a walk; `running` is what was ticked so far where loads are asked for."""
    now, site = walk.now, walk.library.site
    return View(
        now=now,
        site=site,
        title=walk.library.tree(now.tree).symptom,
        options=options_of(now.node, site, running or {}),
        picture=picture_of(walk),
        picked=picked,
        revising=revising,
        ascii_only=ascii_only,
        possible=possible,
    )


def picture_of(walk: Walk) -> Picture | None:
    """Return the picture for a measure: its place, each probe, the way up as far as it was told."""
    node = walk.now.node
    if not isinstance(node, Measure):
        return None
    place = walk.library.site.places.get(node.place)
    if place is None or node.what == "amps":
        return None
    black, red = probe_order(node, place)
    return Picture(place, red, black, ground_up(walk, place) if place.at == "pedestal" else None)


def ground_up(walk: Walk, place: PlaceFact) -> bool | None:
    """Return whether an outlet is mounted with its ground up, as last told of it; None where that is not known.

    The outlets of one pedestal need not be mounted alike: what was told of the 20 A one is nothing about the 30.
    """
    for answered in reversed(walk.answers):
        node = walk.library.tree(answered.tree).nodes.get(answered.at)
        if (
            isinstance(node, Ask)
            and node.sign == "face-up"
            and AMPS.findall(node.text) in ([], AMPS.findall(place.says))
        ):
            answer = answered.answer
            return answer.id == "ground-up" if isinstance(answer, Choose) else None
    return None


def left_words(view: View, *, narrow: bool) -> str:
    """Return how much is left, for the right end of the top line."""
    low, high = view.now.left
    if view.revising is not None:
        return f"changing {view.revising}" if narrow else f"changing answer {view.revising}"
    about = "" if narrow else "about "
    return f"{about}{low} to {high} left" if low != high else f"{about}{low} left"


def question_page(view: View, room: int, height: int, *, narrow: bool) -> list[Line]:
    """Return the question with all that belongs to it, for a page of this size.

    Where it is `narrow` the picture is on the page too, and what is known where lines are left.
    """
    now, text = view.now, min(room, READABLE)
    rows: list[Line] = []
    if now.node.group:
        rows += [line(Span(now.node.group, "group"))]
    if now.cautions and not now.cautions_full:
        short = "; ".join(caution.short for caution in now.cautions)
        rows += wrap(f"Remember: {short}.", text, "caution")
    rows += [BLANK] if rows else []
    rows += wrap(now.text, text, "question")
    if now.cautions and now.cautions_full:
        rows += [BLANK, *cautions_in_full(view, text)]
    if narrow and view.picture:
        rows += small_picture(view, room)
        rows += _about(view, text, normal=False)
    else:
        rows += _about(view, text)
    if view.picture and roomy(room, height):
        rows += [BLANK, *large_picture(view, room)]
    if view.options:
        rows += [BLANK, *option_lines(view.options, view.picked, text, ascii_only=view.ascii_only)]
    rows += notes_of(view, text)
    if narrow:
        known = side_list(now, room, height - len(rows) - 1, ascii_only=view.ascii_only)
        rows += [BLANK, *known] if known else []
    return rows


def cautions_in_full(view: View, room: int) -> list[Line]:
    """Return the cautions of the question, each whole."""
    dot = Span("- " if view.ascii_only else "• ", "caution")
    return [row for caution in view.now.cautions for row in wrap(caution.text, room, "caution", first=(dot,))]


def _about(view: View, room: int, *, normal: bool = True) -> list[Line]:
    now = view.now
    rows: list[Line] = []
    if now.normal and normal:
        rows += wrap(now.normal, room, "plain", first=(Span("Normal: ", "strong"),), indent=2)
    if now.hint:
        rows += wrap(now.hint, room, "quiet")
    if now.why:
        rows += wrap(now.why, room, "quiet", first=(Span("Why: ", "quiet"),), indent=2)
    return [BLANK, *rows] if rows else []


def notes_of(view: View, room: int) -> list[Line]:
    """Return what the last judgement said: close to the edge, the worse grade, what was worked out."""
    rows: list[Line] = []
    for worked in view.now.worked:
        mark = grade_mark(worked.grade).span(ascii_only=view.ascii_only)
        rows += wrap(
            told_of(worked, among=len(view.now.worked)), room, "note", first=(mark, Span("  ")), indent=2
        )
        if worked.grade != "ok" and (against := beside_sum(worked, view.site)):
            rows += wrap(f"({against})", room, "quiet", first=(Span("  "),))
    if sags_in(view.now.worked):
        rows += wrap(DRAWN, room, "quiet", first=(Span("  "),))
    for note in view.now.notes:
        rows += wrap(note, room, "note", first=(Span("* ", "note"),))
    return [BLANK, *rows] if rows else []


def small_picture(view: View, room: int) -> list[Line]:
    """Return the small picture, with what is normal and the words to the picture beside it."""
    if view.picture is None:
        return []
    drawing = draw(view.picture, small=True, ascii_only=view.ascii_only)
    at = max(map(width, drawing)) + 1
    normal = (
        wrap(view.now.normal, room - at, first=(Span("Normal: ", "strong"),), indent=0)
        if view.now.normal
        else []
    )
    return beside(drawing, [*normal, *caption(view.picture, room - at)], at)


def roomy(room: int, height: int) -> bool:
    """Tell whether the picture stands on the page, and the side is left to what is known."""
    return room >= ROOMY[0] and height >= ROOMY[1]


ROOMY = (44, 28)
"""Cells and lines of the side pane from which on a window counts as roomy."""


def large_picture(view: View, room: int) -> list[Line]:
    """Return the picture with the words to it beside it."""
    if view.picture is None:
        return []
    drawing = draw(view.picture, ascii_only=view.ascii_only)
    at = max(map(width, drawing)) + 3
    words = room - at
    if words < 18:
        return [*drawing, *caption(view.picture, room)]
    return beside(drawing, [BLANK, *legend(view.picture, words), BLANK, *caption(view.picture, words)], at)


def question_side(view: View, room: int, height: int) -> list[Line]:
    """Return the side: the picture or how things stand, what is known, at its foot how much is still possible."""
    if view.possible is None:
        return _above_foot(view, room, height)
    rows = _above_foot(view, room, height - 1)[: height - 1]
    return [*rows, *[BLANK] * (height - 1 - len(rows)), count_line(*view.possible)]


def _above_foot(view: View, room: int, height: int) -> list[Line]:
    """Return picture or how things stand, and always in the same place what is known so far."""
    if roomy(room, height):
        rows = state_lines(view.now, view.site, room)
        return rows + side_list(view.now, room, height - len(rows), ascii_only=view.ascii_only)
    if view.picture:
        drawing = draw(view.picture, ascii_only=view.ascii_only)
        rows = [*centred(drawing, room), *caption(view.picture, room)]
    else:
        rows = state_lines(view.now, view.site, room)
    above = max(PICTURE, height - KNOWN, len(rows))
    known = side_list(view.now, room, height - above, ascii_only=view.ascii_only)
    return [*rows, *[BLANK] * (above - len(rows)), *known]


PICTURE, KNOWN = 11, 7
"""Lines kept for the picture, and for what is known: its place stays the same from question to question."""


def picture_page(view: View, room: int) -> list[Line]:
    """Return the picture alone, large, with where each probe goes."""
    if view.picture is None:
        return []
    small = room < 30
    drawing = draw(view.picture, small=small, ascii_only=view.ascii_only)
    words = [*legend(view.picture, room), BLANK, *caption(view.picture, room)]
    title = wrap(view.picture.place.says[:1].upper() + view.picture.place.says[1:], room, "question")
    return [*title, BLANK, *drawing, BLANK, *words]
