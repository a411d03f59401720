"""What was done to one vehicle, for its owner, whoever buys it, and an inspector."""
