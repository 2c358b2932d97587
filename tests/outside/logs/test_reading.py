"""Logs as loggers write them: each says the same heat-up; and what is no log, refused with a sentence."""

from __future__ import annotations

import math
from collections.abc import Callable
from datetime import datetime, timedelta
from pathlib import Path

import pytest

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.outside.logs.reading import look_at_log, read_log, spread
from wrapwright.outside.logs.values import LogAsked, LogRead

ROWS = range(300)
AIR = [205.0 - 100.0 * math.exp(-t / 60.0) for t in ROWS]
WALL = [205.0 - 180.0 * math.exp(-t / 80.0) for t in ROWS]
BEGUN = datetime(2026, 5, 2, 23, 58, 10)  # noqa: DTZ001 (loggers know no zone)
NOTHING = LogAsked()

Stamp = Callable[[int], str]


def moment(t: int) -> datetime:
    return BEGUN + timedelta(seconds=t)


def written(head: str, stamp: Stamp, between: str = ",", *, f: bool = False, comma: bool = False) -> str:
    """Return a log: a stamp, the air and the wall in each row."""
    lines = [head] if head else []
    for t in ROWS:
        pair = [value * 1.8 + 32.0 if f else value for value in (AIR[t], WALL[t])]
        cells = [f"{value:.1f}".replace(".", ",") if comma else f"{value:.1f}" for value in pair]
        lines.append(between.join([stamp(t), *cells]))
    return "\n".join(lines) + "\n"


def read(tmp_path: Path, content: str | bytes, asked: LogAsked = NOTHING) -> LogRead:
    file = tmp_path / "log.csv"
    file.write_bytes(content if isinstance(content, bytes) else content.encode("utf-8"))
    return read_log(file, asked)


LOGS = {
    "seconds": written("time_s,air_c,wall_c", str),
    "a mark before, semicolons, decimal commas": "\ufeff" + written("Zeit;Luft °C;Tasse °C", str, ";", comma=True),
    "minutes": written("time (min),Oven C,Mug C", lambda t: f"{t / 60.0:.6f}"),
    "minutes and seconds, tabs": written("Time\tOven\tMug", lambda t: f"{t // 60}:{t % 60:02}", "\t"),
    "clock over midnight": written("Clock;Oven;Mug", lambda t: f"{moment(t):%H:%M:%S}", ";"),
    "ISO 8601": written("timestamp,Oven,Blank", lambda t: f"{moment(t).isoformat()}Z"),
    "day first": written("Date/Time,Oven,Mug", lambda t: f"{moment(t):%d/%m/%Y %H:%M:%S}"),
    "month first, twelve hours": written("Date/Time,Oven,Mug", lambda t: f"{moment(t):%m/%d/%Y %I:%M:%S %p}"),
    "date and time apart": written("Date,Time,Oven,Mug", lambda t: f"{moment(t):%d.%m.%Y},{moment(t):%H:%M:%S}"),
    "named month": written("when;Oven;Mug", lambda t: f"{moment(t):%d-%b-%Y %H:%M:%S}", ";"),
    "serial days": written("when;Oven;Mug", lambda t: f"{46144.9987 + t / 86400.0:.8f}", ";"),
    "Fahrenheit by name": written("t,Oven (°F),Mug (°F)", str, f=True),
    "Fahrenheit by figures": written("t,Oven,Mug", str, f=True),
    "spaces": written("time oven mug", str, "   "),
    "words above": "Logger 7\nSerial: 1234, rev 3\n\n" + written("Time,T1 Oven,T2 Mug\n(s),(degC),(degC)", str),
    "other columns": written("No.,Time,Oven,Mug", lambda t: f"{t + 1},{t}"),
}


@pytest.mark.parametrize("name", LOGS)
def test_every_way_of_writing_says_the_same(tmp_path: Path, name: str) -> None:
    found = read(tmp_path, LOGS[name])
    assert (len(found.times_s), found.rows, found.every) == (300, 300, 1)
    assert list(found.times_s) == pytest.approx(list(ROWS), abs=0.01)
    assert list(found.air_c) == pytest.approx(AIR, abs=0.06)
    assert list(found.wall_c) == pytest.approx(WALL, abs=0.06)


@pytest.mark.parametrize("encoding", ["utf-16", "utf-16-le", "utf-16-be", "cp1252", "latin-1"])
def test_every_encoding(tmp_path: Path, encoding: str) -> None:
    found = read(tmp_path, written("Zeit;Luft °C;Tasse °C", str, ";").encode(encoding))
    assert (len(found.times_s), found.wall_c[100]) == (300, pytest.approx(WALL[100], abs=0.06))


def test_quoted_cells_with_decimal_commas(tmp_path: Path) -> None:
    text = '"time","oven","mug"\n' + "".join(f'"{t}","{AIR[t]:.1f}","{WALL[t]:.1f}"\n'.replace(".", ",") for t in ROWS)
    assert read(tmp_path, text).air_c[100] == pytest.approx(AIR[100], abs=0.06)


def test_missing_readings_and_gaps_stay_missing(tmp_path: Path) -> None:
    lines = ["t,oven,mug"]
    lines += [
        f"{t},{'---' if t % 7 == 0 else f'{AIR[t]:.1f}'},{'' if t % 11 == 0 else f'{WALL[t]:.1f} °C'}"
        for t in ROWS
        if not 50 < t < 90
    ]
    found = read(tmp_path, "\n".join(lines))
    assert len(found.times_s) == 261
    assert [math.isnan(one) for one in found.air_c] == [t % 7 == 0 for t in ROWS if not 50 < t < 90]
    assert sum(math.isnan(one) for one in found.wall_c) == sum(t % 11 == 0 for t in ROWS if not 50 < t < 90)


def test_stamps_to_the_minute_are_spread(tmp_path: Path) -> None:
    found = read(tmp_path, written("time,oven,mug", lambda t: f"{moment(t):%Y-%m-%d %H:%M}"))
    assert list(found.times_s) == pytest.approx(list(ROWS), abs=0.01)
    assert any("share their time" in one for one in found.words)
    assert spread([0.0, 0.0, 10.0, 10.0]) == [0.0, 5.0, 10.0, 15.0]
    assert spread([0.0, 10.0, 10.0, 20.0]) == [0.0, 10.0, 15.0, 20.0]


def test_columns_are_named_or_asked_about(tmp_path: Path) -> None:
    text = written("", str)
    with pytest.raises(WrapwrightError, match="column 2 and column 3") as caught:
        read(tmp_path, text)
    assert caught.value.where == "columns"
    found = read(tmp_path, text, LogAsked(air="2", wall="3"))
    assert found.wall_c[100] == pytest.approx(WALL[100], abs=0.06)
    assert read(tmp_path, text, LogAsked(wall="3")).air_c == ()
    with pytest.raises(WrapwrightError, match='no column "mug"'):
        read(tmp_path, text, LogAsked(wall="mug"))
    with pytest.raises(WrapwrightError, match="cannot be both"):
        read(tmp_path, text, LogAsked(air="2", wall="2"))
    with pytest.raises(WrapwrightError, match="may all be the air"):
        read(tmp_path, written("t,Oven,Oven 2", str))
    look = look_at_log(tmp_path / "log.csv", NOTHING)
    assert [one.role for one in look.columns] == ["time", "air", "air"]
    assert look.questions
    assert look.rows[0] == ("0", f"{AIR[0]:.1f}", f"{WALL[0]:.1f}")


def test_a_sensor_under_the_wrap_is_at_the_wall_and_one_that_nobody_named_is_told_of(tmp_path: Path) -> None:
    assert read(tmp_path, written("elapsed s,oven C,wrap C", str)).wall_c[100] == pytest.approx(WALL[100], abs=0.06)
    found = read(tmp_path, written("elapsed s,oven C,CH2 C", str))
    assert found.wall_c == ()
    assert 'Column 3 ("CH2 C") was left out: nothing says what is measured there.' in found.words


def test_units_that_cannot_be_are_asked_about(tmp_path: Path) -> None:
    hot = written("t,Oven C,Mug C", str, f=True)
    with pytest.raises(WrapwrightError, match=r"says C and goes up to 4\d\d") as caught:
        read(tmp_path, hot)
    assert caught.value.where == "unit"
    assert read(tmp_path, hot, LogAsked(unit="F")).air_c[100] == pytest.approx(AIR[100], abs=0.06)
    warm = "t,oven,mug\n" + "".join(f"{t},200.0,{min(70 + t / 2, 220):.1f}\n" for t in ROWS)
    with pytest.raises(WrapwrightError, match="may be C or F"):
        read(tmp_path, warm)


def test_the_day_or_the_month_first_is_asked_where_both_may_be(tmp_path: Path) -> None:
    # Rows three days apart: by month first too they never run back.
    text = "when,oven,mug\n" + "".join(f"0{d}/0{d + 1}/2026 12:00,{20 + d},{20 + d}\n" for d in range(1, 8))
    with pytest.raises(WrapwrightError, match="day or the month first") as caught:
        read(tmp_path, text)
    assert caught.value.where == "dates"
    one_day = written("when,oven,mug", lambda t: f"03/04/2026 12:{t // 60:02}:{t % 60:02}")
    assert read(tmp_path, one_day).times_s[-1] == 299.0


@pytest.mark.parametrize(
    ("content", "words"),
    [
        ("", "is empty"),
        (b"PK\x03\x04" + b"\0\1\2" * 400, "no text"),
        ("hello world\nthis is, no log\n" * 50, "no rows of times and temperatures"),
        ("".join(f"{value:.1f}\n" for value in AIR), "has one column"),
        (written("t,oven,mug", lambda t: str(t if t < 200 else t - 90)), "clock goes back by 89 s"),
        (written("t,oven,mug", lambda t: "7"), "same time"),
        ("time,note\n" + "".join(f"{t}:00,cup {t}\n" for t in ROWS), "has one column that can be read"),
        ("time,oven,mug\n" + "1,2,3\n" * 9 + "x" * 5000 + "\n", "lines of over 4000"),
    ],
)
def test_what_is_no_log_is_refused(tmp_path: Path, content: str | bytes, words: str) -> None:
    with pytest.raises(WrapwrightError, match=words) as caught:
        read(tmp_path, content)
    assert caught.value.kind is Kind.UNUSABLE


def test_a_log_that_is_not_there(tmp_path: Path) -> None:
    with pytest.raises(WrapwrightError) as caught:
        read_log(tmp_path / "none.csv", NOTHING)
    assert caught.value.kind is Kind.MISSING


def test_rows_that_cannot_be_read_are_counted(tmp_path: Path) -> None:
    lines = written("t,oven,mug", str).splitlines()
    lines[50:50] = ["*** power lost ***", "resumed"]
    found = read(tmp_path, "\n".join(lines))
    assert len(found.times_s) == 300
    assert any("2 of 302 rows cannot be read" in one for one in found.words)


def test_millions_of_rows_are_thinned_and_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("wrapwright.outside.logs.reading.MOST_ROWS", 60)
    found = read(tmp_path, LOGS["seconds"])
    assert (found.rows, found.every, list(found.times_s)[:3]) == (300, 5, [0.0, 5.0, 10.0])
    assert found.words[0] == "The log has 300 rows; every 5th was used, 60 in all."
    monkeypatch.setattr("wrapwright.outside.logs.text.BIGGEST", 1000)
    with pytest.raises(WrapwrightError, match="MB are read"):
        read(tmp_path, LOGS["seconds"])
