"""Lifting by hand, and stands."""
