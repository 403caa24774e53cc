"""Trees of one's own: what the shipped ones do not come to, text that looks like markup, and files that are wrong."""

from __future__ import annotations

from pathlib import Path

import pytest
from markdown_it import MarkdownIt

from shorewalk.printing.as_markdown import as_markdown
from shorewalk.printing.as_text import as_text
from shorewalk.printing.make import checklist
from shorewalk.printing.step import Checklist
from shorewalk.subcommands import run_command
from shorewalk.tree.library import Library

from .conftest import Reader

HOSTILE = "# <b>*Is* it</b> [dim](http://x)? | `1` | &lt; _so_ ~~no~~ 1. \\\\ $x$ Ω 日本"
TREE = f"""\
tree: own
symptom: "{HOSTILE}"
begin: begin
nodes:
  begin:
    ask: "{HOSTILE}"
    sign: light
    choices:
      enough: {{says: "- {HOSTILE}", goto: once, grade: ok}}
      too-dark: {{says: "> {HOSTILE}", goto: small}}
    unsure: out
  once:
    part: single
    exits: {{well: {{goto: small, grade: watch, leaves: {{reset: used}}}}, badly: out}}
  small:
    part: shared
    with: {{most: continuous-20, back: begin, question: Small?}}
    exits: {{over: large}}
  large:
    part: shared
    with: {{most: continuous-30, back: small, question: Large?}}
    exits: {{over: {{goto: out, grade: stop}}}}
  out:
    end: stay-unplugged
    because: "{HOSTILE}"
    safe_action: Keep the cord out.
    call: park
    say: "[Site {{site}}: ]It was dark: {{begin}}."
"""
SINGLE = """\
part: single
exits: [well, badly]
begin: look
nodes:
  look:
    ask: Is it dry?
    sign: wet
    choices:
      dry: {says: Dry, goto: well}
      damp-ground: {says: Damp, goto: well, grade: ok}
      standing-water: {says: Water, goto: badly, grade: stop}
      water-inside: {says: Inside, goto: badly, grade: danger}
    unsure: badly
"""
SHARED = """\
part: shared
takes: [most, back, question]
exits: [over]
begin: sum
nodes:
  sum:
    tally: $question
    from: [kettle]
    bands:
      - {below: $most, goto: used}
      - {goto: over}
    unsure: over
  used:
    judge:
      - {while: {reset: used}, worst: stop, goto: over}
      - {goto: $back}
"""


@pytest.fixture
def own(tmp_path: Path) -> Path:
    """A tree with a part done from one step, and another done from two."""
    (tmp_path / "parts").mkdir()
    (tmp_path / "parts" / "single.yaml").write_text(SINGLE, encoding="utf-8")
    (tmp_path / "parts" / "shared.yaml").write_text(SHARED, encoding="utf-8")
    path = tmp_path / "own.yaml"
    path.write_text(TREE, encoding="utf-8")
    return path


@pytest.fixture
def sheet(own: Path) -> Checklist:
    """Its checklist."""
    return checklist(Library(own.parent), "own")


def test_an_exit_that_is_joined_keeps_the_worse_grade(sheet: Checklist) -> None:
    """A part that is done from one step leads on from there: the worse grade of both ways, and what each leaves."""
    reader = Reader(sheet)
    look = next(number for number, step in reader.steps.items() if step.text == "Is it dry?")
    ticked, _ = reader.begin(next(n for n, step in reader.steps.items() if step.at == ("", "once")))
    dry, damp = reader.line(look, "choose dry"), reader.line(look, "choose damp-ground")
    assert (dry.grade, damp.grade) == ("watch", "watch")
    assert "tripped: used" in dry.note
    assert dry.goes == damp.goes != reader.line(look, "choose standing-water").goes
    assert reader.follow(ticked, reader.line(look, "choose water-inside"))[1] == "danger"


def test_what_a_part_is_given_is_told_where_it_is_ticked(sheet: Checklist) -> None:
    """A part done from two steps is printed once; limit, question and way back stand beside each step."""
    text = as_text(sheet, 72)
    assert text.count("SHARED\n") == 1
    assert "under [most]" in text
    assert "[most] or more" in text
    numbers = {step.at: step.number for section in sheet.sections for step in section.steps}
    assert f"[most] = 16 A; [back] = [{numbers['', 'begin']}]; [question] =" in text
    assert f"[most] = 24 A; [back] = [{numbers['', 'small']}]; [question] =" in " ".join(text.split())
    assert "-> [back]" in text
    assert "a line you took said STOP or DANGER" in text


def test_text_that_looks_like_markup_shows_as_text(sheet: Checklist) -> None:
    """Whatever an author wrote stands in the Markdown letter for letter, and makes no markup."""
    markdown = MarkdownIt("gfm-like", {"linkify": False, "html": True})
    tokens = markdown.parse(as_markdown(sheet))
    inner = [child for token in tokens for child in token.children or ()]
    assert {token.type for token in inner} <= {
        "text",
        "text_special",
        "strong_open",
        "strong_close",
        "softbreak",
    }
    assert not {token.type for token in tokens} & {"html_block", "blockquote_open", "fence", "code_block"}
    shown = "".join(child.content for child in inner)
    written = HOSTILE.replace("\\\\", "\\")
    assert shown.startswith(written)  # the title
    filled = written.replace("[dim]", "dim")  # a bracket in a text may drop out; this one has no reason to
    assert shown.count(filled) >= 4


def test_a_file_that_is_wrong_is_told_as_lint_tells_it(own: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A name that means nothing gives the finding with its line, and exit 1; nothing is printed half."""
    own.write_text(TREE.replace("unsure: out", "unsure: nowhere"), encoding="utf-8")
    assert run_command(["print", str(own)]) == 1
    out = capsys.readouterr().out
    assert f"{own.name}:12:" in out
    assert '"nowhere"' in out
    assert "THE STEPS" not in out


def test_nodes_that_nothing_leads_to_are_left_out_and_named(
    own: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """What no way leads to has no number; it is said so beside the sheet."""
    lost = "  lost:\n    step: Never.\n    done: out\n    cannot: out\n"
    own.write_text(TREE + lost, encoding="utf-8")
    assert run_command(["print", str(own)]) == 0
    told = capsys.readouterr()
    assert "Never." not in told.out
    assert "own: lost" in told.err
