"""Opening what was asked for over a shared login."""

from __future__ import annotations

from shorewalk.walking import Asked, open_front, told

from .asking import Wish


def open_wish(wish: Wish) -> int:
    """Open the start, a walk or practice; where that cannot be done, say why."""
    if wish.what == "practice":
        from shorewalk.practising import practise  # which loads the arithmetic of circuits

        return told(lambda: practise(wish.words or None, None, print, plain=wish.plain))
    asked = Asked(wish.words, resume=wish.resume, plain=wish.plain, aloud=wish.aloud)
    return told(lambda: open_front(asked))
