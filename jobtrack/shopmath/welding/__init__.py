"""Welding."""
