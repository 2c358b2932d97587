"""The design of a row's piece."""

from __future__ import annotations

from wrapwright.core.design.elements import Code, Fill, Gradient, Picture, Text, Tile
from wrapwright.core.names.pieces import depends_on_row, elements_in_doubt, elements_of, fields_of, fields_used
from wrapwright.core.names.values import NamesRequest, Row

GROUND = Fill(name="ground", gradient=Gradient("#000000", "#ffffff"))
CREST = Picture(name="crest", file="crest.svg", width_mm=30.0)
LEAF = Tile(name="leaf", file="leaf.svg", width_mm=20.0)
NAME = Text(name="name", text="{name} {{of}} {team}", size_mm=8.0)
CODE = Code(name="code", text="{number}", width_mm=24.0)
ALL = (GROUND, CREST, LEAF, NAME, CODE)


def test_a_row_without_wishes_leaves_the_design_alone() -> None:
    assert elements_of(ALL, Row(2, 2, {"name": "Ada"})) == ALL


def test_pictures_colours_and_what_is_left_out() -> None:
    row = Row(
        2,
        2,
        {"name": "Ada"},
        pictures={"crest": "ada.png", "leaf": "oak.svg"},
        colours={"ground": "#112233", "name": "#445566", "code": "#778899"},
        hidden=frozenset({"crest"}),
    )
    ground, leaf, name, code = elements_of(ALL, row)
    assert (ground.colour, ground.gradient) == ("#112233", None)  # type: ignore[union-attr]
    assert (leaf.file, name.colour, code.colour) == ("oak.svg", "#445566", "#778899")  # type: ignore[union-attr]
    assert fields_of({"name": "Eve", "team": "Red"}, row) == {"name": "Ada", "team": "Red"}


def test_which_elements_a_row_may_change() -> None:
    asked = NamesRequest("c", pictures={"crest": "Crest"})
    assert [depends_on_row(one, asked, ["name"]) for one in ALL] == [False, True, False, True, False]
    assert fields_used(ALL) == ("name", "team", "number")


def test_elements_that_are_not_there_or_have_no_such_thing() -> None:
    asked = NamesRequest("c", pictures={"name": "A", "crst": "B"}, colours={"crest": "C"}, shown={"moon": "D"})
    assert [(one.where, one.message) for one in elements_in_doubt(asked, ALL)] == [
        ("names: pictures", "name has no file that a row could change."),
        ("names: pictures", 'no element is called "crst".'),
        ("names: colours", "crest has no colour that a row could change."),
        ("names: shown", 'no element is called "moon".'),
    ]
