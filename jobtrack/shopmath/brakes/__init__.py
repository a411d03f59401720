"""Brakes."""
