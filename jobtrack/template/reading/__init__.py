"""A template's text read strictly: bounds, lines of keys, values, shapes, mistakes of grammar."""
