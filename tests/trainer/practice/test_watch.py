from __future__ import annotations

import pytest

from progress_store import InputDevice
from tests.trainer.practice.making import Hands
from trainer.practice.attempts import Watch


def test_the_time_runs_from_the_drill_to_the_last_input() -> None:
    """Two seconds, a half, a quarter: 2750 ms, three inputs, two gaps; what comes after is left out."""
    hands = Hands()
    watch = watched(hands, (2, "keys"), (0.5, "keys"), (0.25, "keys"))
    hands.wait(500)
    assert watch.read() == (2750, 3, (500, 250), "keys")


def watched(hands: Hands, *inputs: tuple[float, InputDevice]) -> Watch:
    """Return a watch that saw inputs, each so many seconds after the one before."""
    watch = Watch(hands.clock.ticks)
    for seconds, means in inputs:
        hands.wait(seconds)
        watch.saw(means)
    return watch


@pytest.mark.parametrize(("seconds", "kept"), [(59, True), (60, True), (60.1, False), (4000, False)])
@pytest.mark.parametrize("idle_at", [0, 1, 2])
def test_more_than_a_minute_without_a_key_takes_the_time_away(
    seconds: float, kept: bool, idle_at: int
) -> None:
    """Whether before the first input or later; the inputs are kept all the same."""
    inputs: list[tuple[float, InputDevice]] = [(1, "keys"), (1, "keys"), (1, "keys")]
    inputs[idle_at] = (seconds, "keys")
    measured = watched(Hands(), *inputs).read()
    assert measured.milliseconds == (round(1000 * (2 + seconds)) if kept else None)
    assert measured.inputs == 3


def test_two_short_waits_are_not_one_long_one() -> None:
    """A key in between shows that the person is there."""
    assert watched(Hands(), (50, "keys"), (50, "keys")).read().milliseconds == 100_000


def test_leaving_the_window_takes_the_time_away() -> None:
    """However short it was, and whatever came after."""
    watch = watched(Hands(), (1, "keys"))
    watch.left()
    watch.saw("keys")
    assert watch.read()[:2] == (None, 2)


@pytest.mark.parametrize(
    ("means", "most"),
    [
        (["keys"], "keys"),
        (["mouse"], "mouse"),
        (["text"], "text"),
        (["keys", "mouse", "mouse"], "mouse"),
        (["mouse", "keys", "keys"], "keys"),
        (["mouse", "keys"], "keys"),
        ([], "keys"),
    ],
)
def test_the_means_is_the_one_used_most(means: list[InputDevice], most: InputDevice) -> None:
    """Keys where nothing was used or as much as the mouse."""
    assert watched(Hands(), *[(1.0, each) for each in means]).read().means == most


def test_one_input_at_least_is_counted() -> None:
    """An answer is itself an input."""
    assert watched(Hands()).read() == (0, 1, (), "keys")


def test_the_last_forty_gaps_are_kept() -> None:
    """Of a hundred inputs, as many as a line of the log holds."""
    inputs: list[tuple[float, InputDevice]] = [(number / 1000, "keys") for number in range(1, 101)]
    measured = watched(Hands(), *inputs).read()
    assert (measured.inputs, len(measured.gaps)) == (100, 40)
    assert measured.gaps == tuple(range(61, 101))
