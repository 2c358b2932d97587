"""The plot of a heat, read again: curves to scale in both scales, the band, the rows, and what stands alone."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from tests.outside.documents.screen.drawn import SVG, box, points, read

from wrapwright.core.press.load.values import Recommended, Span
from wrapwright.core.press.values import Curve, Dose
from wrapwright.outside.documents.screen.heat.axes import ABOVE, LEFT, Field, minute_step, ticks_s
from wrapwright.outside.documents.screen.heat.plan_plot import FIELD_HEIGHT, WIDTH, PlanPicture, plan_plot, shown_rows

TIMES = tuple(float(at) for at in range(0, 601, 5))


def wall(top: float) -> tuple[float, ...]:
    return tuple(25.0 + (top - 25.0) * (1.0 - math.exp(-at / 80.0)) for at in TIMES)


def row(pieces: int, mid: float = 300.0) -> Recommended:
    return Recommended(pieces, Span(mid * 0.7, mid, mid * 1.5), (200.0, 400.0), 250.0, Dose(1.0, 2.0, 4.0))


PICTURE = PlanPicture(
    title="4 pieces, wall 0.5 mm steel, at 200 °C (392 °F)",
    set_c=200.0,
    pieces=2,
    dwell_s=330.0,
    band=Span(220.0, 330.0, 500.0),
    to_temperature_s=284.0,
    air=Curve(TIMES, (200.0,) * len(TIMES), (190.0,) * len(TIMES), (210.0,) * len(TIMES)),
    wall=Curve(TIMES, wall(200.0)),
    coating=Curve(TIMES, wall(200.0), wall(185.0), wall(215.0)),
    rows=(row(1), row(2, 330.0), row(3, 360.0)),
)
FIELD = Field(WIDTH, FIELD_HEIGHT, 600.0 * 1.02, 0.0, 250.0)


def test_the_coating_s_curve_is_where_its_figures_are():
    (curve,) = read(plan_plot(PICTURE)).paths("s-heat", "wd-thick")[:1]
    drawn = points(curve)
    assert len(drawn) == len(TIMES)
    for at, celsius, point in zip(TIMES, PICTURE.coating.mid_c, drawn, strict=True):
        assert point == pytest.approx(FIELD.at(at, celsius), abs=0.006)


def test_the_band_reaches_from_low_to_high():
    (band,) = read(plan_plot(PICTURE)).paths("f-heat")[:1]
    left, top, right, bottom = box(band)
    assert (left, right) == pytest.approx((FIELD.across(0.0), FIELD.across(600.0)), abs=0.01)
    assert top == pytest.approx(FIELD.at(600.0, PICTURE.coating.high_c[-1])[1], abs=0.01)
    assert bottom == pytest.approx(FIELD.at(0.0, 25.0)[1], abs=0.01)


def test_fahrenheit_stands_where_celsius_has_it():
    drawn = read(plan_plot(PICTURE))
    places = {"".join(one.itertext()): float(str(one.get("y"))) for one in drawn.root.iter(f"{SVG}text")}
    assert places["400"] == pytest.approx(FIELD.at(0.0, (400 - 32) / 1.8)[1], abs=0.01)
    assert {"°C", "°F", "min", "set 200 °C (392 °F)", "at temperature"} <= set(places)
    assert places["200"] != places["400"]


def test_every_number_of_pieces_has_its_row_on_the_same_minutes():
    drawn = read(plan_plot(PICTURE))
    dots = list(drawn.root.iter(f"{SVG}circle"))
    assert [float(str(one.get("cx"))) for one in dots] == pytest.approx(
        [FIELD.across(at) for at in (300, 330, 360)], abs=0.01
    )
    assert [one.get("class") for one in dots] == ["f-ink-3", "f-accent", "f-ink-3"]
    assert drawn.words.count("5.5 min") == 1
    assert "dwell, by how many pieces are heated together" in drawn.words


def test_what_an_hour_does_not_reach_is_said():
    never = Recommended(3, Span(900.0, math.inf, math.inf), (math.inf, math.inf), math.inf, Dose(0, 0, 0))
    picture = replace(PICTURE, rows=(row(1), row(2), never), to_temperature_s=math.inf)
    drawn = read(plan_plot(picture))
    assert "not within an hour" in drawn.words
    assert "at temperature" not in drawn.words
    assert len(list(drawn.root.iter(f"{SVG}circle"))) == 2


def test_of_many_rows_first_last_and_the_asked_one_stay():
    rows = [row(number) for number in range(1, 41)]
    kept = [one.pieces for one in shown_rows(rows, 17)]
    assert (kept[0], kept[-1], 17 in kept) == (1, 40, True)
    assert len(kept) <= 12
    assert kept == sorted(set(kept))


def test_in_words():
    spoken = str(read(plan_plot(PICTURE)).root.get("aria-label"))
    assert spoken.startswith("4 pieces, wall 0.5 mm steel, at 200 °C (392 °F).")
    assert "It wants about 5.5 min, between 3.7–8.5 min." in spoken
    assert "1 piece 5 min, 3 pieces 6 min." in spoken


def test_a_press_has_an_element_in_place_of_air():
    drawn = read(plan_plot(replace(PICTURE, door=False, rows=(row(1),))))
    assert "element" in drawn.words
    assert "air" not in drawn.words
    assert "dwell" in drawn.words


def test_the_screen_s_takes_the_page_s_tokens_and_the_file_s_has_its_own():
    screen, alone = plan_plot(PICTURE), plan_plot(PICTURE, alone=True)
    assert "var(--heat" in screen
    assert "prefers-color-scheme:dark" in screen
    for only in ("var(", "@media", "url(", "http://", "https://"):
        assert only not in alone.replace("http://www.w3.org/2000/svg", ""), only
    assert read(alone).words == read(screen).words
    assert plan_plot(PICTURE) == screen


@pytest.mark.parametrize(
    ("most", "step"), [(90.0, 0.25), (240.0, 0.5), (330.0, 0.5), (600.0, 1.0), (3600.0, 5.0), (7200.0, 10.0)]
)
def test_ticks_are_few_and_round(most, step):
    field = Field(WIDTH, FIELD_HEIGHT, most, 0.0, 250.0)
    assert minute_step(most) == step
    ticks = ticks_s(field)
    assert 2 <= len(ticks) <= 13
    assert (ticks[0], field.across(0.0)) == (0.0, LEFT)
    assert field.at(0.0, 250.0)[1] == ABOVE
