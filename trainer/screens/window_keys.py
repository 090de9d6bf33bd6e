"""The keys that move the window on a sheet, and the overview that shows where it is."""

from __future__ import annotations

from trainer.actions import WINDOW_WAYS
from trainer.screens.board_view import BoardView
from trainer.screens.overview import Overview
from trainer.screens.shell import Shell


class WindowKeys(Shell):
    """A screen with a board and an overview; ``looked`` is told of every key that moves the window."""

    def looked(self) -> None:
        """Note an input that only looks round."""

    def on_board_view_shown(self, event: BoardView.Shown) -> None:
        """Show where the window is on the sheet."""
        self.query_one(Overview).show(event)

    def on_overview_pointed(self, event: Overview.Pointed) -> None:
        """Move the window to a place."""
        self.query_one(BoardView).centre(event.place)

    def action_pan(self, key: str) -> None:
        """Move the window on the sheet."""
        self.looked()
        self.query_one(BoardView).pan(*WINDOW_WAYS[key])

    def action_zoom(self, key: str) -> None:
        """Show the sheet larger or smaller."""
        self.looked()
        self.query_one(BoardView).zoom(closer=key != "minus")

    def action_into_view(self) -> None:
        """Go back to the cursor, or on to the next sign of the verdict."""
        self.looked()
        self.query_one(BoardView).bring_into_view()
