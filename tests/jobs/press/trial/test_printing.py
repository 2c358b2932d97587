"""The coupons as a file: true size and mirrored in another program's eyes, on the set-up's paper, always the same."""

from __future__ import annotations

from dataclasses import replace
from io import BytesIO
from pathlib import Path

import numpy as np
import pikepdf
import pypdfium2
import pytest
from tests.outside.icc.press import rgb_printer

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.kept.setups import AddSetup, add_setup
from wrapwright.jobs.press.trial.planning import plan_trial
from wrapwright.jobs.press.trial.printing import PrintTrial, print_trial
from wrapwright.jobs.press.trial.values import PlanTrial, TrialTold

QUIET = Watch()
PPI = 600


def _columns(data: bytes, colour: tuple[int, int, int]) -> np.ndarray:
    """Columns of the first page, as PDFium draws it at 600 ppi, that hold this colour."""
    document = pypdfium2.PdfDocument(data)
    try:
        pixels = document[0].render(scale=PPI / 72.0, crop=(0, 500, 250, 0)).to_numpy()[:, :, ::-1]
    finally:
        document.close()
    near = (np.abs(pixels.astype(np.int16) - np.array(colour, np.int16)) < 40).all(axis=2)
    return np.flatnonzero(near.sum(axis=0) > 60)


def test_patches_are_true_to_size_and_the_right_way_round(bench: Bench, trial: TrialTold) -> None:
    drawn = print_trial(PrintTrial(trial.id, setup="Desk"), bench, QUIET)
    assert (drawn.paper, drawn.pages, drawn.coupons) == ("A4", 1, 5)
    assert "Wear gloves when you handle ink." in drawn.cautions
    document = pypdfium2.PdfDocument(drawn.data)
    assert document[0].get_size() == pytest.approx((210 / 25.4 * 72, 297 / 25.4 * 72), abs=0.01)
    document.close()
    cyan, blue = (_columns(drawn.data, colour) for colour in ((0, 255, 255), (0, 0, 255)))
    patch = 26.0 / 6.0 / 25.4 * PPI
    first = cyan[: np.flatnonzero(np.diff(cyan) > 1)[0] + 1]
    assert first.size == pytest.approx(patch, abs=1.5)
    assert blue[0] < cyan[0]  # as seen cyan comes first; on the paper it is mirrored
    assert cyan[0] - blue[0] == pytest.approx(5.0 * patch, abs=1.5)


def test_spares_are_for_what_is_proposed_later(bench: Bench, trial: TrialTold) -> None:
    few = plan_trial(PlanTrial("Few", "steel-oven", pieces=4), bench, QUIET)
    assert print_trial(PrintTrial(few.id, setup="Desk", spares=3), bench, QUIET).coupons == 7
    assert print_trial(PrintTrial(few.id, setup="Desk"), bench, QUIET).coupons == 4
    with pytest.raises(WrapwrightError, match="30 spare coupons cannot be printed; 0 to 24 can"):
        print_trial(PrintTrial(trial.id, setup="Desk", spares=30), bench, QUIET)


def test_the_same_each_time_and_as_a_picture(bench: Bench, trial: TrialTold) -> None:
    asked = PrintTrial(trial.id, setup="Desk")
    assert print_trial(asked, bench, QUIET).data == print_trial(asked, bench, QUIET).data
    picture = print_trial(replace(asked, picture=1), bench, QUIET).data
    assert picture.startswith(b'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 -297 210 297"')
    assert b'fill="#00ffff"' in picture
    with pytest.raises(WrapwrightError, match="These coupons have 1 page; there is no page 2"):
        print_trial(replace(asked, picture=2), bench, QUIET)


def test_a_length_is_for_positions_alone(bench: Bench, trial: TrialTold) -> None:
    places = plan_trial(PlanTrial("Places", "steel-oven", "positions", pieces=7), bench, QUIET)
    assert print_trial(PrintTrial(places.id, setup="Desk", length_mm=235.0), bench, QUIET).coupons == 7
    with pytest.raises(WrapwrightError, match="7 positions on 150 mm have 21"):
        print_trial(PrintTrial(places.id, setup="Desk", length_mm=150.0), bench, QUIET)
    with pytest.raises(WrapwrightError, match="a length belongs to the positions of one heat"):
        print_trial(PrintTrial(trial.id, setup="Desk", length_mm=235.0), bench, QUIET)


def test_a_set_up_that_converts_prints_in_its_own_ink(bench: Bench, trial: TrialTold, tmp_path: Path) -> None:
    profile = tmp_path / "press.icc"
    profile.write_bytes(rgb_printer())
    add_setup(AddSetup("Press", {"paper": "A4"}, {"route": "convert"}, profile=profile), bench, QUIET)
    data = print_trial(PrintTrial(trial.id, setup="Press"), bench, QUIET).data
    with pikepdf.open(BytesIO(data)) as document:
        assert document.Root.OutputIntents[0].S == "/GTS_PDFX"
        assert bytes(document.Root.OutputIntents[0].DestOutputProfile.read_bytes()) == profile.read_bytes()
        assert b" rg\n" in document.pages[0].Contents[0].read_bytes()
