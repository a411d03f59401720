"""What a job looks like on paper, as text and as JSON. Nothing here needs a screen."""
