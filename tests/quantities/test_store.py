"""Entries come back as they went, and whatever is damaged, stale or in the way is worked out anew."""

import json
import os
import subprocess
import sys
import time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from macros.quantities import store

JSON = st.recursive(
    st.none() | st.booleans() | st.integers(-(2**53), 2**53) | st.floats(allow_nan=False, allow_infinity=False) | st.text(),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(), inner, max_size=4),
    max_leaves=12,
)  # fmt: skip


@pytest.fixture
def folder(tmp_path, monkeypatch):
    monkeypatch.setenv("GASWRIGHT_CACHE", str(tmp_path / "kept"))
    return tmp_path / "kept"


@pytest.fixture(scope="module", autouse=True)
def apart(tmp_path_factory):
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("GASWRIGHT_CACHE", str(tmp_path_factory.mktemp("kept")))
        yield


@given(JSON)
def test_a_value_comes_back_as_it_went(value):
    key = store.key_of("test", json.dumps(value))
    store.write(key, value)
    assert store.read(key) == value


@pytest.mark.usefixtures("folder")
def test_what_is_kept_is_worked_out_once():
    asked = []
    key = store.key_of("test", "once")
    assert [store.kept(key, lambda: asked.append(1) or {"a": [1.5]}) for _ in range(3)] == [{"a": [1.5]}] * 3
    assert len(asked) == 1


@pytest.mark.parametrize(
    "spoil",
    [
        lambda text: text[: len(text) // 2],
        lambda text: text.replace("1.5", "2.5"),
        lambda text: text[:0],
        lambda text: text.partition("\n")[2],
        lambda text: "\x00" * len(text),
    ],
    ids=["torn", "changed", "empty", "no check", "not text"],
)
def test_a_damaged_entry_is_worked_out_anew(folder, spoil):
    key = store.key_of("test", "spoilt")
    store.write(key, 1.5)
    (entry,) = folder.glob("??/*.json")
    entry.write_text(spoil(entry.read_text()))
    assert store.read(key) is None
    assert store.kept(key, lambda: 1.5) == 1.5
    assert store.read(key) == 1.5


def test_an_entry_that_is_moved_to_another_key_is_not_believed(folder):
    one, other = store.key_of("test", "one"), store.key_of("test", "other")
    store.write(one, "one")
    (entry,) = folder.glob("??/*.json")
    (folder / other[:2]).mkdir(exist_ok=True)
    entry.rename(folder / other[:2] / f"{other[2:]}.json")
    assert store.read(other) is None


def test_parts_of_a_key_cannot_run_into_each_other():
    assert (
        len({store.key_of("a", "bc"), store.key_of("ab", "c"), store.key_of("a", "b", "c"), store.key_of("abc")}) == 4
    )


def test_nothing_is_kept_where_nothing_may_be(monkeypatch):
    monkeypatch.setenv("GASWRIGHT_CACHE", "")
    key = store.key_of("test", "nothing")
    store.write(key, 1)
    assert store.read(key) is None


def test_a_folder_that_cannot_be_written_costs_no_more_than_the_work(tmp_path, monkeypatch):
    (tmp_path / "file").write_text("in the way")
    monkeypatch.setenv("GASWRIGHT_CACHE", str(tmp_path / "file"))
    assert store.kept(store.key_of("test", "in the way"), lambda: 7) == 7


def test_what_was_of_no_use_for_long_is_dropped_and_what_was_read_is_not(folder):
    old, read = store.key_of("test", "old"), store.key_of("test", "read")
    for key in (old, read):
        store.write(key, 1)
    for entry in folder.glob("??/*"):
        os.utime(entry, (0, time.time() - 40 * 86_400))
    assert store.read(read) == 1
    store.prune()
    assert store.read(read) == 1
    assert store.read(old) is None


def test_what_was_of_use_lately_has_room_before_what_was_so_long_ago(folder):
    keys = [store.key_of("test", str(number)) for number in range(6)]
    for number, key in enumerate(keys):
        store.write(key, "x" * 1000)
        entry = folder / key[:2] / f"{key[2:]}.json"
        os.utime(entry, (0, time.time() - number * 3600))
    size = entry.stat().st_size
    store.prune(most_bytes=3 * size)
    assert [store.read(key) is not None for key in keys] == [True] * 3 + [False] * 3
    store.prune(most_bytes=3 * size - 1)
    assert [store.read(key) is not None for key in keys] == [True] * 2 + [False] * 4


@pytest.mark.usefixtures("folder")
def test_a_change_of_code_forgets(monkeypatch):
    before = store.key_of("test", "x")
    store.environment.cache_clear()
    monkeypatch.setattr(store.sys, "version", "another Python")
    try:
        assert store.key_of("test", "x") != before
    finally:
        store.environment.cache_clear()


def test_many_processes_may_write_the_same_entry(folder):
    code = "from macros.quantities import store\nfor i in range(60): store.write(store.key_of('t', str(i % 3)), 'x' * 5000)"
    writers = [subprocess.Popen([sys.executable, "-c", code], env=dict(os.environ)) for _ in range(3)]
    assert [writer.wait(timeout=60) for writer in writers] == [0, 0, 0]
    assert all(store.read(store.key_of("t", str(i))) == "x" * 5000 for i in range(3))
    assert not list(folder.glob("??/.*"))
