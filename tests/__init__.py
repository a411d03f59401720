"""The tests, a folder a room; what several of them share stands in `support`."""
