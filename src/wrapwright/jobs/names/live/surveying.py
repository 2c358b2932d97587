"""The check of all rows, in the background while a screen is used: what it found so far, and kept up with decisions."""

from __future__ import annotations

import threading
import time
import traceback
import weakref
from array import array
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from functools import partial
from typing import TYPE_CHECKING, Any

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.base.faults import fault_of
from wrapwright.core.names.decisions import Decisions, is_group_settled, is_settled
from wrapwright.core.names.rules.repeats import Seen, repeat
from wrapwright.core.names.values import Cells, Decision, Problem, Row
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.names.live.opening import OpenedList, open_standing, standing_list
from wrapwright.jobs.names.values import Read

if TYPE_CHECKING:
    from wrapwright.jobs.names.measuring import Measuring
    from wrapwright.jobs.names.opening import NamesList

_AT_ONCE = 25  # rows, and seconds, between which others may ask for theirs
_AT_ONCE_S = 0.02
_POLITE_S = 0.005
# After something was asked of a list its check rests a little, since the next question comes at once; never longer.
_REST_S = 0.12
_LONGEST_REST_S = 0.3


@dataclass
class Found:
    """What the check knows of the rows; positions are those of the index.

    Attributes:
        names, wholes: hashes of each row's name and of all that it prints; 0 for a row without a name.
        quantities: pieces of each row.
        own: by row number, the problems of a row by itself that wait unless decided about.
        decided: by row number, the decisions that still count.
    """

    names: array[int]
    wholes: array[int]
    quantities: array[int]
    own: dict[int, tuple[Problem, ...]] = field(default_factory=dict)
    decided: dict[int, Decision] = field(default_factory=dict)


class Turns:
    """A lock that tells how many wait for it, so that whoever takes it again and again can let them go first."""

    def __init__(self) -> None:
        self.waiting = 0
        self._lock = threading.RLock()
        self._counting = threading.Lock()

    def __enter__(self) -> None:
        """Wait for the turn."""
        self._count(1)
        try:
            self._lock.acquire()
        finally:
            self._count(-1)

    def __exit__(self, *_: object) -> None:
        """End the turn."""
        self._lock.release()

    def _count(self, more: int) -> None:
        with self._counting:
            self.waiting += more


class Survey:
    """One list with its check.

    Attributes:
        opened: the list.
        decisions: all decisions of the store, by row number.
        version: another whenever something about a row has changed.
        done: how many rows were looked at.
        asked: when somebody last asked for it, on the monotonic clock.
        trouble: why the check ended early.
    """

    def __init__(self, opened: OpenedList, decisions: dict[int, Decision], bench: Bench) -> None:
        count = len(opened.index)
        self.opened = opened
        self.decisions = decisions
        self.counted = opened.kept.decided
        self.bench = bench
        self.found = Found(array("Q", bytes(8 * count)), array("Q", bytes(8 * count)), array("i", bytes(4 * count)))
        self.lock = Turns()
        self.version = 0
        self.done = 0
        self.asked = 0.0
        self.trouble: WrapwrightError | None = None
        self._measuring: Measuring | None = None
        self._groups: tuple[int, tuple[Problem, ...]] = (-1, ())

    @property
    def names(self) -> NamesList:
        """The list.

        Raises:
            WrapwrightError: what is wrong with its mapping.
        """
        if self.opened.names is None:
            raise self.opened.problems[0]
        return self.opened.names

    @property
    def whole(self) -> bool:
        """Whether all rows were looked at."""
        return self.done >= len(self.opened.index)

    def read(self, cells: Cells) -> Read:
        """Return a record as the list has it, what was decided put in."""
        return self.names.read(cells, Decisions(self.decisions))

    def measured(self, one: Read) -> tuple[Problem, ...]:
        """Return all that is doubtful in a row by itself; of a skipped one nothing."""
        if one.skipped:
            return ()
        with self.lock:
            if self._measuring is None:
                from wrapwright.jobs.names.measuring import Measuring

                self._measuring = Measuring(self.names, self.bench)
            return self._measuring.problems(one)

    def look(self, first: int) -> int:
        """Look at some rows from a position on, and return how many: one at least, the more the quicker they are."""
        begun, position = time.monotonic(), first
        with self.lock:
            positions = range(first, min(first + _AT_ONCE, len(self.opened.index)))
            for position, cells in zip(positions, self.opened.index.at(positions), strict=True):
                self._take(position, cells)
                if time.monotonic() - begun > _AT_ONCE_S:
                    break
            self.done = max(self.done, position + 1)
            self.version += 1
        return position + 1 - first

    def again(self, number: int, decision: Decision | None, counted: int) -> None:
        """Look at one row again, about which this was decided (None: nothing any more)."""
        self.again_all({number: decision}, counted)

    def again_all(self, decided: dict[int, Decision | None], counted: int) -> None:
        """Look at some rows again, about which this was decided; `counted` is the store's count from now on."""
        with self.lock:
            for number, decision in decided.items():
                if decision is None:
                    self.decisions.pop(number, None)
                else:
                    self.decisions[number] = decision
            positions = [at for number in decided if (at := self.opened.index.position(number)) is not None]
            if self.opened.names is not None:
                for position, cells in zip(positions, self.opened.index.at(positions), strict=True):
                    self._take(position, cells)
            self.counted = counted
            self.version += 1

    def _take(self, position: int, cells: Cells) -> None:
        one = self.read(cells)
        found, number = self.found, one.row.number
        kept = found.own.get(number)
        before = found.decided.get(number)
        # What was only accepted or skipped needs no new look: a skipped row's problems are kept for when it is not.
        same = kept is not None and before is not None and one.decision is not None
        if not (same and before.cells == one.decision.cells) or kept is None:  # type: ignore[union-attr]
            problems = self.measured(Read(one.row, one.cells, one.problems))
            found.own[number] = tuple(problem for problem in problems if problem.waits)
        if not found.own[number]:
            found.own.pop(number)
        if one.decision is None:
            found.decided.pop(number, None)
        else:
            found.decided[number] = one.decision
        found.quantities[position] = one.row.quantity
        found.names[position], found.wholes[position] = _hashes(one.row, self.names.mapping.who)

    def groups(self) -> tuple[Problem, ...]:
        """Return one question for the rows that have a name in common, as far as the rows were looked at."""
        with self.lock:
            at, found = self._groups
            if at != self.version:
                found = tuple(self._repeats())
                self._groups = (self.version, found)
            return found

    def _repeats(self) -> Iterator[Problem]:
        import numpy as np

        who = self.names.mapping.who
        named = np.flatnonzero(np.frombuffer(self.found.names, dtype=np.uint64))
        seen = Seen(who)
        seen.numbers = array("q", self.opened.index.numbers[named].astype(np.int64).tobytes())
        seen.names = array("Q", np.frombuffer(self.found.names, dtype=np.uint64)[named].tobytes())
        seen.wholes = array("Q", np.frombuffer(self.found.wholes, dtype=np.uint64)[named].tobytes())
        for numbers, same in seen.groups():
            position = self.opened.index.position(numbers[0])
            if position is not None:
                first = self.read(self.opened.index.at([position])[0])
                yield repeat(numbers, first.row.fields.get(who, ""), who, same=same)

    def settled(self, problem: Problem) -> bool:
        """Return whether a problem no longer waits."""
        decided = self.found.decided
        if problem.rows:
            return is_group_settled(problem, [decided.get(number) for number in problem.rows])
        return is_settled(problem, decided.get(problem.row))


def survey_of(design: int, bench: Bench) -> Survey:
    """Return a design's list with its check, which goes on in the background; as it stands in the store now.

    Raises:
        WrapwrightError: missing, for no such design or list; unusable, when its table cannot be read any more.
    """
    from wrapwright.outside.store.rows.names import decision_rows

    standing = standing_list(design, bench)
    kept: Survey | None = bench.recent.lists.find(standing.key)
    if kept is not None and kept.counted >= standing.kept.decided:
        kept.asked = time.monotonic()
        return kept

    def begun() -> Survey:
        with bench.kept().reading() as connection:
            decisions = decision_rows(connection, design)
        survey = Survey(open_standing(standing, bench), decisions, bench)
        if survey.opened.names is not None:
            thread = threading.Thread(target=partial(_look_all, weakref.ref(survey)), name="list", daemon=True)
            thread.start()
        return survey

    if kept is not None:  # somebody has decided something past this program
        survey = begun()
        bench.recent.lists.put(standing.key, survey, 1)
        return survey
    found: Survey = bench.recent.lists.get(standing.key, begun)
    return found


def _look_all(survey: weakref.ref[Survey]) -> None:
    """Look at all rows, as long as somebody holds the list."""
    while True:
        one = survey()
        if one is None or one.whole:
            return
        try:
            one.look(one.done)
            _rest(one)
        except WrapwrightError as problem:
            one.trouble = problem
            return
        except Exception as error:
            traceback.print_exc()
            one.trouble = fault_of(error)
            return
        del one


def _rest(survey: Survey) -> None:
    """Wait while others have their turn."""
    begun = time.monotonic()
    while survey.lock.waiting or time.monotonic() < min(survey.asked + _REST_S, begun + _LONGEST_REST_S):
        time.sleep(_POLITE_S)


def _hashes(row: Row, who: str) -> tuple[int, int]:
    seen = Seen(who)
    seen.add(row)
    return (seen.names[0], seen.wholes[0]) if len(seen.names) else (0, 0)


def waiting_of(problems: Sequence[Problem], decision: Decision | None) -> list[Problem]:
    """Return the problems of a row that wait."""
    return [one for one in problems if not is_settled(one, decision)]


def whole_or_refused(survey: Survey) -> None:
    """Raise, kind refused, while the check is under way: what is decided about all rows would miss some."""
    if not survey.whole and survey.trouble is None:
        done: Any = survey.done
        message = f"The list is still being checked: {done} of {len(survey.opened.index)} rows; nothing was changed."
        raise WrapwrightError(Kind.REFUSED, message, remedy="Wait for the check.")
