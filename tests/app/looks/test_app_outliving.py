"""What is painted on a terminal that is gone goes nowhere, and ends nobody."""

from __future__ import annotations

import errno
from io import StringIO

import pytest

from jobtrack.app.looks.outliving import OutlivesTerminal


class Gone(StringIO):
    """A stream on which nothing can be written any more."""

    def __init__(self, number: int) -> None:
        super().__init__()
        self.number = number

    def write(self, text: str) -> int:
        raise OSError(self.number, "gone")

    def flush(self) -> None:
        raise OSError(self.number, "gone")


def test_a_gone_terminal_takes_everything() -> None:
    """EIO is what a closed window answers."""
    stream = OutlivesTerminal(Gone(errno.EIO))
    assert stream.write("a row") == 5
    stream.flush()


@pytest.mark.parametrize("number", [errno.ENOSPC, errno.EBADF])
def test_other_trouble_is_said(number: int) -> None:
    """A full disk under a redirected stream is no terminal that is gone."""
    stream = OutlivesTerminal(Gone(number))
    with pytest.raises(OSError, match="gone"):
        stream.write("a row")
    with pytest.raises(OSError, match="gone"):
        stream.flush()


def test_all_else_is_the_stream_s() -> None:
    """What is written stands there, and what else is asked is the stream's answer."""
    under = StringIO()
    stream = OutlivesTerminal(under)
    stream.write("a row")
    assert (under.getvalue(), stream.isatty()) == ("a row", False)
