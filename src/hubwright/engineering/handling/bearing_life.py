"""Basic rating life of a rolling bearing."""

from __future__ import annotations

from hubwright.engineering.validity import require_not_negative, require_positive

ISO281 = "ISO 281:2007"


def equivalent_load_n(
    radial_n: float, thrust_n: float, radial_factor: float, thrust_factor: float, thrust_limit: float
) -> float:
    """Radial load that would wear the bearing as the given pair of loads does.

    Equation:
        P = X F_r + Y F_a for F_a/F_r > e, else P = F_r.

    Source:
        ISO 281:2007 clause 5 (dynamic equivalent radial load, single row; X, Y, e from its table 3).
    """
    require_not_negative("the equivalent load", ISO281, radial_n=radial_n, thrust_n=thrust_n)
    if thrust_n <= thrust_limit * radial_n:
        return radial_n
    return radial_factor * radial_n + thrust_factor * thrust_n


def rating_life_mrev(rating_n: float, load_n: float, exponent: float) -> float:
    """Life that 90 % of bearings reach.

    Equation:
        L10 = (C/P)^p.

    Source:
        ISO 281:2007 (basic rating life), p = 3 balls, 10/3 rollers.

    Returns:
        Millions of turns.
    """
    require_positive("the rating life", ISO281, rating_n=rating_n, load_n=load_n, exponent=exponent)
    return float((rating_n / load_n) ** exponent)


def life_hours(life_mrev: float, speed_rpm: float) -> float:
    """Hours at a steady speed.

    Equation:
        L10h = 10^6 L10/(60 n).

    Source:
        ISO 281:2007 (basic rating life in hours).
    """
    require_positive("the rating life", ISO281, speed_rpm=speed_rpm)
    return life_mrev * 1e6 / (60 * speed_rpm)


def mean_load_n(loads_n: tuple[float, ...], shares: tuple[float, ...], exponent: float) -> float:
    """Steady load that wears as a mixture of loads does.

    Equation:
        P_m = (sum q_i P_i^p)^(1/p), q_i shares of all turns.

    Source:
        Linear damage (Palmgren, Miner) with the exponent of ISO 281.
    """
    require_positive("the mean load", ISO281, exponent=exponent, shares=sum(shares))
    mixed = sum(share * load**exponent for load, share in zip(loads_n, shares, strict=True)) / sum(shares)
    return float(mixed ** (1 / exponent))


def joined_life(lives: tuple[float, ...], spread_exponent: float) -> float:
    """Life of rows that must all survive.

    Equation:
        L = (sum L_i^-e)^(-1/e), e = 10/9 balls, 9/8 rollers.

    Source:
        ISO 281 / ISO/TR 1281 (Weibull slope; product of survivals; from memory).
    """
    require_positive("the joined life", ISO281, spread_exponent=spread_exponent, shortest=min(lives))
    return float(sum(life**-spread_exponent for life in lives) ** (-1 / spread_exponent))
