"""The handover of a half-finished job."""
