"""Reading YAML as words with places."""

from __future__ import annotations

import gc
import re
from collections.abc import Callable

import pytest
import yaml
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from shorewalk.tree import source as module
from shorewalk.tree import text as text_module
from shorewalk.tree.source import Place, Source, TreeError, read_source


@pytest.fixture(params=["C", "pure"])
def loader(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> str:
    """Either of the two parsers; what is said and where must not depend on which is installed."""
    parser: str = request.param
    if parser == "pure":
        monkeypatch.setattr(module, "LOADER", module.words_only(yaml.BaseLoader))
        monkeypatch.setattr(text_module, "LOADER", module.LOADER)
    elif not yaml.__with_libyaml__:
        pytest.skip("this PyYAML was built without its C parser")
    return parser


def outcome(text: str | bytes) -> Source | TreeError:
    try:
        return read_source(text, "t.yaml")
    except TreeError as error:
        return error


def problems_of(text: str | bytes) -> list[str]:
    with pytest.raises(TreeError) as caught:
        read_source(text, "t.yaml")
    return [str(problem) for problem in caught.value.problems]


@pytest.mark.usefixtures("loader")
def test_words_stay_words() -> None:
    """What YAML 1.1 turns into booleans, numbers, times or nothing stays the word that was written."""
    words = ["no", "on", "50", "1:20", "010", "~", "null", "1e3", "2024-01-01", ".5", "0x1f", "y", "N"]
    text = f"a: [{', '.join(words)}]\non: yes\n50: [off]\n"
    assert read_source(text, "t.yaml").data == {"a": words, "on": "yes", "50": ["off"]}


@pytest.mark.usefixtures("loader")
def test_an_empty_value_is_the_empty_word() -> None:
    """A key without a value has the empty word, not nothing."""
    assert read_source("a:\nb: ''\n", "t.yaml").data == {"a": "", "b": ""}


@pytest.mark.usefixtures("loader")
def test_places_count_characters_from_one() -> None:
    """Places are those an editor shows, also after letters beyond ASCII, with either kind of line end."""
    source = read_source("é: {ü: [x, 𝄞y, z]}\r\nnodes:\r\n  b: c\r\n", "t.yaml")
    assert source.place(("é", "ü", 2)) == Place("t.yaml", 1, 16)
    assert str(source.place(("nodes", "b"))) == "t.yaml:3:6"
    assert source.place(("nodes", "b"), key=True) == Place("t.yaml", 3, 3)


def test_a_route_that_is_not_there_gives_its_nearest_ancestor() -> None:
    """Whoever asks for the place of something missing gets where it would belong."""
    source = read_source("nodes:\n  b:\n    ask: x\n  c: [one]\n", "t.yaml")
    assert source.place(("nodes", "b", "sign")) == Place("t.yaml", 3, 5)
    assert source.place(("nodes", "b", "sign"), key=True) == Place("t.yaml", 2, 3)
    assert source.place(("nodes", "c", 7)) == Place("t.yaml", 4, 6)
    assert source.place(("nodes", "c", 0, "x", 1), key=True) == Place("t.yaml", 4, 7)
    assert source.place(("gone", "b")) == source.place(()) == Place("t.yaml", 1, 1)


HOSTILE: list[tuple[str, str | bytes, str]] = [
    ("empty", "", "t.yaml:1:1: The file is empty. Write keys and values, the first line like `tree: t`."),
    ("only comments", "# a\n", "t.yaml:1:1: The file is empty."),
    ("a list", "- a\n", "t.yaml:1:1: The file does not begin with a key."),
    ("a scalar", "hello", "t.yaml:1:1: The file does not begin with a key."),
    ("duplicate key", "a: 1\nb: {c: 1, c: 2}\n", 't.yaml:2:11: The key "c" stands here a second time; '),
    ("duplicate key names the first", "a: 1\nb: {c: 1, c: 2}\n", "the first is at line 2, column 5."),
    (
        "quoted twin",
        "'on': 1\non: 2\n",
        't.yaml:2:1: The key "on" stands here a second time; the first is at line 1',
    ),
    ("anchor", "a: &x b\n", 't.yaml:1:4: The anchor "&x" is not read.'),
    ("anchor on a mapping", "a: &x\n  b: c\n", 'The anchor "&x" is not read.'),
    ("anchor in flow", '{"a":&x b}', 'The anchor "&x" is not read.'),
    ("anchor in brackets", "a: [b,&x c]", 'The anchor "&x" is not read.'),
    ("alias", "a: &x b\nc: *x\n", 't.yaml:2:4: The alias "*x" is not read. Write the value out.'),
    ("alias as key", "a: &x b\n*x : c\n", 't.yaml:2:1: The alias "*x" is not read.'),
    ("unknown alias", "a: *x\n", 't.yaml:1:4: The alias "*x" is not read.'),
    ("merge key", "<<: {a: b}\n", 't.yaml:1:1: A merge key ("<<") is not read.'),
    ("merge of an alias", "a: &x {b: c}\nd:\n  <<: *x\n", 't.yaml:3:7: The alias "*x" is not read.'),
    ("tag", "a: !!str 5\n", 't.yaml:1:4: The tag "tag:yaml.org,2002:str" is not read'),
    ("python tag", "a: !!python/object/apply:os.system [ls]\n", "t.yaml:1:4: The tag "),
    ("bare tag", "a: ! 5\n", 't.yaml:1:4: The tag "!" is not read'),
    ("tag on the file", "!x\na: b\n", 't.yaml:1:1: The tag "!x" is not read'),
    ("two documents", "a: b\n---\nc: d\n", "t.yaml:2:1: A second document begins here."),
    ("nesting in brackets", "a: " + "[" * 60 + "]" * 60, "t.yaml:1:43: This is nested more than 40 deep."),
    ("nesting beyond parsers", "[" * 5000, "t.yaml:1:41: This is nested more than 40 deep."),
    (
        "nesting by indentation",
        "".join(" " * n + "a:\n" for n in range(60)),
        "t.yaml:41:41: This is nested more than",
    ),
    (
        "huge scalar",
        f"a: {'x' * 20_001}\n",
        "t.yaml:1:4: This value has 20001 characters; at most 20000 are read.",
    ),
    ("huge key", f"{'x' * 300}: a\n", "t.yaml:1:1: This key is longer than 200 characters."),
    (
        "huge file",
        "# " + "x" * 5_000_000,
        "t.yaml:1:1: The file has 5000002 bytes; at most 5000000 are read.",
    ),
    ("a list as key", "? [a]\n: b\n", "t.yaml:1:3: A list or mapping stands where a key belongs."),
    ("a key that is empty", "'': x\n", "t.yaml:1:1: There is no key before this colon."),
    ("binary", b"\x7fELF\x02\x01\x01\x00", "t.yaml:1:1: The character U+007F here cannot be seen"),
    ("not UTF-8", "a: b\nc: d\u00e9f".encode("latin-1"), "t.yaml:2:5: The byte 0xe9 here is not UTF-8."),
    ("UTF-16", "a: b".encode("utf-16"), "t.yaml:1:1: The file is written in UTF-16. Save it as UTF-8."),
    ("UTF-16 without its mark", "a: b".encode("utf-16-le"), "t.yaml:1:2: The character U+0000 here"),
    ("bidi override", "a: b\nc: x\u202ey\n", "t.yaml:2:5: The character U+202E here cannot be seen or turns"),
    ("zero width space", "a\u200b: b\n", "t.yaml:1:2: The character U+200B"),
    ("next line", "a: b\x85c: d\n", "t.yaml:1:5: The character U+0085"),
    ("line separator", "a: b\u2028c: d\n", "t.yaml:1:5: The character U+2028"),
    ("lone carriage return", "a: b\rc: d\n", "t.yaml:1:5: The character U+000D"),
    ("lone surrogate", "a: \ud800\n", "t.yaml:1:4: The character U+D800"),
    ("escaped control", 'a: "x\\0"\n', "t.yaml:1:4: The character U+0000"),
    ("escaped bidi in a key", '"\\u202e": x\n', "t.yaml:1:1: The character U+202E"),
    ("escaped surrogate", 'a: "\\ud800"\n', "t.yaml:1:"),
    ("tab as indentation", "a:\n\tb: c\n", "t.yaml:2:1: A tab stands here. Use spaces."),
    ("colon in words", "a: turn it: off\n", 't.yaml:1:11: A second ": " on this line.'),
    (
        "open quote",
        "a: 'b\n",
        "The file ends inside a quote or bracket (it began at line 1, column 4). Close it.",
    ),
    ("open bracket", "a: [b, c\n", "A comma or closing bracket is missing"),
    ("at sign", "a: @b\n", 't.yaml:1:4: "@" cannot begin a value'),
    ("unknown escape", 'a: "\\q"\n', "YAML knows no such backslash"),
    ("text after a quote", "a: 'b' c\n", "t.yaml:1:8: "),
    (
        "indentation that fits nothing",
        "a:\n  b: c\n d: e\n",
        "t.yaml:3:2: The indentation here fits no line above",
    ),
    ("item among keys", "- a\nb: c\n", "t.yaml:2:1: "),
    ("word without colon", "a: b\nc\n", "t.yaml:3:1: This line has no colon"),
]


@pytest.mark.usefixtures("loader")
@pytest.mark.parametrize(("text", "said"), [case[1:] for case in HOSTILE], ids=[case[0] for case in HOSTILE])
def test_hostile_text_is_refused_with_a_place(text: str | bytes, said: str) -> None:
    """Whatever means two things, hides something or is no YAML is refused in our words, with its place."""
    problems = problems_of(text)
    assert any(said in problem for problem in problems), problems
    assert all("\n" not in problem for problem in problems)


@pytest.mark.usefixtures("loader")
def test_an_alias_bomb_is_refused_at_once() -> None:
    """A small file that would unfold to millions of values is refused by its first anchor, not unfolded."""
    lines = ["a: &a [x, x]"] + [
        f"{b}: &{b} [*{a}, *{a}]" for a, b in zip("abcdefghij", "bcdefghijk", strict=True)
    ]
    assert problems_of("\n".join(lines))[0].startswith('t.yaml:1:4: The anchor "&a"')


def test_all_problems_of_a_text_are_told_in_order() -> None:
    """An author sees every fault of a file at once, from top to bottom."""
    problems = problems_of("a: 1\na: 2\n<<: x\nb: {c: 1, c: 2}\n")
    assert [problem.split(": ")[0] for problem in problems] == ["t.yaml:2:1", "t.yaml:3:1", "t.yaml:4:11"]


def test_a_list_as_key_beside_a_key_twice_is_told_too() -> None:
    """Both are told, each at its place: what is no word is no twin of anything."""
    problems = problems_of("a: 1\n[b]: 2\na: 3\n{c}: 4\n")
    assert [problem.split(": ")[0] for problem in problems] == ["t.yaml:2:1", "t.yaml:3:1", "t.yaml:4:1"]


def test_marks_inside_words_are_words() -> None:
    """Ampersands, stars and exclamation marks within text are what they look like."""
    data = read_source("a: salt & pepper\nb: 2 * 3!\nc: 'stop! now'\nd: [x&y, '*z']\n", "t.yaml").data
    assert data == {"a": "salt & pepper", "b": "2 * 3!", "c": "stop! now", "d": ["x&y", "*z"]}


def test_a_byte_order_mark_is_left_out() -> None:
    """A file that an editor began with a byte order mark reads like any other."""
    assert read_source(b"\xef\xbb\xbfa: b\n", "t.yaml").data == {"a": "b"}


@pytest.mark.parametrize("collecting", [True, False])
@pytest.mark.parametrize("text", ["a: b", "a: b: c"])
def test_the_garbage_collector_is_left_as_it_was(collecting: bool, text: str) -> None:  # noqa: FBT001
    """Reading turns the collector off for speed and puts it back, on success and on failure."""
    before = gc.isenabled()
    put: Callable[[], None] = gc.enable if collecting else gc.disable
    put()
    try:
        outcome(text)
        assert gc.isenabled() is collecting
    finally:
        (gc.enable if before else gc.disable)()


YAMLISH = st.text(
    alphabet=st.sampled_from("ab:- \n\t[]{}'\"\\#&*!|>%@?,0\r\x00\u202e\ufeff~<"), max_size=60
) | st.text(max_size=60)


@given(YAMLISH)
@settings(max_examples=400, deadline=None)
def test_any_text_is_a_source_or_an_error(text: str) -> None:
    """No text makes the reader raise anything but `TreeError`, and each problem has a place in the file."""
    found = outcome(text)
    if isinstance(found, TreeError):
        lines = text.count("\n") + 2
        assert found.problems
        assert all(1 <= p.place.line <= lines and p.place.column >= 1 for p in found.problems)


@given(st.binary(max_size=60))
@settings(max_examples=200, deadline=None)
def test_any_bytes_are_a_source_or_an_error(text: bytes) -> None:
    """The same for bytes that were never text."""
    found = outcome(text)
    assert isinstance(found, Source) or found.problems


@given(
    st.text(alphabet=st.sampled_from("ab:- \n\t[]{}'\"\\#&*!|>%@,0~<."), max_size=40)
)  # they differ on {-?,}
@settings(max_examples=200, deadline=None)
def test_both_parsers_read_the_same(text: str) -> None:
    """Both parsers read the same words from a text, and refuse the same texts.

    But for a colon right before a bracket or comma, as in {a:}: only one of them takes that for a key.
    """
    assume(not re.search(r":[,?\[\]{}]", text))
    read: list[object] = []
    for parser in (getattr(yaml, "CBaseLoader", yaml.BaseLoader), yaml.BaseLoader):
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr(module, "LOADER", module.words_only(parser))
            patch.setattr(text_module, "LOADER", module.LOADER)
            read.append(getattr(outcome(text), "data", None))
    assert read[0] == read[1]
