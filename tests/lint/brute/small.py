"""Small random trees and clauses, as the plain data of their files."""

from __future__ import annotations

from typing import Any, NamedTuple

from hypothesis import strategies as st

Data = dict[str, Any]

LEAVES = (
    ("cord", ("unplugged", "pedestal-30", "pedestal-20")),
    ("pedestal-breaker", ("off", "on")),
    ("rig-main", ("off", "on")),
    ("protector", ("absent", "fitted")),
    ("test-load", ("off", "pedestal-20", "rig")),
    ("reset", ("used",)),
    ("shown-dead", ("yes", "no")),
)
SIGNS = (
    ("weather", ("clear", "rain", "thunder")),
    ("breaker-position", ("on", "tripped")),
    ("outlet-used", ("30", "20")),
    ("near-voltage", ("silent", "warns")),
    ("breaker-feel", ("firm", "spongy")),
    ("tingle", ("no", "yes")),
)
PROBES = (
    ("pedestal-30", "L", "N", "none"),
    ("pedestal-20", "L", "N", "none"),
    ("pedestal-20", "L", "G", "none"),
    ("rig-skin", "skin", "earth", "none"),
    ("rig-outlet-a", "L", "N", "one-leg"),
)
STRETCHES: tuple[Data, ...] = (
    {"below": "low"},
    {"from": "low"},
    {"from": "high"},
    {"below": "high"},
    {"above": "sure"},
    {"from": "low", "below": "high"},
)


class Theme(NamedTuple):
    """What a case is about: a few states, signs and probes, so that they meet; and a look that rows may lack."""

    leaves: tuple[tuple[str, tuple[str, ...]], ...] = LEAVES
    signs: tuple[tuple[str, tuple[str, ...]], ...] = SIGNS
    probes: tuple[tuple[str, str, str, str], ...] = PROBES
    look: str | None = None
    starts: tuple[tuple[str, str], ...] = ()
    kinds: tuple[str, ...] = ("ask", "step", "step", "measure", "measure", "judge", "work")


VERDICTS = ("use-with-care", "good-to-use", "leave-as-is", "unplugged", "stay-unplugged", "hands-off")
grades = st.sampled_from((None, None, None, "ok", "watch", "stop", "danger"))


@st.composite
def pairs(draw: st.DrawFn, theme: Theme, most: int = 2) -> Data:
    """States and values."""
    some = draw(st.lists(st.sampled_from(theme.leaves), max_size=most, unique=True))
    return {name: draw(st.sampled_from(values)) for name, values in some}


@st.composite
def ways(draw: st.DrawFn, names: list[str], theme: Theme, *, again: bool = False) -> Data:
    """A way to one of these nodes."""
    way: Data = {"goto": draw(st.sampled_from(names))}
    grade = draw(st.sampled_from((None, "again")) if again and draw(st.booleans()) else grades)
    if grade:
        way["grade"] = grade
    if draw(st.integers(0, 5)) == 5 and (leaves := draw(pairs(theme, 1))):
        way["leaves"] = leaves
    return way


@st.composite
def trees(draw: st.DrawFn, name: str, on: str | None, theme: Theme) -> Data:
    """A tree; `on` is another that it may lead to."""
    count = draw(st.integers(2, 7))
    inner = [f"{name}{at}" for at in range(count)]
    nodes: Data = {f"{name}_end": _end("leave-as-is"), f"{name}_end2": _end(draw(st.sampled_from(VERDICTS)))}
    if on:
        nodes[f"{name}_on"] = {"tree": on}
    names = [*inner, *nodes]
    kinds = {each: draw(st.sampled_from(theme.kinds)) for each in inner}
    read = [each for each in inner if kinds[each] == "measure"]
    given: dict[str, tuple[str, ...]] = {}
    made: Data = {}
    for each in sorted(inner, key=lambda each: kinds[each] in ("judge", "work")):
        later = names[names.index(each) + 1 :]
        to = draw(st.sampled_from((later[:1], later[:2], later[:3], later, names, inner)))
        made[each] = draw(_node(kinds[each] if read or kinds[each] != "work" else "step", to, given, theme))
        given |= {each: tuple(answers)} if (answers := _answers(made[each])) else {}
        if kinds[each] == "judge" and draw(st.booleans()):
            made[each] |= {"at_most": str(draw(st.integers(1, 2))), "spent": draw(ways(to, theme))}
    plain = [each for each in inner if kinds[each] != "judge"]
    if plain and draw(st.integers(0, 3)) == 3:
        made[draw(st.sampled_from(plain))]["needs"] = draw(pairs(theme, 1))
    return {
        "tree": name,
        "symptom": "Something",
        "starts": dict(theme.starts) or draw(pairs(theme, 3)),
        "begin": inner[0],
        "nodes": {each: made[each] for each in inner} | nodes,
    }


def _answers(node: Data) -> list[str]:
    if "choices" in node:
        return [*node["choices"], "unsure"]
    return ["done", "cannot"] if "step" in node else ["unable"] if "measure" in node else []


def _end(verdict: str) -> Data:
    return {"end": verdict, "because": "So.", "safe_action": "Stop.", "call": "park"}


@st.composite
def _node(draw: st.DrawFn, kind: str, to: list[str], given: dict[str, tuple[str, ...]], theme: Theme) -> Data:
    read = [name for name, answers in given.items() if "unable" in answers]
    way, again = ways(to, theme), ways(to, theme, again=True)
    match kind:
        case "ask":
            sign, answers = draw(st.sampled_from(theme.signs))
            choices = {answer: {"says": answer, **draw(way)} for answer in answers}
            return {"ask": "What?", "sign": sign, "choices": choices, "unsure": draw(way)}
        case "step":
            return {"step": "Do.", "leaves": draw(pairs(theme)), "done": draw(way), "cannot": draw(way)}
        case "measure":
            place, from_, end, load = draw(st.sampled_from(theme.probes))
            node = {
                "measure": {
                    "what": "ac-volts",
                    "place": place,
                    "from": from_,
                    "to": end,
                    "load": {"amount": load},
                },
                "unable": draw(way),
            }
            cuts = draw(st.sampled_from(((), (), ("low",), ("high",), ("low", "high"))))
            if not cuts:
                return node | {"next": draw(again)}
            return node | {"bands": [*({"below": cut, **draw(again)} for cut in cuts), draw(again)]}
        case "work":
            some = [draw(st.sampled_from(read)) for _ in range(3)]
            inputs = dict(zip(("hot1", "hot2", "hot_hot"), some, strict=True))
            return {
                "work": {"out": "cosine", "using": "leg_cosine", "from": inputs},
                "next": draw(way),
                "missing": draw(way),
            }
    of = draw(st.lists(st.sampled_from(read), max_size=2, unique=True)) if read else []
    rows = [draw(_row(to, given, theme, again=bool(of))) for _ in range(draw(st.integers(0, 2)))]
    judge: Data = {"judge": [*rows, draw(way)]}
    return judge | ({"of": of, "missing": draw(way)} if of else {})


@st.composite
def _row(
    draw: st.DrawFn, to: list[str], given: dict[str, tuple[str, ...]], theme: Theme, *, again: bool
) -> Data:
    row = draw(ways(to, theme, again=again))
    match draw(st.integers(0, 5 if given else 2)):
        case 2 if theme.look:
            row["lacks"] = theme.look
        case 0 | 2:
            row["while"] = draw(pairs(theme, 1))
        case 1:
            row["worst"] = draw(st.sampled_from(("watch", "stop", "danger")))
        case _:
            some = draw(st.lists(st.sampled_from(sorted(given)), min_size=1, max_size=2, unique=True))
            row["when"] = {
                each: draw(st.sampled_from((*(STRETCHES if "unable" in given[each] else ()), *given[each])))
                for each in some
            }
    return row
