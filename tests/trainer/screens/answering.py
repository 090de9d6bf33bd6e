"""Right and wrong answers to the drill in hand, by keys alone or by mouse alone."""

from __future__ import annotations

from collections.abc import Iterator

from drills.geometry import Point
from drills.questions import (
    AnyQuestion,
    Drill,
    FindStretches,
    JoinPoints,
    Marks,
    Outlines,
    PlaceStep,
    ReadStep,
)
from drills.structures import lies_within
from tests.no_row import no_row
from tests.trainer.screens.playing import Play
from trainer.answering import CreasesInput, FindingInput, JoiningInput, PointsInput
from trainer.board import Scale, creases_near
from trainer.screens.drill import DrillScreen
from trainer.ways_of_asking import input_for


async def answer(play: Play, right: bool = True) -> None:
    """Answer the drill in hand by keys and see the verdict that is expected."""
    await play.burst(*(right_keys(play.drill) if right else wrong_keys(play.drill)))
    verdict = play.at(DrillScreen).flow.verdict
    assert verdict is not None
    assert verdict.right is right


def right_keys(drill: Drill) -> list[str]:
    """Return the keys of the right answer, Enter at the end; 0 where there is nothing to mark."""
    if isinstance(drill.question.answer, Marks | Outlines) and not drill.question.answer[0]:
        return ["0"]
    return [*_keys_of(drill), "enter"]


def wrong_keys(drill: Drill) -> list[str]:
    """Return the keys of a wrong answer."""
    question = drill.question
    if isinstance(question, ReadStep):
        return ["9", "comma", "8", "comma", *["7"] * question.counts_repeats, "enter"]
    if question.takes is int:
        return [*str(question.answer + 1), "enter"]
    if isinstance(question, PlaceStep):
        start = question.start
        return ["right" if start.x == 0 else "left", "enter"]
    if isinstance(question, JoinPoints):
        return ["tab" if list(_keys_of(drill)) != ["tab"] else "shift+tab", "enter"]
    return ["0"] if drill.question.answer[0] else ["space", "enter"]


def _keys_of(drill: Drill) -> Iterator[str]:
    question, truth = drill.question, drill.question.answer
    if numbers := _numbers_of(question):
        yield from _typed(numbers)
    elif isinstance(question, PlaceStep):
        yield from _arrows(question.start, question.answer)
    elif isinstance(question, FindStretches):
        yield from _finding(drill)
    elif isinstance(truth, Marks):
        yield from _marking(drill, truth)
    else:
        no_row(type(question).__name__, "_keys_of", __file__)


def _numbers_of(question: AnyQuestion) -> list[int]:
    """Return the numbers of an answer that has some."""
    if isinstance(question, ReadStep):
        return [abs(number) for number in question.answer[: 2 + question.counts_repeats]]
    return [question.answer] if question.takes is int else []


def _typed(numbers: list[int]) -> Iterator[str]:
    """Yield the digits of numbers, one by one, and a comma after each number."""
    for number in numbers:
        yield from (*str(number), "comma")


def spots_in(drill: Drill) -> list[Point]:
    """Return a crossing of the grid in each stretch that is to be found."""
    assert isinstance(drill.question.answer, Outlines)
    left, bottom, right, top = (int(value) for value in drill.pattern.box)
    crossings = [Point(x, y) for x in range(left, right + 1) for y in range(bottom, top + 1)]
    found = (
        next(spot for spot in crossings if lies_within(drill.pattern, outline, spot))
        for outline in drill.question.answer.edges
    )
    return list(dict.fromkeys(found))


def _finding(drill: Drill) -> Iterator[str]:
    """Yield the keys that go square by square to a place in each stretch and mark it."""
    hand = input_for(drill)
    assert isinstance(hand, FindingInput)
    here = hand.at
    for spot in spots_in(drill):
        yield from _arrows(here, spot)
        yield "space"
        here = spot


def _arrows(start: Point, end: Point) -> Iterator[str]:
    across, up = int(end.x - start.x), int(end.y - start.y)
    yield from ["right" if across > 0 else "left"] * abs(across)
    yield from ["up" if up > 0 else "down"] * abs(up)


def _marking(drill: Drill, truth: Marks) -> Iterator[str]:
    """Yield the keys that go round the points, and turn at each, marking what is to be marked."""
    hand = input_for(drill)
    assert isinstance(hand, PointsInput | CreasesInput)
    left = set(truth.items)
    for _ in hand.track.vertices:
        if not left:
            return
        hand.next_point(back=False)
        yield "tab"
        if isinstance(hand, JoiningInput):
            left -= {hand.cursor.vertex}
        elif hand.under_cursor() in left and isinstance(hand, PointsInput):
            left.discard(hand.cursor.vertex)
            yield "space"
        elif isinstance(hand, CreasesInput):
            yield from _turning(hand, left)


def _turning(hand: CreasesInput, left: set[int]) -> Iterator[str]:
    creases = hand.track.creases_at(hand.cursor.vertex)
    if not left & set(creases):
        return
    for _ in creases:
        hand.turn(clockwise=True)
        yield "greater_than_sign"
        if hand.cursor.edge in left:
            left.remove(hand.cursor.edge)
            yield "space"


async def click_answer(play: Play) -> None:
    """Click the right answer on the board or on the panel, and the words that answer."""
    drill, question, truth = play.drill, play.drill.question, play.drill.question.answer
    if numbers := _numbers_of(question):
        await _click_numbers(play, numbers)
    elif isinstance(truth, Point):
        await play.click_point(truth)
    elif isinstance(truth, Outlines):
        for spot in spots_in(drill):
            await play.click_point(spot)
    elif not isinstance(truth, Marks):
        no_row(type(question).__name__, "click_answer", __file__)
    elif question.marks_points:
        for vertex in sorted(truth.items):
            await play.click_point(drill.pattern.vertices[vertex])
    else:
        for edge in sorted(truth.items):
            await _click_crease(play, edge)
    if isinstance(truth, Marks | Outlines) and not truth[0]:
        await play.click_key("0 none")
    else:
        await play.click_key("Enter answer")


async def _click_numbers(play: Play, numbers: list[int]) -> None:
    text = play.screen.query_one("#panel-text")
    for place, number in enumerate(numbers):
        lines = [text.render_line(row).text for row in range(text.size.height)]
        rows = [row for row, line in enumerate(lines) if "[+]" in line]
        for _ in range(number):
            await play.click(text, lines[rows[place]].index("[+]") + 1, rows[place])


async def _click_crease(play: Play, edge: int) -> None:
    left, top = play.corner
    column, row = _cell_on(play.drill, play.scale, edge)
    await play.click(play.board, left + column, top + row)


def _cell_on(drill: Drill, scale: Scale, edge: int) -> tuple[int, int]:
    """Return a cell whose middle is nearer to a crease than to any other."""
    return next(
        (column, row)
        for row in range(scale.rows)
        for column in range(scale.columns)
        if creases_near(drill.pattern, scale, column + 0.5, row + 0.5)[:1] == (edge,)
    )
