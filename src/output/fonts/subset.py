"""Makes the two faces that PDFs are set in from Noto Sans, as Debian's fonts-noto-core ships it.

    apt-get download fonts-noto-core && dpkg -x fonts-noto-core_*.deb noto
    python3 -m venv venv && venv/bin/pip install fonttools==4.68.0
    venv/bin/python subset.py noto/usr/share/fonts/truetype/noto .

Signs that Noto Sans lacks come from Noto Sans Math, Noto Sans Symbols and Noto Sans Symbols 2;
the minus is cut from each face's own plus, so that it weighs as the digits do. U+FFFD is drawn
as a box with a dot, an em wide: it stands for what the faces lack.
"""

import sys
from fontTools.pens.recordingPen import DecomposingRecordingPen
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.pens.cu2quPen import Cu2QuPen
from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont

# Latin with Vietnamese, Greek, Cyrillic, combining marks, punctuation, figures above and below,
# money, letterlike signs, fractions.
RANGES = [
    (0x20, 0x7E), (0xA0, 0x24F), (0x2B0, 0x2FF), (0x300, 0x345), (0x370, 0x3FF), (0x400, 0x4FF),
    (0x1E00, 0x1EFF), (0x2000, 0x2027), (0x202F, 0x205F), (0x2070, 0x209F), (0x20A0, 0x20BF),
    (0x2100, 0x214F), (0x2150, 0x218F), (0xFB01, 0xFB02),
]
MATH = "√≤≥≠≈≡∞∑∏∆∂∫∅∈∩∪⊥∥∠∝≪≫∙←↑→↓↔↕⇒⇔"
SYMBOLS = "⌀"
SYMBOLS2 = "✓✔✗✘□■▢▲△▼▽◆◇●○◯★☆☐☑☒"
MINUS, PLUS, MISSING = 0x2212, 0x2B, 0xFFFD


def add(font, code, draw, advance):
    """Adds a glyph for `code`; `draw` draws it with the pen that it is given."""
    name = f"uni{code:04X}"
    pen = TTGlyphPen(None)
    draw(pen)
    glyph = pen.glyph()
    font["glyf"][name] = glyph
    font.setGlyphOrder(font["glyf"].glyphOrder)
    glyph.recalcBounds(font["glyf"])
    font["hmtx"][name] = (advance, getattr(glyph, "xMin", 0))
    for table in font["cmap"].tables:
        if table.isUnicode():
            table.cmap[code] = name


def copy(font, other, signs):
    cmap, glyphs = other.getBestCmap(), other.getGlyphSet()
    have = font.getBestCmap()
    for sign in signs:
        code = ord(sign)
        if code in have:
            continue
        name = cmap[code]
        recorded = DecomposingRecordingPen(glyphs)
        glyphs[name].draw(recorded)
        quadratic = "glyf" in other
        draw = lambda pen: recorded.replay(pen if quadratic else Cu2QuPen(pen, 1.0))
        add(font, code, draw, other["hmtx"][name][0])


def box(pen, left, bottom, right, top, is_hole=False):
    corners = [(left, bottom), (left, top), (right, top), (right, bottom)]
    corners = corners[::-1] if is_hole else corners
    pen.moveTo(corners[0])
    for corner in corners[1:]:
        pen.lineTo(corner)
    pen.closePath()


def minus(font):
    name = font.getBestCmap()[PLUS]
    recorded = DecomposingRecordingPen(font.getGlyphSet())
    font.getGlyphSet()[name].draw(recorded)
    points = [point for _, args in recorded.value for point in args]
    xs = sorted({x for x, _ in points})
    ys = sorted({y for _, y in points})
    add(font, MINUS, lambda pen: box(pen, xs[0], ys[1], xs[-1], ys[2]), font["hmtx"][name][0])


def missing(font):
    def draw(pen):
        box(pen, 60, -80, 940, 800)
        box(pen, 120, -20, 880, 740, is_hole=True)
        box(pen, 440, 300, 560, 420)

    if MISSING in font.getBestCmap():
        for table in font["cmap"].tables:
            table.cmap.pop(MISSING, None)
    add(font, MISSING, draw, 1000)


def main(folder, target):
    for weight in ["Regular", "Bold"]:
        font = TTFont(f"{folder}/NotoSans-{weight}.ttf", recalcTimestamp=False)
        minus(font)
        missing(font)
        copy(font, TTFont(f"{folder}/NotoSansMath-Regular.ttf"), MATH)
        copy(font, TTFont(f"{folder}/NotoSansSymbols-{weight}.ttf"), SYMBOLS)
        copy(font, TTFont(f"{folder}/NotoSansSymbols2-Regular.ttf"), SYMBOLS2)
        options = Options()
        options.hinting = False
        options.notdef_outline = True
        options.layout_features = ["kern", "mark", "mkmk", "ccmp", "locl"]
        options.drop_tables += ["STAT", "DSIG", "meta"]
        options.name_IDs = [0, 1, 2, 3, 4, 5, 6, 7, 13, 14]
        options.glyph_names = False
        subsetter = Subsetter(options)
        wanted = [code for first, last in RANGES for code in range(first, last + 1)]
        signs = [ord(sign) for sign in MATH + SYMBOLS + SYMBOLS2]
        subsetter.populate(unicodes=wanted + signs + [MINUS, MISSING])
        subsetter.subset(font)
        font.save(f"{target}/noto-sans-{weight.lower()}.ttf")


main(*sys.argv[1:])
