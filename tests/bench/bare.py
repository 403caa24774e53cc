"""A bare Textual app to measure against: a Static, an Input and a Footer."""

from __future__ import annotations

from typing import ClassVar

from textual.app import App, ComposeResult
from textual.binding import BindingType
from textual.widgets import Footer, Input, Static


class BareApp(App[None]):
    BINDINGS: ClassVar[list[BindingType]] = [("ctrl+q", "quit", "leave")]

    def compose(self) -> ComposeResult:
        yield Static("A bare app is here.")
        yield Input()
        yield Footer()


if __name__ == "__main__":
    BareApp().run()
