"""What is recorded too seldom to have a key of its own on the step."""
