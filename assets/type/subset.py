"""Cuts Noto Sans SC and JP down to what the program needs. Needs fontTools 4.38 or later.

    npm pack @expo-google-fonts/noto-sans-sc@0.4.3 && mkdir sc && tar xzf expo-google-fonts-noto-sans-sc-0.4.3.tgz -C sc
    npm pack @expo-google-fonts/noto-sans-jp@0.4.3 && mkdir jp && tar xzf expo-google-fonts-noto-sans-jp-0.4.3.tgz -C jp
    python3 assets/type/subset.py

Latin, punctuation and full-width forms go into both; GB 2312, both levels, into SC; kana and JIS X 0208 into JP; the
characters with the fish radical, of which names of fishes are made, into both. Layout tables for vertical setting are dropped, and the
height of a line is that of the family beside it.
"""
from fontTools import subset


def table(encoding, first, last):
    """The characters of the rows of a 94 by 94 character set."""
    out = set()
    for a in range(first, last + 1):
        for b in range(0xA1, 0xFF):
            try:
                out.add(ord(bytes([a, b]).decode(encoding)))
            except (UnicodeDecodeError, TypeError):
                pass  # an empty place
    return out


LATIN = (set(range(0x20, 0x7F)) | set(range(0xA0, 0x180)) | set(range(0x2010, 0x2028)) | set(range(0x2030, 0x203B)) | set(range(0x2070, 0x209D))
         | {0x20AC, 0x2116, 0x2122, 0x2190, 0x2191, 0x2192, 0x2193, 0x2212, 0x2248, 0x2260, 0x2264, 0x2265, 0xFFE5})
WIDE = set(range(0x3000, 0x3020)) | set(range(0xFF01, 0xFF5F))
FISH = set(range(0x9B5A, 0x9CE5))
# The lines of Atkinson Hyperlegible Next, so that a name in Chinese stands in a line of Latin. Han characters reach from -97 to 860.
ASCENT, DESCENT = 984, 316
KEEP = {
    'SC': LATIN | WIDE | FISH | table('gb2312', 0xA1, 0xF7),
    'JP': LATIN | WIDE | FISH | set(range(0x3041, 0x3100)) | table('euc_jp', 0xA1, 0xF4),
}

for script, keep in KEEP.items():
    for weight, source in (('Regular', '400Regular'), ('SemiBold', '600SemiBold')):
        o = subset.Options()
        o.layout_features = []
        o.hinting = False
        o.name_IDs = ['*']
        o.notdef_outline = True
        o.drop_tables += ['GSUB', 'GPOS', 'GDEF', 'BASE', 'vhea', 'vmtx', 'VORG', 'STAT', 'gasp', 'DSIG']
        o.glyph_names = False
        o.recalc_timestamp = False
        font = subset.load_font(f'{script.lower()}/package/{source}/NotoSans{script}_{source}.ttf', o)
        s = subset.Subsetter(o)
        s.populate(unicodes=keep)
        s.subset(font)
        font['hhea'].ascent, font['hhea'].descent, font['hhea'].lineGap = ASCENT, -DESCENT, 0
        os2 = font['OS/2']
        os2.sTypoAscender, os2.sTypoDescender, os2.sTypoLineGap, os2.usWinAscent, os2.usWinDescent = ASCENT, -DESCENT, 0, ASCENT, DESCENT
        subset.save_font(font, f'assets/type/NotoSans{script}-{weight}.ttf', o)
