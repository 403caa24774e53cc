"""What people type off a meter: a reading, or a sentence that helps."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shorewalk.folders import trees
from shorewalk.tree.facts import Quantity
from shorewalk.tree.site import read_site
from shorewalk.walk.meter import Meter, parse_meter
from shorewalk.walk.reading import Reading, read
from shorewalk.walk.refused import Refused

SITE = read_site(trees() / "site")
TENTHS = parse_meter("basic,tenths")
WHOLE = parse_meter("basic,whole")


def reading_of(text: str, quantity: str = "hot-neutral", *, confirmed: bool = False) -> Reading:
    known = SITE.quantities[quantity]
    return read(text, known.what, known, TENTHS, confirmed=confirmed)


def refusal_of(text: str, quantity: str = "hot-neutral") -> Refused:
    with pytest.raises(Refused) as caught:
        reading_of(text, quantity)
    return caught.value


@pytest.mark.parametrize(
    ("text", "volts"),
    [
        ("121.8", 121.8),
        ("121.8 V", 121.8),
        ("121,8", 121.8),
        ("121.8V~", 121.8),
        ("121.8 VAC", 121.8),
        ("121.8 volts ac", 121.8),
        ("  121.8  ", 121.8),
        ("\u00a0121.8\u3000V", 121.8),
        ("１２１．８", 121.8),
        ("\u0661\u0662\u0661\u066b\u0668", 121.8),  # Arabic-Indic
        ("+121.8", 121.8),
        ("0.1218 kV", 121.8),
        ("0.1218k", 121.8),
        ("121800 mV", 121.8),
        ("20 mV", 0.02),
        ("20m", 0.02),
        ("0.02V", 0.02),
        (".5", 0.5),
        (",5", 0.5),
        ("5.", 5.0),
        ("0", 0.0),
        ("-0.0", 0.0),
        ("1.2", 1.2),
    ],
)
def test_every_form_people_type_is_read(text: str, volts: float) -> None:
    """Point or comma, unit or none, prefixes, other scripts' digits, spaces."""
    quantity = "hot-neutral" if volts > 100 else "neutral-ground"
    assert reading_of(text, quantity, confirmed=True).value == pytest.approx(volts)


WANDERS = [
    "118-121",
    "118..121",
    "118...121",
    "118 - 121 V",
    "118 V..121 V",
    "121-118",
    "118 to 121",
    "118~121",
]
DASHES = "\u2010 \u2013 \u2212 \uff0d \u2026"


@pytest.mark.parametrize("text", [*WANDERS, *(f"118{dash}121" for dash in DASHES.split())])
def test_a_display_that_wanders_is_a_range(text: str) -> None:
    """Both ends are kept; the value is the middle; a range of whole numbers is not asked about."""
    reading = reading_of(text)
    assert (reading.low, reading.value, reading.high) == (118, 119.5, 121)


def test_a_display_that_jumps_is_no_reading() -> None:
    """A wander of up to 5 % of its high end (2 V near nothing) counts; a wider one is refused with what to do."""
    assert reading_of("115-121").high == 121
    assert reading_of("0.5-2.4", "neutral-ground").high == 2.4
    for text, quantity in (("104-121", "hot-neutral"), ("0.5-4.5", "neutral-ground")):
        with pytest.raises(Refused, match=r"too wide a jump.*Hold the probes still.*cannot measure it"):
            reading_of(text, quantity)


def test_the_unit_at_the_end_of_a_range_holds_for_both_ends() -> None:
    """20-30 mV is a range of millivolts; each end may have its own prefix."""
    assert (
        reading_of("20-30 mV", "neutral-ground").low,
        reading_of("20mV-0.03V", "neutral-ground").high,
    ) == (0.02, 0.03)


@pytest.mark.parametrize("text", ["OL", "ol", "0L", "O.L", ".OL", "0.L V", "overload"])
def test_over_the_range_is_a_reading_of_its_own(text: str) -> None:
    """OL is no number, yet it counts: over all limits."""
    reading = reading_of(text)
    assert reading.over
    assert math.isinf(reading.value)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("-121.8", "minus sign"),
        ("−121.8", "minus sign"),
        ("-3..5", "minus sign"),
        ("nan", "no number a meter shows"),
        ("-inf", "no number a meter shows"),
        ("∞", "no number a meter shows"),
        ("60 Hz", "AC volts are asked for"),
        ("5 ohm", "AC volts are asked for"),
        ("5 Ω", "AC volts are asked for"),
        ("12 A", "AC volts are asked for"),
        ("121.8 V DC", "That is DC"),
        ("1218", "0 to 300 V"),
        ("1.2k", "0 to 300 V"),
        ("20 MV", "0 to 300 V"),
        ("118-1218", "0 to 300 V"),
        ("9" * 40, "0 to 300 V"),
        ("9" * 41, "no more than 40"),
        ("121.8 W", "no unit of a reading"),
        ("121 V-3 Hz", "two units"),
        ("1e2", "cannot be read"),
        ("1.2.1", "cannot be read"),
        ("1 2", "cannot be read"),
        ("5²", "cannot be read"),
        ("about 120", "cannot be read"),
        ("-", "cannot be read"),
        ("", "Nothing was typed"),
        (" \t", "Nothing was typed"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_refused_with_the_reason(text: str, says: str) -> None:
    """What was found, what is allowed, what to do; asking again would not help."""
    refused = refusal_of(text)
    assert says in refused.reason
    assert not refused.confirm


@pytest.mark.parametrize(("text", "meant"), [("12.18", "121.8"), ("1.218", "121.8"), ("12,6", "126")])
def test_a_slipped_point_is_asked_once_more(text: str, meant: str) -> None:
    """Not counted silently; the number it may have been is named; the same again counts."""
    refused = refusal_of(text)
    assert refused.confirm
    assert f"is it {meant}?" in refused.reason
    assert reading_of(text, confirmed=True).value == float(text.replace(",", "."))


@pytest.mark.parametrize("text", ["121.8", "25.1", "0.1", "0.0", "68.2", "243.1"])
def test_what_is_no_slip_is_not_asked_about(text: str) -> None:
    """A ghost, nothing and double are readings, not slips."""
    assert reading_of(text).value == float(text)


def test_a_whole_number_on_a_meter_with_tenths_is_asked_once_more() -> None:
    """The count belongs to the meter, not to what was typed; nothing, millivolts and ranges need no tenth."""
    assert refusal_of("122").confirm
    assert "tenths" in refusal_of("122").reason
    assert reading_of("122", confirmed=True).value == 122
    for text in ("122.0", "0 V", "20 mV", "121-123"):
        reading_of(text, "neutral-ground")
    quantity = SITE.quantities["hot-neutral"]
    assert read("122", quantity.what, quantity, WHOLE).value == 122


@pytest.mark.parametrize("text", ["0", " 0 ", "00", "+0"])
def test_a_bare_zero_is_no_reading(text: str) -> None:
    """Nought volts clear an outlet, and 0 is "not sure" elsewhere: it counts with a point or a unit only."""
    refused = refusal_of(text)
    assert not refused.confirm
    assert "0.0" in refused.reason
    assert read("0", "dc-volts", None, TENTHS, confirmed=True).value == 0, "one that counted once still does"


@pytest.mark.parametrize("text", ["0.0", "0,0", ".0", "0 V", "0V", "0 mV", "0-0.1"])
def test_a_zero_with_a_point_or_a_unit_is_a_reading(text: str) -> None:
    """What stands on a display is a reading, whatever display it is."""
    assert reading_of(text).low == 0


def test_a_minus_sign_on_dc_is_a_reading_where_it_can_be() -> None:
    """DC has a sign. A battery cannot be below nothing: then the probes are swapped, and it says so."""
    assert read("-0.4", "dc-volts", None, TENTHS).value == -0.4
    assert "probes are swapped" in refusal_of("-12.6", "battery-volts").reason


def test_confirming_does_not_let_the_impossible_through() -> None:
    """`confirmed` answers a doubt; it is no way round a refusal."""
    for text in ("1218", "-5", "nan", "60 Hz"):
        with pytest.raises(Refused):
            reading_of(text, confirmed=True)


def outcome(text: str, quantity: Quantity, meter: Meter, *, confirmed: bool) -> Reading | Refused:
    try:
        return read(text, quantity.what, quantity, meter, confirmed=confirmed)
    except Refused as refused:
        return refused


NUMBERS = st.from_regex(r"[-+]?[0-9]{0,5}[.,]?[0-9]{0,3} ?(mV|V|k|kV|Hz|ohm|A|m|M|VDC|~)?", fullmatch=True)
RANGES = st.builds("{}{}{}".format, NUMBERS, st.sampled_from(["-", "..", " to ", "~", " - "]), NUMBERS)


@given(
    text=st.one_of(st.text(max_size=50), NUMBERS, RANGES),
    quantity=st.sampled_from(sorted(SITE.quantities.values(), key=lambda q: q.id)),
    meter=st.sampled_from([TENTHS, WHOLE, parse_meter("basic")]),
    confirmed=st.booleans(),
)
def test_any_text_gives_a_reading_that_can_be_or_a_sentence(
    text: str, quantity: Quantity, meter: Meter, confirmed: bool  # noqa: FBT001 (given by hypothesis)
) -> None:  # fmt: skip
    """Nothing else comes out, whatever was typed; what was asked again counts when confirmed."""
    found = outcome(text, quantity, meter, confirmed=confirmed)
    if isinstance(found, Refused):
        assert found.reason.endswith(".")
        assert len(found.reason) < 300
        assert not (confirmed and found.confirm)
        if not found.confirm:
            return
        found = outcome(text, quantity, meter, confirmed=True)
    assert isinstance(found, Reading)
    least, most = quantity.plausible
    assert found.over or least <= found.low <= found.value <= found.high <= most
    assert (found.unit, found.text) == (quantity.unit, text)
