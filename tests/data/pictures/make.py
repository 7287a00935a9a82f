"""Draws the pictures of the tests: a shoe on paper, as a camera held sideways stores it, and more.

Run with Pillow: python3 make.py (written with Pillow 12). The picture is ours, drawn here.
EXIF 2.32 (CIPA DC-008): Orientation 6 means that the stored rows go down the right side of
what was seen, and GPS tags say where it was taken; both are put in on purpose.
"""

from pathlib import Path

from PIL import Image, ImageDraw

HERE = Path(__file__).parent
# As it is seen: upright, 1600 wide and 2400 high.
seen = Image.new("RGB", (1600, 2400), (236, 232, 224))
draw = ImageDraw.Draw(seen)
draw.arc((250, 300, 1350, 1700), 140, 400, fill=(70, 66, 64), width=220)
draw.rectangle((250, 1400, 1350, 1600), fill=(70, 66, 64))
draw.rectangle((100, 2100, 400, 2300), fill=(200, 60, 40))  # red, at the bottom left

stored = seen.transpose(Image.Transpose.ROTATE_90)  # orientation 6 turns it back
exif = Image.Exif()
exif[0x0112] = 6
exif[0x010F] = "No camera"
gps = exif.get_ifd(0x8825)
gps[1], gps[2] = "N", (51.0, 30.0, 0.0)
gps[3], gps[4] = "W", (2.0, 30.0, 0.0)
stored.save(HERE / "sideways.jpg", quality=60, exif=exif)

# A small one, clear but for a dark bar across: what shows through is to become paper.
clear = Image.new("RGBA", (60, 40), (0, 0, 0, 0))
ImageDraw.Draw(clear).rectangle((0, 15, 59, 25), fill=(40, 40, 40, 255))
clear.save(HERE / "clear.png")
