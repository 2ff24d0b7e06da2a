"""Finished pages bound into one document: no id twice, links within it, one note for each working."""

import re

from macros.pages.binding import Chapter, bound

LEAF = (
    '<h1 id="whole">A plant</h1>\n<p>See <a href="stack.html">the stack</a> and <a href="inputs.html">entries</a>.</p>'
)


def working(identity, note, unprinted="", text="how"):
    return (
        f'<div popover id="working-{identity}" class="gw-working{unprinted}" data-working="{identity}" data-note="{note}">'
        f'<p><span class="gw-note">{note}</span> {text}</p></div>'
    )


def figure(identity, note, shown):
    return (
        f'<button type="button" class="gw-figure" popovertarget="working-{identity}" data-figure="{identity}"'
        f' data-note="{note}">{shown}</button>'
    )


def page(title, body, *workings):
    held = "\n".join(workings)
    notes = (
        f'\n<section class="gw-workings" aria-label="W">\n<h2 class="gw-workings-title">W</h2>\n{held}\n</section>\n'
    )
    return f'<h1 id="{title.lower()}">{title}</h1>\n{body}{notes if workings else ""}'


def bind(*contents, part="Build"):
    chapters = [Chapter(title.lower(), part, title, content) for title, content in contents]
    return bound(LEAF, chapters)


def test_ids_and_all_that_refers_to_them_take_the_name_of_the_chapter():
    body = '<h2 id="steps">Steps</h2><svg aria-labelledby="a b"><use href="#b"/></svg><i id="a"></i><i id="b"></i>'
    html = bind(("Stack", page("Stack", body)), ("Water", page("Water", body)))
    ids = re.findall(r' id="([^"]*)"', html)
    assert len(ids) == len(set(ids))
    assert {"stack.steps", "water.steps", "stack.stack", "whole", "contents"} <= set(ids)
    assert 'aria-labelledby="water.a water.b"><use href="#water.b"/>' in html


def test_links_between_chapters_stay_in_the_document_and_say_which():
    body = (
        '<a href="stack.html#steps">x</a> <a href="stack.html">y</a> <a href="#own">z</a> <a href="review.html#r">r</a>'
    )
    html = bind(("Stack", page("Stack", '<h2 id="steps">S</h2>')), ("Water", page("Water", f'{body}<i id="own"></i>')))
    assert '<a href="#stack.steps" data-chapter="1">x</a> <a href="#stack.stack" data-chapter="1">y</a>' in html
    assert '<a href="#water.own">z</a> <a href="review.html#r">r</a>' in html
    assert '<a href="#stack.stack" data-chapter="1">the stack</a> and <a href="inputs.html">' in html


def test_a_working_is_told_once_and_notes_count_in_the_order_of_the_document():
    stack = page("Stack", figure("b", "1", "5 A") + figure("a", "2", "2 V"), working("b", "1"), working("a", "2"))
    water = page("Water", figure("c", "1", "1 L") + figure("a", "2", "2.0 V"), working("c", "1"), working("a", "2"))
    html = bind(("Stack", stack), ("Water", water))
    assert re.findall(r'popovertarget="working-(\w)"[^>]*data-note="(\d)">([^<]*)<', html) == [
        ("b", "1", "5 A"), ("a", "2", "2 V"), ("c", "3", "1 L"), ("a", "2", "2.0 V")]  # fmt: skip
    assert re.findall(r'id="working-(\w)"[^>]*data-note="(\d)"><p><span class="gw-note">(\d)<', html) == [
        ("b", "1", "1"), ("a", "2", "2"), ("c", "3", "3")]  # fmt: skip


def test_what_one_chapter_prints_is_printed_and_what_none_does_comes_last():
    form = page(
        "Form",
        figure("f", "1", "3") + figure("a", "2", "4"),
        working("f", "1", " gw-unprinted"),
        working("a", "2", " gw-unprinted"),
    )
    html = bind(("Form", form), ("Stack", page("Stack", figure("a", "1", "4"), working("a", "1"))))
    assert re.findall(r'id="working-(\w)" class="([^"]*)"[^>]*data-note="(\d)"', html) == [
        ("a", "gw-working", "1"), ("f", "gw-working gw-unprinted", "2")]  # fmt: skip


def test_headings_stand_below_the_document_and_its_parts():
    html = bind(("Stack", page("Stack", "<h2>Two</h2><h3>Three</h3>")))
    assert re.findall(r"<h(\d)", html) == ["1", "2", "2", "3", "4", "5"]
    assert re.findall(r"</h(\d)", html) == ["1", "2", "2", "3", "4", "5"]
    assert '<h3 id="stack.stack"><span class="gw-chapter-number">1</span> Stack</h3>' in html


def test_tables_of_two_chapters_differ_in_name_and_words_are_left_alone():
    body = '<div role="region" aria-label="You need"></div><p>write  id="x" and href="y.html"</p>'
    html = bind(("Stack", page("Stack", body)), ("Water & oxygen", page("Water", body)))
    assert re.findall(r'aria-label="(You [^"]*)"', html) == ["You need · Stack", "You need · Water &amp; oxygen"]
    assert html.count('write  id="x" and href="y.html"') == 2


def test_the_contents_number_chapters_through_all_parts():
    chapters = [Chapter(one, part, one, page(one, "")) for one, part in (("a", "One"), ("b", "One"), ("c", "Two <3"))]
    html = bound(LEAF, chapters)
    assert re.findall(r'<ol start="(\d)">(.*?)</ol>', html) == [
        ("1", '<li><a href="#a.a">a</a></li><li><a href="#b.b">b</a></li>'), ("3", '<li><a href="#c.c">c</a></li>')]  # fmt: skip
    assert re.findall(r'<h2 class="gw-part">(.*?)</h2>', html) == ["One", "Two &lt;3"]


def test_a_refusal_stands_over_the_document_once_and_again_over_each_chapter_on_paper():
    banner = '<div class="gw-banner gw-refused"><strong>Refused.</strong></div>\n'
    html = bound(banner + LEAF, [Chapter("stack", "Build", "Stack", banner + page("Stack", ""))])
    assert re.findall(r'<div class="(gw-banner [^"]*)"><strong>Refused', html) == [
        "gw-banner gw-refused",
        "gw-banner gw-again-refused",
    ]
