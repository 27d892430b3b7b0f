"""What the search in the text of all pages reads, and what it passes over."""

from __future__ import annotations

import json

from mullbook.render.lean import finished
from mullbook.render.text_index import index_files, parts_of, plain, texts_of

PAGE = """---
title: "Umber, \\"raw\\""
tags: ["PBr 7","PBr7"]
---
<nav data-search-exclude><a href="x">Way <b>in</b></a></nav>
<h1>Umber</h1><p class="lead">Brown &amp; warm; <code>Fe<sub>2</sub>O<sub>3</sub></code>.</p>
<section data-search-exclude><h2 id="card" data-search-exclude>Card</h2><p>Not this.</p></section>
<h2 id="names">Names</h2><dl><div><dt>Other</dt> <dd>Turkey umber</dd></div></dl><script>never</script>
<h3 id="bulk" data-search-exclude>Bulk</h3><p>Not this either.</p>
"""


def test_a_page_is_cut_at_its_headings() -> None:
    (text,) = texts_of({"pigments/umber.md": PAGE, "data/x.json": "{}", "data/x.sqlite": b"x"})
    assert (text.page, text.title, text.codes) == ("pigments/umber.html", 'Umber, "raw"', "PBr 7 PBr7")
    assert [tuple(part) for part in text.parts] == [
        ("", "", "Brown & warm; Fe2O3."),
        ("names", "Names", "Other Turkey umber"),
    ]


def test_a_page_may_keep_itself_out() -> None:
    assert list(texts_of({"find.md": PAGE.replace("tags:", "search: {exclude: true}\ntags:")})) == []


def test_words_of_two_cells_are_two_words_and_marks_within_a_word_are_none() -> None:
    assert plain("<tr><td>a</td><td>b</td></tr><p>SiO<sub>2</sub></p>") == "a b SiO2"
    assert plain('<span class="swatch none">not measured</span>red') == "red"


def test_what_is_left_out_may_hold_more_of_its_kind() -> None:
    html = "a<div data-search-exclude>b<div>c</div>d</div>e<p data-search-exclude>f</p>g"
    assert [part.text for part in parts_of(html)] == ["a e g".replace(" ", "")]


def test_the_script_holds_the_words_and_ends_no_tag() -> None:
    page_of_tags = PAGE.replace("Turkey", "&lt;/script&gt; Turkey")
    (script,) = index_files({"pigments/umber.md": page_of_tags}).values()
    assert "</script" not in script
    ((page, title, codes, parts),) = json.loads(
        script.removeprefix("window.MULLBOOK_TEXT=").removesuffix(";\n")
    )
    assert (page, title, codes) == ("pigments/umber.html", 'Umber, "raw"', "PBr 7 PBr7")
    assert parts[1] == ["names", "Names", "Other </script> Turkey umber"]


def test_sources_and_workings_are_not_looked_for() -> None:
    html = (
        '<p>Density <b>3.2</b> <a href="#_1">Gettens</a> <i>published</i></p>'
        '<details class="working"><summary>4 more</summary><p>3.4</p></details>'
    )
    assert plain(html) == "Density 3.2"


def test_a_page_describes_itself_by_its_lead() -> None:
    lead = "A natural brown earth: iron oxide hydroxide and clay."
    page = f'---\ntitle: Umber\n---\n  <h1>Umber</h1>\n\n  <p class="lead">{lead}</p>\n'
    assert finished(page) == (
        f'---\ntitle: Umber\ndescription: "Umber: {lead}"\n---\n<h1>Umber</h1>\n<p class="lead">{lead}</p>\n'
    )


def test_a_description_that_is_given_stays() -> None:
    page = "---\ntitle: Umber\ndescription: Of umber.\n---\n<h1>Umber</h1>\n"
    assert finished(page) == page
