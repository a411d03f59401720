"""One job file on the disk: created, read, followed, appended to."""
