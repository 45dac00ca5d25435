"""The same card in another size, as a recipe of its own: its author's text with other plain numbers."""
