"""How far the work is: each bolt, each weld, each part; and what can be done now."""
