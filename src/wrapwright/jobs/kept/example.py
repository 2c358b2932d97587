"""The shipped example as a design in the store, to be looked at and changed."""

from __future__ import annotations

from dataclasses import dataclass
from importlib.resources import as_file, files

from wrapwright.jobs.bench import Bench, Watch


@dataclass(frozen=True)
class KeepExample:
    """The shipped example is to be in the store, once."""


def keep_example(request: KeepExample, bench: Bench, watch: Watch) -> int:
    """Return the id of the design that holds the shipped example: the newest of its title, else one added now."""
    import tomllib

    from wrapwright.jobs.kept.designs import ListDesigns, list_designs
    from wrapwright.jobs.kept.exchange import AdoptDesign, adopt_design
    from wrapwright.jobs.show_demo import JOB

    with as_file(files("wrapwright.data").joinpath("demo")) as folder:
        job = folder / JOB
        title = tomllib.loads(job.read_text(encoding="utf-8"))["title"]
        same = [one.id for one in list_designs(ListDesigns(title), bench, watch) if one.title == title]
        return max(same) if same else adopt_design(AdoptDesign(job), bench, watch).id
