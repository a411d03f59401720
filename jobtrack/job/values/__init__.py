"""What the values in a job are worth: worked out, wanted, in doubt."""
