"""Random clauses of safety rules, and trees to hold them against."""

from __future__ import annotations

from hypothesis import strategies as st

from .small import LEAVES, PROBES, SIGNS, Data, Theme, trees

HAPPENS: tuple[Data, ...] = (
    {"touch": "pedestal"},
    {"touch": "rig"},
    {"measure": "outlet"},
    {"measure": "rig-skin"},
    {"measure": "any", "load": "one-leg"},
    {"measure": "any", "between": ["hot", "neutral"]},
    {"set": {"cord": "plugged"}},
    {"set": {"pedestal-breaker": "on"}},
    {"set": ["protector", "reset"]},
    {"energise": "yes"},
    {"ask": ["tingle", "near-voltage"]},
    {"end": ["use-with-care", "good-to-use"]},
    {"end": "any"},
)
PAST: tuple[Data, ...] = (
    {"sign": {"weather": ["rain", "unsure"]}},
    {"sign": {"tingle": ["yes", "unsure"]}, "grade": "danger"},
    {"grade": "watch"},
    {"grade": "stop"},
    {"grade": "danger"},
    {"grade": "stop", "side": "park"},
    {"measure": "outlet", "grade": "stop"},
    {"set": {"reset": "used"}},
    {"set": {"pedestal-breaker": "on"}, "while": {"cord": "plugged"}},
)
CLOSING: tuple[Data, ...] = (
    {"sign": {"weather": "clear"}},
    {"measure": "rig-skin"},
    {"set": {"pedestal-breaker": "off"}},
    {"set": {"cord": "unplugged"}},
)
WHILE: tuple[Data, ...] = (
    {"cord": "plugged"},
    {"rig-main": "off"},
    {"energised": "yes"},
    {"protector": "absent"},
)
NEEDED: tuple[Data, ...] = (
    {"cord": "unplugged"},
    {"pedestal-breaker": "off", "rig-main": "off"},
    {"energised": "no"},
    {"energised": "yes", "rig-main": "on"},
    {"reset": "unused"},
    {"protector": "fitted"},
    {"shown-dead": "yes"},
)
LOOKS: tuple[Data, ...] = (
    {"look": "full-look"},
    {"look": "look-b"},
    {"look": "skin"},
    {"judged": "full-look"},
)


@st.composite
def clauses(draw: st.DrawFn) -> Data:
    """A clause: before and need, or after and never."""
    event = st.sampled_from(HAPPENS) | st.just({"end": "any"})
    match draw(st.integers(0, 8)):
        case 0:
            return {"before": draw(event) | draw(_while()), "need": draw(st.sampled_from(NEEDED))}
        case 1:
            return {"before": {"end": "any"}, "need": draw(st.sampled_from(LOOKS))}
        case 2:
            full = draw(st.sampled_from(({"look": "full-look"}, {"judged": "full-look"})))
            return {"before": {"set": {"cord": "plugged"}}, "need": full}
        case 3:
            return {"before": {"measure": "outlet"}, "need": {"slots": "free"}}
        case 4:
            return {"after": {"state": {"protector": "fitted"}}, "never": draw(event) | draw(_while())}
    clause: Data = {"after": draw(st.sampled_from(PAST)), "never": draw(event) | draw(_while())}
    if draw(st.booleans()):
        clause["until"] = draw(st.sampled_from(CLOSING))
    if draw(st.integers(0, 2)) == 2:
        clause["but"] = draw(event)
    return clause


def _while() -> st.SearchStrategy[Data]:
    return st.sampled_from(({}, {}, *({"while": each} for each in WHILE)))


FED, PLUG, HELD = LEAVES[1], LEAVES[0], LEAVES[3]
FED_RIG = (("cord", "pedestal-30"), ("pedestal-breaker", "on"))
FED_POST = (("cord", "unplugged"), ("pedestal-breaker", "on"))
THEMES: tuple[tuple[Theme, tuple[Data, ...]], ...] = (
    (Theme(), ()),
    (
        Theme((FED, PLUG), SIGNS[:1], PROBES[:1]),
        (
            {"after": PAST[0], "until": CLOSING[0], "never": {"measure": "outlet"}},
            {"after": {"grade": "watch"}, "until": CLOSING[0], "never": {"measure": "outlet"}},
        ),
    ),
    (
        Theme((FED, PLUG), SIGNS[3:4], PROBES[3:4]),
        (
            {"after": PAST[-1], "until": [*CLOSING[1:]], "never": {"end": "any"}},
            {
                "after": PAST[-1],
                "until": CLOSING[2],
                "never": {"touch": "pedestal"},
                "but": {"set": ["cord"]},
            },
        ),
    ),
    (
        Theme((LEAVES[5], LEAVES[2]), SIGNS[1:2], PROBES[:1]),
        (
            {"after": {"set": {"reset": "used"}}, "never": {"set": {"reset": "used"}}},
            {"before": {"set": {"reset": "used"}}, "need": [{"cord": "unplugged"}, {"rig-main": "off"}]},
            {"after": {"set": {"reset": "used"}}, "never": {"end": "any"}, "until": {"measure": "outlet"}},
        ),
    ),
    (
        Theme((FED, PLUG), (SIGNS[1], SIGNS[0]), PROBES[:1]),
        (
            {"before": {"end": "any"}, "need": {"look": "full-look"}},
            {"before": {"end": "any"}, "need": {"judged": "full-look"}},
        ),
    ),
    (
        Theme((HELD,), SIGNS[1:2], PROBES[3:], starts=FED_RIG),
        (
            {"before": {"end": "any"}, "need": {"look": "look-b"}},
            {"before": {"end": "any"}, "need": {"look": "skin"}},
        ),
    ),
    (
        Theme((FED,), SIGNS[:1], PROBES[:1], starts=FED_POST, kinds=("measure", "judge", "judge")),
        (
            {"before": {"end": "any"}, "need": {"judged": "full-look"}},
            {"after": {"grade": "stop"}, "never": {"end": "any"}},
        ),
    ),
)
"""Themes, with clauses that are about the same."""


@st.composite
def cases(draw: st.DrawFn) -> tuple[list[Data], list[Data]]:
    """Files of one or two trees, and their clauses.

    Which look is lacking the linter knows only in a clause that asks for that look; for others a judge is free. So
    rows with `lacks` are in trees all of whose clauses ask for it.
    """
    theme, about = draw(st.sampled_from(THEMES))
    if not about:
        theme = theme._replace(look=draw(st.sampled_from((None, "full-look", "look-b", "skin"))))
    files = (
        [draw(trees("a", "b", theme)), draw(trees("b", None, theme))] if draw(st.integers(0, 2)) == 2 else []
    )
    files = files or [draw(trees("a", None, theme))]
    if theme.look:
        event = st.sampled_from(
            ({"end": "any"}, {"end": ["use-with-care", "good-to-use"]}, {"measure": "outlet"})
        )
        return files, [{"before": draw(event), "need": {"look": theme.look}}]
    return files, [*about, draw(clauses())]
