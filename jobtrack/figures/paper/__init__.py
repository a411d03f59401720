"""A drawing on paper, as SVG: millimetres across and down, texts measured in letters of any common sans-serif."""
