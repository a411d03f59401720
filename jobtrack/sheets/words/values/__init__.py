"""What was measured, what is wanted, and whose a limit is, in words."""
