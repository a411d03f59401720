"""Copies of a job: joined, and examined."""
