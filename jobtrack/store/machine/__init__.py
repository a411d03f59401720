"""What this machine keeps and knows: its jobs, photos, what waits to be recorded, what it has seen."""
