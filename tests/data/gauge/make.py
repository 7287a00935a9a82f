"""Draws the photo files of the tests: one picture, written in many ways, and files that are no photo.

Run with Pillow: python3 make.py (written with Pillow 13). The picture is ours: 400 × 300 pixels,
red growing to the right and green down, with a square of 60 pixels in each corner; decode.rs
works it out again by itself. EXIF 2.32 (CIPA DC-008), 4.6.4: Orientation says where the stored
first row and first column were seen.
"""

import struct
import zlib
from pathlib import Path

from PIL import Image
from PIL.TiffImagePlugin import IFDRational

HERE = Path(__file__).parent / "files"
WIDTH, HEIGHT, SQUARE = 400, 300, 60
CORNERS = {
    (0, 0): (220, 40, 40),
    (1, 0): (40, 180, 60),
    (0, 1): (40, 60, 220),
    (1, 1): (230, 210, 40),
}
# What brings the seen picture back to what was stored, by where its first row and column were seen.
STORED = {
    1: None,
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_90,  # Pillow turns against the clock
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_270,
}


def colour(x, y):
    if min(x, WIDTH - 1 - x) < SQUARE and min(y, HEIGHT - 1 - y) < SQUARE:
        return CORNERS[int(x >= SQUARE), int(y >= SQUARE)]
    return 40 + x * 160 // (WIDTH - 1), 60 + y * 120 // (HEIGHT - 1), 120


def exif(size, orientation=1, equivalent=None, sensor=None, noted=None):
    """Notes as a camera makes them; `sensor` is focal length in mm, pixels to the unit, unit."""
    notes = Image.Exif()
    notes[0x0112] = orientation
    camera = notes.get_ifd(0x8769)
    camera[0xA002], camera[0xA003] = noted or size
    if equivalent is not None:
        camera[0xA405] = equivalent
    if sensor:
        camera[0x920A], camera[0xA20E], camera[0xA20F] = (
            IFDRational(value)
            for value in (sensor[0], sensor[1], sensor[1])
        )
        camera[0xA210] = sensor[2]
    return notes


def save(name, picture=None, **how):
    (picture or seen).save(HERE / name, **how)


def block(name, body):
    return struct.pack(">I", len(body)) + name + body + struct.pack(">I", zlib.crc32(name + body))


def png(width, height, depth, kind, rows):
    head = struct.pack(">IIBBBBB", width, height, depth, kind, 0, 0, 0)
    blocks = (b"IHDR", head), (b"IDAT", zlib.compress(rows, 9)), (b"IEND", b"")
    return b"\x89PNG\r\n\x1a\n" + b"".join(block(*each) for each in blocks)


HERE.mkdir(exist_ok=True)
seen = Image.new("RGB", (WIDTH, HEIGHT))
seen.putdata([colour(x, y) for y in range(HEIGHT) for x in range(WIDTH)])
SIZE = (WIDTH, HEIGHT)

for orientation, back in STORED.items():
    stored = seen if back is None else seen.transpose(back)
    notes = exif(stored.size, orientation, equivalent=26)
    save(f"turned-{orientation}.jpg", stored, quality=70, exif=notes)
save("plain.jpg", quality=70)
save("grey.jpg", seen.convert("L"), quality=70)
save("progressive.jpg", quality=70, progressive=True)
save("cmyk.jpg", seen.convert("CMYK"), quality=50)
save("fine.jpg", quality=85, subsampling=0)

save("sensor.jpg", quality=50, exif=exif(SIZE, sensor=(50, 2540, 2), noted=(800, 600)))
save("zero.jpg", quality=50, exif=exif(SIZE, equivalent=0))
save("absurd.jpg", quality=50, exif=exif(SIZE, equivalent=65_535))
save("cropped.jpg", quality=50, exif=exif(SIZE, equivalent=26, noted=(4_000, 2_250)))

save("plain.png")
save("grey.png", seen.convert("L"))
save("palette.png", seen.quantize(64))
save("png-by-its-bytes.jpg", seen.convert("L"), format="PNG")
deep, above = b"", bytes(6 * WIDTH)
for y in range(HEIGHT):
    # The lower byte is to be dropped, whatever it is.
    row = bytes(part for x in range(WIDTH) for value in colour(x, y) for part in (value, 255 - value))
    # Each row as what it differs by from the one above: filter 2 (PNG, third edition, 9.2).
    deep += b"\2" + bytes((new - old) % 256 for new, old in zip(row, above))
    above = row
(HERE / "deep.png").write_bytes(png(WIDTH, HEIGHT, 16, 2, deep))
# Clear to the left of the middle, half clear to the right.
cover = Image.new("L", SIZE, 128)
cover.paste(0, (0, 0, WIDTH // 2, HEIGHT))
clear = seen.copy()
clear.putalpha(cover)
save("clear.png", clear)

save("lossless.webp", lossless=True)
save("lossy.webp", quality=70)
turned = seen.transpose(STORED[6])
save("turned-6.webp", turned, quality=70, exif=exif(turned.size, 6, equivalent=26).tobytes())
save("clear.webp", clear, lossless=True, exact=True)
other = seen.transpose(Image.Transpose.ROTATE_180)
save("moving.webp", save_all=True, append_images=[other], quality=30)
save("moving.png", seen.quantize(16), save_all=True, append_images=[other.quantize(16)])

dot = Image.new("RGB", (1, 1))
for ending in ("jpg", "png", "webp"):
    save(f"dot.{ending}", dot)
(HERE / "huge.png").write_bytes(png(60_000, 60_000, 8, 2, b""))
plain = bytearray((HERE / "plain.jpg").read_bytes())
at = plain.index(b"\xff\xc0") + 5
plain[at : at + 4] = struct.pack(">HH", 60_000, 60_000)
(HERE / "huge.jpg").write_bytes(plain)
