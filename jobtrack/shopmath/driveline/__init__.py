"""Drivelines."""
