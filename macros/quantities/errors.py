"""The error that reading or showing a quantity raises."""


class QuantityError(ValueError):
    """A text that is no quantity of the kind wanted, or a value that cannot be shown."""

    def __init__(self, message: str, found: str = "", wanted: str = "") -> None:
        super().__init__(message)
        self.message = message
        """A whole sentence, ready to show to the author, in the unit that the author typed."""
        self.found = found
        """What stood there."""
        self.wanted = wanted
        """What should stand there."""
