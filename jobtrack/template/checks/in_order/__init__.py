"""The order that a template gives its steps: what comes before what, whether it can be walked, and what waits."""
