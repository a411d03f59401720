"""jobtrack: guides a workshop job and keeps its record in one readable file."""
