"""A growing log: whole rows alone, from where the last look ended, begun anew when it is shorter."""

from __future__ import annotations

from pathlib import Path

import pytest

from wrapwright.outside.logs.following import follow_log
from wrapwright.outside.logs.values import LogAsked


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be"])
def test_every_row_comes_once(tmp_path: Path, encoding: str) -> None:
    file = tmp_path / "live.csv"
    text = "Time,Oven (°C),Mug (°C)\n" + "".join(f"{t // 60}:{t % 60:02},200.0,{25 + t}.5\n" for t in range(90))
    whole = text.encode(encoding)
    got, at = [], 0
    for end in (5, 40, 400, 401, 402, 900, len(whole)):
        file.write_bytes(whole[:end])
        found = follow_log(file, at)
        got += found.rows
        assert at <= found.next_byte <= end
        assert not found.anew
        at = found.next_byte
    assert at == len(whole)
    assert [one.since_s for one in got] == [float(t) for t in range(90)]
    assert (got[7].air_c, got[7].wall_c) == (200.0, 32.5)


def test_a_log_begun_anew_is_read_from_its_start(tmp_path: Path) -> None:
    file = tmp_path / "live.csv"
    file.write_text("t,oven C,mug C\n" + "".join(f"{t},200,{30 + t}\n" for t in range(50)), encoding="utf-8")
    at = follow_log(file).next_byte
    file.write_text("t,oven C,mug C\n" + "".join(f"{t},200,{30 + t}\n" for t in range(6)), encoding="utf-8")
    found = follow_log(file, at)
    assert (found.anew, len(found.rows)) == (True, 6)


def test_missing_readings_midnight_and_lines_that_are_none(tmp_path: Path) -> None:
    file = tmp_path / "live.csv"
    rows = "23:59:58,200.0,30.0\n23:59:59,---,31.0\nlost\n00:00:00,200.0,\n00:00:01,200.0,33.0\n"
    file.write_text("Clock,oven,mug\n" + rows, encoding="utf-8")
    found = follow_log(file, 0, LogAsked(unit="C"))
    assert [(one.since_s, one.air_c, one.wall_c) for one in found.rows] == [
        (0.0, 200.0, 30.0),
        (1.0, None, 31.0),
        (2.0, 200.0, None),
        (3.0, 200.0, 33.0),
    ]
