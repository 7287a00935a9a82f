"""Reads the paths of paths.json, for the scripts beside it."""
import re


def points_of(path, chords):
    """Points of a closed SVG path made of M, L, Q, C and Z; curves as so many chords each."""
    points = []
    for letter, numbers in re.findall(r"([MLQCZ])([^MLQCZ]*)", path):
        values = [float(text) for text in re.findall(r"-?[\d.]+(?:e-?\d+)?", numbers)]
        pairs = list(zip(values[::2], values[1::2]))
        if letter in "ML":
            points.extend(pairs)
        elif letter in "QC":
            size = 2 if letter == "Q" else 3
            for first in range(0, len(pairs), size):
                hull = [points[-1]] + pairs[first : first + size]
                points.extend(curve(hull, step / chords) for step in range(1, chords + 1))
    return points


def curve(hull, t):
    """The point at t of the Bezier curve with this hull, by de Casteljau."""
    while len(hull) > 1:
        hull = [
            (a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t)
            for a, b in zip(hull, hull[1:])
        ]
    return hull[0]
