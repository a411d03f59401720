"""How a job ends, and what is due afterwards: the acts and their options."""

from __future__ import annotations

from jobtrack.job.acts.base import IN_STEP, OF_JOB, Act, Names, Option


class DueDoneAct(Act, frozen=True):
    """Something that was due after the job's end is done.

    due: the id of the template's line.
    due_done: true.
    """

    kind = "due_done"
    work = False
    under = OF_JOB
    on_page = IN_STEP
    options = (Option("due-done", "something due afterwards, done", "ID"),)

    due: str
    due_done: bool = True

    def words(self) -> str:
        """As "due afterwards, done: retorque"."""
        return f"due afterwards, done: {self.due}"


class JobStoppedAct(Act, frozen=True):
    """The job is stopped, not finished.

    because: why, in somebody's own words.
    job_stopped: true.
    of: the hashes of the entries that nothing followed yet.
    """

    kind = "job_stopped"
    work = False
    under = OF_JOB
    on_page = IN_STEP
    options = (
        Option(
            "stop-job",
            "the job is stopped, not finished",
            "REASON",
            may_be_bare=True,
            also=("because",),
            turn=4,
        ),
    )

    because: str = ""
    job_stopped: bool = True
    of: Names = ()

    def words(self) -> str:
        """As "job stopped: sold"."""
        return f"job stopped: {self.because}"


class JobClosedAct(Act, frozen=True):
    """The job is closed.

    job_closed: true.
    differently: what somebody would do differently.
    tool_lacked: the tool that was missing.
    broke: what broke.
    of: the hashes of the entries that nothing followed yet.
    """

    kind = "job_closed"
    work = False
    under = OF_JOB
    on_page = IN_STEP
    options = (Option("close-job", "close the job", also=("differently", "tool_lacked", "broke"), turn=4),)

    job_closed: bool = True
    differently: str | None = None
    tool_lacked: str | None = None
    broke: str | None = None
    of: Names = ()

    def words(self) -> str:
        """That it is closed, and behind it what was answered about it."""
        asked = (
            ("would do differently", self.differently),
            ("a tool that was missing", self.tool_lacked),
            ("what broke", self.broke),
        )
        return "; ".join(("job closed", *(f"{name}: {text}" for name, text in asked if text)))
