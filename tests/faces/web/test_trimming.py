"""What is left of a script or a style sheet when what only people read is gone; told by hand after ECMA-262 and CSS."""

from __future__ import annotations

import pytest

from wrapwright.faces.web.assets import FOLDER
from wrapwright.faces.web.trimming import trimmed


def script(text: str) -> str:
    return trimmed(text.encode(), ".js").decode()


def test_comments_indentation_and_empty_lines_go() -> None:
    text = "/** Says what.\n * @param {number} x of it\n */\nfunction a(x) {\n\n  // why\n  return x; // how\n}\n"
    assert script(text) == "function a(x) {\nreturn x;\n}\n"


@pytest.mark.parametrize(
    "text",
    [
        'const a = "a // here /* not */ there";\n',
        "const a = 'it\\'s // here';\n",
        "const a = `two\n    lines // of text\n\n  ${b /* ` */ + `in ${c} side`}  /* text */`;\n".replace(
            "/* ` */ ", ""
        ),
        "const a = `${{ b: { c: 1 } }.b.c} // text`;\n",
        "const a = /[/\"'`]\\/\\/ {2}/.test(b);\n",
        "return /\\s*\\/\\*/g;\n",
        "a = b.length / 2 / c['/'] / (d) / e;\n",
        'if (a) { b(); }\nc = d[0] / 2 + "/" + f / 3;\n',
        "const a = `\\`  // ${b}\\${  `;\n",
    ],
)
def test_what_only_looks_like_a_comment_stays(text: str) -> None:
    assert script(text) == text


def test_comments_inside_a_template_s_code_go_and_its_text_stays() -> None:
    assert script("a = `  // ${\n  // why `\n  b /* what */ }  /* text */`;\n") == "a = `  // ${\nb   }  /* text */`;\n"


def test_a_comment_over_lines_still_ends_a_statement() -> None:
    # ECMA-262, 12.4: a comment with a line's end in it counts as a line's end.
    assert script("a = b /* one\n two */ c()\n") == "a = b\nc()\n"
    assert script("a = b /* one */ + c\n") == "a = b   + c\n"


def test_a_style_sheet() -> None:
    text = 'a {\n  color: red; /* why\n not */\n\n  content: "/* this */  ";\n  background: url(//x/*.png);\n}\n'
    assert trimmed(text.encode(), ".css").decode() == (
        'a {\ncolor: red;\ncontent: "/* this */  ";\nbackground: url(//x/*.png);\n}\n'
    )


def test_a_picture_is_left_alone() -> None:
    assert trimmed(b"<svg>\n  /* */\n</svg>", ".svg") == b"<svg>\n  /* */\n</svg>"


def test_our_own_files_are_a_fifth_shorter_and_only_once() -> None:
    before = after = 0
    for file in sorted(FOLDER.rglob("*")):
        if file.suffix in {".js", ".css"}:
            content = file.read_bytes()
            once = trimmed(content, file.suffix)
            assert trimmed(once, file.suffix) == once, file.name
            before, after = before + len(content), after + len(once)
    assert after < 0.8 * before
