import json
from pathlib import Path

import pytest

from progress_store import Settings
from tests.progress_store.making import store


def test_settings_are_five_minutes_and_going_on_until_changed(tmp_path: Path) -> None:
    """The usual settings hold at first, saved ones after that."""
    with store(tmp_path) as opened:
        assert opened.settings == Settings(minutes_a_day=5, go_on_after_right=True, started=False, theme=None)
        opened.save_settings(Settings(minutes_a_day=10, started=True, theme="plain"))
    with store(tmp_path, writable=False) as reader:
        assert reader.settings == Settings(minutes_a_day=10, started=True, theme="plain")


def test_unknown_settings_are_kept(tmp_path: Path) -> None:
    """A setting of a later program survives our saving."""
    (tmp_path / "settings.json").write_text('{"schema": 1, "minutes_a_day": 7, "bell": "soft"}')
    with store(tmp_path) as opened:
        assert opened.settings.minutes_a_day == 7
        opened.save_settings(opened.settings)
    assert json.loads((tmp_path / "settings.json").read_text())["bell"] == "soft"


@pytest.mark.parametrize(
    "content",
    [
        "{",
        '{"schema": 1, "minutes_a_day": 0}',
        '{"schema": 1, "started": 1}',
        '{"schema": 1, "theme": "a\\u001b"}',
    ],
)
def test_damaged_settings_are_moved_aside_and_told(tmp_path: Path, content: str) -> None:
    """The usual settings take their place, the damaged file is kept."""
    (tmp_path / "settings.json").write_text(content)
    with store(tmp_path) as opened:
        assert opened.settings == Settings()
        assert "settings.damaged-1.json" in opened.notices[0]
    assert (tmp_path / "settings.damaged-1.json").read_text() == content


def test_newer_settings_are_never_written_over(tmp_path: Path) -> None:
    """What is set now holds in memory, and the newer file stays byte for byte."""
    (tmp_path / "settings.json").write_text('{"schema": 2}')
    with store(tmp_path) as opened:
        opened.save_settings(Settings(minutes_a_day=9))
        assert opened.settings.minutes_a_day == 9
        assert "newer Slantwise" in opened.notices[0]
    assert (tmp_path / "settings.json").read_text() == '{"schema": 2}'


@pytest.mark.parametrize("minutes", [0, 121, True, 5.0])
def test_minutes_that_do_not_fit_are_refused(minutes: int) -> None:
    """Minutes a day are a whole number from 1 to 120."""
    with pytest.raises(ValueError, match="Minutes a day"):
        Settings(minutes_a_day=minutes)


def test_the_page_of_the_lesson_is_kept(tmp_path: Path) -> None:
    """None at first; the page reached comes back."""
    with store(tmp_path) as opened:
        assert opened.settings.lesson == 0
        opened.save_settings(Settings(lesson=4))
    with store(tmp_path, writable=False) as reader:
        assert reader.settings.lesson == 4


@pytest.mark.parametrize("page", [-1, 100, True, 4.0])
def test_a_page_that_does_not_fit_is_refused(page: int) -> None:
    """A page is a whole number from 0 to 99."""
    with pytest.raises(ValueError, match="page of the lesson"):
        Settings(lesson=page)
