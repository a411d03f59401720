"""Bolts and weld runs in words."""
