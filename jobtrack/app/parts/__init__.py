"""What screens are put together from: each part does one thing for the screen that holds it."""
