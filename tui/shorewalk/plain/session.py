"""What one run of plain text has in common: who is spoken to, where walks are kept, which meter, where files go."""

from __future__ import annotations

from dataclasses import dataclass, field

from shorewalk.journal import Journal
from shorewalk.ruling import Ruling
from shorewalk.tree.library import Library, shipped
from shorewalk.walk.meter import Meter, parse_meter

from .voice import Voice


@dataclass
class Session:
    """See the module.

    `meter_set`: whether the person said how exact the meter is. `aloud`: questions in few words, to be read to somebody
    else. `rules_out`: an ending says by itself what the readings leave possible. `asks_site`: once in a stay.
    """

    voice: Voice
    journal: Journal
    library: Library = field(default_factory=shipped)
    meter: Meter = field(default_factory=lambda: parse_meter("basic"))
    meter_set: bool = False
    aloud: bool = False
    rules_out: bool = False
    asks_site: bool = True
    ruling: Ruling = field(default_factory=Ruling)
    welcomed: bool = False
