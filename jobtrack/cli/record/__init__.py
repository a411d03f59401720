"""`record`: its options, what was typed for them taken apart, the time, and the call."""
