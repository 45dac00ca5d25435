"""What cannot be made in the size that was asked for."""


class CannotBeError(Exception):
    """A size, or a construction in a size, that cannot be; said in one line for the author."""
