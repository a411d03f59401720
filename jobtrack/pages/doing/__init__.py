"""Bolts and weld runs on the page of their step."""
