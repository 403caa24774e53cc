"""Practice in plain text: whole walks typed with a make-believe meter in the hand, and what is said of them."""

from __future__ import annotations

import io
from pathlib import Path

import pytest

from shorewalk.exits import Exit
from shorewalk.journal import Journal, Keeper
from shorewalk.journal.practised import keep_practised, practised
from shorewalk.journal.store import connect_in_memory
from shorewalk.pedestal.bench import Bench
from shorewalk.pedestal.campground import Site, bench_at, campground, read_sites, surprise
from shorewalk.pedestal.hands import Hands
from shorewalk.plain.practising import Practising
from shorewalk.starting import start
from shorewalk.subcommands import run_command
from shorewalk.tree.model import ALLOW_USE, Ask, Measure, Step
from shorewalk.tree.source import TreeError
from shorewalk.walk.message import ending

SITES = campground()


class Learner(io.StringIO):
    """Types what a careful learner types: looks, turns the dial, puts black in first, reads, answers.

    `wrong` gives what is typed instead, by node.
    """

    def __init__(self, wrong: dict[str, list[str]] | None = None) -> None:
        super().__init__()
        self.talk: Practising
        self.wrong = wrong or {}
        self._ahead: list[str] = []

    def readline(self, size: int | None = -1, /) -> str:  # type: ignore[override] # noqa: ARG002
        if not self._ahead:
            self._ahead = self._typed()
        return self._ahead.pop(0) + "\n" if self._ahead else ""

    def _typed(self) -> list[str]:
        node, bench = self.talk.walk.now.node, self.talk.bench
        if node.name in self.wrong:
            return [*self.wrong[node.name]]
        match node:
            case Ask():
                seen = bench.person.see(node)
                ids = [choice.id for choice in node.choices]
                return ["look", str(ids.index(seen.id) + 1) if hasattr(seen, "id") else "0"]
            case Step():
                return ["0" if bench.person.cannot(node) else "1"]
            case Measure():
                return [f"dial ac black {node.from_} red {node.to}", "READ"] if not self._out(node) else ["x"]
        return ["2"] if not self.talk.walk.ended else []

    def _out(self, node: Measure) -> bool:
        return "earth" in (node.from_, node.to) and "peg" in self.talk.bench.person.lacks


def practise(site: Site, learner: Learner | None = None, seed: int = 1) -> tuple[str, Practising]:
    """A whole walk, and all that was said."""
    learner, out = learner or Learner(), io.StringIO()
    walk = start("arrival", "basic,tenths")
    keeper = Keeper(Journal(connect_in_memory()))
    talk = Practising(walk, keeper, learner, out).at(Hands(bench_at(site, walk.meter, seed)))
    learner.talk = talk
    turn = talk._turn

    def typed(words: str) -> None:
        turn(talk.bench.meter.display if words == "READ" else words)

    talk._turn = typed  # type: ignore[assignment,method-assign]
    assert talk.run() == Exit.CLEAN
    return " ".join(out.getvalue().split()), talk


@pytest.mark.parametrize("name", SITES)
def test_a_careful_learner_ends_as_they_should_at_every_site(name: str) -> None:
    """With the meter, from the first question to the ending: the fault is said, the walk was right, no mistake seen."""
    said, talk = practise(SITES[name])
    end = ending(talk.walk, None)
    assert (end.verdict in ALLOW_USE) is (SITES[name].fault == "nothing"), end
    assert talk.bench.fault.says in said
    assert "Your walk ended as it should." in said, said[-1500:]
    assert "You made no mistake that was seen." in said, said[-1500:]


def test_the_campground_goes_from_easy_to_nasty() -> None:
    """A dozen and more, sound ones among them, and every level."""
    levels = [site.level for site in SITES.values()]
    assert len(SITES) >= 12
    assert levels == sorted(levels, key=("easy", "fair", "nasty").index)
    assert {site.fault for site in SITES.values()} >= {"nothing", "false-ground", "ground-live"}


def test_the_display_wanders_and_shows_what_the_dial_deserves() -> None:
    """AC volts wander in the last digit; DC shows next to nothing; ohms on live slots is a mistake that could hurt."""
    bench = bench_at(SITES["creek-1"], start("arrival", "basic,tenths").meter)
    bench.person.stand.follow({"pedestal-breaker": "on"})
    bench.meter.black, bench.meter.red, bench.meter.dial = ("pedestal-30", "N"), ("pedestal-30", "L"), "ac"
    shown = {bench.read() for _ in range(20)}
    assert len(shown) > 1
    assert all(115 < float(each.removesuffix(" V")) < 130 for each in shown)
    bench.meter.dial = "dc"
    assert float(bench.read().removesuffix(" V DC")) < 0.2
    bench.meter.dial = "off"
    assert bench.read() == ""
    assert not bench.mistakes
    bench.meter.dial = "ohms"
    assert bench.read() == "OL"
    assert [mistake.hurts for mistake in bench.mistakes] == [True]


def test_probing_too_early_and_misreading_are_told_at_the_end() -> None:
    """Red first, before the cautions, would have hurt; a number that the display never showed is told too."""
    early = Learner({"before_you_start": ["red L", "out", "1"]})
    said, talk = practise(SITES["ridge-9"], early)
    assert "What could have hurt you:" in said
    assert "You probed before the cautions were read." in said
    assert "red probe went in before the black one" in said
    node = next(answered.at for answered in talk.walk.answers if answered.at.endswith("hot_neutral"))
    said, _ = practise(SITES["creek-1"], Learner({node: ["dial ac black N red L", "12.1", "12.1"]}))
    assert "You typed 12.1" in said


def test_a_plug_that_goes_into_a_live_outlet_is_told_with_what_to_do_the_next_time() -> None:
    """At a breaker whose pole stays closed, who types that all is dead plugs in live: it could have hurt."""
    nodes = ("hot_earth", "hot_ground", "hot_neutral")
    dead = {f"{part}.{node}": ["0.0"] for part in ("dead_30", "dead_again_30") for node in nodes}
    said, talk = practise(SITES["ridge-17"], Learner(dead))
    assert "The plug went into a live outlet." in [
        mistake.says for mistake in talk.bench.mistakes if mistake.hurts
    ]
    then = said[said.index("Next time:") :]
    assert "every pair read dead, before the plug goes in" in then
    assert "type what the display shows" in then
    said, _ = practise(SITES["creek-1"])
    assert "Next time: a nastier site, or a surprise." in said


def test_what_the_meter_cannot_do_is_said() -> None:
    """A slot that is not there, a dial that is not there, a plug in the way: a sentence, and the walk stands."""
    typed = Learner(
        {"before_you_start": ["dial volts", "red Q", "black 50:L1", "meter", "look", "practice", "1"]}
    )
    said, _ = practise(SITES["creek-1"], typed)
    assert "The dial has: off, ac, low, dc, ohms, hertz." in said
    assert "Say where, like black N or red 20:L." in said
    assert "Display: dark" in said
    assert "Nothing is asked for your eyes here." in said


def test_a_plug_hides_its_slots() -> None:
    """No probe goes where the cord is."""
    bench = bench_at(SITES["creek-1"], start("arrival", "basic,tenths").meter)
    bench.person.stand.follow({"cord": "pedestal-30"})
    assert bench.put("black", ("pedestal-30", "N"), start("arrival")) == "A plug is in these slots."
    assert bench.meter.black is None


def test_a_surprise_comes_again_by_its_number() -> None:
    """The seed decides fault and outlet; any seed gives a bench."""
    assert surprise(7) == surprise(7)
    assert len({surprise(seed).fault for seed in range(60)}) > 10
    for seed in range(20):
        assert isinstance(bench_at(surprise(seed), start("arrival").meter), Bench)


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("level: hard, outlet: '30', fault: nothing", '"hard" is not known here. Use easy, fair or nasty.'),
        ("level: easy, outlet: '15', fault: nothing", '"15" is not known here.'),
        ("level: easy, outlet: '30', fault: gremlins", '"gremlins" is not known here.'),
        ("level: easy, outlet: '30', fault: leg-lost", 'The fault "leg-lost" cannot be at a 30 A outlet.'),
        ("level: easy, outlet: '30', fault: nothing, water: 1", 'The key "water" is not known here.'),
    ],
)
def test_a_wrong_site_is_one_line_with_its_place(tmp_path: Path, line: str, said: str) -> None:
    """What was found, where, what is allowed."""
    file = tmp_path / "sites.yaml"
    file.write_text(f"mine: {{says: A site, {line}}}\n", encoding="utf-8")
    with pytest.raises(TreeError) as caught:
        read_sites(file)
    assert str(caught.value).startswith(f"{file}:1:")
    assert said in str(caught.value)


def test_the_command_lists_the_sites_and_refuses_others(capsys: pytest.CaptureFixture[str]) -> None:
    """Without a name, all of them; with a wrong one, the nearest."""
    assert run_command(["practice"]) == Exit.CLEAN
    listed = capsys.readouterr().out
    assert all(name in listed for name in SITES)
    assert run_command(["practice", "creek-l"]) == Exit.USAGE
    assert 'Did you mean "creek-' in capsys.readouterr().err


def test_where_one_has_practised_is_kept(tmp_path: Path) -> None:
    """The last walk at a site counts; a file that is spoilt or cannot be written loses nothing but itself."""
    assert practised(tmp_path) == {}
    assert keep_practised("creek-1", right=False, folder=tmp_path) is None
    assert keep_practised("ridge-9", right=True, folder=tmp_path) is None
    assert keep_practised("creek-1", right=True, folder=tmp_path) is None
    assert practised(tmp_path) == {"creek-1": True, "ridge-9": True}
    (tmp_path / "practice.json").write_text("{", encoding="utf-8")
    assert practised(tmp_path) == {}
    (tmp_path / "file").write_text("", encoding="utf-8")
    said = keep_practised("creek-1", right=True, folder=tmp_path / "file")
    assert said
    assert said.startswith("Your progress is not kept (")


def test_the_list_says_where_one_has_been(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """Beside its site, and whether that walk ended as it should."""
    monkeypatch.setenv("SHOREWALK_HOME", str(tmp_path))
    keep_practised("creek-1", right=True)
    keep_practised("ridge-9", right=False)
    assert run_command(["practice"]) == Exit.CLEAN
    listed = " ".join(capsys.readouterr().out.split())
    assert "sun (done, as it should)" in listed
    assert "hands (done, not as it should)" in listed
