"""Volumes of tanks, troughs and wallows, in litres from metres.

Length, width and diameter are full measures across the water's surface (not half-axes), depth
is the greatest depth unless said otherwise. For a dose use the smaller shape (4/9 rule or
cone), for filling the larger.
"""

import math

from binder.science.ranges import require_not_negative, require_positive

L_PER_M3 = 1000.0
OVAL_SHARE = 0.785  # of the rectangle around it [wallow-60]; pi/4 to three places
DEPRESSION_SHARE = 4 / 9  # of pi a b d, half-axes a and b [wallow-60]
POINTED_SHARE = 1 / 3  # cone and pyramid, geometry; cone also [wallow-60]


def _require_sizes(length_m: float, width_m: float, depth_m: float) -> None:
    require_positive(length_m, "length", "m")
    require_positive(width_m, "width", "m")
    require_not_negative(depth_m, "depth", "m")


def _elliptical_l(length_m: float, width_m: float, depth_m: float, share: float) -> float:
    _require_sizes(length_m, width_m, depth_m)
    return share * math.pi * (length_m / 2) * (width_m / 2) * depth_m * L_PER_M3


def box_l(length_m: float, width_m: float, depth_m: float) -> float:
    """Return the volume of a straight-sided box [L].

    Args:
        length_m: Length [m], more than 0.
        width_m: Width [m], more than 0.
        depth_m: Depth of water [m], 0 or more.

    Returns:
        Volume [L], not rounded.

    Raises:
        ValueError: A size is outside its range.

    References:
        wallow-60.

    Example:
        >>> box_l(2.0, 1.0, 0.5)
        1000.0
    """
    _require_sizes(length_m, width_m, depth_m)
    return length_m * width_m * depth_m * L_PER_M3


def round_tank_l(diameter_m: float, depth_m: float) -> float:
    """Return the volume of a round, straight-sided tank [L].

    Args:
        diameter_m: Inside diameter [m], more than 0.
        depth_m: Depth of water [m], 0 or more.

    Returns:
        Volume [L], not rounded.

    Raises:
        ValueError: A size is outside its range.

    References:
        wallow-60; worked: 22 ft across and 10 ft deep is 28,436 gal (derived).

    Example:
        >>> round(round_tank_l(6.7056, 3.048) / 3.785411784)
        28436
    """
    require_positive(diameter_m, "diameter", "m")
    require_not_negative(depth_m, "depth", "m")
    return math.pi * (diameter_m / 2) ** 2 * depth_m * L_PER_M3


def oval_box_l(length_m: float, width_m: float, depth_m: float) -> float:
    """Return the volume of a straight-sided oval [L].

    Args:
        length_m: Length [m], more than 0.
        width_m: Width [m], more than 0.
        depth_m: Mean depth of water [m], 0 or more.

    Returns:
        Volume [L], not rounded.

    Raises:
        ValueError: A size is outside its range.

    References:
        wallow-60; worked: 10 x 8 ft, 1 ft deep is 470 gal (derived).

    Example:
        >>> round(oval_box_l(3.048, 2.4384, 0.3048) / 3.785411784)
        470
    """
    _require_sizes(length_m, width_m, depth_m)
    return OVAL_SHARE * length_m * width_m * depth_m * L_PER_M3


def elliptical_depression_l(length_m: float, width_m: float, depth_m: float) -> float:
    """Return the volume of a dished oval hollow by the 4/9 rule, the low figure for dosing [L].

    Args:
        length_m: Length across the surface [m], more than 0.
        width_m: Width across the surface [m], more than 0.
        depth_m: Greatest depth of water [m], 0 or more.

    Returns:
        Volume [L], not rounded.

    Raises:
        ValueError: A size is outside its range.

    References:
        wallow-60; worked: 10 x 8 ft, 1 ft at the centre is 209 gal (derived).

    Example:
        >>> round(elliptical_depression_l(3.048, 2.4384, 0.3048) / 3.785411784)
        209
    """
    return _elliptical_l(length_m, width_m, depth_m, DEPRESSION_SHARE)


def cone_l(length_m: float, width_m: float, depth_m: float) -> float:
    """Return the volume of an oval hollow that falls straight to a point [L].

    Args:
        length_m: Length across the surface [m], more than 0.
        width_m: Width across the surface [m], more than 0.
        depth_m: Greatest depth of water [m], 0 or more.

    Returns:
        Volume [L], not rounded.

    Raises:
        ValueError: A size is outside its range.

    References:
        wallow-60, 1/3 pi a b d; worked: 10 x 8 ft, 1 ft at the centre is 157 gal (derived).

    Example:
        >>> round(cone_l(3.048, 2.4384, 0.3048) / 3.785411784)
        157
    """
    return _elliptical_l(length_m, width_m, depth_m, POINTED_SHARE)


def pyramid_l(length_m: float, width_m: float, depth_m: float) -> float:
    """Return the volume of a rectangular hollow that falls straight to a point [L].

    Args:
        length_m: Length across the surface [m], more than 0.
        width_m: Width across the surface [m], more than 0.
        depth_m: Greatest depth of water [m], 0 or more.

    Returns:
        Volume [L], not rounded.

    Raises:
        ValueError: A size is outside its range.

    References:
        Geometry, 1/3 L W d.

    Example:
        3 x 2 x 0.5 / 3 = 1 m3

        >>> pyramid_l(3.0, 2.0, 0.5)
        1000.0
    """
    _require_sizes(length_m, width_m, depth_m)
    return length_m * width_m * depth_m * POINTED_SHARE * L_PER_M3
