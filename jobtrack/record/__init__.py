"""The record of a job: what happened, as entries in one file, and the state that follows from them."""
