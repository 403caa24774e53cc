"""One made-up tree of any size, always the same for a size: one outlet after the other, each read, plugged into, left.

Every outlet has what real trees have: signs, steps that change how things stand, a dead proof, slot pairs judged
together, arithmetic, loops that end, endings shared by all. It is clean by every rule.
"""

from __future__ import annotations

HEAD = """\
# yaml-language-server: $schema=schema.json
tree: {name}
symptom: We want to try every outlet in turn
about: Outlets read and tried one after the other, as many as are wanted.
starts: {{earth-peg: set, cord: unplugged, test-load: "off"}}
begin: before_you_start
nodes:
  before_you_start:
    step: Read these cautions aloud, to whoever helps you too.
    cautions: [dry-hands, no-metal, no-storm, keep-away, in-case-of-fire, when-unsure, beside-it, hands-off-rig]
    done: with_the_meter
    cannot: another_day
  with_the_meter:
    step: Set the meter as you read here.
    cautions: [fit-meter, amps-jack, ac-dial, prove-meter, behind-guards, black-first, metal-pedestal, leave-damaged]
    leaves: {{cautions: read}}
    done: smell
    cannot: another_day
  smell:
    ask: Do you smell anything burnt?
    sign: smell
    choices:
      none: {{says: "No", goto: damage}}
      burning: {{says: "Yes, burnt plastic or smoke", grade: danger, goto: stay_away}}
    unsure: {{goto: stay_away, grade: danger}}
  damage:
    ask: Is the pedestal open, cracked, loose or leaning?
    sign: damage
    choices:
      none: {{says: "No, it is whole and stands firm", goto: light}}
      present: {{says: "Yes", grade: stop, goto: stay_away}}
    unsure: {{goto: stay_away, grade: stop}}
  light:
    ask: Is there light enough to see every slot?
    sign: light
    choices:
      enough: {{says: "Yes", goto: sound}}
      too-dark: {{says: "No, it is too dark", goto: another_day}}
    unsure: another_day
  sound:
    ask: Do you hear anything from the pedestal?
    sign: sound
    choices:
      silent: {{says: Nothing, goto: nest}}
      hum: {{says: A hum or a buzz, grade: stop, goto: stay_away}}
      crackle: {{says: A crackle, grade: stop, goto: stay_away}}
    unsure: {{goto: stay_away, grade: stop}}
  nest:
    ask: Do you see a nest or insects?
    sign: nest-or-insects
    cautions: [leave-nests]
    choices:
      none: {{says: "No", goto: burns}}
      present: {{says: "Yes", grade: stop, goto: stay_away}}
    unsure: {{goto: stay_away, grade: stop}}
  burns:
    ask: Are there scorch marks on the outlet?
    sign: burn-marks
    choices:
      none: {{says: "No, clean", goto: marks}}
      present: {{says: "Yes", grade: stop, goto: stay_away}}
    unsure: {{goto: stay_away, grade: stop}}
  marks:
    ask: Are there scorch marks on our plug?
    sign: plug-marks
    choices:
      none: {{says: "No, clean", goto: pin}}
      present: {{says: "Yes", grade: stop, goto: stay_away}}
    unsure: {{goto: stay_away, grade: stop}}
  pin:
    ask: How is the ground pin of our plug?
    sign: ground-pin-looks
    choices:
      whole: {{says: Whole and straight, goto: case}}
      missing: {{says: Bent or missing, grade: stop, goto: stay_away}}
    unsure: {{goto: stay_away, grade: stop}}
  case:
    ask: What is the pedestal made of?
    sign: pedestal-case
    choices:
      plastic: {{says: Plastic, goto: {first}}}
      metal: {{says: Metal, goto: detector}}
    unsure: detector
  detector:
    ask: Hold a voltage detector near the case. What does it do?
    sign: near-voltage
    choices:
      silent: {{says: It worked on a live source and is silent here, goto: {first}}}
      warns: {{says: It warns, grade: danger, goto: stay_away}}
      no-detector: {{says: "No detector, or nothing live to try it on", goto: another_day}}
    unsure: {{goto: stay_away, grade: danger}}
"""
OUTLET = """\

  # Outlet {n}.
  weather_{n}:
    group: A look round
    ask: What is the weather like?
    sign: weather
    choices:
      clear: {{says: Dry, goto: wet_{n}}}
      rain: {{says: Rain, goto: wait_{n}}}
      thunder: {{says: Thunder, goto: another_day}}
    unsure: another_day
  wait_{n}:
    group: A look round
    at_most: 2
    spent: another_day
    step: Wait until the rain is over.
    done: weather_{n}
    cannot: another_day
  wet_{n}:
    group: A look round
    ask: Is there water at the pedestal?
    sign: wet
    choices:
      dry: {{says: "No, all dry", goto: main_off_{n}}}
      damp-ground: {{says: Only the ground is damp, grade: watch, goto: main_off_{n}}}
      standing-water: {{says: The ground is under water, grade: stop, goto: stay_away}}
      water-inside: {{says: Water is inside, grade: danger, goto: stay_away}}
    unsure: {{goto: stay_away, grade: danger}}
  main_off_{n}:
    group: Everything off
    step: Switch the rig's main breaker off.
    why: A plug sparks only while a load is on.
    leaves: {{rig-main: "off"}}
    done: sources_off_{n}
    cannot: another_day
  sources_off_{n}:
    group: Everything off
    step: Switch the generator and the inverter off.
    leaves: {{other-source: "off"}}
    done: breaker_off_{n}
    cannot: another_day
  breaker_off_{n}:
    group: Shown dead
    step: Switch the breaker of the outlet off.
    leaves: {{pedestal-breaker: "off"}}
    done: dead_neutral_ground_{n}
    cannot: another_day
{dead}\
  breaker_on_{n}:
    group: Live readings
    needs: {{cord: unplugged}}
    step: Switch the breaker of the outlet on. Nothing is plugged in.
    leaves: {{pedestal-breaker: "on"}}
    done: feel_{n}
    cannot: another_day
  feel_{n}:
    group: Live readings
    ask: How did the handle feel?
    sign: breaker-feel
    choices:
      firm: {{says: "Firm, with a click", goto: neutral_ground_{n}}}
      spongy: {{says: "Spongy, or it wobbles", grade: stop, goto: worn}}
      will-not-latch: {{says: It will not stay on, grade: stop, goto: worn}}
    unsure: {{goto: worn, grade: stop}}
  neutral_ground_{n}:
    group: Live readings
    needs: {{pedestal-breaker: "on", cord: unplugged}}
    measure: {{what: ac-volts, place: pedestal-30, from: "N", to: G}}
    next: hot_ground_{n}
    unable: not_measured
  hot_ground_{n}:
    group: Live readings
    needs: {{pedestal-breaker: "on", cord: unplugged}}
    measure: {{what: ac-volts, place: pedestal-30, from: L, to: G}}
    next: hot_neutral_{n}
    unable: not_measured
  hot_neutral_{n}:
    group: Live readings
    needs: {{pedestal-breaker: "on", cord: unplugged}}
    measure: {{what: ac-volts, place: pedestal-30, from: L, to: "N"}}
    next: alive_{n}
    unable: not_measured
  alive_{n}:
    at_most: 1
    spent: gap_{n}
    judge:
      - {{when: {{neutral_ground_{n}: {{below: no-voltage}}, hot_ground_{n}: {{below: no-voltage}}, hot_neutral_{n}: {{below: no-voltage}}}}, grade: again, goto: handle_{n}}}
      - {{goto: gap_{n}}}
    of: [neutral_ground_{n}, hot_ground_{n}, hot_neutral_{n}]
    missing: not_measured
  handle_{n}:
    group: Live readings
    ask: How does the breaker's handle stand?
    sign: breaker-position
    choices:
      "on": {{says: Fully on, goto: neutral_ground_{n}}}
      "off": {{says: "Off, or I had the wrong one", goto: breaker_on_{n}}}
      tripped: {{says: In the middle, goto: not_measured}}
    unsure: not_measured
  gap_{n}:
    work: {{out: ground-disagreement, using: ground_disagreement, from: {{hot_ground: hot_ground_{n}, hot_neutral: hot_neutral_{n}, neutral_ground: neutral_ground_{n}}}}}
    next: verdict_{n}
    missing: verdict_{n}
  verdict_{n}:
    judge:
      - {{when: {{neutral_ground_{n}: {{from: ghost-high}}}}, grade: danger, goto: live_metal}}
      - {{when: {{hot_neutral_{n}: {{from: twice-voltage}}}}, grade: stop, goto: out_of_order}}
      - {{when: {{hot_ground_{n}: {{from: twice-voltage}}}}, grade: stop, goto: out_of_order}}
      - {{when: {{hot_ground_{n}: {{below: ghost-high}}, hot_neutral_{n}: {{from: ghost-high}}}}, grade: stop, goto: out_of_order}}
      - {{when: {{hot_neutral_{n}: {{below: ghost-high}}}}, grade: stop, goto: out_of_order}}
      - {{when: {{neutral_ground_{n}: {{from: neutral-ground-stop}}}}, grade: stop, goto: out_of_order}}
      - {{when: {{gap_{n}: {{above: ground-disagreement-stop}}}}, grade: stop, goto: out_of_order}}
      - {{when: {{hot_neutral_{n}: {{below: utilization-b-low}}}}, grade: stop, goto: out_of_order}}
      - {{when: {{hot_neutral_{n}: {{above: service-a-surely-high}}}}, grade: stop, goto: out_of_order}}
      - {{when: {{hot_neutral_{n}: {{below: service-a-low}}}}, grade: watch, goto: off_again_{n}}}
      - {{when: {{hot_neutral_{n}: {{above: service-a-high}}}}, grade: watch, goto: off_again_{n}}}
      - {{when: {{neutral_ground_{n}: {{from: neutral-ground-ok}}}}, grade: watch, goto: off_again_{n}}}
      - {{grade: ok, goto: off_again_{n}}}
    of: [neutral_ground_{n}, hot_ground_{n}, hot_neutral_{n}]
    missing: not_measured
  off_again_{n}:
    group: Shown dead again
    step: Switch the breaker of the outlet off again.
    leaves: {{pedestal-breaker: "off"}}
    done: still_neutral_ground_{n}
    cannot: another_day
{still}\
  plug_in_{n}:
    group: Cord in
    needs: {{rig-main: "off", pedestal-breaker: "off", shown-dead: "yes"}}
    step: Push the cord's plug into the outlet, fully home.
    leaves: {{cord: pedestal-30}}
    done: power_on_{n}
    cannot: stuck
  power_on_{n}:
    group: First power
    needs: {{rig-main: "off", cord: plugged}}
    step: Switch the breaker of the outlet on. Nobody touches the rig.
    leaves: {{pedestal-breaker: "on"}}
    done: skin_{n}
    cannot: stuck
  skin_{n}:
    group: First power
    needs: {{cord: plugged}}
    measure: {{what: ac-volts, place: rig-skin, from: skin, to: earth}}
    bands:
      - {{below: skin-ok, grade: ok, goto: power_off_{n}}}
      - {{below: skin-stop, grade: watch, goto: power_off_{n}}}
      - {{grade: danger, goto: rig_live}}
    unable: power_off_{n}
  power_off_{n}:
    group: Cord out
    step: Switch the breaker of the outlet off.
    leaves: {{pedestal-breaker: "off"}}
    done: plug_out_{n}
    cannot: stuck
  plug_out_{n}:
    group: Cord out
    needs: {{pedestal-breaker: "off"}}
    step: Pull the plug out at the pedestal.
    leaves: {{cord: unplugged}}
    done: {then}
    cannot: stuck
"""  # noqa: E501
PAIRS = (
    ("neutral_ground", '"N"', "G"),
    ("hot_ground", "L", "G"),
    ("hot_neutral", "L", '"N"'),
)
DEAD = """\
  {kind}_{pair}_{n}:
    group: Shown dead
    needs: {{pedestal-breaker: "off", cord: unplugged}}
    measure: {{what: ac-volts, place: pedestal-30, from: {from_}, to: {to}}}
    bands:
{bands}
    unable: not_measured
"""
REST = """\
  rest_{n}:
    step: Rest a minute.
    done: {then}
    cannot: another_day
"""
ENDS = """\

  # Endings all outlets share.
  all_tried:
    end: unplugged
    because: Every outlet was read and tried, and nothing forbids its use.
    safe_action: Keep the cord out until you choose one.
    call: park
    call_when: an outlet changes
    say: "[Site {site}: ]We tried every outlet here.[ Readings: {readings}.] Please check the supply."
  another_day:
    end: leave-as-is
    because: This cannot be tried safely now.
    safe_action: Leave everything as it is. Try another day.
    call: park
    say: "[Site {site}: ]We could not try the outlets. Please have a look at them with us."
  not_measured:
    end: stay-unplugged
    because: Not every slot pair could be read, so nothing is known to be sound.
    safe_action: Keep the cord out.
    call: park
    say: "[Site {site}: ]We could not read every slot.[ Readings: {readings}.] Please check the outlet."
  stay_away:
    end: hands-off
    because: Water, a smell, damage or a live case forbids going near.
    safe_action: Keep everybody away from the pedestal. Keep the cord out.
    call: park
    say: "[Site {site}: ]Something is wrong at the pedestal. Please switch it off at the loop."
  worn:
    end: stay-unplugged
    because: A breaker that feels spongy or will not latch can fail to trip.
    safe_action: Keep the cord out. Leave the handle alone.
    call: park
    say: "[Site {site}: ]The breaker of this outlet is worn. Nothing was plugged in. Please replace it."
  half_live:
    end: stay-unplugged
    because: With the breaker off a slot pair still shows a voltage.
    safe_action: Keep the cord out. Treat every slot as live.
    call: park
    say: "[Site {site}: ]With the breaker off a slot pair is live.[ Readings: {readings}.] Please check it."
  live_metal:
    end: hands-off
    because: Neutral and ground are far apart. Metal at the pedestal may be live.
    safe_action: Touch nothing at the pedestal. Keep the cord out and everybody away.
    call: park
    say: "[Site {site}: ]Neutral and ground are far apart.[ Readings: {readings}.] Please switch it off now."
  out_of_order:
    end: stay-unplugged
    because: The slot pairs together show that this outlet is not sound.
    safe_action: Keep the cord out. Try again when the park has answered.
    call: park
    say: "[Site {site}: ]This outlet does not read right.[ Readings: {readings}.] Please check it."
  rig_live:
    end: hands-off
    because: The rig's metal is live.
    safe_action: Nobody touches the rig or its cord. Keep everybody 3 m away. Leave the plug where it is.
    call: park
    say: "[Site {site}: ]With our cord plugged in, the metal of our rig is live. Please switch the loop off."
  stuck:
    end: unplug-now
    because: The plug may still be in, and what follows could not be done.
    safe_action: Rig main off. Pedestal breaker off. Then pull the plug at the pedestal first.
    call: park
    say: "[Site {site}: ]Our plug is stuck, or its breaker does not switch off. Please help us."
"""


def synthetic(nodes: int, name: str = "scale") -> str:
    """Return the text of a tree with this many nodes; at least 100."""
    fixed = _count(HEAD) + _count(ENDS)
    each = _count(_outlet(1, ""))
    outlets, rests = divmod(nodes - fixed, each)
    begins = [*(f"rest_{n}" for n in range(1, rests + 1)), *(f"weather_{n}" for n in range(1, outlets + 1))]
    then = dict(zip(begins, [*begins[1:], "all_tried"], strict=True))
    return "".join(
        (
            HEAD.format(name=name, first=begins[0]),
            *(REST.format(n=n, then=then[f"rest_{n}"]) for n in range(1, rests + 1)),
            *(_outlet(n, then[f"weather_{n}"]) for n in range(1, outlets + 1)),
            ENDS,
        )
    )


def _outlet(n: int, then: str) -> str:
    return OUTLET.format(
        n=n, then=then, dead=_dead("dead", n, f"breaker_on_{n}"), still=_dead("still", n, f"plug_in_{n}")
    )


def _dead(kind: str, n: int, then: str) -> str:
    """The three pairs of an outlet shown dead, one after the other."""
    texts = []
    for at, (pair, from_, to) in enumerate(PAIRS):
        last = at + 1 == len(PAIRS)
        on = (
            f'{{below: no-voltage, grade: ok, goto: {then}, leaves: {{shown-dead: "yes"}}}}'
            if last
            else f"{{below: no-voltage, grade: ok, goto: {kind}_{PAIRS[at + 1][0]}_{n}}}"
        )
        bands = [on, "{grade: stop, goto: half_live}"]
        if not at:
            bands = [
                on.replace("no-voltage, grade: ok", "neutral-ground-ok, grade: ok"),
                on.replace("no-voltage, grade: ok", "neutral-ground-stop, grade: watch"),
                "{below: ghost-high, grade: stop, goto: half_live}",
                "{grade: danger, goto: live_metal}",
            ]
        texts.append(
            DEAD.format(
                kind=kind,
                pair=pair,
                n=n,
                from_=from_,
                to=to,
                bands="\n".join(f"      - {band}" for band in bands),
            )
        )
    return "".join(texts)


def _count(text: str) -> int:
    return sum(
        line.startswith("  ") and line[2].isalnum() and line.endswith(":") for line in text.splitlines()
    )
