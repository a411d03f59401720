"""Workings-out for people: typed inputs, the answer in words and in JSON, how fine each figure is said."""
