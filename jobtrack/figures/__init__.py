"""Drawings as plain data, and what makes lines of text out of them. Knows nothing of what is drawn."""
