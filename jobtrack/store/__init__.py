"""Job files and what lies beside them: bytes, the disk, this machine, copies."""
