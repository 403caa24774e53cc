"""Writes the pictures to the folder named, else to where the README looks for them."""

from __future__ import annotations

import sys
from pathlib import Path

from shorewalk.folders import demo_data

from .gallery import PICTURES, draw


def main(words: list[str]) -> int:
    """Draw all of them; say which files were written."""
    folder = Path(words[0]) if words else demo_data() / "pictures"
    folder.mkdir(parents=True, exist_ok=True)
    for picture in PICTURES:
        path = folder / f"{picture.name}.svg"
        path.write_text(draw(picture), encoding="utf-8")
        sys.stdout.write(f"{path}\n")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
