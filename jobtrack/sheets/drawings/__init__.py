"""The pictures of a step, as its readings, workings-out and bolts stand now: for sheets and for pages."""
