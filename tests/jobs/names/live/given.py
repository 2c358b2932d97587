"""What the tests of a design's list begin with."""

from __future__ import annotations

from typing import Any

from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.kept.designs import NewDesign, new_design
from wrapwright.jobs.names.live.surveying import Survey, survey_of

QUIET = Watch()
TEXTS = [
    {"kind": "fill", "colour": "#0e3a5a"},
    {"kind": "text", "name": "who", "text": "{name}", "width": "70 mm", "height": "16 mm", "colour": "#ffffff"},
    {"kind": "text", "name": "club", "text": "{team}", "size": "6 mm", "up": "20 mm", "colour": "#ffffff"},
]
DOCUMENT: dict[str, Any] = {
    "format": 1,
    "blank": {"kind": "straight", "girth": "235 mm", "wall": "100 mm"},
    "sheet": {"paper": "A4", "ppi": 100},
    "fields": {"name": "name", "team": "team"},
    "element": TEXTS,
}
ROWS = "Name,Team,Note\nAda,Weir,x\nBob  ,Weir,y\nAda,Weir Street,\n,Weir,z\nEve,Weir,\n"


def crew(bench: Bench) -> int:
    return new_design(NewDesign("Crew", DOCUMENT), bench, QUIET).id


def checked(design: int, bench: Bench) -> Survey:
    """Return the list of a design once all its rows were looked at, here or by its own thread."""
    survey = survey_of(design, bench)
    while survey.opened.names is not None and not survey.whole:
        survey.look(survey.done)
    return survey
