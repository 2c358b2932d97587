"""What a job file gets wrong is said in sentences, all at once, each with its place."""

from __future__ import annotations

from pathlib import Path

import pytest

from wrapwright.core.base.errors import Kind, SeveralProblemsError, WrapwrightError
from wrapwright.outside.jobfile.reading import job_text, read_job

STRAIGHT = '[blank]\nkind = "straight"\ngirth = 235\nwall = 165\n'


def refused(text: str, folder: Path) -> WrapwrightError:
    with pytest.raises(WrapwrightError) as caught:
        read_job(text, folder=folder, stem="x")
    assert caught.value.kind is Kind.UNUSABLE
    return caught.value


def element(lines: str) -> str:
    return f"format = 1\n{STRAIGHT}\n[[element]]\n{lines}\n"


@pytest.mark.parametrize(
    ("text", "where", "said"),
    [
        # format and TOML
        ("", "format", "format is missing"),
        ("format = 2", "format", "format 2 is not known"),
        ("format = true", "format", "format true is not known"),
        ("format = 1\ntitle = ", "", "line 2, column 9"),
        ("format = 1\na = 1\na = 2", "", "for the second time (line 3"),
        (f"format = 1\n{STRAIGHT}{STRAIGHT}", "", "for the second time (line 6"),
        (f"format = 1\n{STRAIGHT}[element]\nkind = 'fill'\ncolour = '#fff'", "element", "Write [[element]]"),
        (f"format = 1\n{STRAIGHT.replace('[blank]', '[[blank]]')}", "blank", "Write [blank], in single brackets"),
        # unknown keys, nearest known
        (f"format = 1\nquantety = 2\n{STRAIGHT}", "", 'Did you mean "quantity"?'),
        (f"format = 1\n{STRAIGHT}coatign = '#fff'", "blank", 'Did you mean "coating"?'),
        (f"format = 1\n{STRAIGHT}[wrap]\nedge = {{ rimm = 'cut' }}", "wrap: edge", 'Did you mean "rim"?'),
        (
            element('kind = "text"\ntext = "a"\nsize = 9\ncolor = "#fff"'),
            "element 1 (text 1)",
            'Did you mean "colour"?',
        ),
        (f"format = 1\n{STRAIGHT}quantity = 2", "blank", "belongs at the head of the file"),
        (f"format = 1\noverlap = 2\n{STRAIGHT}", "", "It belongs in [wrap]"),
        # ranges
        (f"format = 1\nquantity = 0\n{STRAIGHT}", "quantity", "0 is less than the limit of 1. Give 1 or more."),
        (f"format = 1\nquantity = 10001\n{STRAIGHT}", "quantity", "more than the limit of 10000. Give 10000 or less."),
        (f"format = 1\nquantity = 2.5\n{STRAIGHT}", "quantity", "whole number"),
        (f"format = 1\n{STRAIGHT}[sheet]\nppi = 99", "sheet: ppi", "less than the limit of 100"),
        (f"format = 1\n{STRAIGHT}[sheet]\nppi = 1441", "sheet: ppi", "more than the limit of 1440"),
        (f"format = 1\n{STRAIGHT}[sheet]\nscale = [100, 1]", "sheet: scale 1", "more than the limit of 1.1"),
        (f"format = 1\n{STRAIGHT}[sheet]\nmargins = [1, 2]", "sheet: margins", "[top, right, bottom, left]"),
        (f"format = 1\n{STRAIGHT}[sheet]\npaper = [8.5, 11]", "sheet: paper", "Is it 8.5 in (215.9 mm)?"),
        (f"format = 1\n{STRAIGHT}[wrap]\nbleed = -1", "wrap: bleed", "-1 mm is less than 0"),
        (f"format = 1\n{STRAIGHT}[wrap]\noverlap = 'wide'", "wrap: overlap", 'the word "auto"'),
        (f"format = 1\n{STRAIGHT}[wrap]\nseam = 'leftish'", "wrap: seam", "not a place"),
        (f"format = 1\ndate = '2026-02-30'\n{STRAIGHT}", "date", "not a day of the calendar"),
        (f"format = 1\ndate = '2 May 2026'\n{STRAIGHT}", "date", "year, month, day"),
        (f"format = 1\naccept = ['picture-pp']\n{STRAIGHT}", "accept", 'Did you mean "picture-ppi"?'),
        # readings
        ("format = 1\n[blank]\n", "blank", "the kind of wall is missing"),
        ("format = 1", "blank", "missing and needed"),
        ("format = 1\nblank = 3", "blank", "a table is expected, not 3"),
        ('format = 1\nblank = { use = "mug" }', "blank: use", "Nothing is on the shelf"),
        ('format = 1\n[blank]\nkind = "straight"\nwall = 165', "blank", "needs its readings"),
        ('format = 1\n[blank]\nkind = "straight"\ngirth = 235', "blank", "wall is missing"),
        (f"format = 1\n{STRAIGHT}diameter = 75", "blank", "girth and diameter say the same thing twice"),
        (f"format = 1\n{STRAIGHT}girth_top = 75", "blank", "girth_top does not belong to kind straight"),
        ('format = 1\n[blank]\nkind = "tapered"\ngirth_top = 235\nwall = 9', "blank", "girth_bottom is missing"),
        (
            'format = 1\n[blank]\nkind = "tapered"\ngirth_top = 235\ngirth_bottom = 9\nwall = 9\nheight = 8',
            "blank",
            "wall and height are both given",
        ),
        ('format = 1\n[blank]\nkind = "profile"\nreadings = [[0, 1, 2], [3, 4]]', "blank: readings 1", "3 values"),
        (f"format = 1\n{STRAIGHT}handle = {{ gap = 20 }}\n[wrap]\nseam = 'left'", "wrap: seam", "Leave the seam out"),
        (f"format = 1\n{STRAIGHT}[wrap]\nseam = 400", "wrap: seam", "more than one whole turn"),
        (f"format = 1\n{STRAIGHT}handle = {{ gap = 20 }}\n[wrap]\nseam = 'nowhere'", "wrap: seam", "not a place"),
        (f"format = 1\n{STRAIGHT}handle = {{ gap = 20 }}\n[wrap]\noverlap = 5", "wrap: overlap", "do not meet"),
        (f"format = 1\n{STRAIGHT}handle = {{ at = 'back' }}", "blank: handle gap", "missing and needed"),
        (f"format = 1\n{STRAIGHT}[colour]\nroute = 'convert'", "colour: profile", "needs the printer's profile"),
        # lengths
        (f"format = 1\n{STRAIGHT}coated = {{ from = '1,234 mm', to = 9 }}", "blank: coated from", "ambiguous"),
        (f"format = 1\n{STRAIGHT}coated = {{ from = '1/4', to = 9 }}", "blank: coated from", "1/4 in"),
        # elements
        (element(""), "element 1", "kind is missing"),
        (element('kind = "pictuer"'), "element 1", 'Did you mean "picture"?'),
        (element('kind = "fill"'), "element 1 (fill 1)", "a colour or a gradient"),
        (element('kind = "fill"\ncolour = "navy"'), "element 1 (fill 1): colour", "is not a colour"),
        (
            element('kind = "fill"\ncolour = "#fff"\ngradient = { from = "#fff", to = "#000" }'),
            "element 1 (fill 1)",
            "both given",
        ),
        (element('kind = "picture"\nfile = "art.png"'), "element 1 (picture 1)", "needs width, height or both"),
        (
            element('kind = "picture"\nfile = "lost.png"\nwidth = 9'),
            "element 1 (picture 1): file",
            '"lost.png" is not there',
        ),
        (element('kind = "picture"\nfile = "sub"\nwidth = 9'), "element 1 (picture 1): file", "is a folder"),
        (element('kind = "picture"\nwidth = 9'), "element 1 (picture 1): file", "missing and needed"),
        (
            element('kind = "picture"\nname = "crest"\nfile = "art.png"\nwidth = "0 mm"'),
            "element 1 (crest): width",
            "not more than 0",
        ),
        (
            element('kind = "picture"\nfile = "art.png"\nwidth = 9\nat = 0\naround = 3'),
            "element 1 (picture 1)",
            "both given",
        ),
        (
            element('kind = "picture"\nfile = "art.png"\nwidth = 9\nat = ["front", "top"]'),
            "element 1 (picture 1): at 2",
            "not a place",
        ),
        (
            element('kind = "picture"\nfile = "art.png"\nwidth = 9\ncrop = [0.9, 0, 0.1, 1]'),
            "element 1 (picture 1): crop",
            "leaves no picture",
        ),
        (
            element('kind = "picture"\nfile = "art.png"\nwidth = 9\nmask = "rounded"'),
            "element 1 (picture 1): mask",
            "radius",
        ),
        (
            element('kind = "picture"\nfile = "art.png"\nwidth = 9\nmask = "lost.svg"'),
            "element 1 (picture 1): mask",
            "is not there",
        ),
        (
            element('kind = "picture"\nfile = "art.png"\nwidth = 9\njoin = "blend 9 mm"'),
            "element 1 (picture 1)",
            'only with width = "wrap"',
        ),
        (
            element('kind = "picture"\nfile = "art.png"\nwidth = 9\nadjust = { chroma = 101 }'),
            "element 1 (picture 1): adjust chroma",
            "more than the limit of 100",
        ),
        (
            element('kind = "picture"\nfile = "art.png"\nwidth = 9\nopacity = 1.5'),
            "element 1 (picture 1): opacity",
            "limit of 1",
        ),
        (element('kind = "text"\ntext = "a"'), "element 1 (text 1)", "a size or a box"),
        (
            element('kind = "text"\ntext = "a"\nsize = "9 m"'),
            "element 1 (text 1): size",
            "Was it 9 mm or 9 cm or 9 in?",
        ),
        (
            element('kind = "text"\ntext = "a"\nwidth = "2,5 m"'),
            "element 1 (text 1): width",
            "over the 2000 mm that an element",
        ),
        (
            element('kind = "code"\ntext = "a"\nwidth = 2001'),
            "element 1 (code 1): width",
            "write it with the unit that is meant",
        ),
        (
            element('kind = "tile"\nfile = "art.png"\nwidth = "7 ft"'),
            "element 1 (tile 1): width",
            '"7 ft" is 2133.6 mm',
        ),
        (
            element('kind = "picture"\nfile = "art.png"\nheight = "3 m"'),
            "element 1 (picture 1): height",
            '"3 m" is 3000 mm, over',
        ),
        (
            element('kind = "picture"\nfile = "art.png"\nwidth = "50000000 mm"'),
            "element 1 (picture 1): width",
            "is 50000000 mm, over the limit of 10000 mm",
        ),
        (
            element('kind = "picture"\nfile = "art.png"\nwidth = -5e7'),
            "element 1 (picture 1): width",
            "-50000000 mm is no length",
        ),
        (
            element('kind = "text"\ntext = "a"\nsize = 9\nwidth = 9'),
            "element 1 (text 1)",
            "size and width are both given",
        ),
        (element('kind = "text"\ntext = "{crew}"\nsize = 9'), "element 1 (text 1): text", "{crew} has no value"),
        (element('kind = "text"\ntext = "a } b"\nsize = 9'), "element 1 (text 1): text", "stands alone"),
        (element('kind = "text"\ntext = "a"\nsize = 9\nfont = "lost.ttf"'), "element 1 (text 1): font", "is not there"),
        (
            element('kind = "text"\ntext = "a"\nsize = 9\nlanguage = "english please"'),
            "element 1 (text 1): language",
            "tag",
        ),
        (element('kind = "code"\ntext = "a"'), "element 1 (code 1): width", "missing and needed"),
        (element('kind = "code"\ntext = "a"\nwidth = 24\nlevel = "X"'), "element 1 (code 1): level", "L, M, Q, H"),
    ],
)
def test_each_fault_gets_its_sentence(tmp_path: Path, text: str, where: str, said: str) -> None:
    (tmp_path / "art.png").write_bytes(b"art")
    (tmp_path / "sub").mkdir()
    problem = refused(text, tmp_path)
    every = problem.problems if isinstance(problem, SeveralProblemsError) else (problem,)
    assert any(one.where == where and said in str(one) for one in every), "\n".join(map(str, every))
    assert len(every) == 1, "\n".join(map(str, every))


def test_all_problems_are_said_together(tmp_path: Path) -> None:
    text = element('kind = "picture"\nname = "crest"\nfile = "lost.svg"\nwidth = "huge"') + (
        '[[element]]\nkind = "text"\nname = "crest"\ntext = "{who}"\n[sheet]\nppi = 9\n[pres]\nrecipe = "x"\n'
    )
    problem = refused(text, tmp_path)
    assert isinstance(problem, SeveralProblemsError)
    assert sorted(one.where for one in problem.problems) == [
        "",
        "element 1 (crest): file",
        "element 1 (crest): width",
        "element 2 (crest)",
        "element 2 (crest): name",
        "element 2 (crest): text",
        "sheet: ppi",
    ]


def test_an_element_is_called_by_its_number_and_as_the_checks_call_it(tmp_path: Path) -> None:
    wrong = "size = 9\ntext = 'a'\nweight = 0"
    tables = (f'kind = "text"\n{wrong}', 'kind = "fill"\ncolour = "#fff"', f'kind = "text"\n{wrong}', 'kind = "pen"')
    long = f'kind = "text"\nname = "{"a" * 81}"\n{wrong}'
    problem = refused(element("\n[[element]]\n".join((*tables, long))), tmp_path)
    assert isinstance(problem, SeveralProblemsError)
    called = [one.where for one in problem.problems]
    assert called[:3] == ["element 1 (text 1): weight", "element 3 (text 2): weight", "element 4"]
    assert called[3].startswith("element 5: ")


def test_default_names_count_within_their_kind_and_stay_unique(tmp_path: Path) -> None:
    text = element('kind = "fill"\ncolour = "#fff"') + (
        '[[element]]\nkind = "text"\nsize = 9\ntext = "a"\n[[element]]\nkind = "fill"\ncolour = "#000"\n'
    )
    names = [one.name for one in read_job(text, folder=tmp_path, stem="x").elements]
    assert names == ["fill 1", "text 1", "fill 2"]
    clash = text.replace('text = "a"', 'text = "a"\nname = "Fill 2"')
    assert "already that of element 2" in str(refused(clash, tmp_path))


def test_messages_quote_no_absolute_path(tmp_path: Path) -> None:
    problem = refused(element('kind = "picture"\nfile = "lost.png"\nwidth = 9'), tmp_path)
    assert str(tmp_path) not in str(problem)


@pytest.mark.parametrize(
    ("data", "said"), [(b"a = 1\nb = '\xff'", "line 2"), (b" " * 2_000_001, "2000001 bytes; the limit is 2000000")]
)
def test_bytes_that_are_no_job_file(data: bytes, said: str) -> None:
    with pytest.raises(WrapwrightError, match=said):
        job_text(data)


@pytest.mark.parametrize("text", ["a = " + "[" * 5000, "format = " + "9" * 5000, "a = 2026-13-45"])
def test_toml_that_strains_the_reader_is_refused_like_any_other(tmp_path: Path, text: str) -> None:
    refused(text, tmp_path)


def test_a_blank_is_named_or_read_not_both(tmp_path: Path) -> None:
    problem = refused(f"format = 1\n{STRAIGHT}use = 'mug'", tmp_path)
    assert "use and kind, girth and wall are both given" in str(problem)


def test_a_font_file_may_lie_in_the_users_font_folder(tmp_path: Path) -> None:
    (tmp_path / "mine").mkdir()
    (tmp_path / "mine" / "Round.TTF").write_bytes(b"font")
    text = element('kind = "text"\ntext = "a"\nsize = 9\nfont = "Round.TTF"')
    assert "is not there" in str(refused(text, tmp_path))
    assert read_job(text, folder=tmp_path, stem="x", fonts=tmp_path / "mine").files == ("Round.TTF",)


FLAT = "format = 1\n[blank]\nkind = 'flat'\n"
PLACED = "\n[[element]]\nkind = 'text'\ntext = 'a'\nsize = 9\n"


@pytest.mark.parametrize(
    ("text", "where", "said"),
    [
        (FLAT, "blank", "a flat blank needs its readings"),
        (f"{FLAT}width = 95", "blank", "height is missing beside width"),
        (f"{FLAT}height = 95", "blank", "width is missing beside height"),
        (f"{FLAT}circle = 95\nwidth = 95", "blank", "circle and width are both given"),
        (f"{FLAT}outline = [[0, 0], [9, 0], [0, 9]]", "blank", "an outline needs its width or its height"),
        (f"{FLAT}outline = [[0, 0], [9, 0]]\nwidth = 95", "blank: outline", "3 to 20000 points"),
        (f"{FLAT}outline = [[0, 0], [9, 0], [0]]\nwidth = 95", "blank: outline", "not two figures"),
        (f"{FLAT}outline = [[0, 0], [9, 0], [0, 'a']]\nwidth = 95", "blank: outline", 'a number is expected, not "a"'),
        (f"{FLAT}outline = 'lost.svg'\nwidth = 95", "blank: outline", '"lost.svg" is not there'),
        (f"{FLAT}circle = 95\ncorner = 3", "blank: corner", "corner rounds a rectangle only"),
        (f"{FLAT}circle = 95\ncorner = -3", "blank: corner", "-3 mm is less than 0"),
        (f"{FLAT}circle = 95\ngirth = 300", "blank", "girth does not belong to kind flat"),
        (f"{FLAT}circle = 95\nwall = 300", "blank", "wall does not belong to kind flat"),
        (f"format = 1\n{STRAIGHT}circle = 95", "blank", "circle does not belong to kind straight"),
        (f"{FLAT}circle = 95{PLACED}at = 'back'", "element 1 (text 1)", 'at is "back", but a flat blank has only'),
        (f"{FLAT}circle = 95{PLACED}at = ['front', '0 deg']", "element 1 (text 1)", "names the front more than once"),
        (f"{FLAT}circle = 95{PLACED}around = 3", "element 1 (text 1)", "nothing goes round a flat blank"),
        (f"{FLAT}circle = 95{PLACED}across = 'far'", "element 1 (text 1): across", '"far"'),
        (f"format = 1\n{STRAIGHT}{PLACED}across = 9", "element 1 (text 1)", "across is for a flat blank"),
        (f"format = 1\n{STRAIGHT}keepout = [{{ across = 1, up = 9, width = 9, height = 9 }}]", "blank: keepout 1",
         "across is for a flat blank"),
        (f"{FLAT}circle = 95\nkeepout = [{{ at = 'left', up = 9, width = 9, height = 9 }}]", "blank: keepout 1",
         "a flat blank has only a front"),
    ],
)  # fmt: skip
def test_what_a_flat_blank_cannot_have(tmp_path: Path, text: str, where: str, said: str) -> None:
    problem = refused(text, tmp_path)
    assert (problem.where, said in problem.message) == (where, True), problem


def test_a_flat_blank_is_read_with_its_places(tmp_path: Path) -> None:
    (tmp_path / "tag.svg").write_text("<svg/>", encoding="utf-8")
    text = f"{FLAT}outline = 'tag.svg'\nheight = '9 cm'\nkeepout = [{{ up = 9, width = 4, height = 4, across = -3 }}]"
    job = read_job(f"{text}{PLACED}across = '-1/2 in'\nat = 'front'", folder=tmp_path, stem="x")
    assert job.files == ("tag.svg",)
    assert job.blank.plate is not None
    assert (job.blank.plate.file, job.blank.plate.height_mm, job.blank.plate.width_mm) == ("tag.svg", 90.0, None)
    assert (job.blank.readings, job.blank.axial_mm, job.blank.keepouts[0].across_mm) == ((), None, -3.0)
    assert job.elements[0].across_mm == pytest.approx(-12.7)


def names(table: str) -> str:
    return f'format = 1\n{STRAIGHT}[names]\nfile = "crew.csv"\n{table}'


@pytest.mark.parametrize(
    ("table", "where", "said"),
    [
        ("[names.fields]\nname = 3", "names: fields name", "text in quotes is expected, not 3"),
        (
            '[names.fields]\nname = { column = "Name", case = "big" }',
            "names: fields name case",
            "is not one of as typed",
        ),
        ("[names.fields]\nname = { trim = true }", "names: fields name column", "missing and needed"),
        ('[names.fields]\nname = { column = "Name", trims = true }', "names: fields name", 'Did you mean "trim"?'),
        ('separator = "dot"', "names: separator", "is not one of auto, comma, semicolon, tab, bar"),
        ("header = 0", "names: header", "is less than the limit of 1"),
        ('quantty = "n"', "names", 'Did you mean "quantity"?'),
    ],
)
def test_faults_of_a_list_of_names(tmp_path: Path, table: str, where: str, said: str) -> None:
    (tmp_path / "crew.csv").write_bytes(b"name\nAda\n")
    problem = refused(names(table), tmp_path)
    assert problem.where == where
    assert said in str(problem)


def test_a_list_that_is_not_there(tmp_path: Path) -> None:
    problem = refused(names(""), tmp_path)
    assert problem.where == "names: file"
    assert "is not there" in str(problem)
