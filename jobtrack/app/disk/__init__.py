"""What goes to and from the disk while the app is open, each by a thread of its own, so that no screen waits."""
