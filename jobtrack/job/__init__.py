"""A job: what happened in it, and what follows from that. Pure: nothing here touches a disk."""
