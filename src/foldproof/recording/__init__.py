"""What comes after filming: the finished recording's times, its chapters and captions, and what was said in it."""
