"""The one exception a walk raises: an answer that does not count, and why."""

from __future__ import annotations


class Refused(Exception):  # noqa: N818 (it is no error of the program: it is what happened to the answer)
    """An answer was refused; nothing changed and the same question stands.

    `reason` is a sentence for the person. With `confirm` the same answer, given again as
    confirmed, counts.
    """

    def __init__(self, reason: str, confirm: bool = False) -> None:  # noqa: FBT001, FBT002 (a flag of the contract)
        super().__init__(reason)
        self.reason = reason
        self.confirm = confirm
