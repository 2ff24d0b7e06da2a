"""A language is a build's or a run's own: its words from its tables, its numbers as its locale writes them."""

from decimal import Decimal

import pytest
from babel.numbers import format_decimal, get_decimal_symbol

from macros.quantities import QuantityError, parse_shown, read, say, show, store
from macros.quantities.languages import (
    SOURCE,
    between,
    cached_as_spoken,
    called,
    language,
    languages,
    name_of,
    speaking,
    with_mark,
    with_point,
)
from macros.quantities.messages import MessageError, messages, placeholders, translated

OTHERS = [code for code in languages() if code != SOURCE]


def test_english_is_spoken_until_somebody_says_otherwise():
    assert language() == SOURCE
    with speaking("de"):
        assert language() == "de"
        with speaking(SOURCE):
            assert language() == SOURCE
        assert language() == "de"
    assert language() == SOURCE


def test_a_language_without_tables_is_refused_by_name():
    with pytest.raises(LookupError, match=r"'xx'.*there are en, de"), speaking("xx"):
        raise AssertionError("nobody gets here")


@pytest.mark.parametrize("code", OTHERS)
def test_every_table_of_a_language_keeps_to_the_english_one(code):
    """That every key is known and every text names the same values is looked at when the tables are read."""
    english = messages()
    with speaking(code):
        spoken = messages()
    assert spoken.keys() == english.keys()
    assert all(placeholders(key, spoken[key]) == placeholders(key, text) for key, text in english.items())
    assert sum(spoken[key] != text for key, text in english.items()) > len(english) / 2


@pytest.mark.parametrize(
    ("source", "spoken", "complaint"),
    [
        ({"a.b": "x"}, {"a.c": "y"}, r"a\.c is translated, but there is no such message"),
        ({"a.b": "x {one}"}, {"a.b": "y"}, r"a\.b names \[\] where its source names \['one'\]"),
        ({"a.b": "x {one}"}, {"a.b": "{one} {two}"}, r"names \['one', 'two'\]"),
    ],
)
def test_a_table_that_does_not_is_refused(source, spoken, complaint):
    with pytest.raises(MessageError, match=complaint):
        translated(source, spoken)


def test_what_is_not_translated_is_said_in_english():
    assert translated({"a": "one", "b": "two"}, {"a": "eins"}) == {"a": "eins", "b": "two"}


VALUES = [0.0, 0.05, 1.0, 6.63, 12.5, 999.9, 1234.5, 98765.4, 1234567.8, -3.75]


@pytest.mark.parametrize("code", languages())
@pytest.mark.parametrize("si", VALUES)
def test_numbers_are_written_as_babel_writes_them(code, si):
    """Babel carries the locale data of the Unicode consortium; thousands are ours, parted by a thin space everywhere."""
    english = show(si, "m", 4).partition("\u00a0")[0]
    plain = Decimal(english.replace("\u202f", "").replace("\u2212", "-"))
    theirs = format_decimal(plain, locale=code, decimal_quantization=False, group_separator=False)
    whole, mark, rest = theirs.partition(get_decimal_symbol(code))
    decimals = -int(plain.as_tuple().exponent) if "." in english else 0
    theirs = f"{whole}{mark or get_decimal_symbol(code)}{rest.ljust(decimals, '0')}" if decimals else whole
    with speaking(code):
        ours = show(si, "m", 4).partition("\u00a0")[0]
    assert ours.replace("\u202f", "").replace("\u2212", "-") == theirs


@pytest.mark.parametrize("text", ["6,63 NL/min", "1\u202f234,5 m", "\u22123,75 °C", "1,5 × 10⁻¹² m", "1234,5 m"])
def test_what_is_shown_in_german_is_read_back(text):
    english = parse_shown(text.replace(",", "."))
    with speaking("de"):
        german = parse_shown(text)
    assert (german.kind, german.si, german.unit) == (english.kind, english.si, english.unit)


@pytest.mark.parametrize("text", ["1.234 bar(g)", "1.234,5 bar(g)", "1,234.5 bar(g)", "1,2,3 bar(g)", ",5 bar(g)"])
def test_a_point_is_never_taken_for_a_mark_in_german(text):
    with speaking("de"), pytest.raises(QuantityError):
        parse_shown(text)


def test_a_description_keeps_the_point_whatever_is_spoken():
    with speaking("de"):
        assert read("2.5 bar(g)").si == read("2.5 bar(g)").si == 2.5e5
        with pytest.raises(QuantityError, match=r"2\.5 bar\(g\)"):
            read("2,5 bar(g)")


def test_marks_move_between_digits_alone():
    with speaking("de"):
        assert with_mark("v. 1.5 to 2.25, see fig. 3.") == "v. 1,5 to 2,25, see fig. 3."
        assert with_point("1,5 und 2, 3") == "1.5 und 2, 3"
        assert between() == ";"
    assert with_mark("1.5") == with_point("1.5") == "1.5"
    assert between() == ","


def test_languages_are_called_by_their_own_names():
    assert name_of("de") == "Deutsch"
    assert name_of("en") == "English"
    with speaking("de"):
        assert (name_of("en"), called("en")) == ("English", "Englisch")


def test_what_is_kept_is_kept_for_its_language():
    made = []

    @cached_as_spoken()
    def title(name):
        made.append(name)
        return say("site.plant") + name

    english, key = title("x"), store.key_of("page", "x")
    with speaking("de"):
        assert title("x") != english
        assert store.key_of("page", "x") != key
    assert title("x") == english
    assert made == ["x", "x"]
    assert store.key_of("page", "x") == key
