"""What a rounded or bulging base takes away from a vessel with a flat base."""

from __future__ import annotations

import math

# Under a thousandth of a millimetre a base is flat; below that the numbers cancel to noise.
FLAT_MM = 0.001


def fillet_missing_mm3(height_mm: float, radius_mm: float, fillet_mm: float) -> float:
    """Volume missing below a height where base and wall meet in a quarter circle.

    Args:
        height_mm: level above the lowest point of the base.
        radius_mm: inner radius of the wall at the base, taken as straight through the rounding.
        fillet_mm: radius of the quarter circle; 0 for a sharp corner.
    """
    if fillet_mm < FLAT_MM:
        return 0.0
    r = fillet_mm
    z = min(height_mm, r)
    w = r - z
    flat = radius_mm - r
    # The free radius at y is flat + √(r² - (r - y)²); its square is integrated term by term.
    corner = (r * r * math.asin(1.0) - w * math.sqrt(r * r - w * w) - r * r * math.asin(w / r)) / 2
    square = r * r * z - (r**3 - w**3) / 3
    return math.pi * (radius_mm**2 * z - flat * flat * z - 2 * flat * corner - square)


def push_up_missing_mm3(height_mm: float, rim_radius_mm: float, push_up_mm: float) -> float:
    """Volume that a base bulging up as a spherical cap takes away below a height.

    Args:
        height_mm: level above the rim of the cap, the lowest point of the base.
        rim_radius_mm: radius of the cap's rim.
        push_up_mm: height of the cap; 0 for a flat base.
    """
    if push_up_mm < FLAT_MM:
        return 0.0
    sphere = (rim_radius_mm**2 + push_up_mm**2) / (2 * push_up_mm)
    above = max(0.0, push_up_mm - height_mm)
    return cap_mm3(sphere, push_up_mm) - cap_mm3(sphere, above)


def push_up_at_mm(x_mm: float, rim_radius_mm: float, push_up_mm: float) -> float:
    """Height of a base that bulges up, at a distance from its middle; 0 beyond the cap's rim.

    Args:
        x_mm: distance from the middle.
        rim_radius_mm: radius of the cap's rim.
        push_up_mm: height of the cap; 0 for a flat base.
    """
    if push_up_mm < FLAT_MM or abs(x_mm) >= rim_radius_mm:
        return 0.0
    sphere = (rim_radius_mm**2 + push_up_mm**2) / (2 * push_up_mm)
    return math.sqrt(sphere * sphere - x_mm * x_mm) - (sphere - push_up_mm)


def fillet_inset_mm(height_mm: float, fillet_mm: float) -> float:
    """How far the rounding of the base stands in from the wall at a height."""
    if fillet_mm < FLAT_MM or height_mm >= fillet_mm:
        return 0.0
    down = fillet_mm - max(height_mm, 0.0)
    return fillet_mm - math.sqrt(fillet_mm * fillet_mm - down * down)


def cap_mm3(sphere_radius_mm: float, height_mm: float) -> float:
    """Volume of a spherical cap: πh²(3R - h)/3."""
    return math.pi * height_mm**2 * (3 * sphere_radius_mm - height_mm) / 3
