"""What recorded walks cover, counted by hand on a tiny library, and writing walks to the rest."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from shorewalk.author.coverage import coverage_of
from shorewalk.author.keeping import to_uncovered, write_walks
from shorewalk.author.paths import paths_of
from shorewalk.author.paths_text import in_order, percent, says
from shorewalk.author.typed import typed
from shorewalk.exits import Exit
from shorewalk.plain.heard import answer_in
from shorewalk.recorded import read_recorded
from shorewalk.replay import replay
from shorewalk.subcommands import run_command
from shorewalk.tree.library import Library, shipped
from shorewalk.walk.meter import parse_meter
from shorewalk.walk.walk import begin

END = """
    end: leave-as-is
    because: It is so.
    safe_action: Leave it as it is.
    call: park
    say: Please look.
"""
# Two uses of one part. As written there are 3 endings; 6 ways (three of dry, two of board, one of volts);
# 2 bands, and 2 exits at each of the two uses.
FILES = {
    "tiny.yaml": f"""\
tree: tiny
symptom: Something is odd
begin: dry
nodes:
  dry:
    ask: Is it wet?
    sign: wet
    choices:
      dry: {{says: "No", goto: first}}
      standing-water: {{says: "Yes", grade: stop, goto: stay_away}}
    unsure: {{goto: stay_away, grade: stop}}
  first:
    part: look
    exits: {{live: second, unread: stay_away}}
  second:
    part: look
    exits: {{live: fine, unread: stay_away}}
  stay_away:{END}  fine:{END}""",
    "parts/look.yaml": f"""\
part: look
takes: []
exits: [live, unread]
begin: board
nodes:
  board:
    step: Stand on a dry board.
    done: volts
    cannot: unread
  volts:
    measure: {{what: ac-volts, place: pedestal-30, from: L, to: "N"}}
    bands:
      - {{below: no-voltage, grade: stop, goto: dead}}
      - {{grade: ok, goto: live}}
    unable: unread
  dead:{END}""",
}
WALK = """\
walk: tiny
meter: good,tenths
answers:
  - {at: dry, choose: dry}
  - {at: first.board, done: "true"}
  - {at: first.volts, reading: "121.4"}
  - {at: second.board, cannot: "true"}
ends: {at: stay_away}
"""


@pytest.fixture
def tiny(tmp_path: Path) -> Library:
    """The tiny library, and one recorded walk beside it in `walks`."""
    for name, text in FILES.items():
        (tmp_path / "trees" / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / "trees" / name).write_text(text, encoding="utf-8")
    (tmp_path / "walks").mkdir()
    (tmp_path / "walks" / "one.yaml").write_text(WALK, encoding="utf-8")
    return Library(tmp_path / "trees")


def test_coverage_is_what_was_counted_by_hand(tiny: Library, tmp_path: Path) -> None:
    """A node of a part counts once for both uses, an exit for each use."""
    found = coverage_of(tiny, ["tiny"], [tmp_path / "walks" / "one.yaml"])
    assert found.counts("endings") == (1, 3)
    assert found.counts("ways") == (3, 6)
    assert found.counts("bands") == (1, 2)
    assert found.counts("exits") == (2, 4)
    assert not found.problems


def test_what_is_missing_has_its_place(tiny: Library, tmp_path: Path) -> None:
    """File and line of the node, in the order of the kinds, then of the files."""
    found = in_order(tiny, coverage_of(tiny, ["tiny"], [tmp_path / "walks" / "one.yaml"]).missing)
    told = [f"{Path(place.file).name}:{place.line} {says(mark)}" for place, mark in found]
    assert told == [
        "look.yaml:16 ending dead",
        "tiny.yaml:24 ending fine",
        "look.yaml:10 volts, unable",
        "tiny.yaml:5 dry, choose standing-water",
        "tiny.yaml:5 dry, unsure",
        "look.yaml:10 volts, band 1",
        "tiny.yaml:12 first, exit unread",
        "tiny.yaml:15 second, exit live",
    ]


def test_written_walks_cover_the_rest(tiny: Library, tmp_path: Path) -> None:
    """With the walks that were written everything is covered; each is replayed as recorded, and says it is invented."""
    meter = parse_meter("good,tenths")
    before = coverage_of(tiny, ["tiny"], [tmp_path / "walks" / "one.yaml"])
    walks = to_uncovered(tiny, ["tiny"], before.missing, meter)
    files = write_walks(walks, tmp_path / "walks", tiny.folder)
    assert files
    for file in files:
        end, problems = replay(read_recorded(file, tiny), tiny)
        assert end is not None
        assert not problems
        assert "invented" in file.read_text(encoding="utf-8")
    after = coverage_of(tiny, ["tiny"], (tmp_path / "walks").glob("*.yaml"))
    assert not after.missing
    assert after.percent == 100


def test_a_walk_that_no_longer_fits_is_told_with_its_line(tiny: Library, tmp_path: Path) -> None:
    """The answer that is refused; the other walks still count."""
    bad = tmp_path / "walks" / "two.yaml"
    bad.write_text(WALK.replace('board, done: "true"', 'board, unable: "true"'), encoding="utf-8")
    found = coverage_of(tiny, ["tiny"], sorted((tmp_path / "walks").glob("*.yaml")))
    assert [(Path(p.place.file).name, p.place.line) for p in found.problems] == [("two.yaml", 5)]
    assert found.walks == 1


def test_what_to_type_is_understood_as_the_answer() -> None:
    """Every answer on the way to every ending of a shipped tree, typed in plain text, is that answer."""
    library = shipped()
    for path in paths_of(library, "breaker-trips", parse_meter("basic")).paths:
        walk = begin(library, "breaker-trips", parse_meter("basic"))
        for answer in path.proven.answers if path.proven else ():
            assert answer_in(typed(answer, walk.now.node), walk.now.node) == answer
            walk = walk.answer(answer)


def test_the_command_tells_it_in_forty_columns_and_as_json(
    tiny: Library, tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """No line is wider than the terminal where words are not; the JSON has a version and all endings."""
    monkeypatch.setenv("COLUMNS", "40")
    monkeypatch.chdir(tiny.folder)
    walks = str(tmp_path / "walks")
    assert run_command(["paths", "tiny.yaml", "--walks", walks]) == Exit.CLEAN
    text = capsys.readouterr().out
    assert "endings: 1 of 3 (33 %)" in text
    assert all(len(line) <= 40 for line in text.splitlines())
    assert run_command(["paths", ".", "--walks", walks, "--format", "json"]) == Exit.CLEAN
    told = json.loads(capsys.readouterr().out)
    assert told["version"] == 1
    assert [path["at"] for path in told["trees"][0]["paths"]] == [
        "first.dead",
        "second.dead",
        "stay_away",
        "fine",
    ]
    assert told["coverage"]["exits"] == {"covered": 2, "all": 4, "percent": 50}


@pytest.mark.parametrize(("under", "code"), [("40", Exit.CLEAN), ("90", Exit.FINDINGS)])
def test_too_little_coverage_is_a_finding(tiny: Library, tmp_path: Path, under: str, code: Exit) -> None:
    """7 of 15 are covered: 46.7 %."""
    words = ["paths", str(tiny.folder), "--walks", str(tmp_path / "walks"), "--coverage", "--under", under]
    assert run_command(words) == code


@pytest.mark.parametrize(
    ("have", "all_", "share"), [(0, 3, 0), (2, 3, 66), (199, 200, 99), (3, 3, 100), (0, 0, 100)]
)
def test_a_hundred_percent_means_all(have: int, all_: int, share: int) -> None:
    """Shares are rounded down."""
    assert percent(have, all_) == share


@pytest.mark.parametrize(
    ("words", "code", "told"),
    [
        (["paths", "tingel"], Exit.UNFINISHED, '"tingle"'),
        (["paths", "tingle", "--meter", "blue"], Exit.USAGE, "basic, good"),
    ],
)
def test_what_cannot_be_looked_at_is_told_in_a_line(
    words: list[str], code: Exit, told: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """A name that is not there, with the nearest; a meter that is none."""
    assert run_command(words) == code
    error = capsys.readouterr().err
    assert told in error
    assert "Traceback" not in error
