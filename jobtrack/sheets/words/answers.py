"""What a template's author answered to the remarks that stand on it, for whoever works from it."""

from __future__ import annotations

from collections.abc import Iterator

from jobtrack.template.model import Step, Template

_OF = "The template's author, on "


def template_answers(template: Template) -> Iterator[str]:
    """The answers of what belongs to no step."""
    if template.answered:
        yield f"{_OF}the template: {template.answered}"
    yield from (f"{_OF}“{one.text}”: {one.answered}" for one in template.condition.values() if one.answered)


def step_answers(step: Step) -> Iterator[str]:
    """The answers of a step, of its keys first."""
    yield from (f"{_OF}{key}: {why}" for key, why in step.answered.items())
    named = [
        *((one.say or name, one.answered) for name, one in step.reading.items()),
        *((one.ask, one.answered) for one in step.tick.values()),
        *((name, one.answered) for name, one in step.torque.items()),
        *((name, one.answered) for name, one in step.weld.items()),
    ]
    yield from (f"{_OF}“{name}”: {why}" for name, why in named if why)
