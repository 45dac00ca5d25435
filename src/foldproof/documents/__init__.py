"""The handout, the page, the shot list and the card's facts, rendered and read back."""
