"""The plain form of answers."""

from __future__ import annotations

from contextlib import suppress

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shorewalk.walk.answers import (
    Answer,
    Cannot,
    Choose,
    Done,
    Read,
    Running,
    Unable,
    Unsure,
    from_json,
    to_json,
)
from shorewalk.walk.refused import Refused

ANSWERS: list[Answer] = [
    Choose("30"),
    Unsure(),
    Read("121.8 V"),
    Read("12.18", confirmed=True),
    Unable(),
    Done(),
    Cannot(),
    Running((("kettle", 1),)),
    Running(),
]


@pytest.mark.parametrize("answer", ANSWERS, ids=repr)
def test_plain_form_and_back(answer: Answer) -> None:
    """Every answer comes back from its plain form as it was."""
    assert from_json(to_json(answer)) == answer


@pytest.mark.parametrize(
    "data",
    [
        None,
        [],
        "done",
        {},
        {"done": False},
        {"done": True, "cannot": True},
        {"choose": 30},
        {"reading": True},
        {"reading": None},
        {"reading": "1", "confirmed": "yes"},
        {"running": ["kettle"]},
        {"running": {"kettle": "1"}},
        {"running": {"kettle": True}},
    ],
    ids=repr,
)
def test_what_is_no_answer_is_refused(data: object) -> None:
    """What is not an answer is refused with a sentence."""
    with pytest.raises(Refused) as caught:
        from_json(data)
    assert caught.value.reason.endswith((".", "?", "wanted.", "}."))


JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=8),
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(
            st.sampled_from(["choose", "reading", "running", "done", "unsure", "x"]), inner, max_size=3
        )
    ),
    max_leaves=8,
)


@given(JSON)
def test_anything_is_an_answer_or_refused(data: object) -> None:
    """Any JSON value gives an answer or a refusal, never another error."""
    with suppress(Refused):
        answer = from_json(data)
        assert from_json(to_json(answer)) == answer
