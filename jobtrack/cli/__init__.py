"""The command line: options, one function a command, one line for what went wrong."""
