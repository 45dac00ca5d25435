"""What Foldproof says to the author: findings, their places in the text, and how they are shown."""
