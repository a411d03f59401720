"""The commands about templates: which there are, a new one, a rehearsal."""
