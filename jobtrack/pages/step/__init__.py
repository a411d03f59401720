"""The page of one step: what to do, what is wanted, what was recorded."""
