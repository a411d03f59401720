"""Acts, readings, hazards and the file in words: what the sheets, the command line and the pages share."""
