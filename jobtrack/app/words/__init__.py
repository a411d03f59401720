"""From a job to the sentences and rows that a screen shows. Pure functions, no Textual."""
