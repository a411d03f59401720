"""How an axle fits."""
