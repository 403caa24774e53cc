"""Steps that ask nothing of the outlet: sums, what is running, and comparing what was written."""

from __future__ import annotations

from dataclasses import replace

from shorewalk.tree.model import AGAIN, Judge, Tally, Work
from shorewalk.tree.words import listed

from .adding import amps_of
from .compared import amps_in, band_lines, kind_of, row_words
from .desk import Desk, spoken
from .step import Ahead, At, Step
from .sums import sum_words, table_words

NO_NUMBER = "a number for it is not there"


def work_step(desk: Desk, at: At, node: Work) -> Step:
    """Return the step for a sum."""
    where = at[0]
    fact = desk.site.results.get(node.out)
    kind = kind_of(node, amps_in(desk.uses, where, node))
    ahead = [*band_lines(desk, where, node.bands, kind), *desk.rest(where, at[1], {"next": "worked out"})]
    lines = [("", table) for table in table_words(node)]
    if fact and fact.small:
        lines.append(("No tenths on your meter?", f"Then {NO_NUMBER}."))
    return Step(
        at=at,
        number=desk.numbers[at],
        kind="work",
        does="Work out",
        text=f"{fact.says if fact else spoken(node.out)}: {sum_words(desk, where, node)}.",
        lines=tuple(lines),
        fields=(f"It comes to|{'' if kind.unit == '1' else kind.unit}",),
        ahead=_joined(ahead, desk.rest(where, at[1], {"missing": NO_NUMBER})),
    )


def _joined(ahead: list[Ahead], last: tuple[Ahead, ...]) -> tuple[Ahead, ...]:
    """Return both; as one line where they lead alike, for nothing hangs on which it is."""
    alike = {replace(line, key="", says="") for line in (*ahead, *last)}
    if len(ahead) == len(last) == len(alike) == 1:
        return (replace(ahead[0], key="next, missing", says=f"{ahead[0].says}, or {last[0].says}"),)
    return (*ahead, *last)


def tally_step(desk: Desk, at: At, node: Tally) -> Step:
    """Return the step for what is running."""
    where = at[0]
    return Step(
        at=at,
        number=desk.numbers[at],
        kind="tally",
        does="Add up",
        text=desk.text(where, node.text),
        lines=(
            ("", "Or read the amps off a display in the rig while all of it runs."),
            ("No tenths on that display?", "Low sum: 1 A less. High sum: 1 A more."),
            (
                "",
                "Compare the high sum. Does a step divide by these amps? Work it out with both; the worse line counts.",
            ),
        ),
        loads=tuple(amps_of(desk.site.loads[name]) for name in node.loads if name in desk.site.loads),
        fields=("Low sum|A", "High sum|A"),
        ahead=(
            *band_lines(desk, where, node.bands, kind_of(node)),
            *desk.rest(where, at[1], {"next": "added up", "unsure": "not sure"}),
        ),
    )


def judge_step(desk: Desk, at: At, node: Judge) -> Step:
    """Return the step that compares what was written; what it waits for stands first."""
    where = at[0]
    names = tuple(desk.refer(where, name) for name in node.of)
    missing = f"{listed(names)} has no number or tick" if names else "none of these"
    last = desk.rest(where, at[1], {"missing": missing})
    ahead: list[Ahead] = [*last] if names else []
    for index, row in enumerate(node.rows, 1):
        words = row_words(desk, where, row) or ("whatever you wrote" if len(node.rows) == 1 else "else")
        line = desk.way(where, f"row {index}", row.way, words)
        if line.grade == AGAIN and names:
            note = "; ".join(filter(None, (line.note, f"strike out {listed(names, 'and')}")))
            line = replace(line, note=note)
        ahead.append(line)
    ahead += () if names else last
    text = "Take the first line that fits." if len(ahead) > 1 else "Go on."
    return Step(at=at, number=desk.numbers[at], kind="judge", does="Compare", text=text, ahead=tuple(ahead))
