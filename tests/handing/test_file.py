"""The file that hands a walk over: what is written is read again, and nothing else is believed."""

from __future__ import annotations

import json
import os
from collections.abc import Callable
from pathlib import Path
from random import Random
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shorewalk.handing import NotTaken, read_file, read_handed, text_of
from shorewalk.handing.handed import LARGEST, MARK, MOST_ANSWERS, SUM, VERSION, WALK, sum_of
from shorewalk.walk.answers import Answered, Cannot, Choose, Done, Read, Running, Unable, Unsure

from ..bench.handed.damage import damaged
from ..bench.handed.walks import handed_of, walked

names = st.text(st.characters(codec="ascii", categories=("L", "N", "P")), min_size=1, max_size=30)
answers = st.one_of(
    st.builds(Choose, names),
    st.builds(Read, names, confirmed=st.booleans()),
    st.sampled_from((Unsure(), Unable(), Done(), Cannot())),
    st.builds(
        Running,
        st.dictionaries(names, st.integers(0, 99), max_size=4).map(lambda loads: tuple(loads.items())),
    ),
)
answered = st.builds(
    Answered, names, names, st.integers(1, 50), answers, st.none() | names, st.none() | names
)


@pytest.fixture(scope="module")
def file() -> bytes:
    """The file of a whole walk."""
    return text_of(handed_of(walked())).encode()


def refusal(data: bytes) -> str:
    """Return why a file is not taken: one line that a terminal can show."""
    with pytest.raises(NotTaken) as refused:
        read_handed(data)
    reason = str(refused.value)
    assert reason.isprintable()
    assert reason.endswith((".", "hand-over"))
    return reason


@given(st.lists(answered, min_size=1, max_size=12))
@settings(max_examples=60, deadline=None)
def test_what_is_written_is_read_again(given: list[Answered]) -> None:
    """Whatever the answers are, the file says them all, with their questions and times."""
    handed = handed_of(walked(upto=1), answers=tuple(given))
    assert read_handed(text_of(handed).encode()) == handed


def test_the_file_is_text_of_an_answer_a_line(file: bytes) -> None:
    """It is ASCII that any mail carries, and anybody can read what is in it."""
    assert file.isascii()
    lines = file.decode().splitlines()
    assert len(lines) == len(walked().answers) + len([line for line in lines if not line.startswith("   {")])
    assert json.loads(file)[MARK] == VERSION


def test_how_the_text_is_laid_out_does_not_matter(file: bytes) -> None:
    """Other blanks and line ends, as mail programs make them, change nothing; nor does a mark of UTF-8."""
    again = read_handed(file)
    assert read_handed(json.dumps(json.loads(file), indent=7).encode()) == again
    assert read_handed(b"\xef\xbb\xbf" + file.replace(b"\n", b"\r\n")) == again


@given(st.integers(0, 2**32))
@settings(max_examples=300, deadline=None)
def test_a_damaged_file_is_refused_or_equal(seed: int) -> None:
    """Whatever bytes change on the way, it says the same or is refused in one line: never a crash."""
    sound = text_of(handed_of(walked(upto=12))).encode()
    data = damaged(sound, Random(seed))  # noqa: S311 (no secret)
    try:
        found = read_handed(data)
    except NotTaken:
        refusal(data)
    else:
        assert found == read_handed(sound)


@given(st.binary(max_size=400) | st.text(max_size=200).map(lambda text: text.encode(errors="replace")))
@settings(max_examples=100, deadline=None)
def test_what_is_no_such_file_is_refused(data: bytes) -> None:
    """Any other file is refused with a reason."""
    refusal(data)


def forge(file: bytes, change: Callable[[dict[str, Any]], object]) -> bytes:
    """Return a file with something changed in its walk, and a sum that is right again."""
    whole = json.loads(file)
    change(whole[WALK])
    whole[SUM] = sum_of(whole[WALK])
    return json.dumps(whole).encode()


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (lambda walk: walk.update(id="../x"), '"id" of the walk cannot be "../x".'),
        (lambda walk: walk.update(site="14\u202e"), "U+202E"),
        (lambda walk: walk.update(park="a\nb"), "U+000A"),
        (lambda walk: walk.update(park="\x1b[2J"), "U+001B"),
        (lambda walk: walk.update(site="\ud800"), "U+D800"),
        (lambda walk: walk.update(site=""), '"site" is wanted as a text, not an empty text.'),
        (lambda walk: walk.update(site="a" * 201), "has 201 letters; at most 200 are read."),
        (lambda walk: walk.update(site="a" * 61), '"site" of the walk cannot be "aaaa'),
        (lambda walk: walk.update(visited="yesterday"), '"visited" of the walk cannot be "yesterday".'),
        (lambda walk: walk.update(visited="2026-99-99"), 'no day that there is: "2026-99-99".'),
        (lambda walk: walk.update(park="e\u0301\u0302\u0303"), "more than 2 accents stand on one letter"),
        (lambda walk: walk.update(meter="9%"), "cannot judge a supply"),
        (lambda walk: walk.update(shipped="yes"), '"shipped" is wanted as true or false.'),
        (lambda walk: walk.update(verdict="good-to-use"), 'There is no key "verdict" in the walk.'),
        (lambda walk: walk.update(state={"cord": "unplugged"}), 'There is no key "state" in the walk.'),
        (lambda walk: walk.update({"\u202e": 1}), 'There is no key "?" in the walk.'),
        (lambda walk: walk.update(answers=[]), f"a list of 1 to {MOST_ANSWERS}."),
        (lambda walk: walk.update(answers=walk["answers"][:1] * 2001), f"a list of 1 to {MOST_ANSWERS}."),
        (lambda walk: walk["answers"][0].update(grade="ok"), 'There is no key "grade" in answer 1.'),
        (lambda walk: walk["answers"][0].update(nth=0), '"nth" is wanted as a number from 1'),
        (lambda walk: walk["answers"][0].update(nth=True), '"nth" is wanted as a number from 1'),
        (lambda walk: walk["answers"][0].update(done=1), '"done" takes only true.'),
        (lambda walk: walk["answers"][0].update(choose="x"), "An answer has exactly one of these keys"),
        (lambda walk: walk["answers"][0].update(confirmed=True), '"confirmed" in answer 1 beside'),
        (lambda walk: walk["answers"][0].update(time=3), '"time" is wanted as a text, not a number.'),
        (lambda walk: walk["answers"].insert(0, 7), "Of answer 1 an object is wanted, not a number."),
    ],
)
def test_what_is_forged_is_told(file: bytes, change: Callable[[dict[str, Any]], object], said: str) -> None:
    """With the sum made right, each value is still looked at: its kind, its size, what cannot be seen in it."""
    assert said in refusal(forge(file, change))


def test_a_day_and_accents_that_there_are_pass(file: bytes) -> None:
    """Two marks on a letter, as in Vietnamese written apart, and the last day of a leap year's February."""
    forged = forge(file, lambda walk: walk.update(park="Vie\u0323\u0302t", visited="2024-02-29"))
    handed = read_handed(forged)
    assert (handed.park, handed.visited) == ("Vie\u0323\u0302t", "2024-02-29")


@pytest.mark.parametrize(
    ("data", "said"),
    [
        (b"", "The file is empty."),
        (b"\n \n", "The file is empty."),
        (b"\xff\xfe{\x00", "not text in UTF-8"),
        (b"# Record: arrival", "The file is no JSON at line 1, column 1"),
        (b'{"shorewalk-walk": 1, "walk": {"tr', "breaks off before its end"),
        (b"[]", "no file that hands a walk over"),
        (b'{"walk": {}}', "no file that hands a walk over"),
        (b'{"shorewalk-walk": 2}', "by a later shorewalk, in form 2; this one reads form 1."),
        (b'{"shorewalk-walk": true}', "does not say which form"),
        (b'{"shorewalk-walk": 1, "shorewalk-walk": 1}', "A key stands twice"),
        (b'{"shorewalk-walk": 1.0}', "A number stands in the file"),
        (b'{"shorewalk-walk": ' + b"9" * 5000 + b"}", "A number stands in the file"),
        (b'{"shorewalk-walk": NaN}', "A number stands in the file"),
        (b"[" * 100_000, "nested deeper"),
        (b'{"shorewalk-walk": 1, "sum": "' + b"0" * 64 + b'", "walk": {}}', "its sum is not that"),
        (b'{"shorewalk-walk": 1, "sum": "' + b"0" * 64 + b'"}', "its sum is not that"),
        (b" " * (LARGEST + 1), "larger than any walk: at most 512 kB"),
    ],
)
def test_every_other_file_gets_its_own_reason(data: bytes, said: str) -> None:
    """Whoever reads the reason knows what is wrong and what to do."""
    assert said in refusal(data)


def test_only_files_are_read(tmp_path: Path) -> None:
    """A folder, a pipe, a device or nothing at all is told of at once; nothing is waited for."""
    os.mkfifo(tmp_path / "pipe")
    for path in (tmp_path, tmp_path / "pipe", Path("/dev/zero"), tmp_path / "none", Path("a\0b")):
        with pytest.raises(NotTaken, match=r"no file but|is a folder|cannot be read"):
            read_file(path)


def test_no_more_than_the_largest_is_read(tmp_path: Path) -> None:
    """A huge file is refused without reading it all."""
    path = tmp_path / "huge.walk.json"
    with path.open("wb") as file:
        file.truncate(10 * LARGEST)
    data = read_file(path)
    assert len(data) == LARGEST + 1
    assert "larger than any walk" in refusal(data)
