"""One browser for each test process, in a thread of its own: Playwright's loop would stop any other beside it."""

from __future__ import annotations

import atexit
import os
import shutil
from collections.abc import Callable
from functools import cache
from importlib.util import find_spec
from queue import SimpleQueue
from threading import Thread
from typing import TYPE_CHECKING, Any, TypeVar

import pytest

if TYPE_CHECKING:
    from playwright.sync_api import Page

T = TypeVar("T")
FLAGS = ("--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
         "--disable-component-update", "--disable-sync")  # fmt: skip
DOING_WITHOUT = "JOBTRACK_NO_BROWSER"
"""The variable by which somebody says why a run does without a browser."""
LONGEST = 60
"""Seconds that anything in the browser may take."""


def in_browser(do: Callable[[Page], T]) -> T:
    """Do something with the browser's one page. Skips the test where there is no browser; fails it under CI."""
    why = os.environ.get(DOING_WITHOUT) or _missing()
    if why and os.environ.get("CI") and not os.environ.get(DOING_WITHOUT):
        pytest.fail(f"{why}; {DOING_WITHOUT} says why a run does without")
    if why:
        pytest.skip(f"not looked at in a browser: {why}")
    return _browser().do(do)


def _missing() -> str:
    if find_spec("playwright") is None or find_spec("pypdfium2") is None:
        return "Playwright or pypdfium2 isn't installed (the extra `dev`)"
    return "" if _program() else "Chromium isn't installed (Debian: apt-get install chromium)"


def _program() -> str | None:
    return shutil.which("chromium") or shutil.which("chromium-browser")


class _Browser:
    def __init__(self) -> None:
        self._asked: SimpleQueue[tuple[Callable[[Page], Any] | None, SimpleQueue[tuple[bool, Any]]]] = (
            SimpleQueue()
        )
        self._thread = Thread(target=self._run, daemon=True, name="browser")
        self._thread.start()
        atexit.register(self._close)

    def do(self, what: Callable[[Page], T]) -> T:
        answer: SimpleQueue[tuple[bool, Any]] = SimpleQueue()
        self._asked.put((what, answer))
        done, found = answer.get(timeout=LONGEST)
        if not done:
            raise found
        return found  # type: ignore[no-any-return]

    def _close(self) -> None:
        self._asked.put((None, SimpleQueue()))
        self._thread.join(LONGEST)

    def _run(self) -> None:
        from playwright.sync_api import sync_playwright

        with sync_playwright() as playwright:
            browser = playwright.chromium.launch(executable_path=_program(), args=list(FLAGS))
            page = browser.new_page()
            page.set_default_timeout(1000 * LONGEST)
            while True:
                what, answer = self._asked.get()
                if what is None:
                    break
                try:
                    answer.put((True, what(page)))
                except Exception as error:  # noqa: BLE001  it is raised where it was asked
                    answer.put((False, error))
            browser.close()


@cache
def _browser() -> _Browser:
    return _Browser()
