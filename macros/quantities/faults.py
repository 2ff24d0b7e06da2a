"""What is wrong in an input, all of it at once."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from macros.quantities.messages import code_of


@dataclass(frozen=True, slots=True, order=True)
class Fault:
    """One thing wrong: where, and a message that says what was found and what to write."""

    file: str
    line: int
    """Counted from 1; 0 for the file as a whole."""
    key: str
    """The dotted key of the description; empty where there is none."""
    message: str

    @property
    def code(self) -> str:
        """The reason in a word that stays the same when its sentence is reworded: the key of its message."""
        return code_of(self.message)

    def __str__(self) -> str:
        place = f"{self.file}:{self.line}" if self.line else self.file
        return ": ".join(part for part in (place, self.key, self.message) if part)


class Faults(Exception):
    """Everything wrong that was found, by file and line."""

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults = tuple(sorted(faults))
        if not self.faults:
            raise ValueError("Faults without a fault")
        super().__init__(self.faults)

    def __str__(self) -> str:
        return "\n".join(map(str, self.faults))

    def __iter__(self) -> Iterator[Fault]:
        return iter(self.faults)

    def __len__(self) -> int:
        return len(self.faults)

    def as_data(self) -> list[dict[str, str | int]]:
        """As lists and dictionaries, ready for JSON."""
        return [
            {"file": one.file, "line": one.line, "key": one.key, "message": str(one.message), **_code(one)}
            for one in self.faults
        ]


def _code(fault: Fault) -> dict[str, str | int]:
    return {"code": fault.code} if fault.code else {}
