"""What the command line does: one function a command, from parsed options to lines and an exit status."""
