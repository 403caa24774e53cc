"""The record for the electrician: all that was asked, read, worked out and left open, in text and on paper."""

from __future__ import annotations

import re
from datetime import UTC, datetime, timedelta, timezone
from functools import cache
from io import BytesIO

import pytest
from markdown_it import MarkdownIt
from pypdf import PdfReader

from shorewalk.folders import demo_data
from shorewalk.paper.letters import plain_letters
from shorewalk.recorded import read_recorded
from shorewalk.tree.library import shipped
from shorewalk.walk.ending import ending
from shorewalk.walk.record import FOOT, record_markdown, record_pdf
from shorewalk.walk.record_parts import ASKED, READINGS, title_of
from shorewalk.walk.times import Times
from shorewalk.walk.walk import Walk, begin

MADE = datetime(2026, 5, 1, 16, tzinfo=UTC)
SPAN = re.compile(r"-?[\d.]+ to -?[\d.]+ V")
WALKS = (
    "arrival-50-good",  # good-to-use
    "arrival-50-late-at-208",  # use-with-care, and the most answers
    "arrival-20-late-protector-inside",  # with times, and readings that count for nothing any more
    "lights-dim-loop-sags",  # leave-as-is
    "tingle-somebody-hurt",  # emergency
    "arrival-look-a-50-neutral-live",  # hands-off
    "voltage-high-leg-rises-far",  # stay-unplugged
    "arrival-not-out",  # unplug-now
)


@cache
def walked(name: str) -> Walk:
    """Return a recorded walk after its last answer."""
    recorded = read_recorded(demo_data() / "walks" / f"{name}.yaml")
    walk = begin(shipped(), recorded.walk, recorded.meter)
    for _, _, answer, time in recorded.answers:
        walk = walk.answer(answer, time)
    return walk


def texts_in(markdown: str) -> list[str]:
    """Return the texts that a reader of Markdown finds, markup gone; it must find only the pieces that are meant."""
    tokens = MarkdownIt("commonmark").enable("table").parse(markdown)
    meant = {
        "heading",
        "paragraph",
        "bullet",
        "list",
        "blockquote",
        "table",
        "thead",
        "tbody",
        "tr",
        "th",
        "td",
    }
    kinds = {token.type.partition("_")[0] for token in tokens if token.type != "inline"}
    assert kinds <= meant, kinds - meant
    inline = [token.children or [] for token in tokens if token.type == "inline"]
    within = {child.type for children in inline for child in children}
    assert within <= {"text", "text_special", "strong_open", "strong_close"}, within
    return ["".join(child.content for child in children) for children in inline]


def test_they_end_in_all_ways() -> None:
    """The walks looked at here end with every verdict but "unplugged"."""
    assert len({ending(walked(name)).verdict for name in WALKS}) == 7


@pytest.mark.parametrize("name", WALKS)
def test_paper_says_what_the_text_says(name: str) -> None:
    """Read back from the PDF, the record has word for word what a reader of the Markdown sees, in the same order."""
    walk = walked(name)
    texts = texts_in(record_markdown(walk, "12", "Someday Flats"))
    pages = PdfReader(BytesIO(record_pdf(walk, "12", "Someday Flats", made=MADE))).pages
    lines = [line for page in pages for line in page.extract_text().splitlines()]
    heads = (" ".join(READINGS), " ".join(ASKED), plain_letters(title_of(walk)))
    on_paper = "".join(line for line in lines if not line.startswith((*heads, FOOT)))
    wanted = "".join(plain_letters(text) for text in texts if text not in (*READINGS, *ASKED, title_of(walk)))
    assert "".join(on_paper.split()) == "".join(wanted.split())
    assert all(f"Page {at} of {len(pages)}" in page.extract_text() for at, page in enumerate(pages, 1))


@pytest.mark.parametrize("name", WALKS)
def test_nothing_that_is_known_is_left_out(name: str) -> None:
    """Every answer, reading with its bounds, sum with its formula, and open fault; the meter and the message."""
    walk = walked(name)
    texts = texts_in(record_markdown(walk, "12", "Someday Flats"))
    whole, now, found = "\n".join(texts), walk.now, ending(walk, "12")
    assert {"Park: Someday Flats", "Site: 12", found.say, found.because, *found.not_ruled_out} <= set(texts)
    assert f"{now.meter.percent:g} % + {now.meter.counts:g} counts" in whole
    for known in now.known:
        assert known.shows in whole
        if known.place and known.low is not None and known.high is not None and known.unit == "V":
            spans = [text.removesuffix(" V").split(" to ") for text in texts if SPAN.fullmatch(text)]
            assert any(
                0 <= known.low - float(low) < 0.1 and 0 <= float(high) - known.high < 0.1
                for low, high in spans
            ), known.says
    for worked in now.worked_all:
        assert any(worked.numbers in text and worked.formula in text for text in texts)
    numbered = [text for text in texts if text.isdecimal()]
    assert numbered == [str(at) for at in range(1, len(walk.answers) + 1)]


def test_cautions_that_were_shown_are_told_once() -> None:
    """Who reads the record sees what the person was told to beware of."""
    walk = walked("arrival-50-good")
    texts = texts_in(record_markdown(walk))
    for caution in begin(walk.library, walk.tree, walk.meter).now.cautions:
        assert texts.count(caution.text) == 1


def test_a_walk_that_is_not_finished_has_a_record_too() -> None:
    """Where a walk broke off the record says so, and what would have been asked next."""
    walk = walked("arrival-50-good")
    left = begin(walk.library, walk.tree, walk.meter)
    for answered in walk.answers[:20]:
        left = left.answer(answered.answer)
    texts = texts_in(record_markdown(left))
    assert "Not finished" in texts
    assert f"Asked next: {left.now.text}" in texts


def test_times_are_those_of_the_clock_that_is_asked_for() -> None:
    """The day is told once with its zone; each answer has its hour, minute and second there."""
    walk = walked("arrival-20-late-protector-inside")
    assert "When: 01 May 2026, 10:00 to 10:35 UTC" in texts_in(record_markdown(walk))
    west = timezone(timedelta(hours=-6), "MDT")
    texts = texts_in(record_markdown(walk, zone=west))
    assert "When: 01 May 2026, 04:00 to 04:35 MDT" in texts
    assert "04:00:10" in texts


def test_times_of_several_days_and_none() -> None:
    """Where answers are of two days each has its day; what is no time stands as it was given."""
    times = Times(["2026-05-01T23:58:00Z", None, "2026-05-02T00:03:00Z", "noon", "2026-05-02T00:03:00"])
    assert times.span() == "01 May 2026, 23:58 to 02 May 2026, 00:03 UTC"
    assert [times.at(time) for time in ("2026-05-02T00:03:00Z", "noon", None)] == [
        "02 May 00:03:00",
        "noon",
        "",
    ]
    assert Times([None, "noon"]).span() == ""


def test_what_a_person_typed_is_never_markup() -> None:
    """A site's name full of signs stands in the record as it was typed, on paper too."""
    site, park = "*12* [x](y) | <b>", "# Flats & `Sons`"
    walk = walked("tingle-somebody-hurt")
    texts = texts_in(record_markdown(walk, site, park))
    assert {f"Site: {site}", f"Park: {park}"} <= set(texts)
    page = PdfReader(BytesIO(record_pdf(walk, site, park, made=MADE))).pages[0].extract_text()
    assert f"Site: {site}" in page
    assert f"Park: {park}" in page
