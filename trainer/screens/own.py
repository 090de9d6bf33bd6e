"""Sheets of the person's own: choose a file, see what is wrong with it, go through its plan."""

from __future__ import annotations

import asyncio
from dataclasses import replace
from fractions import Fraction

from textual.app import ComposeResult
from textual.containers import Horizontal, VerticalScroll
from textual.content import Content
from textual.widgets import Input, Static

from drills.flatfold import Limit, Report, check_pattern
from drills.fold_file import ImportedPattern
from drills.geometry import Point
from drills.pattern import CreasePattern
from drills.plan import open_labels, plan, plan_sheet
from drills.questions import KINDS, OwnCode, OwnDrillError, make_own
from trainer.actions import WINDOW_WAYS
from trainer.board import Look, points_at
from trainer.given import InputError
from trainer.own_sheets import OwnSheet, OwnSheets, completed, to_practise
from trainer.practice.drill_source import SEEDS
from trainer.practice.own_round import OwnRound, OwnTask
from trainer.screens.base_screen import BaseScreen, bindings_for, link
from trainer.screens.board_view import BoardView
from trainer.screens.drill import DrillScreen
from trainer.screens.side import wrapped
from trainer.text.check import drawable, findings_in_text, look_at_faults
from trainer.text.plan_steps import Instruction, instructions, steps_of

SECONDS = 2.0
SHOWN = 9
SIDE_COLUMNS = 28


class OwnSheetsScreen(BaseScreen):
    """The files opened last, and a line for the path of another."""

    context = "own"
    BINDINGS = bindings_for("own")

    def body(self) -> ComposeResult:
        """Yield the files, the line to type in and the line for what is wrong with it."""
        yield Static("", id="choices", classes="rows")
        yield Input(placeholder="the path of a FOLD or SVG file", id="typed", max_length=400, compact=True)
        yield Static("", id="wrong", classes="rows", markup=False)

    def on_mount(self) -> None:
        """Begin at the file opened last, or at the line to type in."""
        self.say("My pattern", "check it, plan it, practise on it")
        self.own = OwnSheets(self.slantwise.store.folder)
        self._row = 0
        self._write()

    def on_screen_resume(self) -> None:
        """Show how far each plan now is."""
        if hasattr(self, "own"):
            self.own = OwnSheets(self.slantwise.store.folder)
            self._write()

    @property
    def _files(self) -> tuple[OwnSheet, ...]:
        return self.own.sheets[:SHOWN]

    def action_go(self, arrow: str) -> None:
        """Go to another file, or to the line to type in."""
        if arrow in ("up", "down"):
            self._row = (self._row + (1 if arrow == "down" else -1)) % (len(self._files) + 1)
            self._write()

    def action_complete(self) -> None:
        """Complete the path that is typed, as far as it is clear."""
        typed = self.query_one(Input)
        self._row = len(self._files)
        self._write()
        typed.value = completed(typed.value)
        typed.cursor_position = len(typed.value)

    def action_choose_file(self) -> None:
        """Open the file that is typed or chosen."""
        typed = self.query_one(Input).value.strip()
        self._open(typed if self._row == len(self._files) else self._files[self._row].path)

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Open the file that is typed."""
        self._open(event.value.strip())

    def action_open_row(self, row: int) -> None:
        """Open a file by a click."""
        self._open(self._files[row].path)

    def _open(self, path: str) -> None:
        if not path:
            return
        try:
            own, sheet = self.own.open(path)
        except InputError as error:
            self.query_one("#wrong", Static).update(str(error))
            return
        self.query_one("#wrong", Static).update("")
        self._row = 0
        self.app.push_screen(OwnSheetScreen(own, sheet))

    def _write(self) -> None:
        lines = [Content("Opened last:" if self._files else "No file was opened yet. Type the path of one.")]
        for row, each in enumerate(self._files):
            pointer, standing = (
                ">" if row == self._row else " ",
                f"   {each.standing}" if each.standing else "",
            )
            lines.append(link(f"{pointer} {each.name}{standing}", f"open_row({row})", bold=row == self._row))
        pointer = ">" if self._row == len(self._files) else " "
        lines += [Content(""), Content(f"{pointer} File (Tab completes the path, Escape leaves)")]
        self.query_one("#choices", Static).update(Content("\n").join(lines))
        typed = self.query_one(Input)
        if self._row == len(self._files):
            typed.focus()
        else:
            self.set_focus(None)


class _BoardScreen(BaseScreen):
    """A board with words beside it, and the hands on its window."""

    def body(self) -> ComposeResult:
        """Yield the board and the words."""
        with Horizontal():
            yield BoardView()
            with VerticalScroll(id="side", can_focus=False):
                yield Static("", id="own-text")

    def on_mount(self) -> None:
        """Draw in the signs and colours of now."""
        self.slantwise.style_board(self.query_one(BoardView))
        self.call_after_refresh(self.show)

    def show(self) -> None:
        """Show what there is to be seen."""

    def tell(self, lines: list[Content]) -> None:
        """Write the words beside the board, from their beginning."""
        self.query_one("#own-text", Static).update(Content("\n").join(lines))
        self.query_one("#side", VerticalScroll).scroll_home(animate=False)

    def action_scroll(self, key: str) -> None:
        """Scroll the words."""
        side = self.query_one("#side", VerticalScroll)
        ways = {
            "up": side.scroll_up,
            "down": side.scroll_down,
            "pageup": side.scroll_page_up,
            "pagedown": side.scroll_page_down,
        }
        ways[key](animate=False)

    def action_pan(self, key: str) -> None:
        """Move the window on the sheet."""
        self.query_one(BoardView).pan(*WINDOW_WAYS[key])

    def action_zoom(self, key: str) -> None:
        """Show the sheet larger or smaller."""
        self.query_one(BoardView).zoom(key != "minus")

    def action_whole(self) -> None:
        """Show the whole sheet, or a part close by."""
        self.query_one(BoardView).show_whole_or_close()

    def action_into_view(self) -> None:
        """Show what is lit."""
        self.query_one(BoardView).bring_into_view()


class OwnSheetScreen(_BoardScreen):
    """A sheet of the person's own and what is wrong with it, its places lit."""

    context = "own sheet"
    BINDINGS = bindings_for("own sheet")

    def __init__(self, own: OwnSheet, sheet: ImportedPattern) -> None:
        super().__init__()
        self.own, self.sheet = own, sheet
        self.report: Report | None = None

    def on_mount(self) -> None:
        """Show the sheet, and look for what is wrong with it."""
        super().on_mount()
        self.say(self.own.name, self.own.standing)
        self.run_worker(self._check(), exclusive=True)

    def show(self) -> None:
        """Show the sheet, once it is checked with its faults."""
        pattern = self.sheet.pattern
        look = look_at_faults(self.report, pattern) if self.report else Look(labels=True)
        self.query_one(BoardView).show(drawable(pattern), replace(look, ruled=pattern.has_grid))
        told = list(self.sheet.notices)
        told += findings_in_text(self.report, pattern) if self.report else ["Looking for faults ..."]
        words = [Content(wrapped(line, SIDE_COLUMNS)) for line in told]
        folds = self.report is not None and self.report.ok
        self.tell([*_ways(self.sheet.exact, folds), Content(""), *words])

    async def _check(self) -> None:
        sheet, limit = self.sheet, Limit(SECONDS, self.slantwise.clock.ticks)
        self.report = await asyncio.to_thread(check_pattern, sheet.pattern, sheet.exact, limit, sheet.off)
        self.call_after_refresh(self.show)

    def action_plan(self) -> None:
        """Go through the plan, from where it was left."""
        if self.sheet.exact:
            self.app.push_screen(PlanScreen(self.own, self.sheet.pattern))
        else:
            self.app.notify(
                "No square grid fits these points, so there are no squares to count.", markup=False
            )

    def action_practise(self, key: str) -> None:
        """Practise a kind of question on this sheet; nothing of it goes into the record."""
        kind = list(KINDS)[int(key) - 1]
        seed = self.slantwise.clock.now().microsecond % SEEDS
        try:
            drilled = to_practise(self.sheet, Limit(SECONDS, self.slantwise.clock.ticks))
            first = OwnCode(kind, self.own.hash, seed)
            make_own(drilled, first)
        except (InputError, OwnDrillError) as error:
            self.app.notify(str(error), markup=False)
            return
        self.app.push_screen(DrillScreen(OwnRound(OwnTask(drilled, first, self.own.name))))

    def on_screen_resume(self) -> None:
        """Say how far the plan now is."""
        own = OwnSheets(self.slantwise.store.folder)
        self.own = next((each for each in own.sheets if each.hash == self.own.hash), self.own)
        self.say(self.own.name, self.own.standing)


def _ways(exact: bool, folds: bool) -> list[Content]:
    """Return what can be done with the sheet; drills are made of one that folds flat."""
    if not exact:
        return []
    kinds = [link(f"{n}  {kind.title}", f"practise('{n}')") for n, kind in enumerate(KINDS.values(), 1)]
    plan_it = link("Enter  The plan, step by step", "plan", bold=True)
    return [plan_it, *([Content("Practise on it:"), *kinds] if folds else [])]


class PlanScreen(_BoardScreen):
    """The plan of a sheet, one instruction a screen; what is creased by then is on the board."""

    context = "plan"
    BINDINGS = bindings_for("plan")

    def __init__(self, own: OwnSheet, pattern: CreasePattern) -> None:
        super().__init__()
        found = open_labels(pattern, plan(pattern))
        if found:
            pattern = pattern.with_labels(found.get(e, edge.label) for e, edge in enumerate(pattern.edges))
        self.own, self.pattern = own, pattern
        self.told: list[Instruction] = instructions(steps_of(plan_sheet(pattern), pattern, found))
        self.ticked = own.ticked if own.of == len(self.told) else 0
        self.place = min(self.ticked, len(self.told) - 1)

    def show(self) -> None:
        """Show the instruction: what it adds lit, what comes later not yet there."""
        now, number = self.told[self.place], len(self.told)
        self.say(self.own.name, f"{self.ticked} of {number} done")
        done = frozenset[int]().union(*(each.edges for each in self.told[: self.place + 1]))
        is_last = self.place >= number - 2
        self.query_one(BoardView).show(
            self.pattern,
            Look(
                labels=is_last,
                ruled=True,
                hidden=frozenset(self.pattern.creases) - done,
                lit=now.edges,
                points=points_at(self.pattern, now.dots),
            ),
        )
        self._look_there(now)
        tick = "done" if self.place < self.ticked else "to do"
        head = [f"{self.place + 1} of {number}, {tick}", "", now.title.upper(), ""]
        lines = [wrapped(line, SIDE_COLUMNS) for words in now.words for line in (words, "")]
        self.tell([*(Content(wrapped(line, SIDE_COLUMNS)) for line in head), *map(Content, lines)])

    def _look_there(self, now: Instruction) -> None:
        """Bring what the instruction is of into the middle of a sheet that is not shown whole."""
        board = self.query_one(BoardView)
        ends = {end for edge in now.edges for end in self.pattern.edges[edge][:2]} | set(now.dots)
        if ends and board.window and not board.window.scale.is_whole:
            points = [self.pattern.vertices[end] for end in ends]
            middle_x, middle_y = (Fraction(sum(values)) / len(points) for values in zip(*points, strict=True))
            board.centre(Point(middle_x, middle_y))

    def action_tick(self) -> None:
        """Tick the instruction off and go on; after the last one the plan is over.

        Whoever has looked ahead comes back to the first that is not done: what is ticked off was creased.
        """
        if self.place > self.ticked:
            self.place = self.ticked
            self.app.notify("This one is next; Space ticks it off once it is done.", markup=False)
            self.show()
            return
        self.ticked = max(self.ticked, self.place + 1)
        self._remember()
        if self.place + 1 == len(self.told):
            self.app.notify("All done.", markup=False)
            self.app.pop_screen()
            return
        self.place += 1
        self.show()

    def action_look_at(self, key: str) -> None:
        """Look at the instruction before or after."""
        self.place = min(max(self.place + (1 if key == "right" else -1), 0), len(self.told) - 1)
        self.show()

    def _remember(self) -> None:
        self.own = replace(self.own, ticked=self.ticked, of=len(self.told))
        try:
            OwnSheets(self.slantwise.store.folder).keep(self.own)
        except InputError as error:
            self.app.notify(str(error), severity="warning", markup=False)
