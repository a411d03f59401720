"""What touches the disk, done by a thread of its own, one thing after another, so that no screen waits for a share."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from queue import SimpleQueue
from threading import Event, Thread
from typing import Any, TypeVar

from textual.message import Message
from textual.message_pump import MessagePump

T = TypeVar("T")


class DiskAnswered(Message):
    """Something was done to the disk; `then` goes on with it on the screens' own thread."""

    def __init__(self, then: Callable[[], None]) -> None:
        super().__init__()
        self.then = then


class Disk:
    """A queue and the thread that works it off. The thread begins with the first thing that is asked of it."""

    def __init__(self, answers_to: MessagePump) -> None:
        """`answers_to` gets a `DiskAnswered` for each thing done, in the order of asking."""
        self._answers_to = answers_to
        self._todo: SimpleQueue[Callable[[], Callable[[], None]] | None] = SimpleQueue()
        self._thread: Thread | None = None
        self._open = 0
        self._finished = False
        self._writing: list[Event] = []
        """One for each thing that the end of the app waits for."""

    @property
    def at_rest(self) -> bool:
        """Whether all that was asked has been done and answered."""
        return self._open == 0

    @property
    def writing(self) -> bool:
        """Whether something is on its way that must not be lost."""
        return any(not one.is_set() for one in self._writing)

    @property
    def done(self) -> bool:
        """Whether it has finished, and all is answered."""
        return self._finished and self.at_rest

    def do(self, work: Callable[[], T], then: Callable[[T], None], writes: bool = False) -> None:
        """Do `work` in the thread, and give what comes of it to `then`, called on the screens' thread.

        Where it `writes` what somebody has put in, the app doesn't end before it is done.
        What `work` raises is raised there: whatever may go wrong with a disk is caught by `work` itself.
        """
        self._open += 1
        written = Event()
        if writes:
            self._writing = [one for one in self._writing if not one.is_set()] + [written]
        self._todo.put(lambda: self._worked(work, then, written))
        if self._thread is None:
            self._thread = Thread(target=self._run, name="disk", daemon=True)
            self._thread.start()

    def finish(self) -> None:
        """Nothing more will be asked: the thread ends when it has done what was."""
        if not self._finished:
            self._finished = True
            self._todo.put(None)

    def close(self) -> None:
        """Return when all that writes is done. A look at a share that hangs isn't waited for."""
        self.finish()
        for one in self._writing:
            one.wait()

    def _run(self) -> None:
        while (work := self._todo.get()) is not None:
            answer = DiskAnswered(work())
            with suppress(RuntimeError):  # the app has ended meanwhile, and its loop with it
                self._answers_to.post_message(answer)

    def _worked(self, work: Callable[[], T], then: Callable[[T], None], written: Event) -> Callable[[], None]:
        try:
            found = work()
        except BaseException as error:  # noqa: BLE001  whatever it is, it is the app's to show, not this thread's
            return self._answer(_raising(error))
        finally:
            written.set()
        return self._answer(lambda: then(found))

    def _answer(self, then: Callable[[], None]) -> Callable[[], None]:
        def answered() -> None:
            self._open -= 1
            then()

        return answered


def _raising(error: BaseException) -> Callable[[], Any]:
    def again() -> None:
        raise error

    return again
