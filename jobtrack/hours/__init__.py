"""Labour hours over one job or many."""
