"""What the app looks like: three looks, terminals of few colours, and the one way by which lines reach a widget."""
