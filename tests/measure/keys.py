"""The table of the fewest keys that the right answer takes at 80x24: python -m tests.measure.keys.

The ways are tried on the real answer input and the window that follows it. A key that marks what is
not to be marked leads nowhere, and undo, hint and what only looks round are left out, but for the key
that shows the whole sheet, if that was not shown. Two ways to one
place are not told apart by the window or by how the cursor came there, so a sheet larger than the
window may be answered with fewer keys still.
"""

from __future__ import annotations

import sys
from collections.abc import Hashable, Iterator
from copy import copy
from dataclasses import dataclass
from functools import cached_property
from heapq import heappop, heappush
from itertools import count
from statistics import median
from typing import Any, NamedTuple, TypeAlias

from drills.geometry import Point
from drills.questions import Drill, Marks, Outlines, ReadStep
from drills.structures import lies_within
from tests.drills.questions.codes import FORMS, drills, levels_of
from trainer.actions import Context, actions_at
from trainer.answering import AnswerInput
from trainer.board import RULER_COLUMNS, RULER_ROWS, Cursor, Room, Window, followed, opened
from trainer.practice.flow import press
from trainer.screens.side import side_columns
from trainer.ways_of_asking import input_for

COLUMNS, ROWS = 80 - RULER_COLUMNS, 20 - RULER_ROWS
"""The columns of a board and what is beside it in a window of 80 by 24, and the rows of the board."""
SEEDS = range(1, 7)
PRESSED = frozenset(
    {"go", "far", "turn_left", "turn_right", "next_point", "last_point", "mark", "letters", "letter"}
    | {"letters_back", "number", "next_number"}
)
UNLIKE = frozenset({"drill", "question", "track", "scale", "marks", "_toggled", "_clicked"})
"""What of an answer input says nothing of where it is."""
Parts: TypeAlias = frozenset[int]


class Hand(NamedTuple):
    """An answer input without marks, and the window on its sheet."""

    input: AnswerInput[Any]
    window: Window

    def place(self) -> Hashable:
        """Return what tells it from another hand: where it is, not how it came there, and how large."""
        kept: list[Any] = [self.window.scale.dots]
        kept += [value for name, value in sorted(vars(self.input).items()) if name not in UNLIKE]
        return tuple(map(_told_apart, kept))


@dataclass(frozen=True, eq=False)
class Ways:
    """The keys of one drill: where each leads from each place, and which part of the answer it marks."""

    drill: Drill

    @cached_property
    def input(self) -> AnswerInput[Any]:
        """The answer input as the drill opens."""
        return input_for(self.drill)

    def start(self) -> Hand:
        """Return the hand as the drill opens."""
        pattern, look = self.drill.pattern, self.input.look()
        room = Room(COLUMNS - side_columns(pattern, look, 80), ROWS)
        window = opened(pattern, room, look)
        return self._seeing(Hand(_copied(self.input), window))

    def fewest(self) -> int:
        """Return the number of keys, Enter among them."""
        first, parts = self.start(), self._parts()
        truth = self.drill.question.answer
        if isinstance(truth, Marks | Outlines) and not truth[0]:
            return 1
        order = count()
        waiting = [(len(parts), next(order), 0, first, parts)]
        seen: set[tuple[Hashable, Parts]] = set()
        while waiting:
            _, _, keys, hand, left = heappop(waiting)
            if (at := (hand.place(), left)) in seen:
                continue
            seen.add(at)
            if not left and self._answers(hand):
                return keys + 1
            for there, part in self._from(hand, at[0]):
                if part is None or part in left:
                    rest = left - {part}
                    heappush(waiting, (keys + 1 + len(rest), next(order), keys + 1, there, rest))
        raise AssertionError(f"{self.drill.code} cannot be answered")

    @cached_property
    def _known(self) -> dict[Hashable, list[tuple[Hand, int | None]]]:
        return {}

    def _from(self, hand: Hand, place: Hashable) -> list[tuple[Hand, int | None]]:
        if place not in self._known:
            self._known[place] = list(self._pressed(hand))
        return self._known[place]

    def _pressed(self, hand: Hand) -> Iterator[tuple[Hand, int | None]]:
        """Yield where the keys lead, those left out that mark what is not to be marked."""
        if not hand.window.scale.is_whole and (far := hand.window.whole_or_close()) != hand.window:
            yield self._seeing(Hand(_copied(hand.input), far)), None
        for name, key in self._keys(hand):
            tried = _copied(hand.input)
            if name == "letters" and not hand.input.letters_on:
                vars(tried)["lettered"] = self._letters(hand)
            else:
                press(tried, name, key)
            marks: list[Any] = getattr(tried, "marks", [])
            part = self._part(marks.pop()) if marks else None
            if part != -1:
                window = hand.window if name == "letter" else self._followed(hand, tried)
                yield self._seeing(Hand(tried, window)), part

    def _letters(self, hand: Hand) -> object:
        """Return the letters of what is in view, made once for each view."""
        if hand.window not in self._views:
            tried = _copied(hand.input)
            press(tried, "letters")
            self._views[hand.window] = vars(tried)["lettered"]
        return self._views[hand.window]

    @cached_property
    def _views(self) -> dict[Window, object]:
        return {}

    def _followed(self, hand: Hand, tried: AnswerInput[Any]) -> Window:
        if hand.window.scale.is_whole:
            return hand.window
        return followed(hand.window, hand.input.look(), tried.look())

    def _keys(self, hand: Hand) -> list[tuple[str, str]]:
        return self._keys_with_letters if hand.input.letters_on else self._keys_without

    @cached_property
    def _keys_without(self) -> list[tuple[str, str]]:
        return [*self._keys_at("drill")]

    @cached_property
    def _keys_with_letters(self) -> list[tuple[str, str]]:
        """Return the keys of the letters; what else works while they stand does the same without them."""
        return [key for key in self._keys_at("letters") if key[0] in ("letter", "letters_back")]

    def _keys_at(self, context: Context) -> Iterator[tuple[str, str]]:
        for action in actions_at(context, self.input.actions):
            if action.name in PRESSED:
                for key in action.keys if action.takes_key else ("",):
                    if self._is_of_use(action.name, key):
                        yield action.name, key

    def _is_of_use(self, name: str, key: str) -> bool:
        """Whether a key of a step is a digit of it; arrows that change a number only take longer."""
        question = self.drill.question
        if not isinstance(question, ReadStep):
            return True
        return name != "go" and (name != "number" or key in "".join(map(str, question.answer)))

    @staticmethod
    def _seeing(hand: Hand) -> Hand:
        hand.input.sees(hand.window.scale)
        return hand

    def _parts(self) -> Parts:
        truth = self.drill.question.answer
        if self.drill.question.ask == "join" or not isinstance(truth, Marks | Outlines):
            return frozenset()
        return frozenset(truth.items if isinstance(truth, Marks) else range(len(truth.edges)))

    def _part(self, mark: Any) -> int:
        truth = self.drill.question.answer
        if isinstance(truth, Marks):
            return mark if mark in truth.items else -1
        assert isinstance(truth, Outlines)
        assert isinstance(mark, Point)
        within = (n for n, edges in enumerate(truth.edges) if lies_within(self.drill.pattern, edges, mark))
        return next(within, -1)

    def _answers(self, hand: Hand) -> bool:
        if self._parts():
            return True
        given = hand.input.answer()
        return given is not None and given == self.drill.question.right_answer(self.drill)


def _told_apart(value: Any) -> Hashable:
    if isinstance(value, Cursor):
        return value.vertex, value.edge
    return tuple(value) if isinstance(value, list) else value


def _copied(used: AnswerInput[Any]) -> AnswerInput[Any]:
    """Return an input that can be changed apart from another."""
    other = copy(used)
    vars(other).update({name: [*value] for name, value in vars(used).items() if type(value) is list})
    return other


def main() -> None:
    """Print the table; the number of drills of a form and level may be given."""
    seeds = SEEDS[: int(sys.argv[1])] if len(sys.argv) > 1 else SEEDS
    print(f"{'keys, median (worst)':22}" + "".join(f"{f'level {level}':>11}" for level in range(1, 8)))
    for kind, form in FORMS:
        print(f"{kind + ' ' + form:22}", end="")
        for level in range(1, 8):
            made = drills(kind, form, level, seeds) if level in levels_of(kind) else ()
            keys = [Ways(drill).fewest() for drill in made]
            print(f"{f'{median(keys):g} ({max(keys)})' if keys else '':>11}", end="", flush=True)
        print()


if __name__ == "__main__":
    main()
