"""The author's preview: one tree's outline, findings and walks, read again on every save."""

from __future__ import annotations
