"""What the targets begin with: trees, recorded walks, answers, readings, a walk that is handed over."""

from __future__ import annotations

import json
import re
from functools import cache

from shorewalk.folders import demo_data, trees
from shorewalk.handing import Handed, text_of

from ..handed.walks import handed_of, walked
from ..yaml_features import READ, REFUSED

SMALL = ("tingle", "storm", "somebody-hurt", "bad-pedestal", "batteries-flat", "leaving", "wont-go-dead")
"""Trees that are looked at quickly; between them every kind of node."""

TREES = (
    *(trees().joinpath(f"{name}.yaml").read_bytes() for name in SMALL),
    *(file.read_bytes() for file in sorted((trees() / "parts").glob("*.yaml"))),
    *(text.encode() for text, _ in READ.values()),
    *(text.encode() for text in REFUSED.values()),
)
OWN = tuple(re.sub(rb"^tree: .*", b"tree: own", tree, flags=re.MULTILINE) for tree in TREES[: len(SMALL)])
"""Trees as somebody's own, in a file `own.yaml`."""

FACTS = tuple(
    f"{file.stem}\n".encode() + file.read_bytes() for file in sorted((trees() / "site").glob("*.yaml"))
)
"""Files of facts, each behind a line with its name."""

RECORDED = tuple(file.read_bytes() for file in sorted((demo_data() / "walks").glob("*.yaml"))[::25])

READINGS = tuple(
    "121.8|121,8 V|118-121|118..121.5|OL|0.L|-0.2 mV|1.2 kohm|60 Hz|over|118 to 121 V|١٢١٫٨|１２１|120~|+5|.5|5.|12.5 A"
    "|20-30 mV|0|1e5|nan|ΩΩ|120 V 121 V|1,234.5|--5|999999999999999999999999|0x10|½|²".encode().split(b"|")
)
ANSWERS: tuple[object, ...] = (
    *({"done": True}, {"cannot": True}, {"unsure": True}, {"unable": True}, {"back": True}),
    *(
        {"choose": "50"},
        {"choose": "30"},
        {"choose": "yes"},
        {"choose": "none"},
        {"choose": "dry"},
        {"choose": "no"},
    ),
    *({"reading": "121.8"}, {"reading": "98"}, {"reading": "0.2 V"}, {"reading": "1218", "confirmed": True}),
    *({"running": {"kettle": 1, "iron": 2}}, {"running": {}}, {"done": True, "time": "2024-05-01T18:30:00Z"}),
    *([], None, 5, "x", {}, {"choose": ["a"]}, {"running": {"kettle": -1}}, {"reading": 121.8}),
)
LINES = (
    b"\n".join(json.dumps(answer).encode() for answer in ANSWERS),
    *(json.dumps(answer).encode() + b"\n" for answer in ANSWERS),
    b"\n".join([b'{"done": true}'] * 8 + [b'{"choose": "none"}', b'{"reading": "109"}'] * 12),
)
TYPED = (
    b"1\n2\n1\n1\n121.8\n0\nb\nk\n?\n!\n109\n1 2\n3 3\nq\n",
    b"1\n" * 30,
    b"1\n1\n1\n1\n" + b"121.4\n119.6\n" * 12,
    b"/volts\n/\ni\nk\nb\nb\n0\n0\n2\n",
    *READINGS,
)


@cache
def sound_walk() -> Handed:
    """Return a walk as it is handed over."""
    return handed_of(walked(upto=12))


WALK_FILES = (text_of(sound_walk()).encode(),)
