"""Where somebody has practised, and whether that walk ended as it should: one small file beside the walks."""

from __future__ import annotations

import json
from pathlib import Path

from .store import home

FILE = "practice.json"


def practised(folder: Path | None = None) -> dict[str, bool]:
    """Return sites by name, and whether the last walk there was right; nothing where no file can be read."""
    try:
        data = json.loads(((folder or home()) / FILE).read_text(encoding="utf-8"))
    except (OSError, RuntimeError, ValueError):
        return {}
    return {str(name): right is True for name, right in data.items()} if isinstance(data, dict) else {}


def keep_practised(site: str, *, right: bool, folder: Path | None = None) -> str | None:
    """Keep how a walk at a site ended; return why that could not be kept, if so."""
    try:
        folder = folder or home()
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        new = folder / f"{FILE}.new"
        new.write_text(json.dumps(practised(folder) | {site: right}, indent=1), encoding="utf-8")
        new.replace(folder / FILE)
    except (OSError, RuntimeError) as error:
        return f"Your progress is not kept ({getattr(error, 'strerror', None) or error})."
    return None
