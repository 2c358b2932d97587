"""The shipped example in the store, to be looked at and changed: a design, and an oven to plan its heat for."""

from __future__ import annotations

from dataclasses import dataclass
from importlib.resources import as_file, files

from wrapwright.jobs.bench import Bench, Watch

OVEN = "Small oven (example)"  # nobody's own: its figures are invented, and its name says so
_OVEN_W = 1500.0
_OVEN_HOLDS = 4


@dataclass(frozen=True)
class KeepExample:
    """The shipped example is to be in the store, once."""


def keep_example(request: KeepExample, bench: Bench, watch: Watch) -> int:
    """Return the id of the design that holds the shipped example: the newest of its title, else one added now.

    With the design comes an oven, where no heater was ever entered.
    """
    import tomllib

    from wrapwright.jobs.kept.designs import ListDesigns, list_designs
    from wrapwright.jobs.kept.exchange import AdoptDesign, adopt_design
    from wrapwright.jobs.show_demo import JOB

    with as_file(files("wrapwright.data").joinpath("demo")) as folder:
        job = folder / JOB
        title = tomllib.loads(job.read_text(encoding="utf-8"))["title"]
        same = [one.id for one in list_designs(ListDesigns(title), bench, watch) if one.title == title]
        if same:
            return max(same)
        design = adopt_design(AdoptDesign(job), bench, watch).id
    _oven(bench, watch)
    return design


def _oven(bench: Bench, watch: Watch) -> None:
    from wrapwright.jobs.press.kept.heaters import KeepHeater, ListHeaters, keep_heater, list_heaters

    if not list_heaters(ListHeaters(retired=True), bench, watch):
        keep_heater(KeepHeater(OVEN, "oven", _OVEN_W, _OVEN_HOLDS), bench, watch)
