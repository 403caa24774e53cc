"""`python -m shorewalk` is `shorewalk`."""

from __future__ import annotations

import sys

from .cli import program

sys.exit(program())
