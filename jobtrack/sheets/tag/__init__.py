"""The paper on the steering wheel."""
