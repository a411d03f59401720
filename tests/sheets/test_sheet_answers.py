"""What a template's author answered to a remark stands where its step stands."""

from __future__ import annotations

from jobtrack.job.about import About
from jobtrack.job.state.job import Job
from jobtrack.sheets.job_text import job_text
from jobtrack.template.load import build
from jobtrack.template.plan import plan


def test_each_answer_stands_with_what_it_is_about() -> None:
    """The template's and a condition's at the top; a step's, by its key or by the name that people read, below it."""
    step = {
        "stage": "look", "title": "Look", "answered": {"hazard": "seen from the door"},
        "reading": {"gap": {"unit": "mm", "record_only": True, "say": "Gap at the pad", "answered": "read twice"}},
        "tick": {"dry": {"ask": "Both dry?", "answered": "one look shows both"}},
        "torque": {"clamp": {"figure": "ask the maker", "answered": "turned by angle"}},
        "weld": {"seam": {"process": "stick", "answered": "made by the shop next door"}},
    }  # fmt: skip
    data = {"format": 1, "id": "answers", "title": "Answers", "answered": "for one shop", "step": {"look": step},
            "stage": {"look": {"title": "Look"}},
            "condition": {"wet": {"text": "Paint wet", "answered": "opened by hand"}}}  # fmt: skip
    text = job_text(Job.fold(About("answers", "Answers", plan(build(data)), "00"), ()))
    said = [line for line in text.splitlines() if "The template's author" in line]
    on = "The template's author, on "
    assert said == [
        f"  {on}the template: for one shop",
        f"  {on}“Paint wet”: opened by hand",
        f"      {on}hazard: seen from the door",
        f"      {on}“Gap at the pad”: read twice",
        f"      {on}“Both dry?”: one look shows both",
        f"      {on}“clamp”: turned by angle",
        f"      {on}“seam”: made by the shop next door",
    ]
