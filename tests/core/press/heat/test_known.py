"""The shipped materials, covers and heaters against published figures: as ranges, not to the digit."""

from __future__ import annotations

import ht
import pytest

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.core.press.heat.known import (
    cover_named,
    covers,
    material_named,
    materials,
    starter_heater,
    starter_heaters,
    wall_by_weight,
)
from wrapwright.core.press.values import Range, Wall
from wrapwright.data.heat.tables import expansions, rows

# Material, figure, what is published, by whom.
PUBLISHED = [
    ("steel", "density", 8000, "304, 0-100 degC: ASM data sheet"),
    ("steel", "specific_heat", 500, "304, 0-100 degC: ASM data sheet"),
    ("steel", "conductivity", 16.2, "304, 0-100 degC: ASM data sheet"),
    ("steel", "density", 7900, "304: Incropera, Table A.1"),
    ("steel", "specific_heat", 477, "304: Incropera, Table A.1"),
    ("steel", "conductivity", 14.9, "304 at 300 K: Incropera, Table A.1"),
    ("steel", "specific_heat", 460, "stainless steel in ht"),
    ("steel", "conductivity", 17, "stainless steel in ht"),
    ("steel", "conductivity", 8.116 + 0.01618 * 300, "304L at 300 K: Kim, ANL-75-55, 1975"),
    ("steel", "conductivity", 8.116 + 0.01618 * 468.15, "304L at 195 degC: Kim, ANL-75-55, 1975"),
    ("aluminium-6061", "density", 2700, "6061-T6: ASM data sheet"),
    ("aluminium-6061", "specific_heat", 896, "6061-T6: ASM data sheet"),
    ("aluminium-6061", "conductivity", 167, "6061-T6: ASM data sheet"),
    ("aluminium-6061", "density", 2800, "alloy in ht"),
    ("aluminium-6061", "specific_heat", 880, "alloy in ht"),
    ("aluminium-6061", "conductivity", 160, "alloy in ht"),
    ("aluminium", "density", 2730, "3003: alloysintl.com"),
    ("aluminium", "specific_heat", 893, "3003: substech.com"),
    ("aluminium", "conductivity", 193, "3003: substech.com"),
    ("aluminium", "conductivity", 154, "3003: alloysintl.com"),
    ("aluminium", "conductivity", 173, "3003: tubingchina.com"),
    ("ceramic", "density", 2300, "tiles, ceramic or porcelain, in ht"),
    ("ceramic", "specific_heat", 840, "tiles, ceramic or porcelain, in ht"),
    ("ceramic", "conductivity", 1.3, "tiles, ceramic or porcelain, in ht"),
    ("ceramic", "density", 2400, "porcelain: material-properties.org"),
    ("ceramic", "specific_heat", 1050, "porcelain: material-properties.org (its J/g K is a slip for J/kg K)"),
    ("ceramic", "conductivity", 1.5, "porcelain: material-properties.org"),
    ("borosilicate", "density", 2230, "ISO 3585: matmatch.com"),
    ("borosilicate", "specific_heat", 830, "ISO 3585: makeitfrom.com"),
    ("borosilicate", "conductivity", 1.2, "at 90 degC: matmatch.com"),
    ("glass", "density", 2500, "soda-lime in ht"),
    ("glass", "specific_heat", 750, "soda-lime in ht"),
    ("glass", "specific_heat", 720, "makeitfrom.com"),
    ("glass", "specific_heat", 840, "ASHRAE in ht"),
    ("glass", "conductivity", 1.0, "makeitfrom.com"),
    ("polyester", "density", 1370, "PET: Ashby by jfjm100.com"),
    ("polyester", "density", 1400, "PET: Ashby by jfjm100.com"),
    ("polyester", "specific_heat", 1000, "PET: kids.kiddle.co"),
    ("polyester", "specific_heat", 1470, "PET: Ashby by jfjm100.com"),
    ("polyester", "conductivity", 0.14, "PET: Ashby by jfjm100.com"),
    ("polyester", "conductivity", 0.24, "PET: kids.kiddle.co"),
    ("polyester", "conductivity", 0.4, "PET, the highest seen"),
]


@pytest.mark.parametrize(("name", "figure", "published", "source"), PUBLISHED)
def test_published_figures_lie_in_the_range(name: str, figure: str, published: float, source: str) -> None:
    spread: Range = getattr(material_named(name), figure)
    assert spread.low <= published <= spread.high, source


@pytest.mark.parametrize(
    ("name", "kind"), [("ceramic", "Tiles, ceramic or porcelain"), ("glass", "Glass, solid soda-lime")]
)
def test_the_library_s_own_tables_say_the_same(name: str, kind: str) -> None:
    ours, theirs = material_named(name), ht.nearest_material(kind)
    assert ours.density.low <= ht.rho_material(theirs) <= ours.density.high
    assert ours.specific_heat.low <= ht.Cp_material(theirs) <= ours.specific_heat.high
    assert ours.conductivity.low <= ht.k_material(theirs) <= ours.conductivity.high


# Tables of omega.de and manualsdump 204283: porcelain 0.92, glazed earthenware 0.90, glass 0.94, polished aluminium
# 0.05, stainless 0.16. Paper 0.93.
@pytest.mark.parametrize(
    ("name", "low", "high"),
    [("ceramic", 0.90, 0.92), ("glass", 0.94, 0.94), ("aluminium", 0.05, 0.05), ("steel", 0.16, 0.16)],
)
def test_emissivities(name: str, low: float, high: float) -> None:
    assert low <= material_named(name).emissivity <= high


def test_paper_leads_heat_as_the_sources_spread() -> None:
    # 0.05 (sciencing.com) to 0.18 (Incropera, Table A.3): they differ by 3.6 times.
    paper = cover_named("Paper")
    assert (paper.conductivity.low, paper.conductivity.high) == (0.05, 0.18)
    assert paper.thickness_mm == 0.13
    # What it holds itself, 740 kg/m3 x 1340 J/kgK, is left out: less than the doubt of half a millimetre of steel.
    wall = Wall(material_named("steel"), 0.5, 0.02)
    whole = wall.material.density.mid * wall.material.specific_heat.mid * wall.thickness_mm
    assert 740 * 1340 * paper.thickness_mm < wall.doubt * whole


def test_expansions_are_those_of_materials_and_wares() -> None:
    # ASM data sheet: 17.3e-6 for 304; ISO 3585: 3.3e-6; soda-lime 9e-6.
    assert (
        expansions().items()
        >= {
            "steel": 17.3e-6,
            "double-walled": 17.3e-6,
            "aluminium": 23.6e-6,
            "ceramic": 6.0e-6,
            "glass": 9.0e-6,
            "borosilicate": 3.3e-6,
        }.items()
    )
    assert "unknown" not in expansions()
    assert material_named("borosilicate").expansion_per_k == 3.3e-6


def test_every_figure_has_its_source_and_estimates_say_so() -> None:
    assert all(one.source for one in materials())
    assert all("estimate" in one.source for one in starter_heaters())
    assert {one.kind for one in starter_heaters()} == {"oven", "mug-press", "flat-press"}
    assert len(covers()) == 3
    for row in (*rows("material"), *rows("cover"), *rows("heater")):
        assert row["source"]


def test_a_starter_oven_can_hold_what_recipes_ask() -> None:
    for heater in starter_heaters():
        assert 25 + heater.power_w / heater.loss_w_k > 230
        assert starter_heater(heater.kind) == heater


def test_ware_names_its_material() -> None:
    assert material_named(" Double-walled ") == material_named("steel")
    with pytest.raises(WrapwrightError, match='no material "brass"; there are steel, aluminium'):
        material_named("brass")
    with pytest.raises(WrapwrightError, match='no cover "foil"; there are paper, sleeve'):
        cover_named("foil")


def test_a_wall_by_its_weight() -> None:
    # A sheet of 304, 0.2 m by 0.1 m by 0.5 mm, weighs 80 g.
    wall = wall_by_weight(material_named("steel"), 0.080, 0.02)
    assert wall.thickness_mm == pytest.approx(0.5)
    assert not wall.double


@pytest.mark.parametrize("mass", [-0.3, 0.0, float("nan")])
def test_a_negative_weight_is_refused(mass: float) -> None:
    with pytest.raises(WrapwrightError, match="weigh it, and give more than 0 g"):
        wall_by_weight(material_named("steel"), mass, 0.02)


def test_another_schema_is_refused() -> None:
    with pytest.raises(ValueError, match="schema 9"):
        rows("material", "schema = 9\n")
