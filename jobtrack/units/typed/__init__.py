"""What a person types for a number or a list: taken apart, read exactly, and looked at for slips."""
