"""Finds the mirror axes of two uneven shoes of paths.json by brute force and writes mirrored.json.

Run as measure.py is, with shapely 2.0 and numpy: python3 mirror.py
The axis is the line that minimises the mean squared distance from the mirror image of 1,000 points,
evenly spaced along the outline, to the outline (GEOS). Angle and offset are searched on a grid of
9 by 9 whose steps shrink by a third, from 1 degree and 1 mm down to 0.0003.
"""
import json
import math
import re

import numpy
import shapely

CHORDS = 12
POINTS = 1000


def points_of(path):
    """Points of a closed SVG path made of M, L, Q, C and Z; curves as CHORDS chords each."""
    points = []
    for letter, numbers in re.findall(r"([MLQCZ])([^MLQCZ]*)", path):
        values = [float(text) for text in re.findall(r"-?[\d.]+(?:e-?\d+)?", numbers)]
        pairs = [numpy.array(pair) for pair in zip(values[::2], values[1::2])]
        if letter in "ML":
            points.extend(pairs)
        elif letter in "QC":
            size = 2 if letter == "Q" else 3
            for first in range(0, len(pairs), size):
                hull = [points[-1]] + pairs[first : first + size]
                points.extend(curve(hull, step / CHORDS) for step in range(1, CHORDS + 1))
    return points


def curve(hull, t):
    """The point at t of the Bezier curve with this hull, by de Casteljau."""
    while len(hull) > 1:
        hull = [a + (b - a) * t for a, b in zip(hull, hull[1:])]
    return hull[0]


def error(ring, points, centre, degrees, offset):
    """Mean squared distance of the mirror image in the line `offset` from `centre`."""
    angle = math.radians(degrees)
    normal = numpy.array([-math.sin(angle), math.cos(angle)])
    image = points - 2 * numpy.outer((points - centre) @ normal - offset, normal)
    return float(numpy.mean(shapely.distance(ring, shapely.points(image)) ** 2))


mirrored = {}
paths = json.load(open("paths.json", encoding="utf-8"))
for name in ["full", "straight"]:
    ring = shapely.LinearRing(points_of(paths[name]["outline"]))
    spots = (numpy.arange(POINTS) + 0.5) / POINTS
    points = shapely.get_coordinates(shapely.line_interpolate_point(ring, spots, normalized=True))
    shapely.prepare(ring)
    centre = points.mean(axis=0)
    degrees, offset, step = 90.0, 0.0, 1.0
    while step > 3e-4:
        grid = [(degrees + i * step, offset + j * step) for i in range(-4, 5) for j in range(-4, 5)]
        degrees, offset = min(grid, key=lambda at: error(ring, points, centre, *at))
        step /= 3
    angle = math.radians(degrees)
    mirrored[name] = {
        "degrees": degrees,
        "x": centre[0] - offset * math.sin(angle),
        "y": centre[1] + offset * math.cos(angle),
        "error": error(ring, points, centre, degrees, offset),
    }
with open("mirrored.json", "w", encoding="utf-8") as file:
    json.dump(mirrored, file, indent=1, sort_keys=True)
    file.write("\n")
