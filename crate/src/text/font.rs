//! What the lettering needs of a font file: outlines, widths, which glyph a letter is, and a few measures for papers.
//!
//! The tables are read one by one by ttf-parser. Its `Face` reads every kind of font: with its code for outlines that these
//! faces don't have (PostScript's, which need numbers read from text) the page was 26 KB longer, deflated.

use ttf_parser::{
    GlyphId, OutlineBuilder, RawFace, Rect, Tag, cmap, glyf, head, hhea, hmtx, loca, maxp, os2, post,
};

/// A font with TrueType outlines. Measures are in its own units, [`Font::em`] of them to the em.
pub(crate) struct Font {
    /// Units to the em.
    pub(crate) em: u16,
    /// What no glyph reaches beyond.
    pub(crate) bounds: Rect,
    /// How far the highest letters reach above the baseline.
    pub(crate) ascender: i16,
    /// How far the lowest reach: negative below the baseline.
    pub(crate) descender: i16,
    /// How high capitals are, where the font says.
    pub(crate) capital_height: Option<i16>,
    /// Degrees from the upright, negative for what leans to the right.
    pub(crate) italic_angle: f32,
    letters: cmap::Table<'static>,
    advances: hmtx::Table<'static>,
    outlines: glyf::Table<'static>,
}

impl Font {
    /// Reads a font; nothing where it lacks one of the tables.
    pub(super) fn read(data: &'static [u8]) -> Option<Self> {
        let raw = RawFace::parse(data, 0).ok()?;
        let table = |name: &[u8; 4]| raw.table(Tag::from_bytes(name));
        let head = head::Table::parse(table(b"head")?)?;
        let lines = hhea::Table::parse(table(b"hhea")?)?;
        let count = maxp::Table::parse(table(b"maxp")?)?.number_of_glyphs;
        let places = loca::Table::parse(count, head.index_to_location_format, table(b"loca")?)?;
        let measures = table(b"OS/2").and_then(os2::Table::parse);
        // A font says which of its two pairs of heights to take (OpenType, OS/2: `USE_TYPO_METRICS`).
        let (ascender, descender) = match measures {
            Some(of) if of.use_typographic_metrics() => {
                (of.typographic_ascender(), of.typographic_descender())
            }
            _ => (lines.ascender, lines.descender),
        };
        Some(Self {
            em: head.units_per_em,
            bounds: head.global_bbox,
            ascender,
            descender,
            capital_height: measures.and_then(|of| of.capital_height()),
            italic_angle: table(b"post").and_then(post::Table::parse).map_or(0.0, |of| of.italic_angle),
            letters: cmap::Table::parse(table(b"cmap")?)?,
            advances: hmtx::Table::parse(lines.number_of_metrics, count, table(b"hmtx")?)?,
            outlines: glyf::Table::parse(places, table(b"glyf")?)?,
        })
    }

    /// Which glyph a letter is; nothing for one that the font lacks.
    pub(crate) fn glyph(&self, letter: char) -> Option<GlyphId> {
        let subtables = self.letters.subtables.into_iter().filter(cmap::Subtable::is_unicode);
        subtables.filter_map(|subtable| subtable.glyph_index(u32::from(letter))).next()
    }

    /// How far a glyph moves the pen.
    pub(crate) fn advance(&self, glyph: GlyphId) -> u16 {
        self.advances.advance(glyph).unwrap_or(0)
    }

    /// Draws a glyph.
    pub(super) fn outline(&self, glyph: GlyphId, pen: &mut impl OutlineBuilder) {
        let _bounds = self.outlines.outline(glyph, pen);
    }
}
