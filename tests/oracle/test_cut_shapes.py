"""Flats, ratchets and splines cut from polygons come out as the package says, to a micrometre or so."""

from fractions import Fraction
from math import pi

import pytest
from shapely import Point
from shapely.geometry.base import BaseGeometry

from crankwise.part.flats import Flat, Flats, polygon
from crankwise.part.ratchet import Ratchet, ratchet_for_cutter
from crankwise.part.splines import Splines
from tests.oracle.cut_shapes import (
    above,
    disc,
    milled,
    on_ray,
    single_angle_cutter,
    slot_cutter,
    turned,
    width_at,
)

MICROMETRE = 1e-3


@pytest.mark.parametrize(
    "flats",
    [
        polygon(6, Fraction(17, 2)),
        polygon(4, Fraction(10), Fraction(25)),
        polygon(5, Fraction(9), Fraction(30)),
        polygon(2, Fraction(7), Fraction(18)),
        Flats(
            tuple(
                Flat(Fraction(angle, 360), Fraction(height))
                for angle, height in ((0, 8), (70, 9), (150, 7), (200, 10), (290, 8))
            ),
            Fraction(22),
        ),
    ],
    ids=["hexagon", "square on a small bar", "pentagon on a large bar", "two", "unequal"],
)
def test_every_flat_comes_out_as_wide_as_told(flats: Flats) -> None:
    bar = float(flats.bar_mm)
    work: BaseGeometry = disc(bar)
    for flat in flats.flats:  # the bar is turned so that the flat faces up; the cutter goes down from a touch
        work = milled(work, above(bar / 2 - float(flats.depth_mm(flat))), [float(flat.angle)])
    for flat in flats.flats:
        on_top = turned(work, -float(flat.angle))
        assert width_at(on_top, float(flat.height_mm) - 1e-9) == pytest.approx(
            flats.width_mm(flat), abs=MICROMETRE
        )


@pytest.mark.parametrize(
    "ratchet",
    [
        Ratchet(24, Fraction(50), Fraction(3)),
        Ratchet(30, Fraction(80), Fraction(4), Fraction(1), Fraction(5, 360)),
        ratchet_for_cutter(12, Fraction(60), Fraction(5), Fraction(65, 360), Fraction(10, 360), "clockwise"),
    ],
    ids=["sharp and radial", "land and undercut", "by its cutter"],
)
def test_a_ratchet_cut_by_its_cutter_has_the_land_and_the_depth_told(ratchet: Ratchet) -> None:
    radius = float(ratchet.outside_mm) / 2
    tip = (-ratchet.offset_mm, radius - ratchet.infeed_mm)
    cutter = single_angle_cutter(tip, ratchet.cutter_angle)
    work = milled(disc(2 * radius), cutter, [number / ratchet.teeth for number in range(ratchet.teeth)])
    rim = work.boundary.intersection(disc(2 * radius + 1e-3).difference(disc(2 * radius - 1e-3)))
    steep = 2 * ratchet.teeth * 2e-3 * 6  # what of the faces and backs lies in so thin a ring
    assert rim.length == pytest.approx(ratchet.teeth * float(ratchet.land_mm), abs=steep)
    assert 2 * work.boundary.distance(Point(0, 0)) == pytest.approx(ratchet.root_diameter_mm, abs=MICROMETRE)


def test_the_lands_of_the_three_ratchets_are_not_all_nothing() -> None:
    by_its_cutter = ratchet_for_cutter(
        12, Fraction(60), Fraction(5), Fraction(65, 360), Fraction(10, 360), "clockwise"
    )
    assert 2 < by_its_cutter.land_mm < 12
    assert float(by_its_cutter.cutter_angle * 360) == pytest.approx(65, abs=1e-6)


@pytest.mark.parametrize("size", [(6, 23, 26, 6), (8, 32, 36, 6), (10, 72, 82, 12), (4, 20, 25, 6)])
def test_a_shaft_cut_in_three_circuits_has_keys_of_their_width(size: tuple[int, int, int, int]) -> None:
    splines = Splines(size[0], *map(Fraction, size[1:]))
    radius, half = float(splines.major_mm) / 2, float(splines.side_offset_mm)
    bottom = radius - splines.side_depth_mm
    wide = (splines.widest_side_cutter_mm or 8.0) - 1e-6
    keys = [number / splines.keys for number in range(splines.keys)]
    right = slot_cutter(half, half + wide, bottom)
    left = slot_cutter(-half - wide, -half, bottom)
    work = milled(milled(disc(2 * radius), right, keys), left, keys)
    floor_cutter = Fraction(2)
    floor = slot_cutter(-1, 1, radius - float(splines.floor_depth_mm))
    between = [
        turn + 0.5 / splines.keys + setting
        for turn in keys
        for setting in splines.floor_settings(floor_cutter)
    ]
    work = milled(work, floor, between)
    top = (radius**2 - half**2) ** 0.5  # above it the key is rounded by the major diameter
    for height in (bottom + 1e-6, (bottom + top) / 2, top - 1e-6):
        assert width_at(work.intersection(slot_cutter(-half * 1.2, half * 1.2, 0)), height) == pytest.approx(
            2 * half, abs=MICROMETRE
        )
    ridges = [2 * on_ray(work, 0.25 + (0.5 + share) / splines.keys) for share in (-0.2, -0.1, 0, 0.1, 0.2)]
    assert max(ridges) <= float(splines.minor_mm) + 2 * 0.02 + MICROMETRE
    assert min(ridges) >= float(splines.minor_mm) - MICROMETRE


def test_a_side_cutter_wider_than_told_would_touch_the_next_key() -> None:
    splines = Splines(10, Fraction(72), Fraction(82), Fraction(12))
    radius, half = float(splines.major_mm) / 2, float(splines.side_offset_mm)
    assert splines.widest_side_cutter_mm is not None
    key = slot_cutter(-half, half, 0).intersection(disc(2 * radius))
    next_key = turned(key, -1 / 10)
    for more, touches in ((-1e-6, False), (0.01, True)):
        cutter = slot_cutter(
            half, half + splines.widest_side_cutter_mm + more, radius - splines.side_depth_mm
        )
        assert (cutter.intersection(next_key).area > 1e-9) is touches


def test_the_oracle_is_round_enough() -> None:
    assert disc(100).area == pytest.approx(pi * 2500, rel=1e-8)
