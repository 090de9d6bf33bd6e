"""`slantwise today`: today's round, in the app or as plain text, one line an answer."""

from __future__ import annotations

from argparse import Namespace
from dataclasses import replace
from enum import Enum

from progress_store import Store, open_store
from trainer.cli.parser import Console, Parser, data_folder, open_app
from trainer.given import InputError
from trainer.practice import rounds
from trainer.practice.attempts import floors, levels
from trainer.practice.ending import ending
from trainer.practice.flow import Asking, DrillFlow, Over, Told, Worked
from trainer.practice.looking_back import in_two_lines
from trainer.practice.panel_text import headline, time_spent
from trainer.practice.resuming import left_of
from trainer.practice.session import PracticeSession
from trainer.text.asked import Tags, tags_of
from trainer.text.drill import answer_from, sheet_in_text, verdict_in_text
from trainer.text.glance import form_in_words

PRACTISED, NOTHING_ANSWERED = 0, 2
_WORDS = (
    "One line is one answer. Instead of it: h for a hint, w for why you met this one,"
    " q to leave; what is answered is kept."
)


class Left(Enum):
    """What is returned for an answer where the person left instead."""

    LEFT = "left"


def add_arguments(parser: Parser) -> None:
    """Add the manner of the round."""
    parser.description = "Today's round: as many minutes as you have set, or what was left of them."
    parser.epilog = (
        "examples:\n  slantwise today --text    without a screen, for slow links and screen readers\n"
    )
    parser.add_argument("--text", action="store_true", help="as plain text, one line an answer")


def run(options: Namespace, console: Console) -> int:
    """Go through the round; StoreError where its answers could not be kept."""
    if not options.text:
        return open_app(options, console, "today")
    with open_store(data_folder(options, console), console.clock.now, floors(), levels()) as store:
        for notice in store.notices:
            console.complain(notice)
        return _round(store, rounds.today(store, console.clock), console)


def _round(store: Store, session: PracticeSession, console: Console) -> int:
    """Put one drill after the other until the time is over or the person leaves, and say what came of it."""
    flow = DrillFlow(session, console.clock.ticks, console.complain)
    console.say(_WORDS)
    flow.begin_next()
    while not isinstance(flow.state, Over) and _one_drill(flow, session, console):
        flow.press("go_on")
    store.save_settings(replace(store.settings, left=left_of(session)))
    store.keep_rest()
    console.say("")
    came = ending(session, form_in_words)
    for line in came.lines:
        console.say(line)
    for missed in came.missed:
        console.say(f"Missed: {'; '.join(in_two_lines(missed))}; to see it: slantwise drill {missed.code}")
    return PRACTISED if session.history.counted else NOTHING_ANSWERED


def _one_drill(flow: DrillFlow, session: PracticeSession, console: Console) -> bool:
    """Put a drill and tell what came of its answer; whether the person goes on."""
    left = session.seconds_left or 0
    tags = tags_of(flow.drill)
    console.say("")
    console.say(f"{session.progress}, {left // 60}:{left % 60:02d} left.")
    for line in sheet_in_text(flow.drill, tags):
        console.say(line)
    if isinstance(flow.state, Worked):
        console.say("This is new to you, and is worked for you; the next one begins with a hint.")
        _tell(flow, tags, console)
        return True
    if session.stage == "half":
        console.say(
            "This is new to you: half worked in the app, and here begun with a hint; it does not count."
        )
        console.say(flow.drill.question.hint(flow.drill))
    console.say(f"Type one line: {flow.drill.question.how_to_answer()}.")
    given = _given(flow, tags, console)
    if given is Left.LEFT:
        return False
    flow.give(given)
    _tell(flow, tags, console)
    return True


def _given(flow: DrillFlow, tags: Tags, console: Console) -> object:
    """Return the answer that is typed, after all that is asked for before it; LEFT where there is none."""
    console.stdout.flush()
    flow.touched("text")
    while (line := console.next_line()) is not None and line.lower() != "q":
        if not console.is_typed:
            flow.left_window()  # nobody's pace: a program or a file wrote the line
        if line.lower() in ("h", "w"):
            flow.press("hint" if line.lower() == "h" else "why")
            console.say(flow.state.notice if isinstance(flow.state, Asking) else "")
            continue
        try:
            return answer_from(line, flow.drill, tags)
        except InputError as refusal:
            console.say(str(refusal))
    return Left.LEFT


def _tell(flow: DrillFlow, tags: Tags, console: Console) -> None:
    """Say the verdict, and after an answer of the person's own its time and whether it is kept."""
    state = flow.state
    assert isinstance(state, Worked | Told)
    lines = list(verdict_in_text(flow.drill, state.given, state.verdict, tags))
    if isinstance(state, Told):
        # lines that another program wrote took no time of a person's
        spent = time_spent(state.judged) if console.is_typed else ""
        lines = [headline(state.verdict, state.judged), *lines, spent, state.kept]
    else:
        lines = lines[1:]
    for line in filter(None, lines):
        console.say(line)
