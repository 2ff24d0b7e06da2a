"""
Pages: what a reader sees of a plant, as Markdown and HTML fragments; knows no site generator.

How a site uses this floor
--------------------------
1. ``handbook = Handbook.load(docs)`` reads ``docs/designs/*/plant.yml``, ``docs/guides/*.md`` and the other pages of ``docs/``.
   It does not raise for what authors wrote: ``handbook.faults`` holds all of it (file, line, message).
2. ``handbook.pages()`` gives every page of the site, authored and generated, in the order of navigation: ``Page(address="shed/stack.md", title,
   kind, plant, file, order, purpose, ...)``. ``kind`` is ``overview``, ``guide``, ``drawing``, ``inputs``, ``workings`` (of a plant), ``plants``,
   ``verification``, ``facts``, ``sources``, ``symbols`` (of the handbook) or ``page`` (any other Markdown file of ``docs/``, at its own address).
   Files below ``docs/guides/`` are published only through their plants: a site leaves the originals out.
3. ``rendered = handbook.render(page)`` gives ``Rendered(markdown, title, purpose, tokens, faults, lines)``. The Markdown begins with an empty line, so
   that no reader of metadata takes its first line. ``title`` and ``purpose`` are plain text, for navigation, head and search. ``lines[i]`` is the
   line of ``page.file`` that line ``i`` of the Markdown came from (0 for generated lines).
4. ``finish(page, rendered, is_there)`` of ``macros.pages.edition`` converts the Markdown, puts in what the tokens stand for, appends the workings of
   the page and adds what Markdown leaves out: ``Finished(title, purpose, content, headings, targets, faults)``.
5. ``Edition.of(docs)`` does all this for every page, takes what is the same from a former edition or from what was kept on disk, and tells all faults
   at once; where there are none the edition is good to publish.

HTML that style and script can rely on
--------------------------------------
``<button type="button" class="gw-figure" popovertarget="working-…" data-figure="stack.voltage" data-note="3" data-workshop="…" data-si="…" data-us="…">``
    a number in text; its text is the workshop text. ``data-assumed`` is set where a default reaches it, and ``<span class="gw-assumed">`` follows.
``<span class="gw-value" data-workshop data-si data-us>``
    a number in a table or a working; in headings, links and summaries too, there with ``data-figure``.
``<section class="gw-workings" data-search-exclude>`` at the end of a page
    holds ``<div popover id="working-…" class="gw-working" data-note="3">`` for each figure used, in the order of use; print shows them as numbered notes.
``<h2 id="w-stack-voltage">`` on ``<plant>/workings_stack.html``
    the anchor of a figure's full working: ``w-`` and the dotted name with dashes for dots; entries have ``i-…`` on ``<plant>/inputs.html``.
``<div class="gw-banner gw-draft|gw-withdrawn|gw-refused">`` at the top of every page of such a plant.

``schematic()`` in a guide and the drawing page call ``Handbook.drawing(plant, identity) -> str``, an SVG, where one is given to ``Handbook.load``.
"""

from macros.pages.handbook import Handbook, Page, Rendered

__all__ = ["Handbook", "Page", "Rendered"]
