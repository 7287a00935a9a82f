/// Points in a millimetre; a point is 1/72 inch, as PDF counts.
const MM: f32 = 72.0 / 25.4;

/// A sheet of paper, upright.
///
/// On small paper everything is set smaller (`Format`). What lays text out counts in units
/// before that; only the press scales.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Hash)]
pub enum Paper {
    /// 210 mm by 297 mm (ISO 216).
    #[default]
    A4,
    /// 8.5 inches by 11 inches (ANSI/ASME Y14.1).
    Letter,
    /// 148 mm by 210 mm (ISO 216), half of A4.
    A5,
    /// 5.5 inches by 8.5 inches, half of Letter.
    HalfLetter,
    /// 105 mm by 148 mm (ISO 216), a quarter of A4: a card for the pocket.
    A6,
}

impl Paper {
    /// Its width and height in points.
    pub fn size(self) -> (f32, f32) {
        match self {
            Self::A4 => (210.0 * MM, 297.0 * MM),
            Self::Letter => (8.5 * 72.0, 11.0 * 72.0),
            Self::A5 => (148.0 * MM, 210.0 * MM),
            Self::HalfLetter => (5.5 * 72.0, 8.5 * 72.0),
            Self::A6 => (105.0 * MM, 148.0 * MM),
        }
    }

    /// How much smaller than on a whole page text and lines are: a card is read in the hand.
    fn scale(self) -> f32 {
        match self {
            Self::A4 | Self::Letter | Self::A5 | Self::HalfLetter => 1.0,
            Self::A6 => 0.8,
        }
    }
}

/// A sheet of paper, and how large what is on it is set.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Format {
    paper: Paper,
    /// What type and lines are multiplied by.
    pub(super) scale: f32,
}

impl Format {
    /// The paper with type as is usual on it, times `step`.
    pub(super) fn new(paper: Paper, step: f32) -> Self {
        Self {
            paper,
            scale: paper.scale() * step,
        }
    }

    /// Width and height of the paper in points, whatever the scale.
    pub(super) fn size(self) -> (f32, f32) {
        self.paper.size()
    }

    /// What is left white on each side.
    pub(super) fn margin(self) -> f32 {
        let margin = match self.paper {
            Paper::A4 | Paper::Letter => 13.0 * MM,
            Paper::A5 | Paper::HalfLetter => 11.0 * MM,
            Paper::A6 => 7.0 * MM,
        };
        margin / self.scale
    }

    /// The right edge of the paper.
    pub(super) fn width(self) -> f32 {
        self.size().0 / self.scale
    }

    /// The lower edge of the paper.
    fn height(self) -> f32 {
        self.size().1 / self.scale
    }

    /// A millimetre of the paper, whatever the scale.
    pub(super) fn millimetre(self) -> f32 {
        MM / self.scale
    }

    /// How wide the text is.
    pub(super) fn text_width(self) -> f32 {
        self.width() - 2.0 * self.margin()
    }

    /// How high the text may be.
    pub(super) fn text_height(self) -> f32 {
        self.height() - 2.0 * self.margin()
    }

    /// Base line of the foot, from the upper edge.
    pub(super) fn foot(self) -> f32 {
        self.height() - 0.6 * self.margin()
    }
}
