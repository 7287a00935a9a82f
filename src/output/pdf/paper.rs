/// Points in a millimetre; a point is 1/72 inch, as PDF counts.
const MM: f32 = 72.0 / 25.4;

/// A sheet of paper, upright.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Hash)]
pub enum Paper {
    /// 210 mm by 297 mm (ISO 216).
    #[default]
    A4,
    /// 8.5 inches by 11 inches (ANSI/ASME Y14.1).
    Letter,
    /// 148 mm by 210 mm (ISO 216), half of A4.
    A5,
    /// 105 mm by 148 mm (ISO 216), a quarter of A4: a card for the pocket.
    A6,
}

impl Paper {
    /// Its width in points.
    pub fn width(self) -> f32 {
        match self {
            Self::A4 => 210.0 * MM,
            Self::Letter => 8.5 * 72.0,
            Self::A5 => 148.0 * MM,
            Self::A6 => 105.0 * MM,
        }
    }

    /// Its height in points.
    pub fn height(self) -> f32 {
        match self {
            Self::A4 => 297.0 * MM,
            Self::Letter => 11.0 * 72.0,
            Self::A5 => 210.0 * MM,
            Self::A6 => 148.0 * MM,
        }
    }

    /// What is left white on each side, in points.
    pub fn margin(self) -> f32 {
        match self {
            Self::A4 | Self::Letter => 15.0 * MM,
            Self::A5 => 11.0 * MM,
            Self::A6 => 8.0 * MM,
        }
    }

    /// How wide the text is, in points.
    pub(super) fn text_width(self) -> f32 {
        self.width() - 2.0 * self.margin()
    }

    /// How high the text may be, in points.
    pub(super) fn text_height(self) -> f32 {
        self.height() - 2.0 * self.margin()
    }

    /// Base line of the foot, in points from the upper edge.
    pub(super) fn foot(self) -> f32 {
        self.height() - 0.6 * self.margin()
    }
}
