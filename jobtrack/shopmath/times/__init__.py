"""Estimates of time."""
