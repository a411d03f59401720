"""From a job to the lines of a page. Pure functions, no Textual."""
