"""The question as one person reads it aloud while another holds the probes: two lines, the answers, little else.

Words that an author wrote stand as they are. The sentence that is made for a reading comes in several lengths;
the fullest that two lines hold is taken, so a wide window also says how a slot looks.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from shorewalk.lines import BLANK, Line, Span, line, wrap
from shorewalk.tree.facts import PlaceFact, Site
from shorewalk.tree.model import Measure, Node
from shorewalk.walk.known import Position
from shorewalk.walk.wording import WHAT, bare, probe_order

from .options import option_lines
from .question import READABLE, View, cautions_in_full, notes_of

MOST = 2
"""Lines a question read aloud should have."""
LOADS = {"one-leg": "test load on", "usual": "usual loads on", "heavy": "everything on"}
LOOKS = re.compile(r"\s*\([^()]*\)")
"""How a slot looks, in brackets after its name."""
ENDINGS = (" slot", " hole")


def aloud_words(now: Position, site: Site, room: int) -> str:
    """Return the question in the fullest words that two lines of `room` cells hold, else in the shortest."""
    words = ""
    for words in _lengths(now.node, now.text, site):
        if len(wrap(words, room)) <= MOST:
            break
    return words


def aloud_page(view: View, room: int, height: int) -> list[Line]:
    """Return the question, what to answer, and what must be known; hints only where they fit.

    Cautions that were not read yet stand whole below the question: they are to be read aloud too.
    """
    now, text = view.now, min(room, READABLE)
    rows = wrap(aloud_words(now, view.site, room), room, "question")
    if now.cautions_full:
        rows += [BLANK, *cautions_in_full(view, text)]
    if view.options:
        rows += [BLANK, *option_lines(view.options, view.picked, text, ascii_only=view.ascii_only)]
    rows += notes_of(view, text)
    if now.cautions and not now.cautions_full:
        short = "; ".join(caution.short for caution in now.cautions)
        rows += [BLANK, *wrap(f"Remember: {short}.", text, "caution")]
    for says, head in ((now.hint, ""), (now.normal, "Normal: ")):
        more = wrap(says or "", text, "quiet", first=line(Span(head, "quiet")), indent=0) if says else []
        if more and len(rows) + 1 + len(more) <= height:
            rows += [BLANK, *more]
    return rows


def _lengths(node: Node, text: str, site: Site) -> Iterator[str]:
    """Yield the words of a question, the fullest first."""
    if not isinstance(node, Measure) or node.text is not None:
        yield text
        return
    place = site.places.get(node.place)
    black, red = (_says(place, terminal) for terminal in probe_order(node, place))
    where, load = place.says if place else node.place, LOADS.get(node.load.amount, "")
    dial = " Low impedance." if node.meter == "low-impedance" else ""
    what = WHAT.get(node.what, node.what)
    full = f"Read {', '.join(filter(None, (f'{what} at {where}', load)))}.{dial}"
    if node.what == "amps":
        yield full
        return
    yield f"{full} Black: {black}. Then red: {red}."
    black, red = (LOOKS.sub("", says) for says in (black, red))
    yield f"{full} Black: {black}. Then red: {red}."
    black, red = (_bare_slot(says) for says in (black, red))
    short = ", ".join(filter(None, (bare(what), bare(where), load)))
    yield f"{short[:1].upper()}{short[1:]}.{dial} Black: {black}. Then red: {red}."


def _says(place: PlaceFact | None, terminal: str) -> str:
    return bare(place.terminals[terminal].says) if place and terminal in place.terminals else terminal


def _bare_slot(says: str) -> str:
    for ending in ENDINGS:
        says = says.removesuffix(ending)
    return says
