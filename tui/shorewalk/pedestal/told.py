"""What a trial showed, as text and as JSON."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Sequence
from typing import Any

from shorewalk.tree.model import VERDICTS

from .trial import Tried


def trial_text(tree: str, tried: Sequence[Tried]) -> list[str]:
    """Return a table of faults and verdicts, then each walk that was let into use under a danger nobody named."""
    verdicts = [verdict for verdict in VERDICTS if any(one.end.verdict == verdict for one in tried)]
    faults = list(dict.fromkeys(one.fault.id for one in tried))
    counted = Counter((one.fault.id, one.end.verdict) for one in tried)
    wide = max(map(len, faults), default=0)
    lines = [f"{tree}, walked {len(tried)} times", "", " " * wide + "  " + "  ".join(verdicts)]
    for fault in faults:
        cells = (str(counted[fault, verdict] or ".").rjust(len(verdict)) for verdict in verdicts)
        lines.append(f"{fault:{wide}}  " + "  ".join(cells))
    used = [one for one in tried if one.used and one.fault.danger != "none"]
    harmed = [one for one in used if one.harm]
    lines += ["", f"In use under a danger that the ending names: {len(used) - len(harmed)}."]
    lines += [f"In use under a danger that nobody names: {len(harmed)}."]
    for one in harmed:
        lines += [f"  {one.fault.id} at the {one.outlet} (seed {one.seed}), {one.end.at}: {one.end.verdict}"]
        lines += [f"    {known.says}: {known.shows}" for known in one.walk.now.known if known.place]
    return lines


def trial_json(tree: str, tried: Sequence[Tried]) -> str:
    """Return every walk as an object."""
    walks: list[dict[str, Any]] = [
        {
            "fault": one.fault.id,
            "side": one.fault.side,
            "danger": one.fault.danger,
            "outlet": one.outlet,
            "seed": one.seed,
            "at": one.end.at,
            "verdict": one.end.verdict,
            "call": one.end.call,
            "named": one.named,
            "harm": one.harm,
        }
        for one in tried
    ]
    return json.dumps({"version": 1, "tree": tree, "walks": walks}, indent=1)
