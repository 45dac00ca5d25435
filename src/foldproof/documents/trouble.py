"""What can go wrong while documents are made that is no fault of the recipe. Each is told in one line."""


class DocumentsError(Exception):
    """The documents could not be made or put in place; what stood there before still stands."""


class ThemeError(DocumentsError):
    """A theme is missing or broken; the message names the template and the line."""


class PlacingError(DocumentsError):
    """The outputs could not be put in place."""


class PangoMissingError(DocumentsError):
    """The system's text library is not installed."""


class AuditError(DocumentsError):
    """The finished documents do not say what the card is."""
