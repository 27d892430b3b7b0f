"""How well a stone fits what is known of a mineral: chances of readings, shares, bits of a test."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from mullbook.science.media import water_density

POINTS = 41
"""Points over which a range of hardness is averaged."""
ROOT_TAU = math.sqrt(2 * math.pi)


def weighing_uncertainty(
    mass_in_air: float, mass_in_water: float, temperature: float, mass_error: float
) -> float:
    """Standard uncertainty of a density by weighing in air and in water, from the balance alone.

    Formula: `u = rho_w sqrt(m_a^2 + m_w^2)/(m_a - m_w)^2 x e/sqrt(3)`: the law of propagation of uncertainty
    for two independent readings of `rho = rho_w m_a/(m_a - m_w)`, each off by anything up to `e`, all such
    errors being as likely.

    Parameters: `mass_in_air`, `mass_in_water` (g); `temperature` of the water (C); `mass_error`, how far one
    reading of the balance may be off (g). Returns g/cm3. Raises `ValueError` where the stone does not lose
    mass in the water. Source: JCGM 100, Guide to the expression of uncertainty in measurement, for
    uncorrelated inputs and for a rectangular distribution.

    >>> round(weighing_uncertainty(52.3, 38.1, 20, 0.1), 4)
    0.0185
    """
    lost = mass_in_air - mass_in_water
    if lost <= 0:
        raise ValueError("a stone weighs less in water than in air")
    reading = mass_error / math.sqrt(3)
    return water_density(temperature) / 1000 * math.hypot(mass_in_air, mass_in_water) / lost**2 * reading


def confusion(
    near: Mapping[str, Sequence[str]], error: float, near_share: float
) -> dict[str, dict[str, float]]:
    """What is read when one of some values is shown, for each of them.

    Formula: the true value with chance `1 - error`; its neighbours share `error x near_share` evenly, all
    other values the rest; without neighbours, or without others, whoever there is takes the whole error.

    Parameters: `near`, for each value those it is most easily mistaken for; `error`, part of the readings
    that go wrong; `near_share`, part of those that go to neighbours. Returns chances by true, then
    by read value.

    >>> table = confusion({"red": ["orange"], "orange": [], "blue": []}, 0.3, 0.5)
    >>> {read: round(chance, 3) for read, chance in table["red"].items()}
    {'red': 0.7, 'orange': 0.15, 'blue': 0.15}
    >>> table["blue"]["red"]
    0.15
    """
    table = {}
    for true, close in near.items():
        far = [each for each in near if each != true and each not in close]
        to_near = error * (near_share if far else 1.0) if close else 0.0
        table[true] = {
            read: 1.0 - error
            if read == true
            else to_near / len(close)
            if read in close
            else (error - to_near) / len(far)
            for read in near
        }
    return table


def word_chances(shown: Sequence[str], table: Mapping[str, Mapping[str, float]]) -> tuple[float, ...]:
    """Chance of each reading of a mineral that may show any of some values, each as likely.

    Parameters: `shown`, the values it may show, none where nothing is known; `table`, of `confusion`.
    Returns a chance for each value in the order of the table; all alike where nothing is known, so that the
    test then counts neither for nor against.

    >>> word_chances(["no"], confusion({"no": [], "yes": []}, 0.1, 0.5))
    (0.9, 0.1)
    >>> word_chances([], confusion({"no": [], "yes": []}, 0.1, 0.5))
    (0.5, 0.5)
    """
    if not shown:
        return tuple(1 / len(table) for _ in table)
    return tuple(sum(table[true][read] for true in shown) / len(shown) for read in table)


def step_chances(
    low: float, high: float, bounds: Sequence[float], spread: float, error: float
) -> tuple[float, ...]:
    """Chance of each step of a scale, for a mineral whose value lies anywhere in a range.

    Formula: a reading is the value plus a normal error; the chance of a step is averaged over the range, and
    `error` of all readings fall on any step alike.

    Parameters: `low`, `high`, the range; `bounds` between the steps, rising; `spread`, standard deviation of
    a reading; `error`. Returns one chance a step, `len(bounds) + 1` of them, which sum to 1.

    >>> [round(each, 2) for each in step_chances(7, 7, (2.5, 3.5, 5.5), 0.5, 0.04)]
    [0.01, 0.01, 0.01, 0.97]
    """
    points = [low + (high - low) * (place + 0.5) / POINTS for place in range(POINTS)]
    edges = [
        0.0,
        *(sum(_below(bound, point, spread) for point in points) / POINTS for bound in bounds),
        1.0,
    ]
    steps = len(bounds) + 1
    return tuple((1 - error) * (edges[place + 1] - edges[place]) + error / steps for place in range(steps))


def _below(bound: float, value: float, spread: float) -> float:
    return 0.5 * (1 + math.erf((bound - value) / (spread * math.sqrt(2))))


def plateau(value: float, low: float, high: float, spread: float) -> float:
    """Chance density of a reading of something that lies anywhere in a range.

    Formula: `exp(-d^2/(2 s^2))/(high - low + s sqrt(2 pi))`, where `d` is how far the reading lies outside
    the range: flat over the range, with the shoulders of a normal error on both sides; its whole is 1.

    Parameters: `value`; `low`, `high`; `spread`, standard uncertainty of the reading, all in one unit.
    Returns one over that unit. Raises `ValueError` for a spread of nought or less.

    >>> round(plateau(3.5, 3.0, 4.0, 0.1), 4), round(plateau(4.2, 3.0, 4.0, 0.1), 4)
    (0.7996, 0.1082)
    """
    if spread <= 0:
        raise ValueError("a reading without any error is not believed")
    outside = max(0.0, low - value, value - high)
    return math.exp(-0.5 * (outside / spread) ** 2) / (high - low + spread * ROOT_TAU)


def shares(scores: Sequence[float]) -> tuple[float, ...]:
    """Share of each candidate in the whole fit, all being as likely beforehand.

    Formula: Bayes' rule with equal priors, `exp(score)/sum(exp(score))`; a score is the sum of the natural
    logarithms of the chances of what was read.

    Parameters: `scores`, one a candidate. Returns shares that sum to 1. Source: D. J. C. MacKay, Information
    Theory, Inference, and Learning Algorithms, 2003, chapter 2.

    >>> [round(each, 2) for each in shares([math.log(3), 0.0])]
    [0.75, 0.25]
    """
    most = max(scores)
    weights = [math.exp(each - most) for each in scores]
    whole = sum(weights)
    return tuple(each / whole for each in weights)


def entropy(chances: Sequence[float]) -> float:
    """How much is not known yet, in bits: `-sum(p log2 p)`.

    Parameters: `chances`, which sum to 1. Returns bits. Source: C. E. Shannon, A Mathematical Theory of
    Communication, 1948.

    >>> entropy([0.5, 0.5]), entropy([1.0, 0.0])
    (1.0, 0.0)
    """
    return 0.0 - sum(each * math.log2(each) for each in chances if each > 0)


def expected_information(held: Sequence[float], chances: Sequence[Sequence[float]]) -> float:
    """Bits that a test not yet made is expected to tell of which candidate it is.

    Formula: entropy of the readings to be expected, less the mean entropy of the readings of each candidate;
    this is the mutual information of candidate and reading.

    Parameters: `held`, the share of each candidate now; `chances`, for each candidate the chance of each
    reading. Returns bits, never below nought. Source: C. E. Shannon, 1948; D. V. Lindley, On a measure of
    the information provided by an experiment, 1956.

    >>> expected_information([0.5, 0.5], [[1.0, 0.0], [0.0, 1.0]])
    1.0
    >>> expected_information([0.5, 0.5], [[0.5, 0.5], [0.5, 0.5]])
    0.0
    """
    expected = [
        sum(share * row[reading] for share, row in zip(held, chances, strict=True))
        for reading in range(len(chances[0]))
    ]
    inside = sum(share * entropy(row) for share, row in zip(held, chances, strict=True))
    return max(0.0, entropy(expected) - inside)


def grid_chances(
    low: float, high: float, spread: float, error: float, grid: Sequence[float]
) -> tuple[float, ...]:
    """Chance of a reading at each point of a grid, for something that lies anywhere in a range.

    Formula: `plateau` at each point, with an uncertainty of `spread` of the reading; then `error` of all
    readings fall on any point alike.

    Parameters: `low`, `high`; `spread`, as part of the reading; `error`; `grid`, points above nought.
    Returns chances that sum to 1.

    >>> [round(each, 3) for each in grid_chances(2.0, 2.2, 0.03, 0.0, (1.0, 2.0, 3.0))]
    [0.0, 1.0, 0.0]
    """
    heights = [plateau(point, low, high, spread * point) for point in grid]
    whole = sum(heights)
    return tuple((1 - error) * each / whole + error / len(grid) for each in heights)
