"""Pictures of a step as lines: on a page of their own, or on the step's page where there is room."""
