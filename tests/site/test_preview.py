"""The preview shows a changed page or description sooner than it begins, survives faults and recovers."""

import re
import shutil
import socket
import time
import urllib.error
import urllib.request

import pytest

from macros.site import serve as preview


@pytest.fixture
def begun(handbook):
    """Where a preview is served, and how long it took to begin."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        host = f"127.0.0.1:{probe.getsockname()[1]}"
    server = preview._start(handbook, host)
    try:
        yield f"http://{host}", _wait(f"http://{host}/index.html", "handbook", 60)
    finally:
        preview._stop(server)


def _get(url):
    try:
        with urllib.request.urlopen(url, timeout=30) as answer:
            return answer.read().decode()
    except (urllib.error.URLError, ConnectionError):
        return ""


def _wait(url, text, seconds):
    start = time.monotonic()
    while time.monotonic() - start < seconds:
        if text in _get(url):
            return time.monotonic() - start
        time.sleep(0.05)
    pytest.fail(f"{url} does not show {text!r} within {seconds} s")


def _edit(path, before, after):
    text = path.read_text(encoding="utf-8")
    assert before in text
    path.write_text(text.replace(before, after, 1), encoding="utf-8")


def test_changes_show_faults_are_survived_and_mended_ones_forgotten(handbook, begun):
    address, begun_s = begun
    guide, plant = handbook / "docs/guides/stack.md", handbook / "docs/designs/shed/plant.yml"
    stack = f"{address}/shed/stack.html"

    _edit(guide, "The stack splits water.", "The stack divides water.")
    page_s = _wait(stack, "divides water", 20)

    before = re.search(r'data-figure="stack.hydrogen_normal_flow"[^>]*>([^<]+)<', _get(stack)).group(1)
    _edit(plant, "cells: 16", "cells: 18")
    start = time.monotonic()
    while re.search(r'data-figure="stack.hydrogen_normal_flow"[^>]*>([^<]+)<', _get(stack)).group(1) == before:
        assert time.monotonic() - start < 20
        time.sleep(0.05)
    description_s = time.monotonic() - start

    _edit(plant, "current: 60 A", "current: 60")
    _wait(stack, "Not published", 20)
    assert "stack.current" in _get(stack)
    assert "divides water" in _get(stack), "the last good version stands below the faults"

    _edit(plant, "current: 60", "current: 60 A")
    start = time.monotonic()
    while "Not published" in _get(stack):
        assert time.monotonic() - start < 20
        time.sleep(0.05)

    # As shares of what the preview took to begin, in this run and beside the same other tests.
    assert page_s < 0.4 * begun_s
    assert description_s < begun_s


def test_a_preview_that_starts_with_a_fault_shows_it_and_recovers(handbook):
    plant = handbook / "docs/designs/shed/plant.yml"
    good = plant.read_text(encoding="utf-8")
    _edit(plant, "current: 60 A", "current: 60")
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        host = f"127.0.0.1:{probe.getsockname()[1]}"
    server = preview._start(handbook, host)
    try:
        _wait(f"http://{host}/index.html", "Not published", 60)
        plant.write_text(good, encoding="utf-8")
        _wait(f"http://{host}/shed/stack.html", "The stack splits water", 20)
    finally:
        preview._stop(server)
        shutil.rmtree(handbook, ignore_errors=True)
