"""The Textual app: screens and widgets. What a page says is decided in `pages`, what may be recorded in `job`."""
