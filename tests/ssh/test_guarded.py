"""The shared login over a real sshd, with the README's own lines: what it gives."""

from __future__ import annotations

from typing import TYPE_CHECKING

from shorewalk.exits import Exit
from shorewalk.journal import Journal
from shorewalk.reach import FETCH, GO_ON, NOT_HERE

from ..bench.walker import beginning, give_in_app, keys_in_plain, painted, steps

if TYPE_CHECKING:
    from ..bench.sshd import Sshd
    from ..bench.terminal import Terminal
    from .conftest import Login

ENDS = "tingle-at-the-door"


def walk_to_the_end(window: Terminal) -> None:
    """Walk a recorded walk in the app, to its ending."""
    for walk, answer in steps(ENDS):
        window.wait_until(painted(walk, 80), walk.now.text)
        if answer is not None:
            give_in_app(window, walk, answer)


def test_help_is_to_be_had(server: Sshd) -> None:
    """`help` says what may be asked for, without a terminal too."""
    ended = server.run("ann", "help")
    assert ended.returncode == Exit.CLEAN
    assert "walk --resume last" in ended.stdout


def test_two_people_on_one_account_see_their_own_walks_alone(server: Sshd, login: Login) -> None:
    """What Cleo answers is in her folder; neither Bob nor the account's owner is offered it."""
    (first, answer), *_ = steps("arrival-30-good")
    window = login("cleo", "walk", "arrival")
    window.wait_until(painted(first, 80))
    assert answer is not None
    give_in_app(window, first, answer)
    window.wait_until(lambda text: beginning(first.now.text) not in text)
    window.type("q")
    window.wait_for("1 Leave shorewalk", "2 To the list")
    window.type("1\r")
    assert window.wait_for_exit() == Exit.CLEAN
    journal = Journal.open(server.walks / "people" / "cleo")
    assert [(entry.tree, entry.answers) for entry in journal.unfinished()] == [("arrival", 1)]
    journal.close()
    own_folder = server.walks / "people" / "cleo"
    kept = [own_folder, *own_folder.rglob("*")]
    assert own_folder / "walks.sqlite3" in kept
    assert {path.name for path in kept if path.stat().st_mode & 0o077} == set()
    for key, words in (("bob", ()), ("own", ("shorewalk",))):
        other = login(key, *words)
        assert "We just arrived and want to plug in 1 answer" not in other.wait_for(
            "What is going on?", "! emergency"
        )
        other.hang_up()
    own = server.run("own", "shorewalk log")
    assert "We just arrived" not in own.stdout
    again = login("cleo")
    again.wait_for("Go on with", "We just arrived and want to plug in 1 answer")


def test_what_is_saved_lies_in_the_own_folder(server: Sshd, login: Login) -> None:
    """Record, page to print and exports go to one place; the person is told a name and who can fetch it."""
    window = login("ann", "walk", "tingle")
    walk_to_the_end(window)
    window.type("s")
    window.wait_for("Saved as shorewalk-tingle-", ".md and shorewalk-tingle-", FETCH)
    window.type("l")
    window.wait_for("Log", "walk")
    for key, ending in (("e", ".csv"), ("j", ".json")):
        window.type(key)
        window.wait_for("Saved as shorewalk-log-", f"{ending}. {FETCH}")
    assert str(server.account) not in window.text
    saved = server.walks / "people" / "ann" / "saved"
    assert sorted(path.suffix for path in saved.iterdir()) == [".csv", ".json", ".md", ".pdf"]
    assert {path.stat().st_mode & 0o077 for path in (saved, *saved.iterdir())} == {0}
    assert (next(saved.glob("*.pdf"))).read_bytes().startswith(b"%PDF-")


def test_no_file_is_taken_over_from_a_path(login: Login) -> None:
    """The start neither lists `o` nor asks for a file: it says whom to ask."""
    window = login("bob")
    said = window.wait_for("What is going on?", "! emergency")
    assert "hand over" not in said
    window.type("o\r")
    window.wait_for(NOT_HERE)
    window.type("?\r")
    assert "another machine" not in window.wait_for("Help", "Esc")


def test_plain_text_takes_no_path_either(login: Login) -> None:
    """The start in plain sentences names no file, and says whom to ask where one is asked for."""
    window = login("bob", "shorewalk", "--plain")
    window.wait_until(lambda text: text.endswith(">"))
    window.type("o\r")
    window.wait_until(lambda text: window.said(NOT_HERE[:40]) and text.endswith(">"))
    assert not window.said("Take over:")


def test_a_walk_that_is_handed_over_lies_in_the_own_folder(server: Sshd, login: Login) -> None:
    """`o` within a walk saves it for whoever keeps the computer, and names no path."""
    first, second = list(steps(ENDS))[:2]
    window = login("bob", "walk", "tingle")
    window.wait_until(painted(first[0], 80))
    assert first[1] is not None
    give_in_app(window, first[0], first[1])
    window.wait_until(painted(second[0], 80))
    window.type("o")
    said = window.wait_for("Handed over", "1 Leave shorewalk")
    assert FETCH in said
    assert "/" not in said.partition("is in ")[2].partition(FETCH)[0]
    assert list((server.walks / "people" / "bob" / "saved").glob("tingle-*"))


def test_practice_with_its_meter_works_behind_the_fence(login: Login) -> None:
    """A make-believe pedestal is worked out, its meter reads, and the code of a message is drawn."""
    window = login("ann", "practice", "creek-1")
    window.wait_for("Before you start", "A practice walk is not kept.")
    window.type("u")
    window.wait_for("The meter in your hands")
    window.type("dial ac black N red L\r")
    window.wait_for("black at N, red at L", "dial: AC volts")


def test_ctrl_c_asks_in_the_app_whether_to_leave(login: Login) -> None:
    """Ctrl-C does in the app what `q` does: it says that all is kept, and leaves where that is chosen."""
    window = login("cleo", "walk", "zap")
    window.wait_for("Take your hands off")
    window.type("\x03")
    window.wait_for("Every answer is kept", "1 Leave shorewalk")
    window.type("1\r")
    assert window.wait_for_exit() == Exit.CLEAN


def test_ctrl_c_leaves_plain_text_with_all_kept(login: Login) -> None:
    """Ctrl-C says that the walk is kept, and ends it without a traceback."""
    course = list(steps("breaker-trips-too-much-running"))
    window = login("cleo", "walk", "breaker-trips", "--plain")
    window.wait_until(lambda text: window.said("Question 1,") and text.endswith(">"))
    assert course[0][1] is not None
    window.type(f"{keys_in_plain(course[0][0], course[0][1])}\r")
    window.wait_until(lambda text: window.said("Question 2,") and text.endswith(">"))
    window.type("\x03")
    assert window.wait_for_exit() == Exit.UNFINISHED
    assert window.said(GO_ON)
    assert not window.said("Traceback")
