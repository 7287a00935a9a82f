/// A colour, as red, green and blue of sRGB.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Ink(pub(super) u8, pub(super) u8, pub(super) u8);

impl Ink {
    /// Text and what carries meaning.
    pub(super) const BLACK: Self = Self(0, 0, 0);
    /// Text of less weight: 8.4 to 1 on white, by the contrast ratio of WCAG 2.2.
    pub(super) const QUIET: Self = Self(77, 77, 77);
    /// Hairlines of tables.
    pub(super) const HAIR: Self = Self(153, 153, 153);
    /// Steel, and bars of an earlier time.
    pub(super) const STEEL: Self = Self(221, 221, 221);
    /// Behind the heading of a group of rows.
    pub(super) const WASH: Self = Self(238, 238, 238);
    /// Paper.
    pub(super) const WHITE: Self = Self(255, 255, 255);

    /// The temper colour of a band, 4 for all marks to 0 for none; the same as on the page
    /// by light.
    pub(super) fn of_band(band: u8) -> Self {
        match band {
            4.. => Self(0xea, 0xd5, 0x8a),
            3 => Self(0xd0, 0xa3, 0x50),
            2 => Self(0xad, 0x75, 0x40),
            1 => Self(0x7b, 0x56, 0x83),
            0 => Self(0x44, 0x59, 0x7f),
        }
    }

    /// The colour of the notches on a band.
    pub(super) fn of_notches(band: u8) -> Self {
        if band > 1 { Self::BLACK } else { Self::WHITE }
    }
}
