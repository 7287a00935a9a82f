"""The steps of src/bin/photo.rs by OpenCV on one thread, one line of milliseconds each, and what they come to.

A plain program: Otsu's threshold, the largest outline, four corners; the map of the sheet; the sheet as if seen from
above, at as many pixels a mm as the photo has; Otsu's threshold there and all outlines. It knows no camera, no
parallax and no uncertainty, and takes no shadow from steel. The larger picture is the smaller one enlarged.
"""

import time
from pathlib import Path

import cv2
import numpy as np

PHOTO = Path(__file__).parent.parent / "tests" / "data" / "gauge" / "photos" / "bar.jpg"
SHEET, LARGER, FOR_SECONDS = (210.0, 297.0), 2.5, 2.0
MARGIN = 5.0
"""The picture from above goes so many mm beyond the sheet."""

cv2.setNumThreads(1)


def corners(picture):
    grey = cv2.cvtColor(picture, cv2.COLOR_BGR2GRAY)
    _, bright = cv2.threshold(grey, 0, 255, cv2.THRESH_BINARY + cv2.THRESH_OTSU)
    outlines, _ = cv2.findContours(bright, cv2.RETR_EXTERNAL, cv2.CHAIN_APPROX_NONE)
    hull = cv2.convexHull(max(outlines, key=cv2.contourArea))
    found = cv2.approxPolyDP(hull, 0.02 * cv2.arcLength(hull, True), True)[:, 0]
    assert len(found) == 4
    # The short side first: which way up the sheet lies does not matter here.
    sides = np.linalg.norm(found - np.roll(found, -1, 0), axis=1)
    return found if sides[0] < sides[1] else np.roll(found, -1, 0)


def scale_of(found):
    return np.sqrt(cv2.contourArea(found) / (SHEET[0] * SHEET[1]))


def homography(found, scale):
    width, height = SHEET
    sheet = np.array([[0, 0], [width, 0], [width, height], [0, height]])
    return cv2.findHomography(found, (sheet + MARGIN) * scale, 0)[0]


def warped(picture, matrix, scale):
    size = tuple(int((side + 2 * MARGIN) * scale) for side in SHEET)
    return cv2.warpPerspective(picture, matrix, size, flags=cv2.INTER_LINEAR)


def steel(above):
    grey = cv2.cvtColor(above, cv2.COLOR_BGR2GRAY)
    return cv2.threshold(grey, 0, 255, cv2.THRESH_BINARY_INV + cv2.THRESH_OTSU)[1]


def outlines(mask):
    return cv2.findContours(mask, cv2.RETR_CCOMP, cv2.CHAIN_APPROX_NONE)[0]


def timed(what, *given):
    """What comes of it, and the milliseconds that it takes as a mean."""
    since, times = time.perf_counter(), 0
    while not times or time.perf_counter() - since < FOR_SECONDS:
        result = what(*given)
        times += 1
    return result, (time.perf_counter() - since) * 1e3 / times


def steps(size, picture):
    found, of_corners = timed(corners, picture)
    scale = scale_of(found)
    matrix, of_map = timed(homography, found, scale)
    above, of_warp = timed(warped, picture, matrix, scale)
    mask, of_threshold = timed(steel, above)
    _, of_outlines = timed(outlines, mask)
    names = "the sheet's corners", "homography", "warp", "threshold", "contours"
    all_five = of_corners, of_map, of_warp, of_threshold, of_outlines
    for name, took in zip(names, all_five):
        print(f"{size}, {name}: {took:.2f} ms")
    for name, took in ("sheet", sum(all_five[:2])), ("steel", sum(all_five[2:])), ("all after decoding", sum(all_five)):
        print(f"{size}, {name}: {took:.1f} ms")


data = np.frombuffer(PHOTO.read_bytes(), np.uint8)
small, took = timed(cv2.imdecode, data, cv2.IMREAD_COLOR)
print(f"2 MP, decode: {took:.1f} ms")
steps("2 MP", small)
steps("12 MP", cv2.resize(small, None, fx=LARGER, fy=LARGER, interpolation=cv2.INTER_LINEAR))
