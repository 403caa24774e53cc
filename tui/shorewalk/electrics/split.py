"""Two hot legs and a neutral: angle, triangles, an open or loose neutral, what the neutral carries.

Voltages in V as a meter shows them (RMS, no sign), resistances in ohm, currents in A, angles in
degrees. A value that is divided by has to be more than 0, else `ValueError` says so in one line.
"""

from __future__ import annotations

import math

from .needs import positive, within

SPLIT_PHASE, TWO_OF_208Y, ONE_TWICE, HIGH_LEG = (
    "split phase",
    "two legs of 208Y/120",
    "one leg twice",
    "an angle that no supply here should have",
)
KINDS = ((-0.866, SPLIT_PHASE), (-0.616, HIGH_LEG), (-0.375, TWO_OF_208Y), (0.966, HIGH_LEG))
"""Up to this cosine (150, 128, 112 and 15 degrees; common practice), and what it is."""


def leg_cosine(hot1: float, hot2: float, hot_hot: float) -> float:
    """Return the cosine of the angle between two hot legs (law of cosines), not clipped.

    -1: split phase (180 degrees); -0.5: two legs of 208Y/120 (120); +1: one leg twice (0).
    A sound supply lies on the singular point of arccos, so judge this and not the angle: a gain
    error shared by the three readings cancels here.
    """
    product = positive(hot1, "A leg", "V") * positive(hot2, "A leg", "V")
    return (hot1**2 + hot2**2 - hot_hot**2) / (2 * product)


def leg_angle(hot1: float, hot2: float, hot_hot: float) -> float:
    """Return the angle between two hot legs in degrees, 0 to 180; for showing (see `leg_cosine`)."""
    return math.degrees(math.acos(max(-1.0, min(1.0, leg_cosine(hot1, hot2, hot_hot)))))


def supply_kind(cosine: float) -> str:
    """Return what two legs are by the cosine between them; at a cut the worse of the two."""
    return next((kind for most, kind in KINDS if cosine <= most), ONE_TWICE)


def leg_ratio(hot1: float, hot2: float, hot_hot: float) -> float:
    """Return leg to leg over the sum of the legs: 1.00 split phase, 0.87 two legs of 208Y, 0 one leg twice."""
    return hot_hot / positive(hot1 + hot2, "A sum of legs", "V")


def triangle_excess(a: float, b: float, c: float) -> float:
    """Return by how much the largest reading is more than the other two together; negative if it is not.

    Three readings between three connected conductors obey the triangle inequality; over the
    meter's error, a positive excess says that a conductor floats.
    """
    largest = max(a, b, c)
    return largest - (a + b + c - largest)


def ground_disagreement(hot_ground: float, hot_neutral: float, neutral_ground: float) -> float:
    """Return how far hot-ground and hot-neutral differ beyond what neutral-ground explains (triangle)."""
    return abs(hot_ground - hot_neutral) - neutral_ground


def hot_earth_gap(hot_earth: float, hot_neutral: float) -> float:
    """Return how far hot to earth is from hot to neutral: both sides of a sound ground are alike."""
    return abs(hot_earth - hot_neutral)


def leg_difference(hot1: float, hot2: float) -> float:
    """Return how far the two legs are apart."""
    return abs(hot1 - hot2)


def loose_neutral_legs(
    leg1: complex, leg2: complex, ohms1: float, ohms2: float, neutral_ohms: float = math.inf
) -> tuple[float, float, float]:
    """Return the voltages of both loads and of the load-side neutral, through a neutral of some ohms.

    `leg1` and `leg2` are the source voltages to the source's neutral, as phasors (120 and -120
    for split phase); `ohms1` and `ohms2` the loads, `math.inf` for none. Node-voltage method at
    the load-side neutral (Millman's theorem).
    """
    y1, y2 = 1 / ohms1, 1 / ohms2  # endless ohms carry nothing
    neutral = (leg1 * y1 + leg2 * y2) / (y1 + y2 + 1 / neutral_ohms)
    return abs(leg1 - neutral), abs(leg2 - neutral), abs(neutral)


def loose_neutral_volts(hot_hot: float, own_ohms: float, other_ohms: float, neutral_ohms: float) -> float:
    """Return the volts of the load on one leg of split phase, through a neutral of some ohms.

    `loose_neutral_legs` for equal sources: what the weaker leg loses the lighter one gains.
    """
    positive(own_ohms, "A load", "ohm")
    positive(other_ohms, "A load", "ohm")
    positive(neutral_ohms, "A neutral", "ohm")
    return loose_neutral_legs(hot_hot / 2, -hot_hot / 2, own_ohms, other_ohms, neutral_ohms)[0]


def open_neutral_volts(hot_hot: float, own_ohms: float, other_ohms: float) -> float:
    """Return the volts of one load with the neutral open: both divide leg to leg by resistance (in series)."""
    own = positive(own_ohms, "A load", "ohm")
    return hot_hot * own / (own + positive(other_ohms, "A load", "ohm"))


def neutral_current(amps1: float, amps2: float, degrees: float = 180.0) -> float:
    """Return the neutral's current for resistive loads on two legs, `degrees` apart.

    Split phase (180): the difference. Two legs of 208Y (120): sqrt(a^2 + b^2 - a b). One leg
    twice (0): the sum. Vector sum (Kirchhoff's current law).
    """
    within(amps1, "A leg's current", "A", 0, 10_000)
    within(amps2, "A leg's current", "A", 0, 10_000)
    return math.sqrt(max(0.0, amps1**2 + amps2**2 + 2 * amps1 * amps2 * math.cos(math.radians(degrees))))
