"""The one reader of annotated classes: TOML from strangers into frozen classes, strictly, every problem kept.

A class says by its annotations what may be written (`marks.py` where a type alone doesn't say it). `reader.py`
reads by them, without anything heavy; `published.py` makes pydantic models and a JSON Schema of the same classes.
"""
