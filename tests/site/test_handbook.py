"""The built handbook: what a reader sees is what the graph computes, and nothing else carries a unit."""

import json
import re

import pytest

from macros.quantities import KINDS, numbers_with_units, parse_shown, unit

from .found import search_index, unpacked
from .well_formed import page_read

HTML, SVG = "{http://www.w3.org/1999/xhtml}", "{http://www.w3.org/2000/svg}"
# No author writes the description of a drawing; its pressures are those of the flags, which carry their data.
SILENT = {f"{SVG}desc", f"{HTML}script", f"{HTML}style", f"{HTML}code", f"{HTML}pre", f"{HTML}template", f"{HTML}math"}
COMPUTED = ("data-figure", "data-workshop", "data-typed", "data-fact", "data-working", "data-si", "data-rated")
READ_ALOUD = ("alt", "title", "aria-label", "content", "alttext")


@pytest.fixture(scope="module")
def parsed(site):
    """
    Every page of the site with what html5lib, which reads as the HTML standard says, has against it.

    Of the handbooks bound whole, that of the smallest plant: they hold the same pages again.
    """
    paths = [path for path in site.rglob("*.html") if path.name != "whole.html" or path.parent.name == "bench"]
    return {path.relative_to(site).as_posix(): page_read(path) for path in paths}


@pytest.fixture(scope="module")
def pages(parsed):
    return {address: page for address, (page, _) in parsed.items()}


@pytest.fixture(scope="module")
def graphs(plants):
    return {name: plant.graph for name, plant in plants.items()}


def test_every_page_is_html_to_the_letter(parsed):
    assert {address: errors[:3] for address, (_, errors) in parsed.items() if errors} == {}


def _rounding_allowed(text, value):
    """Half the worth of the last digit shown, or all of it for a limit rounded to its safe side, in SI units."""
    number = re.match(r"[−-]?[\d\u202f]+(?:\.(\d+))?(?: × 10([⁻⁰¹²³⁴-⁹]+))?", text)
    digits = number.group(1) or ""
    worth = 10.0 ** -len(digits)
    if number.group(2):
        worth *= 10.0 ** int(number.group(2).translate(str.maketrans("⁻⁰¹²³⁴⁵⁶⁷⁸⁹", "-0123456789")))
    if not digits and not number.group(2):
        significant = len(number.group().lstrip("−-").replace("\u202f", ""))
        worth = 10.0 ** max(0, significant - value.digits)
    quantity = parse_shown(text, None if value.kind == "pressure" else value.kind)
    return worth * (0.5 if value.rounding == "nearest" else 1.0) * abs(unit(quantity.unit, quantity.kind).factor)


def test_every_figure_on_a_page_reads_back_to_the_graphs_value(pages, graphs):
    seen, wrong = 0, []
    for address, page in pages.items():
        graph = graphs.get(address.split("/")[0])
        if graph is None:
            continue
        for element in page.iter():
            name = element.get("data-figure")
            if not name or not graph[name].is_number:
                continue
            value, text = graph[name], "".join(element.itertext()).strip()
            quantity = parse_shown(text, None if value.kind == "pressure" else value.kind)
            si = quantity.si + (value.atmosphere_pa if quantity.kind == "gauge_pressure" else 0.0)
            allowed = _rounding_allowed(text, value) * (1 + 1e-9) + abs(value.si) * 1e-12
            if not abs(si - value.si) <= allowed:
                wrong.append(f"{address}: {name} shows {text}, the graph has {value.si!r}")
            seen += 1
    assert not wrong
    assert seen > 100


def _loose_text(element, found):
    """Texts that stand outside everything computed, and what is read aloud or shown on hover."""
    if element.tag in SILENT or any(element.get(mark) is not None for mark in COMPUTED):
        return
    for name in READ_ALOUD:
        if element.get(name):
            found.append(element.get(name))
    if element.text:
        found.append(element.text)
    for child in element:
        if isinstance(child.tag, str):
            _loose_text(child, found)
        if child.tail:
            found.append(child.tail)


def test_no_number_with_a_unit_stands_outside_what_is_computed(pages):
    offenders = []
    for address, page in pages.items():
        if address == "format.html":  # the bounds of the description's fields, printed from the fields themselves
            continue
        found = []
        for part in page.iter(f"{HTML}article"):
            _loose_text(part, found)
        for text in found:
            offenders += [f"{address}: {match.text!r} in {text.strip()[:80]!r}" for match in numbers_with_units(text)]
    assert not offenders


def test_figures_are_published_as_data_under_the_digest_that_the_pages_show(site, plants):
    for name, plant in plants.items():
        data = json.loads((site / name / "figures.json").read_text(encoding="utf-8"))
        assert data["digest"] == plant.digest
        assert data["figures"].keys() == plant.graph.figures.keys()
        assert plant.digest in (site / name / "index.html").read_text(encoding="utf-8")


def test_the_front_page_leads_to_overview_drawing_and_a_guide(pages):
    def links(address):
        return {element.get("href") for element in pages[address].iter(f"{HTML}a")}

    assert any("shed/index.html" in link for link in links("index.html") | links("plants.html"))
    assert {"drawing.html", "stack.html", "workings.html"} <= {link.split("#")[0] for link in links("shed/index.html")}


def test_no_page_of_a_published_plant_is_refused_or_a_draft(pages, plants):
    assert {plant.status for plant in plants.values()} == {"published"}
    for address, page in pages.items():
        if address.split("/")[0] in plants:
            classes = {word for element in page.iter(f"{HTML}div") for word in (element.get("class") or "").split()}
            assert not classes & {"gw-draft", "gw-refused", "gw-unseen", "gw-withdrawn"}, address


def test_navigation_of_a_plant_names_no_other_plants_pages(pages, plants):
    names = set(plants)
    for address, page in pages.items():
        for element in page.iter(f"{HTML}nav"):
            hrefs = {link.get("href") or "" for link in element.iter(f"{HTML}a")}
            strangers = {href for href in hrefs for name in names - {address.split("/")[0]} if f"../{name}/" in href}
            assert not strangers, address


def test_kinds_of_the_plants_are_all_known(graphs):
    for graph in graphs.values():
        for name in graph.figures:
            assert graph[name].kind in {*KINDS, "pressure", "category", "table", "curve", "run", "text"}


def test_guides_stand_in_the_navigation_by_group_and_on_the_overview_too(pages):
    from macros.pages.front_matter import GROUPS
    from macros.quantities import say

    names = [say(f"pages.group.{group}") for group in GROUPS]
    shown = [
        "".join(label.itertext()).strip()
        for nav in pages["shed/stack.html"].iter(f"{HTML}nav")
        for label in nav.iter(f"{HTML}summary")
    ]
    assert [name for name in dict.fromkeys(shown) if name in names] == [name for name in names if name in shown] != []
    headings = ["".join(head.itertext()).strip("¶ \n") for head in pages["shed/index.html"].iter(f"{HTML}h3")]
    assert [head for head in headings if head in names] == [name for name in names if name in shown]


def test_guides_are_found_by_their_text_and_keep_drawings_and_workings(site, pages):
    index = search_index(site, "shed")
    guide = next(at for at, (address, _) in enumerate(index["pages"]) if address == "shed/gas_treatment.html")
    places = {at for at, (page, *_) in enumerate(index["places"]) if page == guide}
    found_by = {word for word, packed in index["words"].items() if places & unpacked(packed)}
    assert {"dew", "point"} <= found_by
    assert not any("Numbers put in" in title for page, _, title, _ in index["places"] if page == guide)
    found = {element.get("class") for element in pages["shed/gas_treatment.html"].iter() if element.get("class")}
    assert {"gw-workings", "gw-schematic"} <= found
