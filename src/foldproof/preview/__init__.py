"""The bench: a local page that follows the author's edits."""
