"""A node as a numbered step: what every step has, questions, actions, parts, jumps and endings."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from shorewalk.marks import VERDICTS
from shorewalk.tree.model import ALLOW_USE, Ask, End, Judge, Jump, Measure, Node, Tally, Use, Work, ways_out
from shorewalk.tree.model import Step as Doing
from shorewalk.walk.ending import CALLS, FIRST
from shorewalk.walk.fallback import COME_OUT, KEEP_OFF

from .desk import Desk, spoken
from .reading import read_step
from .reckoning import judge_step, tally_step, work_step
from .step import Ahead, At, Step

BY = {"eye": "Look", "hand": "Feel", "ear": "Listen", "nose": "Smell", "detector": "Detector"}
USE = (
    "no line you took said STOP or DANGER, and all looks for use (before step 1) are whole. "
    f"Else: {COME_OUT} Call the park. After a DANGER: {KEEP_OFF}"
)
JUMP = (
    'Take the sheet "{tree}" and begin at its step 1. Keep this one beside it: what you read still counts, and so does '
    f"every STOP. Have you done that sheet already? Then do not go round: {COME_OUT} Call the park. "
    f"After a DANGER: {KEEP_OFF}"
)


def step_of(desk: Desk, at: At) -> Step:
    """Return the step for a node."""
    node, where = desk.uses.node(at), at[0]
    step = _own(desk, at, node)
    ahead, lines = [*step.ahead], [*step.lines]
    if node.at_most and node.spent:
        boxes = "[ ] " * node.at_most
        lines.append(("Tick each time you come here", f"{boxes}- no box left? Take the last line."))
        ahead.append(desk.way(where, "spent", node.spent, "no box left to tick"))
    return replace(
        step,
        lines=(*_before(desk, where, node), *lines),
        ahead=tuple(ahead),
        group=node.group and desk.text(where, node.group),
    )


def _own(desk: Desk, at: At, node: Node) -> Step:
    match node:
        case Ask():
            return _ask(desk, at, node)
        case Doing():
            return _do(desk, at, node)
        case Measure():
            return read_step(desk, at, node)
        case Work():
            return work_step(desk, at, node)
        case Tally():
            return tally_step(desk, at, node)
        case Judge():
            return judge_step(desk, at, node)
        case Use():
            return _use(desk, at, node)
        case Jump():
            text = JUMP.format(tree=desk.word(at[0], node.tree))
            return Step(at=at, number=desk.numbers[at], kind="jump", does="Go on", text=text)
        case End():
            return _end(desk, at, node)
    raise TypeError(node)


def _before(desk: Desk, where: str, node: Node) -> Iterator[tuple[str, str]]:
    """Yield what to mind: what must hold, cautions in short, hint and reason."""
    if node.needs:
        yield "Only with", "; ".join(desk.state(where, name, value) for name, value in node.needs)
    if cautions := [desk.site.cautions[name].short for name in node.cautions if name in desk.site.cautions]:
        yield "Mind", "; ".join(cautions)
    if node.hint:
        yield "", desk.text(where, node.hint)
    if node.why:
        yield "Why", desk.text(where, node.why)


def _ask(desk: Desk, at: At, node: Ask) -> Step:
    where = at[0]
    sign = desk.site.signs.get(node.sign)
    choices = (desk.way(where, f"choose {c.id}", c.way, desk.text(where, c.says)) for c in node.choices)
    ahead = (*choices, *desk.rest(where, at[1], {"unsure": "not sure"}))
    return Step(
        at=at,
        number=desk.numbers[at],
        kind="ask",
        does=BY.get(sign.by if sign else "", "Answer"),
        text=desk.text(where, node.text),
        ahead=tuple(replace(line, tick=True) for line in ahead),
    )


def _do(desk: Desk, at: At, node: Doing) -> Step:
    where = at[0]
    done, *cannot = desk.rest(where, at[1], {"done": "done", "cannot": "cannot be done"})
    if noted := desk.noted(where, node.leaves):
        done = replace(done, note="; ".join((done.note or "note", *noted)).replace("note;", "note:"))
    return Step(
        at=at,
        number=desk.numbers[at],
        kind="step",
        does="Do",
        text=desk.text(where, node.text),
        ahead=tuple(replace(line, tick=True) for line in (done, *cannot)),
    )


def _use(desk: Desk, at: At, node: Use) -> Step:
    where, part = at[0], node.part
    given = "; ".join(f"{spoken(name)} = {desk.given_words(where, word)}" for name, word in node.with_)
    begin = (part, desk.written(part).begin)
    text = f"{spoken(part)}, from {desk.numbers[begin]} on."
    if len(desk.uses.puts[part]) > 1:
        text += f" Tick {desk.numbers[at]} at its top. Come back here when it says back."
    ahead = [Ahead("begin", "begin the part", f"-> {desk.numbers[begin]}", begin)]
    for label, way in ways_out(node):
        if label.startswith("exit "):
            name = spoken(label.removeprefix("exit ")).upper()
            ahead.append(desk.way(where, label, way, f"it ends: {name}"))
    return Step(
        at=at,
        number=desk.numbers[at],
        kind="part",
        does=f"Do part {desk.letters[part]}",
        text=text,
        lines=(("With", given),) if given else (),
        ahead=tuple(ahead),
    )


def _end(desk: Desk, at: At, node: End) -> Step:
    verdict = desk.word(at[0], node.verdict)
    mark = VERDICTS.get(verdict)
    return Step(
        at=at,
        number=desk.numbers[at],
        kind="end",
        does=mark.word if mark else verdict,
        text=desk.text(at[0], node.because),
        lines=tuple(_ending(desk, at[0], node, verdict)),
        mark=verdict,
    )


def _ending(desk: Desk, where: str, node: End, verdict: str) -> Iterator[tuple[str, str]]:
    if any(use in verdict for use in ALLOW_USE):
        yield "Only if", USE
    yield "Do", desk.text(where, node.safe_action) if node.safe_action else "Leave everything off."
    first, call = desk.word(where, node.first or ""), desk.word(where, node.call or "park")
    whom = [FIRST.get(first, first)] if first else []
    whom.append(CALLS.get(call, call))
    when = f", if {desk.text(where, node.call_when)}" if node.call_when else ""
    yield "Call", " first, then ".join(whom) + when
    if node.say:
        yield "Say", desk.text(where, node.say)
    if node.not_ruled_out:
        faults = (desk.site.faults[n].says if n in desk.site.faults else n for n in node.not_ruled_out)
        yield "Not ruled out", "; ".join(faults)
