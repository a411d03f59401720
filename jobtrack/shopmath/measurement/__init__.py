"""Measuring."""
