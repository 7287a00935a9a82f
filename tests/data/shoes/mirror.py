"""Finds the mirror axes of two uneven shoes of paths.json by brute force and writes mirrored.json.

Run as measure.py is, with shapely 2.0 and numpy: python3 mirror.py
The axis is the line that minimises the mean squared distance from the mirror image of 1,000 points,
evenly spaced along the outline, to the outline (GEOS). Angle and offset are searched on a grid of
9 by 9 whose steps shrink by a third, from 1 degree and 1 mm down to 0.0003.
"""
import json
import math

import numpy
import shapely
from outlines import points_of

CHORDS = 12
POINTS = 1000


def error(ring, points, centre, degrees, offset):
    """Mean squared distance of the mirror image in the line `offset` from `centre`."""
    angle = math.radians(degrees)
    normal = numpy.array([-math.sin(angle), math.cos(angle)])
    image = points - 2 * numpy.outer((points - centre) @ normal - offset, normal)
    return float(numpy.mean(shapely.distance(ring, shapely.points(image)) ** 2))


mirrored = {}
paths = json.load(open("paths.json", encoding="utf-8"))
for name in ["full", "straight"]:
    ring = shapely.LinearRing(points_of(paths[name]["outline"], CHORDS))
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
