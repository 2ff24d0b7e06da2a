"""Only plain files of known kinds stand among the documents; nothing of a folder with a link in it is read."""

import os
import shutil

import pytest

from macros.description.loading import load
from macros.pages import Handbook
from macros.pages.known_files import file_faults, link_faults
from macros.quantities import Faults
from tests.hostile.watching import ROOT, watched

PNG = b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR" + (20).to_bytes(4, "big") * 2
WIDE = b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR" + (90_000).to_bytes(4, "big") * 2
SVG = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9">{}</svg>'

STRANGERS = [
    ("docs/x.html", b"<script>", "pages.files.kind"),
    ("docs/x.js", b"x", "pages.files.kind"),
    ("docs/assets/x.css", b"x", "pages.files.kind"),
    ("docs/x.py", b"x", "pages.files.kind"),
    ("docs/x.pdf", b"%PDF", "pages.files.kind"),
    ("docs/x.xhtml", b"x", "pages.files.kind"),
    ("docs/x.wasm", b"x", "pages.files.kind"),
    ("docs/robots.txt", b"x", "pages.files.kind"),
    ("docs/cname", b"x.example", "pages.files.kind"),
    ("docs/X.md", b"x", "pages.files.name"),
    ("docs/a b.md", b"x", "pages.files.name"),
    ("docs/a\u202eb.md", b"x", "pages.files.name"),
    ("docs/-rf.md", b"x", "pages.files.name"),
    ("docs/a.b.md", b"x", "pages.files.name"),
    ("docs/a;b.md", b"x", "pages.files.name"),
    ("docs/" + "a" * 80 + ".md", b"x", "pages.files.name"),
    ("docs/con.md", b"x", "pages.files.device"),
    ("docs/404.md", b"x", "pages.files.theme"),
    ("docs/assets/images/favicon.png", PNG, "pages.files.theme"),
    ("docs/search/x.md", b"x", "pages.files.theme"),
    ("docs/overrides/x.md", b"x", "pages.files.theme"),
    ("docs/guides/x/y.md", b"x", "pages.files.folder_of_guides"),
    ("docs/guides/x.png", PNG, "pages.files.in_guides"),
    ("docs/designs/x.yml", b"x", "pages.files.in_designs"),
    ("docs/designs/x/main.py", b"x", "pages.files.in_designs"),
    ("docs/designs/x/other.yml", b"x", "pages.files.in_designs"),
    ("docs/designs/x/x.png", PNG, "pages.files.in_designs"),
    ("docs/designs/x/y/plant.yml", b"x", "pages.files.folder_of_plant"),
    ("docs/designs/assets/plant.yml", b"x", "pages.files.reserved_plant"),
    ("docs/designs/search/plant.yml", b"x", "pages.files.reserved_plant"),
    ("docs/designs/x/hours.csv", b"x" * (1024 * 1024 + 1), "pages.files.too_large"),
    ("docs/a.png", b"<script>alert(1)</script>", "pages.files.another_kind"),
    ("docs/a.jpg", PNG, "pages.files.another_kind"),
    ("docs/a.webp", b"RIFFxxxxAVI ", "pages.files.another_kind"),
    ("docs/a.png", WIDE, "pages.files.too_wide"),
    ("docs/a.png", PNG + b"\0" * (2 * 1024 * 1024), "pages.files.too_large"),
    ("docs/a/b/c/d/e/f/g/h.md", b"x", ""),
]


@pytest.mark.parametrize(("place", "content", "code"), STRANGERS, ids=[f"{row[0][:30]}: {row[2]}" for row in STRANGERS])
def test_a_strange_file_is_refused(tmp_path, place, content, code):
    path = tmp_path / place
    path.parent.mkdir(parents=True)
    path.write_bytes(content)
    with watched(tmp_path):
        found = [(one.code, one.line) for one in (*link_faults(tmp_path / "docs"), *file_faults(tmp_path / "docs"))]
    assert (code or "pages.files.too_many", 0) in found


DRAWINGS = [
    ("a script", "\n<script>alert(1)</script>", "pages.files.drawing_element", 2),
    ("an act", '\n\n<rect onclick="alert(1)"/>', "pages.files.drawing_attribute", 3),
    ("a foreign part", "<foreignObject><p/></foreignObject>", "pages.files.drawing_element", 1),
    ("a link", '<a href="javascript:alert(1)"><text>x</text></a>', "pages.files.drawing_element", 1),
    ("another picture", '<image href="https://x.example/a.png"/>', "pages.files.drawing_element", 1),
    ("a use of elsewhere", '<use href="https://x.example/a.svg#b"/>', "pages.files.drawing_element", 1),
    ("something that moves", '<animate attributeName="href" to="javascript:x"/>', "pages.files.drawing_element", 1),
    ("a setting", '<set attributeName="onclick" to="x"/>', "pages.files.drawing_element", 1),
    ("a style sheet", "<style>@import url(https://x.example)</style>", "pages.files.drawing_element", 1),
    ("a style", '<rect style="fill:url(https://x.example/a)"/>', "pages.files.drawing_attribute", 1),
    ("a fill of elsewhere", '<rect fill="url(https://x.example/a)"/>', "pages.files.drawing_attribute", 1),
    ("an unseen character", "\n<text>a\u202eb</text>", "description.yaml.unseen", 2),
    ("half a drawing", "\n<rect>", "pages.files.drawing_unreadable", 2),
    ("an entity", "&x;", "pages.files.drawing_unreadable", 1),
    ("shapes without end", "<g/>" * 6000, "pages.files.drawing_too_much", 1),
]


@pytest.mark.parametrize(("name", "inside", "code", "line"), DRAWINGS, ids=[row[0] for row in DRAWINGS])
def test_a_drawing_that_acts_is_refused(tmp_path, name, inside, code, line):
    (tmp_path / "docs").mkdir()
    (tmp_path / "docs/a.svg").write_text(SVG.format(inside), encoding="utf-8")
    with watched(tmp_path):
        found = [(one.code, one.line) for one in file_faults(tmp_path / "docs")]
    assert (code, line) in found, (name, found)


@pytest.mark.parametrize(
    "declared",
    [
        '<!DOCTYPE svg [<!ENTITY a "b">]>\n',
        '<!DOCTYPE svg SYSTEM "file:///etc/passwd">\n',
        '<?xml-stylesheet href="https://x.example/a.css"?>\n',
    ],
)
def test_a_drawing_declares_nothing(tmp_path, declared):
    (tmp_path / "docs").mkdir()
    (tmp_path / "docs/a.svg").write_text(f'<?xml version="1.0"?>\n{declared}{SVG.format("")}', encoding="utf-8")
    with watched(tmp_path):
        found = [(one.code, one.line) for one in file_faults(tmp_path / "docs")]
    assert found == [("pages.files.drawing_declares", 2)]


def test_a_plain_drawing_and_pictures_pass(tmp_path):
    docs = tmp_path / "docs"
    (docs / "assets").mkdir(parents=True)
    (docs / "designs/shed").mkdir(parents=True)
    for name, content in (
        ("a.png", PNG),
        ("b.jpg", b"\xff\xd8\xff\xe0"),
        ("c.webp", b"RIFF\0\0\0\0WEBPVP8 "),
        (".DS_Store", b"x"),
    ):
        (docs / "assets" / name).write_bytes(content)
    shapes = (
        '<title>Bench</title><g fill="none" stroke="currentColor"><path d="M0 0h9"/><text x="1">gas, ±5 °C</text></g>'
    )
    (docs / "assets/d.svg").write_text(
        f'<?xml version="1.0"?>\n<!-- by hand -->\n{SVG.format(shapes)}', encoding="utf-8"
    )
    for name in ("plant.yml", "wall.yml", "hours.csv"):
        (docs / "designs/shed" / name).write_text("format: 1\n", encoding="utf-8")
    assert link_faults(docs) == []
    assert file_faults(docs) == []


LINKS = ["docs/x.md", "docs/guides/x.md", "docs/designs/x", "docs/designs/y/plant.yml", "docs/assets", "docs/x.svg"]


@pytest.mark.parametrize("place", LINKS)
def test_nothing_is_read_where_a_link_leads_out(tmp_path, place):
    (tmp_path / "secret").mkdir()
    (tmp_path / "secret/plant.yml").write_text("secret: 1\n", encoding="utf-8")
    path = tmp_path / place
    path.parent.mkdir(parents=True)
    path.symlink_to(tmp_path / "secret" if "." not in path.name else tmp_path / "secret/plant.yml")
    with watched(tmp_path / "docs"):
        handbook = Handbook.load(tmp_path / "docs")
    assert [(one.code, one.file) for one in handbook.faults] == [("pages.files.link", place)]
    assert not handbook.pages()


def test_a_link_to_itself_ends(tmp_path):
    docs = tmp_path / "docs"
    docs.mkdir()
    (docs / "a").symlink_to(docs)
    (docs / "b").symlink_to(docs)
    with watched(docs):
        assert [one.code for one in Handbook.load(docs).faults] == ["pages.files.link"] * 2


NO_FILES = [os.mkdir, *filter(None, [getattr(os, "mkfifo", None)])]
"""What makes something that is no file: a folder, and a pipe on systems that have them."""


@pytest.mark.parametrize("name", ["x.md", "a/x.md", ".x.md", "x.svg", "designs/shed/plant.yml"])
@pytest.mark.parametrize("make", NO_FILES, ids=lambda make: make.__name__)
def test_what_is_called_like_a_file_and_is_none_is_neither_read_nor_waited_for(tmp_path, make, name):
    docs = tmp_path / "docs"
    (docs / name).parent.mkdir(parents=True)
    make(docs / name)
    with watched(docs):
        assert [one.code for one in Handbook.load(docs).faults] == ["pages.files.no_plain_file"]


@pytest.mark.parametrize("name", ["plant.yml", "network.yml", "procedures.yml", "parts.yml", "record.yml", "wall.yml"])
def test_a_description_is_not_read_through_a_link(tmp_path, name):
    """As `gaswright check` reads it, by itself: what a secret file holds must not come back in a message."""
    (tmp_path / "secret.yml").write_text("password: hunter\n", encoding="utf-8")
    folder = tmp_path / "shed"
    folder.mkdir()
    (folder / name).symlink_to(tmp_path / "secret.yml")
    with watched(folder), pytest.raises(Faults) as raised:
        load(folder, tmp_path)
    assert ("description.no_plain_file", f"shed/{name}") in [(one.code, one.file) for one in raised.value]
    assert "password" not in str(raised.value)


def test_a_plant_cannot_be_called_like_another(tmp_path):
    for name in ("first", "second"):
        shutil.copytree(ROOT / "macros/command/starter_plant", tmp_path / "docs/designs" / name)
    path = tmp_path / "docs/designs/second/plant.yml"
    path.write_text(path.read_text("utf-8").replace("title: Starter plant", "title: starter  PLANT"), encoding="utf-8")
    found = [(one.code, one.file, one.line) for one in Handbook.load(tmp_path / "docs").faults]
    assert ("pages.same_title", "docs/designs/second/plant.yml", 2) in found
