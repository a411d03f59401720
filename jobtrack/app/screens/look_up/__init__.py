"""Pages on which something is looked up in an open job, and gone to from there."""
