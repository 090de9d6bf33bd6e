"""The keys that move the hand: the same on every drill, whatever the hand makes of them."""

from __future__ import annotations

from typing import cast

from trainer.answering.hand import Hand
from trainer.board.arrows import Arrow
from trainer.screens.shell import Shell


class HandKeys(Shell):
    """A screen with a hand; ``did`` is told of every move."""

    hand: Hand

    def did(self) -> None:
        """Note an input and show what it did."""

    def action_go(self, arrow: str) -> None:
        """Move, or change a number."""
        self.hand.go(cast("Arrow", arrow))
        self.did()

    def action_turn_left(self) -> None:
        """Go to the next crease counterclockwise."""
        self.hand.turn(clockwise=False)
        self.did()

    def action_turn_right(self) -> None:
        """Go to the next crease clockwise."""
        self.hand.turn(clockwise=True)
        self.did()

    def action_next_point(self) -> None:
        """Go to the next point or number."""
        self.hand.next_point(back=False)
        self.did()

    def action_last_point(self) -> None:
        """Go to the point or number before."""
        self.hand.next_point(back=True)
        self.did()

    def action_mark(self) -> None:
        """Mark what is under the cursor."""
        self.hand.mark()
        self.did()

    def action_undo(self) -> None:
        """Take back."""
        self.hand.undo()
        self.did()

    def action_number(self, digit: str) -> None:
        """Type a digit."""
        self.hand.number(int(digit))
        self.did()
