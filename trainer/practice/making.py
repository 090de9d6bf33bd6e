"""Making drills: when they are taken, or ahead of that, in the background."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from concurrent.futures import Future
from threading import Condition, Thread
from typing import TypeAlias

from drills.questions import Code, Drill, make

DrillMaker: TypeAlias = Callable[[], Drill]
Wanted: TypeAlias = Code | DrillMaker
"""What a drill is made from; a maker can be pickled, so that another process may call it."""


class NotReadyError(Exception):
    """A drill that is taken is still to be made; ``drill`` is where it will be."""

    def __init__(self, drill: Future[Drill]) -> None:
        super().__init__("The drill is still being made.")
        self.drill = drill


def made(wanted: Wanted) -> Drill:
    """Return the drill; DrillError where it fails its own check."""
    return make(wanted) if isinstance(wanted, Code) else wanted()


class Making:
    """Makes each drill when it is taken."""

    def prepare(self, wanted: Iterable[Wanted]) -> None:
        """Be told what may be taken next, the likeliest first."""

    def on_its_way(self, wanted: Wanted) -> Future[Drill] | None:
        """Return where a drill that is prepared will be, None where none is; it may fail."""
        return None

    def take(self, wanted: Wanted) -> Drill:
        """Return the drill; DrillError where it fails its own check, NotReadyError where it is not there."""
        return made(wanted)

    def close(self) -> None:
        """Make nothing more ahead."""


class MakingAhead(Making):
    """Makes what may be taken next, one after the other, in a thread; asked by one other thread.

    What was prepared is kept until something else is, what was taken too early until it is taken.
    ``maker`` is called in the thread, and where it fails the thread makes the drill itself; ``stop`` makes
    a call that is under way return soon.
    """

    def __init__(self, maker: Callable[[Wanted], Drill], stop: Callable[[], None] = lambda: None) -> None:
        self._maker, self._stop = maker, stop
        self._drills: dict[Wanted, Future[Drill]] = {}
        self._awaited: tuple[Wanted, ...] = ()
        self._changed, self._is_closed = Condition(), False
        self._thread = Thread(target=self._work, name="making drills ahead")
        self._thread.start()

    def prepare(self, wanted: Iterable[Wanted]) -> None:
        """Make these next, in this order; what was prepared before and is not among them is dropped."""
        likely = tuple(wanted)
        with self._changed:
            wishes = list(dict.fromkeys(self._awaited + likely))
            before = self._drills
            self._drills = {wish: before.pop(wish, Future()) for wish in wishes}
            self._changed.notify()
        for dropped in before.values():
            dropped.cancel()

    def on_its_way(self, wanted: Wanted) -> Future[Drill] | None:
        """Return where a drill that is prepared will be, None where none is; it may fail, or be dropped."""
        return self._drills.get(wanted)

    def take(self, wanted: Wanted) -> Drill:
        """Return the drill that is made; NotReadyError says where one will be that is made next."""
        with self._changed:
            drill = self._drills.get(wanted)
            if drill is None or drill.cancelled():
                drill = Future()
            if not drill.done():
                self._drills = {wanted: drill} | {**self._drills, wanted: drill}
                self._awaited = (wanted,)
                self._changed.notify()
                raise NotReadyError(drill)
            self._awaited = ()
        return drill.result()

    def close(self) -> None:
        """Make nothing more; when this returns, the thread has ended."""
        with self._changed:
            self._is_closed = True
            self._changed.notify()
        self._stop()
        self._thread.join()
        for drill in self._drills.values():
            drill.cancel()

    def _work(self) -> None:
        while (begun := self._begun()) is not None:
            wanted, drill = begun
            try:
                drill.set_result(self._made(wanted))
            except Exception as error:
                drill.set_exception(error)

    def _made(self, wanted: Wanted) -> Drill:
        try:
            return self._maker(wanted)
        except Exception:
            if self._is_closed:
                raise
        return made(wanted)  # what is wrong with the drill itself comes up again

    def _begun(self) -> tuple[Wanted, Future[Drill]] | None:
        """Return the next drill to be made, waiting until there is one; None once nothing more is made."""
        with self._changed:
            while not self._is_closed:
                for wanted, drill in self._drills.items():
                    if not drill.done() and drill.set_running_or_notify_cancel():
                        return wanted, drill
                self._changed.wait()
        return None
