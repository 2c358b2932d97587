"""The law of Arrhenius against closed forms and published tables, and defaults against published ranges."""

from __future__ import annotations

import numpy as np
import pytest

from wrapwright.core.press.dose.rates import EA_HIGH, EA_KJ, EA_LOW, GAS, activation_kj, rate, tenfold_k
from wrapwright.core.press.values import REFERENCE_C
from wrapwright.data.press import recipes


@pytest.mark.parametrize(
    ("celsius", "factor"),
    [(170, 0.1757), (180, 0.3604), (190, 0.7169), (195, 1.0), (200, 1.3851), (205, 1.9055), (210, 2.6042)],
)
def test_how_fast_against_195(celsius: float, factor: float) -> None:
    # Closed form, Ea 120.
    assert float(rate(celsius)) == pytest.approx(factor, abs=1e-4)


@pytest.mark.parametrize(
    ("energy", "celsius", "factor"),
    [(80, 180, 0.5064), (80, 205, 1.5370), (163.84, 180, 0.2483), (163.84, 205, 2.4117)],
)
def test_at_other_energies(energy: float, celsius: float, factor: float) -> None:
    # Closed form; 163.84: Disperse Red 60 in polyester in water, Huang and others, J. Textile Res. 31(11), 2010.
    assert float(rate(celsius, energy)) == pytest.approx(factor, abs=1e-4)


@pytest.mark.parametrize(
    ("standard", "celsius", "factor"),
    [(20, 0, 0.2865), (20, 10, 0.5472), (20, 20, 1.0), (20, 30, 1.7563), (20, 40, 2.9755), (23, 10, 0.4603),
     (23, 30, 1.4773)],
)  # fmt: skip
def test_the_age_factors_of_concrete(standard: float, celsius: float, factor: float) -> None:
    # Equivalent age of ASTM C1074: exp(-Q (1/Ta - 1/Ts)) with Q = Ea/R = 5000 K; there 0 degC is 273 K.
    energy = 5000 * GAS / 1000
    ours = float(rate(celsius - 0.15, energy, standard - 0.15))
    assert ours == pytest.approx(factor, abs=1e-3)


def test_what_energy_doubles_it_in_ten_kelvin() -> None:
    # R ln 2 / (1/463.15 - 1/473.15).
    assert activation_kj(2.0, 190, 200) == pytest.approx(126.293, abs=1e-3)
    assert float(rate(200, 126.293, 190)) == pytest.approx(2.0, abs=1e-5)


@pytest.mark.parametrize(("energy", "kelvin"), [(80, 52.45), (100, 41.96), (120, 34.97), (163.84, 25.61)])
def test_how_many_kelvin_for_ten_times(energy: float, kelvin: float) -> None:
    # ln(10) R T^2 / Ea: far more than the 10 K of sterilising, which must never be used here.
    assert tenfold_k(energy) == pytest.approx(kelvin, abs=0.005)
    assert tenfold_k(energy) > 20
    slope = np.log10(float(rate(195.01, energy)) / float(rate(194.99, energy))) / 0.02
    assert 1 / slope == pytest.approx(kelvin, rel=1e-3)


def test_no_energy_from_one_temperature() -> None:
    for wrong in ((2.0, 190.0, 190.0), (0.0, 190.0, 200.0), (-1.0, 190.0, 200.0)):
        with pytest.raises(ValueError, match="two temperatures"):
            activation_kj(*wrong)


# Ranges, degrees C: Textile terms definition (transfer printing, 170-220); Broadbent, Basic Principles of Textile
# Coloration, p. 327 (thermosol, 190-220); yinfengtextile.com (180-210); P2RIC 11/10489 (a press up to 200); fastness
# of sublimation is looked at between 180 and 210 (dyeingworld1.blogspot.com; ISO 105-P01 also at 150).
@pytest.mark.parametrize(("low", "high"), [(170, 220), (190, 220), (180, 210), (150, 200)])
def test_the_reference_lies_where_the_trade_transfers(low: float, high: float) -> None:
    assert low <= REFERENCE_C <= high


def test_shipped_recipes_lie_there_too() -> None:
    # Textile terms definition: 170-220 degC by the press; thermosol 205 degC for 60-90 s fixes 75-90 % of the dye
    # (textilelearner.blogspot.com). Dwells of blanks: common practice, no source.
    found = [one for one in recipes() if one.ware != "unknown"]
    assert found
    for one in found:
        assert 170 <= one.celsius[0] <= one.celsius[1] <= 220
        assert one.seconds[0] >= 60 or one.heater == "flat-press"


def test_the_energies_lie_between_the_measured_ones() -> None:
    # Disperse Red 60 in polyester: 163.84 kJ/mol in water, 22.22 in carbon dioxide (Huang and others, 2010). In dry
    # heat at 170-200 degC no figure was found; about 80 to 170 is common practice, no source.
    assert 22.22 < EA_LOW <= EA_KJ <= EA_HIGH
    assert (EA_LOW, EA_KJ, EA_HIGH) == (80, 120, 170)
    assert EA_LOW < 163.84 < EA_HIGH
