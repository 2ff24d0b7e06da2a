"""What a command says while it computes: a line for who watches, nothing for who does not, and nothing left of it."""

import io
import time

import pytest

from macros.command.progress import told


class Terminal(io.StringIO):
    """Keeps what it is told, and says that somebody watches."""

    def isatty(self):
        return True


def shown(text):
    """What stands on the line of a terminal in the end."""
    line = ""
    for part in text.split("\r"):
        line = part + line[len(part) :]
    return line.rstrip()


def wait_for(stream, text):
    for _ in range(1000):
        if text in stream.getvalue():
            return
        time.sleep(0.01)


def test_who_waits_is_told_what_goes_on():
    stream = Terminal()
    with told("Sizing the shed", stream, patience_s=0.01):
        wait_for(stream, "Sizing the shed")
        assert shown(stream.getvalue()) == "Sizing the shed … 0 s"


def test_nothing_is_left_of_it():
    stream = Terminal()
    with told("Sizing the shed", stream, patience_s=0.01):
        wait_for(stream, "Sizing the shed")
    assert stream.getvalue().endswith("\r") and shown(stream.getvalue()) == ""


def test_what_is_quick_needs_no_word():
    stream = Terminal()
    with told("Sizing the shed", stream, patience_s=60.0):
        pass
    assert stream.getvalue() == ""


def test_a_file_or_a_pipe_is_told_nothing():
    stream = io.StringIO()
    with told("Sizing the shed", stream, patience_s=0.0):
        time.sleep(0.02)
    assert stream.getvalue() == ""


def test_a_fault_comes_through_and_the_line_is_gone():
    stream = Terminal()
    with pytest.raises(ValueError, match="as it was"), told("Sizing the shed", stream, patience_s=0.01):
        wait_for(stream, "Sizing the shed")
        raise ValueError("as it was")
    assert shown(stream.getvalue()) == ""
