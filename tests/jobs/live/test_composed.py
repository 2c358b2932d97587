"""A document composed piece by piece is the composition of its job file."""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Iterable
from concurrent.futures import ThreadPoolExecutor
from importlib.resources import as_file, files
from pathlib import Path
from typing import Any

import pytest

from wrapwright.core.base.errors import SeveralProblemsError
from wrapwright.core.design.drawlist import AnyItem, Extent
from wrapwright.core.design.path import Path as Outline
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.live.composed import composed_of, tried_of
from wrapwright.jobs.work.composing import compose
from wrapwright.jobs.work.opening import opened

Design = Callable[..., dict[str, Any]]


def said(value: Any) -> Any:
    """Return a value in which paths are told by their points."""
    if isinstance(value, Outline):
        return tuple((sub.closed, sub.points.tobytes()) for sub in value.subpaths)
    if isinstance(value, tuple):
        return tuple(map(said, value))
    return value


def rows(items: Iterable[AnyItem | Extent]) -> list[Any]:
    return [(type(item).__name__, {key: said(value) for key, value in vars(item).items()}) for item in items]


def test_the_example_is_composed_as_from_its_file(live_bench: Bench) -> None:
    with as_file(files("wrapwright.data").joinpath("demo")) as folder:
        document = tomllib.loads((folder / "job.toml").read_text(encoding="utf-8"))
        whole = compose(opened(folder / "job.toml", None, live_bench.folders.fonts), live_bench, Watch())
        pieces = composed_of(document, folder, live_bench)
    assert pieces.wrapped == whole.wrapped
    assert pieces.remarks == whole.remarks
    assert pieces.recipe == whole.recipe
    assert pieces.supplied.inputs == whole.supplied.inputs
    assert pieces.opened.job == whole.opened.job
    assert len(pieces.draw_list.items) == len(whole.draw_list.items) > 50
    assert rows(pieces.draw_list.items) == rows(whole.draw_list.items)
    assert rows(pieces.draw_list.extents) == rows(whole.draw_list.extents)


def test_what_cannot_be_drawn_is_told_and_the_rest_is_composed(
    live_bench: Bench, job_folder: Path, design: Design
) -> None:
    (job_folder / "broken.png").write_bytes(b"no picture")
    document = design(
        {"kind": "picture", "file": "broken.png", "width": "40 mm"},
        {"kind": "text", "text": "Ada", "size": "9 mm", "font": "No Such Family"},
        {"kind": "picture", "file": "photo.png", "width": "40 mm", "crop": [0.5, 0.0, 0.5, 1.0]},
        {"kind": "fill", "colour": "#123456"},
    )
    tried = tried_of(document, job_folder, live_bench)
    assert tried.composition is not None
    assert tried.indices == (3,)
    assert [extent.element for extent in tried.composition.draw_list.extents] == [0]
    assert sorted(index for index, _ in tried.troubles if index is not None) == [0, 1, 2]
    with pytest.raises(SeveralProblemsError) as caught:
        composed_of(document, job_folder, live_bench)
    assert len(caught.value.problems) == 3


def test_a_band_that_does_not_fit_is_told_and_the_whole_wall_shown(
    live_bench: Bench, job_folder: Path, design: Design
) -> None:
    document = design({"kind": "fill", "colour": "#123456"}, wrap={"band": {"from": "0 mm", "height": "900 mm"}})
    tried = tried_of(document, job_folder, live_bench)
    assert tried.composition is not None
    assert tried.composition.wrapped.wrap.height_mm == 100.0
    assert [problem.where for _, problem in tried.troubles] == ["wrap: band"]


def test_a_profile_that_is_none_is_told_and_the_drivers_route_shown(
    live_bench: Bench, job_folder: Path, design: Design
) -> None:
    (job_folder / "press.icc").write_bytes(b"no profile at all")
    document = design(
        {"kind": "fill", "colour": "#123456"}, colour={"route": "convert", "profile": "press.icc", "intent": "relative"}
    )
    tried = tried_of(document, job_folder, live_bench)
    assert tried.composition is not None
    assert tried.composition.colouring.there is None
    assert tried.composition.opened.job.colour.route == "driver"
    assert [problem.where.partition(":")[0] for _, problem in tried.troubles] == ["colour"]


def test_several_threads_get_the_same(live_bench: Bench, job_folder: Path, design: Design) -> None:
    photo = {"kind": "picture", "file": "photo.png", "width": "40 mm"}
    documents = [design({**photo, "at": f"{10 * at} deg"}) for at in range(4)] * 4
    with ThreadPoolExecutor(8) as pool:
        found = list(pool.map(lambda document: composed_of(document, job_folder, live_bench), documents))
    assert [one.draw_list.extents[0].at_deg for one in found] == [0.0, 10.0, 20.0, 30.0] * 4
    assert all(one is found[at % 4] for at, one in enumerate(found))


def test_a_recipe_kept_anew_gives_another_wrap(live_bench: Bench, job_folder: Path, design: Design) -> None:
    """Aluminium grows four times as much as ceramic, so the overlap that allows for it is another."""
    from dataclasses import replace

    from wrapwright.core.press.recipe.reading import recipe_row
    from wrapwright.data.recipes import recipes
    from wrapwright.jobs.press.kept.recipes import KeepRecipe, keep_recipe
    from wrapwright.outside.store.place import Store

    bench = replace(live_bench, store=Store(live_bench.folders.data))
    row = {**recipe_row(recipes()[0]), "name": "ours"}

    def of(ware: str) -> dict[str, object]:
        return {**row, "ware": ware, "wall": {"material": ware, "thickness_mm": 2.0, "double": False}}

    kept = keep_recipe(KeepRecipe(of("ceramic")), bench, Watch())
    document = design({"kind": "fill", "colour": "#0e625b"}, press={"recipe": "Ours"})
    before = composed_of(document, job_folder, bench)
    keep_recipe(KeepRecipe(of("aluminium"), kept.recipe.id), bench, Watch())
    after = composed_of(document, job_folder, bench)
    bench.kept().close()
    assert [one.recipe.ware if one.recipe else "" for one in (before, after)] == ["ceramic", "aluminium"]
    assert after.wrapped.wrap.trim_width_mm > before.wrapped.wrap.trim_width_mm


def test_heat_that_cannot_be_is_told_and_what_stops_it_remarked(
    live_bench: Bench, job_folder: Path, design: Design
) -> None:
    fill = {"kind": "fill", "colour": "#0e625b"}
    lost = tried_of(design(fill, press={"recipe": "steel-oven", "heater": "Nobody's"}), job_folder, live_bench)
    assert [(one.where, "no heater called" in one.message) for _, one in lost.troubles] == [("press: heater", True)]
    assert lost.composition is not None
    assert lost.composition.heat is None
    hot = design(fill, press={"recipe": "steel-oven", "at": "482 F", "wall": "0.5 mm"})
    composed = composed_of(hot, job_folder, live_bench)
    assert composed.heat is not None
    assert composed.heat.asked is not None
    assert composed.remarks[-1].startswith("Heat: 250 °C (482 °F) is above the coating's limit")
