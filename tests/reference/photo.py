"""Stages of the photo gauge by OpenCV and scikit-image: writes photo.json into the folder named.

Plane maps of pairs of points, cameras with one radial term and circles are drawn with a fixed seed. Outlines in
two of gauge/photos are brought to the plane of the ground face by undistortPoints and the inverse of that plane's
map. The sheet of bar.jpg is found as a plain program would: threshold, outline, four straight sides. In open.jpg a
threshold takes part of the bench for paper.
"""

import json
import sys
from pathlib import Path

import cv2
import numpy as np
from scipy import optimize
from skimage import measure, transform

CASES = 40
random = np.random.default_rng(20261128)
cv2.setNumThreads(1)


def numbers(values, places=None):
    values = np.asarray(values, float)
    return (values if places is None else np.round(values, places)).tolist()


def through(matrix, points):
    return cv2.perspectiveTransform(np.asarray(points, float)[None], np.asarray(matrix))[0]


def camera():
    """A camera over the sheet, leaning by up to 25 degrees: K, R, t, k1."""
    lean = random.uniform(-0.3, 0.3, 2)
    turn = cv2.Rodrigues(np.array([np.pi, 0, 0]))[0]
    for axis, angle in enumerate((*lean, random.uniform(-np.pi, np.pi))):
        turn = cv2.Rodrigues(np.eye(3)[axis] * angle)[0] @ turn
    lens = np.array([*random.uniform(-60, 60, 2), random.uniform(300, 600)])
    focal = random.uniform(1200, 1900)
    matrix = np.array([[focal, 0, random.uniform(780, 820)], [0, focal, random.uniform(580, 620)], [0, 0, 1]])
    return matrix, turn, -turn @ lens, random.uniform(-0.1, 0.1)


def to_plane(matrix, turn, shift, k1, pixels, height):
    """Pixels on the plane so high above the sheet, by OpenCV."""
    criteria = (cv2.TERM_CRITERIA_COUNT | cv2.TERM_CRITERIA_EPS, 200, 1e-15)
    rays = cv2.undistortPointsIter(np.asarray(pixels, float)[:, None], matrix, np.array([k1, 0, 0, 0.0]), None, None, criteria)
    plane = np.column_stack([turn[:, 0], turn[:, 1], turn[:, 2] * height + shift])
    return through(np.linalg.inv(plane), rays[:, 0])


def fields(matrix, turn, shift, k1):
    return {
        "focal": float(matrix[0, 0]), "centre": numbers(matrix[:2, 2]),
        "rotation": numbers(turn.ravel()), "translation": numbers(shift), "k1": float(k1),
    }


def maps():
    """Sheets by their corners, and by up to 12 places that lie off by a quarter of a pixel."""
    cases = []
    for case in range(CASES):
        is_noisy = case % 2 == 1
        matrix, turn, shift, _ = camera()
        corners = np.array([[-105, 148.5], [105, 148.5], [105, -148.5], [-105, -148.5]])
        places = np.round(random.uniform(-1, 1, (random.integers(1, 9), 2)) * [105, 148.5], 3)
        sheet = np.vstack([corners, places]) if is_noisy else corners
        pixels = through(matrix @ np.column_stack([turn[:, 0], turn[:, 1], shift]), sheet)
        pixels = np.round(pixels + is_noisy * random.normal(0, 0.25, pixels.shape), 4)
        probes = np.round(random.uniform(-1, 1, (4, 2)) * [105, 148.5], 3)
        opencv, _ = cv2.findHomography(sheet, pixels, 0)
        skimage = transform.ProjectiveTransform.from_estimate(sheet, pixels)
        cases.append({
            "from": numbers(sheet), "to": numbers(pixels), "probes": numbers(probes),
            "opencv": numbers(through(opencv, probes)), "skimage": numbers(skimage(probes)),
        })
    return cases


def cameras():
    cases = []
    for _ in range(CASES):
        matrix, turn, shift, k1 = camera()
        height = np.round(random.uniform(0, 12), 3)
        places = np.round(random.uniform(-1, 1, (4, 2)) * [105, 148.5], 3)
        world = np.column_stack([places, np.full(len(places), height)])
        pixels, _ = cv2.projectPoints(world, cv2.Rodrigues(turn)[0], shift, matrix, np.array([k1, 0, 0, 0]))
        pixels = pixels[:, 0]
        cases.append(fields(matrix, turn, shift, k1) | {
            "height": float(height), "places": numbers(places), "pixels": numbers(pixels),
            "back": numbers(to_plane(matrix, turn, shift, k1, pixels, height)),
        })
    return cases


def circles():
    """Arcs: scikit-image fits the algebraic circle, SciPy's least squares the geometric one from there."""
    cases = []
    for case in range(CASES):
        centre, radius = random.uniform(-100, 100, 2), random.uniform(20, 120)
        angles = random.uniform(0, random.uniform(1, 2 * np.pi), random.integers(5, 20))
        noise = case % 2 * random.normal(0, 0.2, len(angles))
        points = centre + (radius + noise)[:, None] * np.column_stack([np.cos(angles), np.sin(angles)])
        algebraic = measure.CircleModel.from_estimate(points)
        off = lambda at: np.hypot(*(points - at[:2]).T) - at[2]
        best = optimize.least_squares(off, [*algebraic.center, algebraic.radius], xtol=1e-15, ftol=1e-15, gtol=1e-15)
        cases.append({
            "points": numbers(points), "skimage": numbers([*algebraic.center, algebraic.radius]),
            "least": numbers(best.x), "rms": float(np.sqrt(np.mean(best.fun**2))),
        })
    return cases


def sheet_in(picture):
    """The corners of the largest bright patch: its outline cut at four corners, a straight line through each part."""
    grey = cv2.cvtColor(picture, cv2.COLOR_BGR2GRAY)
    _, bright = cv2.threshold(grey, 0, 255, cv2.THRESH_BINARY + cv2.THRESH_OTSU)
    outlines, _ = cv2.findContours(bright, cv2.RETR_EXTERNAL, cv2.CHAIN_APPROX_NONE)
    outline = max(outlines, key=cv2.contourArea)
    hull = cv2.convexHull(outline)
    corners = cv2.approxPolyDP(hull, 0.02 * cv2.arcLength(hull, True), True)[:, 0].astype(float)
    assert len(corners) == 4
    lines = []
    for one, other in zip(corners, np.roll(corners, -1, 0)):
        way = (other - one) / np.hypot(*(other - one))
        from_one = outline[:, 0] - one
        along, off = from_one @ way, from_one @ [-way[1], way[0]]
        near = (abs(off) < 8) & (along > 30) & (along < np.hypot(*(other - one)) - 30)
        x_way, y_way, x, y = cv2.fitLine(outline[near], cv2.DIST_HUBER, 0, 1e-4, 1e-4).ravel().astype(float)
        lines.append(np.cross([x, y, 1], [x + x_way, y + y_way, 1]))
    meet = [np.cross(lines[i - 1], lines[i]) for i in range(4)]
    return [corner[:2] / corner[2] for corner in meet]


def photos():
    found, folder = {}, Path(sys.argv[1], "gauge", "photos")
    for name in ("bar", "open"):
        truth = json.loads((folder / f"{name}.json").read_text())
        lens, top = truth["camera"], truth["top"]
        known = [np.array(lens[key], float) for key in ("K", "R", "t")]
        height = top["shoe_frame_in_world"]["origin"][2]
        outline = to_plane(*known, lens["k1"], top["outline_px"], height)
        found[name] = fields(*known, lens["k1"]) | {
            "height": height, "pixels": top["outline_px"], "back": numbers(outline, 9),
            "area": cv2.contourArea(outline.astype(np.float32)),
        }
    found["corners"] = numbers(sheet_in(cv2.imread(str(folder / "bar.jpg"))), 3)
    return found


if __name__ == "__main__":
    with Path(sys.argv[1], "photo.json").open("w") as out:
        parts = [maps, cameras, circles, photos]
        json.dump({part.__name__: part() for part in parts}, out, separators=(",", ":"), allow_nan=False)
        out.write("\n")
