"""Trials in the store: a change is made from what was seen, or not at all."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

import pytest

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.outside.store.place import Store
from wrapwright.outside.store.rows.press.trials import (
    add_trial_row,
    change_trial_row,
    remove_trial_row,
    trial_kept,
    trial_rows,
)

NOW = datetime(2026, 5, 2, 9, 0, tzinfo=UTC)


def test_a_trial_is_changed_and_removed(tmp_path: Path) -> None:
    store = Store(tmp_path)
    with store.writing() as connection:
        number = add_trial_row(connection, "Steel", 0, {"kind": "coupons"}, NOW)
        row = trial_kept(connection, name="STEEL")
        assert (row.id, row.revision, row.scores, row.found) == (number, 1, {}, {})
        change_trial_row(connection, row, NOW, seen=1, scores={"1": {"density": 4}})
    with store.writing() as connection:
        changed = trial_kept(connection, id=number)
        assert (changed.revision, changed.plan, changed.scores) == (2, {"kind": "coupons"}, {"1": {"density": 4}})
        with pytest.raises(WrapwrightError, match="it is at revision 2, yours was 1"):
            change_trial_row(connection, changed, NOW, seen=1, scores={})
        remove_trial_row(connection, changed)
        assert trial_rows(connection) == ()
    store.close()
