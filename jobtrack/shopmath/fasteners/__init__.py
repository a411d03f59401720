"""Fasteners."""
