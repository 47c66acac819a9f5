#!/usr/bin/python3
"""Makes the two faces that every PDF carries, again, from Liberation Sans 2.

    /usr/bin/python3 export/faces/make_faces.py [--check] [DIRECTORY OF LIBERATION SANS]

Needs python3-fonttools and fonts-liberation2 (or a later fonts-liberation). Writes the deflated
faces beside itself, and prints what export/lettering/base_face.cpp says of them. With --check it writes
nothing, and fails where it would write other bytes. The build does not run it: its bytes could
differ with the version of a tool, and the same order shall give the same bytes everywhere.

The licence (OFL.txt) reserves the name of the original, so that what is made here has another.
"""
import io
import pathlib
import sys
import zlib

from fontTools import subset
from fontTools.pens.recordingPen import DecomposingRecordingPen
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.ttLib import TTFont

HERE = pathlib.Path(__file__).resolve().parent
MINUS = 0x2212
MINUS_CODE = 0x81  # of those that WinAnsiEncoding leaves free

# Thousandths of the em, where the widths of Helvetica (Adobe's core 14 metrics) are others than
# Liberation's: regular, bold. The minus is as wide as a dash and figures are, not as in Helvetica.
WIDTHS = {
    0xAF: (333, 333),  # macron
    0xB1: (584, 584),  # plus-minus
    0xB5: (556, 611),  # micro
    0xB7: (278, 278),  # middle dot
    0xF7: (584, 584),  # division
    MINUS: (556, 556),
}

COPYRIGHT = (
    "Digitized data copyright (c) 2010 Google Corporation with Reserved Font Arimo, Tinos and "
    "Cousine. Copyright (c) 2012 Red Hat, Inc. with Reserved Font Name Liberation. Cut down, some "
    "widths changed and renamed by the contributors of Shankline, 2026."
)
LICENCE = "SIL Open Font License, Version 1.1"
LICENCE_AT = "https://openfontlicense.org"


def characters():
    """By code: WinAnsiEncoding (ISO 32000-1, annex D) and the minus."""
    free = {0x7F, 0x81, 0x8D, 0x8F, 0x90, 0x9D}
    by_code = {c: ord(bytes([c]).decode("cp1252")) for c in range(0x20, 0x100) if c not in free}
    by_code[MINUS_CODE] = MINUS
    return by_code


def set_width(face, unicode, thousandths):
    """The glyph in the middle of its new width, narrowed where it would stick out."""
    em = face["head"].unitsPerEm
    name = face.getBestCmap()[unicode]
    glyph = face["glyf"][name]
    old, _ = face["hmtx"][name]
    new = round(thousandths * em / 1000)
    if glyph.isComposite():
        outline = DecomposingRecordingPen(face.getGlyphSet())
        face.getGlyphSet()[name].draw(outline)
        pen = TTGlyphPen(None)
        outline.replay(pen)
        glyph = face["glyf"][name] = pen.glyph()
        glyph.recalcBounds(face["glyf"])
    scale = min(1, new / (glyph.xMax - glyph.xMin))
    glyph.coordinates.translate((-old / 2, 0))
    glyph.coordinates.scale((scale, 1))
    glyph.coordinates.translate((new / 2, 0))
    glyph.coordinates.toInt()
    glyph.recalcBounds(face["glyf"])
    face["hmtx"][name] = (new, glyph.xMin)


def rename(face, bold):
    style = "Bold" if bold else "Regular"
    postscript = "ShanklineSans-Bold" if bold else "ShanklineSans"
    names = face["name"]
    names.names = []
    words = {
        0: COPYRIGHT,
        1: "Shankline Sans",
        2: style,
        3: f"{postscript} 1.0",
        4: f"Shankline Sans {style}" if bold else "Shankline Sans",
        5: "Version 1.0",
        6: postscript,
        13: LICENCE,
        14: LICENCE_AT,
    }
    for number, text in words.items():
        names.setName(text, number, 3, 1, 0x409)
    face["OS/2"].achVendID = "    "


def cut(source, bold):
    face = TTFont(source, recalcTimestamp=False)
    options = subset.Options()
    options.hinting = False
    options.layout_features = []
    options.notdef_outline = True
    options.drop_tables += ["GSUB", "GPOS", "GDEF", "kern", "DSIG", "FFTM", "gasp"]
    subsetter = subset.Subsetter(options)
    subsetter.populate(unicodes=characters().values())
    subsetter.subset(face)
    for unicode, widths in WIDTHS.items():
        set_width(face, unicode, widths[bold])
    face["cmap"].tables = [t for t in face["cmap"].tables if (t.platformID, t.platEncID) == (3, 1)]
    rename(face, bold)
    made = io.BytesIO()
    face.save(made, reorderTables=False)
    return made.getvalue()


def describe(data):
    face = TTFont(io.BytesIO(data))
    em = face["head"].unitsPerEm

    def thousandths(length):
        return round(length * 1000 / em)

    cmap = face.getBestCmap()
    by_code = characters()
    widths = [
        thousandths(face["hmtx"][cmap[by_code[c]]][0]) if c in by_code else 0
        for c in range(0x20, 0x100)
    ]
    box = [thousandths(getattr(face["head"], side)) for side in ("xMin", "yMin", "xMax", "yMax")]
    print(face["name"].getDebugName(6), "length", len(data), "box", *box)
    glyphs = face["glyf"]
    print("ascent", thousandths(glyphs[cmap[ord("l")]].yMax),
          "descent", thousandths(glyphs[cmap[ord("p")]].yMin),
          "capitals", thousandths(face["OS/2"].sCapHeight))
    for row in range(0, len(widths), 16):
        print("    " + ", ".join(map(str, widths[row:row + 16])) + ",")


def main():
    words = sys.argv[1:]
    check = "--check" in words
    folders = [w for w in words if w != "--check"]
    folder = pathlib.Path(folders[0] if folders else "/usr/share/fonts/truetype/liberation2")
    same = True
    for bold, source, target in (
        (False, "LiberationSans-Regular.ttf", "shankline_sans.ttf.z"),
        (True, "LiberationSans-Bold.ttf", "shankline_sans_bold.ttf.z"),
    ):
        data = cut(folder / source, bold)
        deflated = zlib.compress(data, 9)
        if check:
            same = same and (HERE / target).read_bytes() == deflated
            continue
        (HERE / target).write_bytes(deflated)
        describe(data)
    if not same:
        raise SystemExit("other bytes than the faces here: other versions of the original or tools")


if __name__ == "__main__":
    main()
