"""Says of a PNG on standard input: width, height, dots to the metre, black dots, white dots, as JSON.

Eight bits a channel, RGB or RGBA, not interlaced, as browsers write them; by Python's zlib alone.
"""

import json
import struct
import sys
import zlib

data = sys.stdin.buffer.read()
assert data[:8] == b"\x89PNG\r\n\x1a\n"
at, packed, density = 8, b"", 0
while at < len(data):
    (size,) = struct.unpack(">I", data[at : at + 4])
    name, body = data[at + 4 : at + 8], data[at + 8 : at + 8 + size]
    if name == b"IHDR":
        width, height, depth, kind, _, _, interlaced = struct.unpack(">IIBBBBB", body)
    elif name == b"IDAT":
        packed += body
    elif name == b"pHYs":
        density, _, unit = struct.unpack(">IIB", body)
        assert unit == 1
    at += 12 + size
assert (depth, interlaced) == (8, 0) and kind in (2, 6)
step = 3 if kind == 2 else 4
rows, wide = zlib.decompress(packed), width * step
before = bytearray(wide)
black = white = 0
for row in range(height):
    start = row * (wide + 1)
    rule, line = rows[start], bytearray(rows[start + 1 : start + 1 + wide])
    for i in range(wide):
        left = line[i - step] if i >= step else 0
        up, corner = before[i], before[i - step] if i >= step else 0
        if rule == 1:
            line[i] = (line[i] + left) & 255
        elif rule == 2:
            line[i] = (line[i] + up) & 255
        elif rule == 3:
            line[i] = (line[i] + (left + up) // 2) & 255
        elif rule == 4:
            guess = left + up - corner
            off = [abs(guess - left), abs(guess - up), abs(guess - corner)]
            line[i] = (line[i] + (left, up, corner)[off.index(min(off))]) & 255
    for i in range(0, wide, step):
        dot = bytes(line[i : i + 3])
        black += dot == b"\0\0\0"
        white += dot == b"\xff\xff\xff"
    before = line
json.dump([width, height, density, black, white], sys.stdout)
