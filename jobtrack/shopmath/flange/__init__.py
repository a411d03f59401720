"""Flanges and holes."""
