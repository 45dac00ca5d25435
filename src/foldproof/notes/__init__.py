"""A card as somebody wrote it up, read into a draft of a recipe: what was said, and questions where nothing was."""
