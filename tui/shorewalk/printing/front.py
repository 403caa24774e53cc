"""What stands before the first step: cautions, the emergency, how to read the sheet, the faces of the outlets."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from shorewalk.emergency import CARD
from shorewalk.faces import Picture, draw
from shorewalk.lines import as_text
from shorewalk.paper.blocks import Block, Fields, Heading, Items, Rows, Text
from shorewalk.tree.facts import PlaceFact
from shorewalk.tree.model import ALLOW_USE, End, Judge, Measure
from shorewalk.walk.meter import PROFILES
from shorewalk.walk.verdict import GOOD_NEEDS, USE_NEEDS

from .desk import Desk, spoken
from .step import At, Drawing, Step

ALWAYS = ("when-unsure", "keep-away", "dry-hands")
"""Cautions that stand on every sheet."""

HOW = """\
Begin at step 1. Do what the step says, take the one line that is true, and go to the number after its arrow. Lines \
are tried from the top.
Write every reading down, with the time. [12] means: what you wrote or ticked at step 12. Done a step a second time? \
Strike out what stood there; only the newest counts.
Not sure, or not able? Take the line that says so. Never guess a reading.
A line may give a grade: + good, ~ WATCH, # STOP, X DANGER. @ read again: the reading counts for nothing. Tick the \
worst: [ ] WATCH  [ ] STOP  [ ] DANGER. After a STOP or a DANGER the rig gets no power again by this sheet, whatever \
comes later. After a DANGER hands do only what a step says. With a load on no reading is better than the same \
slots at rest just before.
"Mind" recalls, in short, the cautions above.
"Only with" says how things must stand. Do they not, or do you not know? Then stop: power off if that is safe and dry, \
the cord stays out or comes out, and call the park."""
PARTS = (
    "A part has its own page. Before you go there, tick at its top the step you come from. "
    '"-> back: NAME" means: go back to that step and take its line NAME. [place] and other words in brackets: '
    "what the ticked line says."
)
NUMBERS = (
    "Limits here are moved to the safe side by what a plain meter may be off ({percent:g} % and {counts:g} counts). "
    "The program takes the error of your own meter, also in every sum; this sheet cannot, and stops a little sooner. "
    "Near a line? Take the worse one. Two meters disagree? Believe the worse one."
)
METER = "Meter, and does it show tenths"
LOOKS = {
    "dead-look": "dead look (breaker off)",
    "full-look": "full look (breaker on, nothing plugged in)",
    "earth-look": "earth look",
    "look-a": "look a (test load on, in the 20 A outlet)",
    "look-b": "look b (through your own plug, one load on)",
}


def front_of(desk: Desk, steps: Mapping[At, Step]) -> tuple[Block | Drawing, ...]:
    """Return what stands before the first step."""
    written = desk.written("")
    measured = any(step.kind in ("measure", "work") for step in steps.values())
    rows: list[Block | Drawing] = [
        Heading(written.symptom or written.name),
        Text(f'Sheet "{written.name}", {len(steps)} steps. {desk.text("", written.about or "")}'.strip()),
        Fields(("Site and outlet", "Date and time", *((METER,) if measured else ()))),
        Heading("Read this first", 2),
        Items(tuple(_cautions(desk)), "box"),
        Heading("Somebody hurt, or something burning", 2),
        Items(CARD, "number"),
        Heading("How to use this sheet", 2),
        Items(
            (*HOW.split("\n"), *((PARTS,) if desk.letters else ()), *((_numbers(),) if measured else ())),
            "dot",
        ),
    ]
    if desk.letters:
        rows.append(Text("; ".join(_contents(desk)) + ".", lead="Parts:"))
    if looks := list(_looks(desk, steps)):
        rows += [
            Heading("Looks: readings that belong together", 2),
            Text(
                "A look is whole when all its pairs were read since the outlet was last changed, and not older than "
                "15 minutes when the power comes on with the cord in."
            ),
            Rows(("look", "where", "pairs"), tuple(looks), (3, 3, 5)),
            Text(_use_needs(), lead="For use:"),
        ]
    faces = list(_faces(desk, steps))
    return (*rows, Heading("The slots", 2), *faces) if faces else tuple(rows)


def _numbers() -> str:
    percent, counts = PROFILES["basic"]
    return NUMBERS.format(percent=percent, counts=counts)


def _cautions(desk: Desk) -> Iterator[str]:
    used = {name for at in desk.numbers for name in desk.uses.node(at).cautions}
    for name, caution in desk.site.cautions.items():
        if name in used or name in ALWAYS:
            yield caution.text


def _contents(desk: Desk) -> Iterator[str]:
    for part, letter in desk.letters.items():
        numbers = [number for at, number in desk.numbers.items() if at[0] == part]
        yield f"{letter} {spoken(part)}, {min(numbers)} to {max(numbers)}"


def _places(desk: Desk) -> dict[str, PlaceFact]:
    """Return every place where this sheet measures."""
    found: dict[str, PlaceFact] = {}
    for at in desk.numbers:
        node = desk.uses.node(at)
        if not isinstance(node, Measure) or node.what == "amps":
            continue
        name = node.place
        words = [v.word for v in desk.uses.values(at[0], name[1:])] if name.startswith("$") else [name]
        found |= {word: desk.site.places[word] for word in words if word in desk.site.places}
    return found


def _looks(desk: Desk, steps: Mapping[At, Step]) -> Iterator[tuple[str, str, str]]:
    """Yield the looks where a judgement or an ending of this sheet asks for one."""
    nodes = [desk.uses.node(at) for at in steps]
    asked = {row.lacks for node in nodes if isinstance(node, Judge) for row in node.rows if row.lacks}
    if any(isinstance(node, End) and node.verdict in ALLOW_USE for node in nodes):
        asked |= {*USE_NEEDS, *GOOD_NEEDS}
    measured = [place for place in _places(desk).values() if place.looks]
    for place in measured or desk.site.places.values():  # read before, by another sheet
        for look in place.looks.values():
            if look.id in asked:
                pairs = (
                    f"{p.from_}-{p.to}" + ("" if p.place == place.id else f" at {_says(desk, p.place)}")
                    for p in look.pairs
                )
                yield LOOKS.get(look.id, look.id), place.says, ", ".join(pairs)


def _says(desk: Desk, place: str) -> str:
    return desk.site.places[place].says if place in desk.site.places else place


def _use_needs() -> str:
    needs = ", ".join(spoken(name) for name in USE_NEEDS if name != "skin")
    good = ", ".join(spoken(name) for name in GOOD_NEEDS)
    return (
        f"{needs}, and the rig's metal read after the power came on. Good to use wants also {good}, a protector, "
        "and nothing graded WATCH."
    )


def _faces(desk: Desk, steps: Mapping[At, Step]) -> Iterator[Drawing]:
    """Yield each face once, with the names of all places that have it."""
    del steps
    shown: dict[str, list[str]] = {}
    for place in _places(desk).values():
        rows = as_text(draw(Picture(place, "", ""), ascii_only=True))
        shown.setdefault(rows, []).append(place.says)
    for rows, names in shown.items():
        words = "; ".join(names)
        yield Drawing(f"{words[:1].upper()}{words[1:]}", tuple(rows.split("\n")))
