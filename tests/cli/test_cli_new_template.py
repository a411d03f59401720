"""`new-template`: asked line by line or from a job; written whole after the last answer, or not at all."""

from __future__ import annotations

import io
import os
import signal
import sys
import tomllib
from collections.abc import Callable
from pathlib import Path

import pexpect
import pytest

from jobtrack.cli.asking import ENDED, STOPPED
from jobtrack.cli.templates.new_template import NOT_WRITTEN
from jobtrack.store.machine.jobs_folder import shipped
from jobtrack.template.checks.words import DOES
from tests.authoring.test_begun import ANSWERS
from tests.support.cli_calls import Shop, one_line
from tests.support.terminal import ENVIRONMENT

RUN = "import sys; from jobtrack.cli.main import main; sys.exit(main(['new-template', '--out', sys.argv[1]]))"
Types = Callable[[str], None]


@pytest.fixture
def types(monkeypatch: pytest.MonkeyPatch) -> Types:
    """What comes out of a pipe into the program."""
    return lambda text: monkeypatch.setattr(sys, "stdin", io.StringIO(text))


@pytest.fixture
def out(empty_shop: Shop) -> Path:
    return empty_shop.folder / "mine.toml"


# Questions


def test_answers_from_a_pipe_become_a_template(empty_shop: Shop, types: Types, out: Path) -> None:
    """It is read without a mistake, its remarks say what is to come, and a job can be begun from it."""
    types("".join(f"{line}\n" for line in ANSWERS))
    ended = empty_shop.done("new-template", "--out", out)
    assert ended.out.splitlines()[-3] == f"Written: {out}"
    assert "Step 2: Cut the clamp" in ended.out
    assert tomllib.loads(out.read_text(encoding="utf-8"))["id"] == "water-pump-renewed"
    proofread = empty_shop.run("proofread", out)
    assert proofread.status == 1
    assert all(": remark: " in line for line in proofread.out.splitlines())
    assert "still to be written" in proofread.out
    empty_shop.done("begin", out, "--out", empty_shop.job, "--by", "Wim")


@pytest.mark.parametrize("given", range(len(ANSWERS)))
def test_answers_that_end_too_early_write_nothing(
    given: int, empty_shop: Shop, types: Types, out: Path
) -> None:
    """Wherever the pipe ends: one line, exit 2, no file."""
    types("".join(f"{line}\n" for line in ANSWERS[:given]))
    ended = empty_shop.run("new-template", "--out", out)
    assert (ended.status, one_line(ended.err)) == (2, ENDED)
    assert not out.exists()


def test_answers_without_an_end_write_nothing(empty_shop: Shop, types: Types, out: Path) -> None:
    """A program that types y for ever is told so after a while."""
    types("y\n" * 2000)
    ended = empty_shop.run("new-template", "--out", out)
    assert ended.status == 2
    assert "no answer that fits, 50 times, so nothing is written: Stage 2:" in one_line(ended.err)
    assert not out.exists()


def test_an_answer_that_is_no_text(empty_shop: Shop, monkeypatch: pytest.MonkeyPatch, out: Path) -> None:
    """Bytes that aren't UTF-8, no standard input at all, and a novel: each one line, and no file."""
    for stdin, said in (
        (io.TextIOWrapper(io.BytesIO(b"\xff\xfe\n"), encoding="utf-8"), "an answer isn't UTF-8 text"),
        (None, ENDED),
        (io.StringIO("x" * 20_000 + "\n"), "an answer is longer than 10240 bytes"),
    ):
        monkeypatch.setattr(sys, "stdin", stdin)
        ended = empty_shop.run("new-template", "--out", out)
        assert ended.status == 2
        assert said in one_line(ended.err)
        assert not out.exists()


def test_signs_that_spoil_a_terminal_stay_out(empty_shop: Shop, types: Types, out: Path) -> None:
    """They are shown as what they are, and not written."""
    types("".join(f"{line}\n" for line in ("Pump \x1b[31m red", *ANSWERS[1:])))
    ended = empty_shop.done("new-template", "--out", out)
    assert "\x1b" not in ended.out
    assert tomllib.loads(out.read_text(encoding="utf-8"))["title"] == "Pump [31m red"


def listening() -> None:
    """Ctrl-C reaches the program also where the tests themselves run in the background, which ignores it."""
    signal.signal(signal.SIGINT, signal.SIG_DFL)


@pytest.mark.skipif(os.name != "posix", reason="a pseudo-terminal")
@pytest.mark.parametrize(("key", "said"), [("\x03", STOPPED), ("\x04", ENDED)])
def test_stopped_at_the_keyboard(key: str, said: str, tmp_path: Path) -> None:
    """Ctrl-C and Ctrl-D in a real terminal, a wrong answer before it: a line of its own, exit 2, no file."""
    path = tmp_path / "mine.toml"
    child = pexpect.spawn(
        sys.executable, ["-c", RUN, str(path)], env=ENVIRONMENT, timeout=20, preexec_fn=listening
    )
    child.expect_exact("What is the job called?")
    child.send("?!\r")
    child.expect_exact("A title has a letter or a digit in it.")
    child.send("Pump\r")
    child.expect_exact("For which vehicles?")
    child.send(key)
    child.expect_exact(f"\r\n{said}\r\n")
    child.expect(pexpect.EOF)
    child.close()
    assert child.exitstatus == 2
    assert not path.exists()


@pytest.mark.skipif(os.name != "posix", reason="a pseudo-terminal")
@pytest.mark.parametrize("columns", [40, 80, 120])
def test_on_a_terminal_no_word_is_broken(columns: int, tmp_path: Path) -> None:
    """Each row fits, and ends with a whole word; what is typed wrong is asked again, and all is written in the end."""
    path = tmp_path / "mine.toml"
    own = {name: value for name, value in ENVIRONMENT.items() if name not in ("COLUMNS", "LINES")}
    child = pexpect.spawn(
        sys.executable,
        ["-c", RUN, str(path)],
        env=own,
        timeout=20,
        dimensions=(24, columns),
        encoding="utf-8",
    )
    child.setecho(False)
    shown = ""
    for line in ("", *ANSWERS[:11], "lift", *ANSWERS[11:]):
        child.expect("[?:)] $")
        shown += f"{child.before}{child.after}\n"
        child.send(f"{line}\r")
    child.expect(pexpect.EOF)
    child.close()
    assert child.exitstatus == 0
    assert path.exists()
    rows = shown.replace("\r", "").split("\n")
    assert max(map(len, rows)) <= columns
    said = " ".join(shown.split())
    assert f"lift is none of them: {', '.join(DOES)}." in said
    assert "Type a few words." in said


@pytest.mark.parametrize("source", [(), ("--from", "hook.job.toml")])
def test_it_overwrites_nothing_and_makes_no_folder(
    source: tuple[str, ...], empty_shop: Shop, out: Path
) -> None:
    """Said before anything is asked or read."""
    out.write_text("mine\n", encoding="utf-8")
    ended = empty_shop.run("new-template", *source, "--out", out)
    assert (ended.status, ended.out) == (2, "")
    assert one_line(ended.err) == f"{out}: is there already; name a file that isn't"
    assert out.read_text(encoding="utf-8") == "mine\n"
    ended = empty_shop.run("new-template", *source, "--out", "nowhere/mine.toml")
    assert one_line(ended.err) == "nowhere/mine.toml: there is no folder nowhere; make it, or name another"


def test_a_file_that_comes_meanwhile_stays(
    empty_shop: Shop, monkeypatch: pytest.MonkeyPatch, out: Path
) -> None:
    """Somebody else wrote it while the questions were asked."""

    lines = iter(ANSWERS)

    def readline(stream: io.StringIO) -> str:
        out.write_text("theirs\n", encoding="utf-8")
        return f"{next(lines)}\n"

    monkeypatch.setattr(sys, "stdin", type("Slow", (io.StringIO,), {"readline": readline})())
    ended = empty_shop.run("new-template", "--out", out)
    assert ended.status == 2
    assert "is there already by now" in one_line(ended.err)
    assert out.read_text(encoding="utf-8") == "theirs\n"


# From a job


@pytest.fixture
def ended_job(shop: Shop) -> Shop:
    """A job with a step more, stopped."""
    shop.record("--add-step", "seat=Clean the seat", "--also", "after=tack")
    shop.record("--stop-job", "sold")
    return shop


def test_the_next_version_is_seen_before_it_is_written(ended_job: Shop, types: Types, out: Path) -> None:
    """In words, then line by line; yes writes it, and it can be proofread and begun."""
    types("yes\n")
    before = ended_job.job.read_bytes()
    ended = ended_job.done("new-template", "--from", ended_job.job, "--out", out)
    lines = ended.out.splitlines()
    assert lines[:3] == [
        f"Template tow-hook, version 2, from {ended_job.job}",
        "1 step added.",
        "Step added after “Tack the hook, then weld it”: “Clean the seat”.",
    ]
    assert {'-version = "1"', '+version = "2"', "+[step.seat]", '+title = "Clean the seat"'} <= {*lines}
    assert lines[-3] == f"Written: {out}"
    assert ended_job.job.read_bytes() == before
    assert tomllib.loads(out.read_text(encoding="utf-8"))["step"]["seat"]["title"] == "Clean the seat"
    assert ": mistake: " not in ended_job.run("proofread", out).out
    ended_job.done("begin", out, "--out", ended_job.folder / "again.job.toml", "--by", "Wim")


@pytest.mark.parametrize(
    ("typed", "said"),
    [("no\n", NOT_WRITTEN), ("\n", NOT_WRITTEN), ("yess\n", NOT_WRITTEN), ("", ENDED)],
)
def test_without_a_yes_nothing_is_written(
    typed: str, said: str, ended_job: Shop, types: Types, out: Path
) -> None:
    """No, nothing, a slip, or nobody there: one line, exit 2, no file."""
    types(typed)
    ended = ended_job.run("new-template", "--from", ended_job.job, "--out", out)
    assert (ended.status, one_line(ended.err)) == (2, said)
    assert not out.exists()


def test_a_job_that_goes_on_makes_no_version(shop: Shop, types: Types, out: Path) -> None:
    """Its times aren't known yet."""
    types("yes\n")
    ended = shop.run("new-template", "--from", shop.job, "--out", out)
    assert ended.status == 2
    assert "the job hasn't ended; close it or stop it" in one_line(ended.err)


def test_a_job_in_which_nothing_was_new(shop: Shop, types: Types, out: Path) -> None:
    """Said, with what was left out, and nothing is written or asked."""
    shop.record("--met", "worn", "--also", "part=seat")
    shop.record("--stop-job", "sold")
    ended = shop.run("new-template", "--from", shop.job, "--out", out)
    assert (ended.status, ended.out) == (2, "")
    assert "is new in this job, so nothing is written. Left out: “seat (worn)”" in one_line(ended.err)


def test_a_changed_header_and_what_is_no_job(ended_job: Shop, out: Path) -> None:
    """A template that somebody altered in the job file isn't made into a file; nor is anything else."""
    text = ended_job.job.read_text(encoding="utf-8")
    ended_job.job.write_text(text.replace("Tow hook moved", "Tow hook left"), encoding="utf-8")
    ended = ended_job.run("new-template", "--from", ended_job.job, "--out", out)
    assert ended.status == 2
    assert "its header was changed, and the template in it" in one_line(ended.err)
    for name in ("none.job.toml", str(shipped("job_templates") / "axle-exchange.toml")):
        ended = ended_job.run("new-template", "--from", name, "--out", out)
        assert ended.status == 2
        one_line(ended.err)
    assert not out.exists()


def test_a_damaged_entry_is_named_among_what_is_left_out(ended_job: Shop, types: Types, out: Path) -> None:
    """What can't be read can't go in."""
    ended_job.record("--note", "spoilt", by="Ada")
    text = ended_job.job.read_text(encoding="utf-8")
    ended_job.job.write_text(text.replace("spoilt", "spoiled"), encoding="utf-8")
    types("yes\n")
    ended = ended_job.done("new-template", "--from", ended_job.job, "--out", out)
    assert "Left out: what the entries hold that can't be read." in ended.out.splitlines()
