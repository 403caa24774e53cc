"""What the log works out of walks is kept beside them, and is shown again only while it would come out the same."""

from __future__ import annotations

import random
import shutil
import sqlite3
import subprocess
import sys
from pathlib import Path

import pytest

from shorewalk.folders import demo_data, trees
from shorewalk.journal import Journal, understood
from shorewalk.journal.store import FILE
from shorewalk.journal.understood import BESIDE, ROOMS, understood_by
from shorewalk.log.as_csv import walks_csv
from shorewalk.log.as_json import walks_json
from shorewalk.log.kept import Kept, kept_walks
from shorewalk.log.shelf import Shelf
from shorewalk.log.stays import sites_of
from shorewalk.log.table import Table, site_lines
from shorewalk.log.worked import packed, unpacked, worked
from shorewalk.log.working_out import work_out, working_out
from shorewalk.plain.compared import site_in_words
from shorewalk.recorded import read_recorded
from shorewalk.tree.library import Library, shipped
from shorewalk.tree.source import TreeError
from shorewalk.walk.walk import Walk, begin

from .conftest import ARRIVAL, BEFORE, SITE, SUPPER, Clock, Keep

MANY = 24
NEVER = 2**63
LOADED = """
import sys
from pathlib import Path
from shorewalk.journal import Journal
from shorewalk.log.kept import kept_walks
assert [walk.readings for walk in kept_walks(Journal.open(Path(sys.argv[1])))]
print(*(module.__file__ for name, module in sys.modules.items() if name.startswith("shorewalk.")))
"""


@pytest.fixture(autouse=True)
def _long_ago(monkeypatch: pytest.MonkeyPatch) -> None:
    """This process began long after program and trees were written, however new the checkout is."""
    monkeypatch.setattr(understood, "BEGAN", NEVER)


@pytest.fixture
def replays(monkeypatch: pytest.MonkeyPatch) -> list[int]:
    """The numbers of the walks that are replayed from now on."""
    replayed: list[int] = []
    load = Journal.load

    def noted(journal: Journal, number: int, library: Library | None = None) -> object:
        replayed.append(number)
        return load(journal, number, library)

    monkeypatch.setattr(Journal, "load", noted)
    return replayed


def shown(journal: Journal) -> list[str]:
    """Return all that the log shows and saves."""
    walks = kept_walks(journal)
    said = [walks_csv(walks), walks_json(walks, "2024-05-01T20:00:00Z")]
    for site in sites_of(kept_walks(journal)):
        said += [str(site_lines(site, Table(72, ascii_only=False))), *site_in_words(site)]
    return said


def walked(name: str, time: str, most: int | None = None) -> Walk:
    """Return a recorded walk, as far as `most` answers; what was recorded without a time was answered at this one."""
    recorded = read_recorded(demo_data() / "walks" / f"{name}.yaml")
    walk = begin(shipped(), recorded.walk, recorded.meter)
    for _, _, answer, then in recorded.answers[:most]:
        walk = walk.answer(answer, time=then or time)
    return walk


def tables_of(home: Path) -> list[tuple[int, int]]:
    """Return the walks of which something is kept as worked out, with its turn."""
    with sqlite3.connect(home / FILE) as database:
        rows = database.execute("select walk, turn from worked_out order by walk").fetchall()
    database.close()
    return rows


@pytest.mark.parametrize("seed", range(3))
def test_what_is_kept_is_shown_as_a_replay_shows_it(
    journal: Journal, replays: list[int], monkeypatch: pytest.MonkeyPatch, seed: int
) -> None:
    """Walks of all kinds, whole or left: the same table, sentences, CSV and JSON, and the second time no replay."""
    chance = random.Random(seed)  # noqa: S311 (no secret)
    names = sorted(path.stem for path in (demo_data() / "walks").glob("*.yaml"))
    for day, name in enumerate(chance.sample(names, MANY), 1):
        number = journal.begin(walked(name, f"2024-05-{day:02}T18:50:00Z", chance.choice((None, None, 3, 9))))
        if where := chance.choice((SITE, BEFORE, None)):
            journal.label(number, **where._replace(outlet=chance.choice(("30 A outlet", None)))._asdict())
    with monkeypatch.context() as before:
        before.setattr(understood, "BEGAN", 0)
        replayed = shown(journal)
    assert shown(journal) == replayed
    replays.clear()
    assert shown(journal) == replayed
    assert replays == []


def test_every_reading_comes_back_as_it_was() -> None:
    """Each field of each reading of every recorded arrival, to the last digit."""
    names = sorted(path.stem for path in (demo_data() / "walks").glob("arrival-*.yaml"))
    for name in names[::7]:
        out = worked(walked(name, "2024-05-01T18:50:00Z"))
        assert unpacked(packed(out)) == out


def test_a_walk_that_is_answered_on_is_worked_out_anew(full: Journal, replays: list[int]) -> None:
    """What was kept of it is of the walk as it stood then."""
    work_out(kept_walks(full))
    replays.clear()
    walk = full.load(3)
    full.keep(3, walk.back())
    work_out(kept_walks(full))
    assert replays == [3, 3]
    assert full.entry(3).answers == len(walk.answers) - 1


def test_another_tree_means_another_reading(tmp_path: Path, journal: Journal, replays: list[int]) -> None:
    """Where anything in the folder of its trees was changed, a walk is worked out by the trees as they are now."""
    folder = tmp_path / "own"
    shutil.copytree(trees(), folder)
    recorded = read_recorded(demo_data() / "walks" / f"{SUPPER}.yaml")
    walk = begin(Library(folder), recorded.walk, recorded.meter)
    for _, _, answer, _ in recorded.answers:
        walk = walk.answer(answer, time="2024-05-01T18:50:00Z")
    number = journal.begin(walk)
    work_out(kept_walks(journal))
    replays.clear()
    assert kept_walks(journal)[0].readings[0].known.grade == "watch"
    assert replays == []
    part = next(path for path in sorted((folder / "parts").glob("*.yaml")) if "voltage" not in path.name)
    part.write_text(part.read_text(encoding="utf-8") + "# another word\n", encoding="utf-8")
    assert kept_walks(journal)[0].readings
    assert replays == [number]


def test_what_changed_since_the_program_began_is_not_gone_by(
    journal: Journal, keep: Keep, home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A tree or a file of the program written meanwhile: nobody knows which of both this process read."""
    keep(SUPPER, "2024-05-01T18:50:00", SITE)
    monkeypatch.setattr(understood, "BEGAN", 0)
    assert understood_by(shipped()) is None
    walks = kept_walks(journal)
    work_out(walks)
    assert walks[0].readings
    assert tables_of(home) == []


def test_all_code_that_makes_readings_decides_whether_they_hold(home: Path, full: Journal) -> None:
    """Whatever is loaded to replay walks is summed; a change in any of it lets what was kept before count no more."""
    full.close()
    done = subprocess.run(
        [sys.executable, "-c", LOADED, str(home)], check=True, capture_output=True, text=True, timeout=60
    )
    package = Path(understood.__file__).resolve().parents[1]
    loaded = {Path(file).resolve().relative_to(package) for file in done.stdout.split()}
    assert len(loaded) > len(ROOMS)
    assert {path for path in loaded if path.parts[0] not in (*ROOMS, *BESIDE)} == set()


def test_what_is_damaged_is_worked_out_anew(full: Journal, home: Path, replays: list[int]) -> None:
    """Bytes that are no readings are as good as none, and are written over."""
    before = shown(full)
    with sqlite3.connect(home / FILE) as database:
        database.execute("update worked_out set data = ? where walk < 3", (b"no readings",))
        database.execute("update worked_out set data = ? where walk = 3", ("text",))
    database.close()
    replays.clear()
    assert shown(full) == before
    assert sorted(set(replays)) == [1, 2, 3]
    replays.clear()
    assert shown(full) == before
    assert replays == []


def test_what_is_deleted_leaves_nothing_worked_out(full: Journal, home: Path) -> None:
    """With a walk goes all that was made from it."""
    work_out(kept_walks(full))
    assert [walk for walk, _ in tables_of(home)] == [1, 2, 3, 4, 5]
    full.delete(2, 4)
    assert [walk for walk, _ in tables_of(home)] == [1, 3, 5]


def test_nobody_is_waited_for(full: Journal, home: Path) -> None:
    """Where another program is writing, readings are shown all the same; nothing is kept, and nothing is wrong."""
    other = sqlite3.connect(home / FILE, isolation_level=None)
    other.execute("begin immediate")
    walks = kept_walks(full)
    work_out(walks)
    assert all(walk.readings for walk in walks)
    other.execute("rollback")
    other.close()
    assert full.problem is None
    assert tables_of(home) == []
    full.label(1, site="14")  # the journal still waits where it must
    assert full._database.execute("pragma busy_timeout").fetchone() == (2000,)


def test_what_is_answered_meanwhile_does_not_count(full: Journal, home: Path) -> None:
    """A walk that another program answered between its replay and the writing is worked out anew."""
    steps = working_out(kept_walks(full))
    next(steps)
    other = Journal.open(home)
    (first,) = [entry for entry in other.walks() if entry.id == kept_walks(full)[0].entry.id]
    other.keep(first.id, other.load(first.id).back())
    other.close()
    steps.close()
    assert Shelf(full).find(full.entry(first.id)) is None
    assert tables_of(home) == []


def test_what_comes_late_is_not_taken_for_a_walk_of_the_same_number(full: Journal, home: Path) -> None:
    """A walk was deleted while it was read, and one begun since has its number and turn: that one is shown."""
    latest = kept_walks(full)[0].entry
    late = working_out(kept_walks(full))
    next(late)
    turn = full.turn(latest.id)
    other = Journal.open(home)
    other.delete(latest.id)
    number = other.begin(walked(ARRIVAL, "2024-05-03T18:50:00Z"))
    other._database.execute("update walks set turn = ? where id = ?", (turn, number))
    assert number == latest.id
    assert Shelf(full).find(latest) is None
    late.close()
    assert tables_of(home) == []
    (new,) = [walk for walk in kept_walks(other) if walk.entry.id == number]
    assert Shelf(other).find(new.entry) is None
    assert [reading.known for reading in new.readings] == [*worked(new.walk).known]
    work_out([new])
    assert Shelf(other).find(latest) is None
    assert Shelf(other).find(new.entry) is not None
    other.close()


def test_what_was_worked_out_until_one_left_is_kept(full: Journal, home: Path) -> None:
    """Whoever goes back half way does not wait for the same again."""
    steps = working_out(kept_walks(full))
    assert [next(steps), next(steps)] == [4, 3]
    steps.close()
    assert len(tables_of(home)) == 2


def test_a_walk_whose_tree_is_gone_is_listed_without_readings(
    tmp_path: Path, journal: Journal, clock: Clock, replays: list[int]
) -> None:
    """It is not whole and has no readings; each listing tries it anew, for its tree may come back."""
    clock.set("2024-05-01T18:50:00")
    folder = tmp_path / "own"
    shutil.copytree(trees(), folder)
    recorded = read_recorded(demo_data() / "walks" / f"{ARRIVAL}.yaml")
    journal.begin(begin(Library(folder), recorded.walk, recorded.meter).answer(recorded.answers[0][2]))
    shutil.rmtree(folder)
    for _ in range(2):
        (walk,) = kept_walks(journal)
        work_out([walk])
        assert (walk.whole, walk.readings, walk.facts) == (False, (), None)
    assert len(replays) == 2
    shutil.copytree(trees(), folder)
    assert Kept(journal, journal.walks()[0], Shelf(journal)).whole


def test_a_fault_that_passes_is_not_kept(full: Journal, home: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where a tree cannot be read for a moment, the next listing has the readings again, with no file changed."""
    with monkeypatch.context() as broken:

        def fail(*_: object) -> None:
            raise TreeError([])

        broken.setattr(Journal, "load", fail)
        walks = kept_walks(full)
        work_out(walks)
        assert not any(walk.readings for walk in walks)
    assert tables_of(home) == []
    assert all(walk.readings for walk in kept_walks(full))
