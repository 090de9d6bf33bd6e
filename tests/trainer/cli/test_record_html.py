"""`slantwise record --html`: one page without scripts, its charts equal to the record."""

from __future__ import annotations

import json
from html.parser import HTMLParser
from pathlib import Path

import pytest

from progress_store import Record, Rules
from tests.progress_store.making import attempt
from tests.trainer.cli.calling import call, is_one_sentence
from trainer.practice.attempts import floors, levels
from trainer.text.glance import DAYS, glance

HOSTILE = "<script>alert(1)</script>\"&'</pre>"
LOG = [
    *(attempt(number, skill="steps read 1:2") for number in range(9)),
    attempt(1, day=2, skill=HOSTILE, kind=HOSTILE, form=HOSTILE, right=False, misses=1),
    *(attempt(number, day=5, skill=HOSTILE, kind=HOSTILE, form=HOSTILE) for number in range(12)),
    *(
        attempt(number, day=6, code=f"y-{number}", purpose="yardstick", right=number > 3)
        for number in range(16)
    ),
]


class Tags(HTMLParser):
    """The names of all tags and attributes of a page."""

    def __init__(self) -> None:
        super().__init__()
        self.tags, self.attributes, self.words = list[str](), list[tuple[str, str | None]](), list[str]()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Note a tag."""
        self.tags.append(tag)
        self.attributes += attrs

    def handle_data(self, data: str) -> None:
        """Note words."""
        self.words.append(data)


def written(folder: Path) -> str:
    """Return the page that is written of the log."""
    (folder / "attempts.jsonl").write_text("".join(json.dumps(each.to_json()) + "\n" for each in LOG))
    page = folder / "page.html"
    status, out, err = call(folder, "record", "--html", str(page), "--now", "2026-03-09T12:00:00Z")
    assert (status, out, err) == (0, f"Written: {page}\n", "")
    return page.read_text(encoding="utf-8")


def test_the_page_has_no_scripts_and_fetches_nothing(tmp_path: Path) -> None:
    """Names of skills, kinds and forms stand in it as words, whatever they are."""
    page = Tags()
    page.feed(written(tmp_path))
    assert not {"script", "img", "link", "iframe", "object", "image", "use", "foreignobject"} & set(page.tags)
    assert not [name for name, _ in page.attributes if name.startswith("on") or name in ("href", "src")]
    assert HOSTILE in "".join(page.words)
    assert page.tags.count("svg") == len(
        glance(Record.of([], Rules(floors(), levels())), LOG[0].practice_day)
    )


def test_the_charts_tell_what_the_record_tells(tmp_path: Path) -> None:
    """Counted from the log by hand: 12 of 16 right, and the minutes of three days of four seconds a drill."""
    record = Record.of(LOG, Rules(floors(), levels()))
    yardstick, pace, skills, minutes = glance(record, LOG[-1].practice_day)
    assert [value and value.value for value in yardstick.figures] == [12]
    assert yardstick.says.startswith("12 of 16, likely 8 to 14")  # Wilson: 50.5 to 89.8 % (by hand)
    assert [value and value.value for value in pace.figures] == [4.0]
    assert len(minutes.figures) == DAYS
    assert [value and value.value for value in minutes.figures][-7:] == [0.6, None, 0.1, None, None, 0.8, 1.1]
    assert [value and value.value for value in skills.figures] == [0]


def test_another_ending_is_refused_before_anything_is_written(tmp_path: Path) -> None:
    """One sentence, and no file."""
    page = tmp_path / "page.txt"
    status, out, err = call(tmp_path / "none", "record", "--html", str(page))
    assert (status, out) == (2, "")
    assert is_one_sentence(err)
    assert not page.exists()


@pytest.mark.parametrize("purpose", ["today", "yardstick"])
def test_an_empty_or_a_lone_drill_makes_a_page(tmp_path: Path, purpose: str) -> None:
    """No chart fails for want of figures."""
    charts = glance(
        Record.of([attempt(purpose=purpose, right=False)], Rules(floors(), levels())), LOG[0].practice_day
    )
    assert all(chart.says for chart in charts)
