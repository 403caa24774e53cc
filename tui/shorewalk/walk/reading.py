"""A reading: what the meter showed, kept only if it can be; else a sentence that says why not.

Refused: what no meter shows there, a unit of another quantity, a value outside the plausible
range, a display that jumps, and a bare 0, which means "not sure" at every other question: where a wrong
reading kills, 0 volts is the good one. Asked once more before it counts: what looks like a slipped point, and
a whole number from a meter that shows tenths.
"""

from __future__ import annotations

import math

from shorewalk.tree.facts import Quantity
from shorewalk.tree.record import record

from .meter import Meter
from .refused import Refused
from .typed import Typed, parse_typed


@record()
class Reading:
    """What was shown, in `unit`: the middle of a wander and its ends. `over` the range: infinite."""

    text: str
    value: float
    low: float
    high: float
    unit: str
    over: bool = False


@record()
class _What:
    unit: str
    says: str
    do: str
    plausible: tuple[float, float]


# Spans for a reading that grades.yaml does not know: what a hand meter's ranges hold (common practice).
_WHATS = {
    "ac-volts": _What("V", "AC volts", "Set the dial to AC volts and read again.", (0.0, 600.0)),
    "dc-volts": _What("V", "DC volts", "Set the dial to DC volts and read again.", (-60.0, 60.0)),
    "hertz": _What("Hz", "the frequency in Hz", "Set the meter to Hz and read again.", (0.0, 1000.0)),
    "ohms": _What("ohm", "ohms", "Set the dial to ohms and read again.", (0.0, 1e8)),
    "amps": _What("A", "amperes", "Read the amperes off the display or the clamp.", (0.0, 200.0)),
}
_OTHER = _What("", "a number", "Read the meter again.", (-1e9, 1e9))
_SAYS = {"V": "volts", "Hz": "hertz", "ohm": "ohms", "A": "amperes"}
_SLIPS = (10.0, 100.0, 0.1)
BARE_ZERO = (
    'Elsewhere 0 means "not sure", so a 0 alone is no reading. Does the display show zero? Type 0.0. '
    "If you did not read it, say you cannot measure it: x."
)


def read(
    text: str, what: str, quantity: Quantity | None, meter: Meter, *, confirmed: bool = False
) -> Reading:
    """Return the reading that was typed.

    `what` is ac-volts, dc-volts, hertz, ohms or amps; `quantity` tells what can be there.
    Raise `Refused`: with `confirm`, the same text counts if it is given again as `confirmed`.
    """
    typed = parse_typed(text)
    if typed.bare_zero and not confirmed:
        raise Refused(BARE_ZERO)
    asked = _WHATS.get(what, _OTHER)
    unit = quantity.unit if quantity else asked.unit
    _fit(typed, asked, unit)
    low, high = typed.low, typed.high
    if not typed.over:
        _plausible(typed, what, unit, quantity.plausible if quantity else asked.plausible)
    reading = Reading(
        text, low if low == high else round((low + high) / 2, 9), low, high, unit, over=typed.over
    )
    if not confirmed and not typed.over:
        _doubt(typed, reading, what, quantity, meter)
    return reading


def widest_wander(high: float) -> float:
    """Return how far a display may wander and still be a reading: 5 % of its high end, or 2 (common practice)."""
    return max(0.05 * abs(high), 2.0)


def _fit(typed: Typed, asked: _What, unit: str) -> None:
    """Refuse a unit of another quantity, DC where AC is asked, and a minus sign where there is none."""
    if typed.unit is not None and unit and typed.unit != unit:
        found = _SAYS.get(typed.unit, typed.unit)
        raise Refused(f"That is in {found}; {asked.says} are asked for here. {asked.do}")
    if typed.current and asked.says[:2] in ("AC", "DC") and typed.current != asked.says[:2].lower():
        raise Refused(f"That is {typed.current.upper()}; {asked.says} are asked for here. {asked.do}")
    if typed.low < 0 and asked.plausible[0] >= 0:
        raise Refused(
            f"The reading has a minus sign; {asked.says} have none. "
            + ("The dial may stand on DC volts. " if asked.says == "AC volts" else "")
            + asked.do
        )


def _plausible(typed: Typed, what: str, unit: str, span: tuple[float, float]) -> None:
    least, most = span
    if least <= typed.low and typed.high <= most:
        if typed.high - typed.low > widest_wander(typed.high):
            raise Refused(
                f"{_number(typed.low)} to {_number(typed.high)} {unit} is too wide a jump for a reading. Hold the "
                "probes still and read again. If it still jumps, say you cannot measure it."
            )
        return
    found = " to ".join(_number(end) for end in sorted({typed.low, typed.high}))
    if what == "dc-volts" and least >= 0 and -most <= typed.low < 0:
        do = "A minus sign says the probes are swapped: red on plus, black on minus, and read again."
    else:
        do = (
            "Look for the point and the unit (mV, k), and type it again. "
            "If it still shows this, say you cannot measure it."
        )
    raise Refused(f"{found} {unit} cannot be here: {_number(least)} to {_number(most)} {unit} can. {do}")


def _doubt(typed: Typed, reading: Reading, what: str, quantity: Quantity | None, meter: Meter) -> None:
    """Ask once more for a slipped point, and for a tenth that may have been left off."""
    if quantity and quantity.expects and reading.value:
        least, most = quantity.expects
        shown = _number(reading.value)
        slips = [reading.value * slip for slip in _SLIPS if least <= reading.value * slip <= most]
        if slips and not least <= reading.value <= most:
            raise Refused(
                f"{shown} {reading.unit}, or is it {_number(slips[0])}? The point may have slipped. "
                "Look again, and type what it shows; the same number again counts.",
                confirm=True,
            )
    if meter.tenths and what == "ac-volts" and typed.whole and reading.value:
        raise Refused(
            f"Your meter shows tenths, and {_number(reading.value)} has none. "
            "Look again, and type every digit; the same number again counts.",
            confirm=True,
        )


def _number(value: float) -> str:
    """Return a number for a sentence, without a row of nines."""
    return (
        "0" if not value else f"{value:.4g}" if math.isfinite(value) and abs(value) < 1e4 else f"{value:,.0f}"
    )
