"""A simulated power cut: what was not yet synced is in part dropped, torn, zeroed and in another order.

Practice is recorded call by call on a real folder. For a cut after any call the disk is then made anew:
what was synced is there, of the rest chance decides. A rename or a new name is on the disk only once its
folder is synced, and a folder's changes may survive without those before them. Harsher than most disks.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from math import inf
from pathlib import Path
from random import Random
from typing import Any, Final

from tests.hardness.layer import Call, watched
from tests.hardness.practising import COPIED, OLD, look_through, other_machine, practise, prepared
from tests.hardness.tally import Trials

SECTOR: Final = 512
SHORT_DRAWS, LONG_DRAWS = 1, 60


@dataclass
class Disk:
    """What is on the disk for certain, and what is only on its way; files by number, names in one folder."""

    names: dict[str, int] = field(default_factory=dict)
    contents: dict[int, bytes] = field(default_factory=dict)
    changes: dict[int, list[Call]] = field(default_factory=dict)
    renamed: list[Call] = field(default_factory=list)
    now: dict[str, int] = field(default_factory=dict)

    @classmethod
    def of(cls, folder: Path) -> Disk:
        """Return the disk with what is in a folder."""
        names = {file.name: number for number, file in enumerate(sorted(folder.iterdir()))}
        contents = {number: (folder / name).read_bytes() for name, number in names.items()}
        return cls(dict(names), contents, {number: [] for number in contents}, [], dict(names))

    def take(self, call: Call) -> None:
        """Take in a call that was done."""
        number = self.now.get(call.path, -1)
        if call.name in ("create", "rename", "unlink"):
            self.renamed.append(call if call.name != "create" else call._replace(place=self._new(call.path)))
            if call.name != "create" and call.path in self.now:
                self.now.pop(call.path)
                if call.name == "rename":
                    self.now[call.target] = number
        elif call.name == "fsync":
            self.contents[number] = _applied(self.contents[number], self.changes[number])
            self.changes[number] = []
        elif call.name == "fsync folder":
            self.names = _renamed(self.names, self.renamed)
            self.renamed = []
        elif call.name in ("write", "truncate", "empty"):
            self.changes[number].append(call)

    def _new(self, name: str) -> int:
        number = len(self.contents)
        self.contents[number], self.changes[number], self.now[name] = b"", [], number
        return number

    def after_cut(self, chance: Random) -> dict[str, bytes]:
        """Return files by name as a power cut now may leave them."""
        names = _renamed(self.names, _survivors(self.renamed, chance))
        return {
            name: _applied(
                self.contents[number],
                [_torn(each, chance) for each in _survivors(self.changes[number], chance)],
            )
            for name, number in names.items()
        }


def _survivors(calls: list[Call], chance: Random) -> list[Call]:
    """Return those of some calls that reached the disk: the first so many, or any, one before another."""
    if chance.random() < 0.5:
        return calls[: chance.randrange(len(calls) + 1)]
    return [call for call in calls if chance.random() < 0.6]


def _torn(call: Call, chance: Random) -> Call:
    """Return a call as it reached the disk: whole, cut short, with zeros at its end, or a sector of zeros."""
    if call.name != "write" or chance.random() < 0.4:
        return call
    length, how = len(call.data), chance.randrange(3)
    cut = chance.randrange(length + 1)
    if how == 0:
        return call._replace(data=call.data[:cut])
    if how == 1:
        return call._replace(data=call.data[:cut] + bytes(length - cut))
    start = max(0, SECTOR * ((call.place + cut) // SECTOR) - call.place)
    end = min(length, SECTOR * ((call.place + cut) // SECTOR + 1) - call.place)
    return call._replace(data=call.data[:start] + bytes(end - start) + call.data[end:])


def _applied(content: bytes, calls: Iterable[Call]) -> bytes:
    for call in calls:
        if call.name == "write":
            content = content.ljust(call.place, b"\0")
            content = content[: call.place] + call.data + content[call.place + len(call.data) :]
        else:
            content = content[: call.place].ljust(call.place, b"\0")
    return content


def _renamed(names: dict[str, int], calls: Iterable[Call]) -> dict[str, int]:
    names = dict(names)
    for call in calls:
        if call.name == "create":
            names[call.path] = call.place
        elif call.path in names:
            number = names.pop(call.path)
            if call.name == "rename":
                names[call.target] = number
    return names


def at_each_call(trials: Trials) -> None:
    """Cut the power after each call of practice, in a folder with a past and in a new one."""
    for past in (True, False):
        with trials.one("practice") as place:
            already = {each.id for each in (*OLD, *COPIED)} if past else set[str]()
            _cut_through(trials, place, past, already)
        trials.tried -= 1


def _cut_through(trials: Trials, place: Path, past: bool, said: set[str]) -> None:
    folder, there = place / "data", other_machine(place / "there")
    folder.mkdir()
    if past:
        prepared(folder)
    disk = Disk.of(folder)
    number = 0

    def watcher(call: Call) -> Any:
        nonlocal number
        result = call.do()
        disk.take(call)
        number += 1
        what = f"{call.name} {call.path}, call {number}"
        draws = LONG_DRAWS if trials.long else SHORT_DRAWS
        cuts.extend([(what, disk.after_cut(trials.chance), set(said)) for _ in range(draws)])
        return result

    cuts: list[tuple[str, dict[str, bytes], set[str]]] = []
    with watched(folder, watcher):
        practise(folder, there, said.add)
    if trials.ends < inf:
        trials.chance.shuffle(cuts)  # of what there is time for, something of each call
    for what, files, kept in cuts:
        if trials.is_time_over:
            return
        with trials.one(what) as again:
            for name, content in files.items():
                (again / name).write_bytes(content)
            with watched(again, lambda call: call.do()):  # nothing need be on the disk here
                look_through(again, kept)
