"""The Textual app: screens and widgets over the record. Decisions are in `words` or in the rooms below."""
