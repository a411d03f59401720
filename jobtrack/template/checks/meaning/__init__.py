"""Checks of what a step says against what it declares: dangers, hot work, what is kept apart, what is asked."""
