use super::Sheet;

/// What is known of what lies on the ground and gives the scale.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct About {
    /// What it is called.
    pub name: &'static str,
    /// Its short side and its long one, in mm.
    pub size: (f64, f64),
    /// The radius of its corners, in mm.
    pub rounding: f64,
    /// How high its upper face lies above the ground, in mm, with its standard uncertainty.
    pub thickness: (f64, f64),
    /// Whether it lies beside the shoe, on the same light ground, and not under it.
    pub is_beside: bool,
    /// Whether it may be darker than the ground.
    pub may_be_dark: bool,
    /// A side is looked for within so many pixels of the small picture in which it was found.
    pub reach: f64,
    /// A side lies off as a whole by this, in mm: noise of edges alone does not tell that.
    pub side_off: f64,
    /// The overall width is told where it is known at least to this, in mm, about 95 %.
    pub most_vague: f64,
}

/// Paper: as flat and thin as nothing, brighter than the ground, under the shoe.
const PAPER: About = About {
    name: "sheet",
    size: (210.0, 297.0),
    rounding: 0.0,
    thickness: (0.0, 0.0),
    is_beside: false,
    may_be_dark: false,
    reach: 6.0,
    side_off: 0.0,
    most_vague: f64::INFINITY,
};

/// *Source:* ISO/IEC 7810:2019, ID-1, for size, corners, thickness (0.76 mm ± 0.08 mm) and how
/// much cards differ, 0.12 mm at most. Its edge is rounded and casts a thin shadow: so much of
/// `side_off` is a judgement, as is what is too vague.
const CARD: About = About {
    name: "card",
    size: (53.98, 85.60),
    rounding: 3.18,
    thickness: (0.76, 0.05),
    is_beside: true,
    may_be_dark: true,
    reach: 3.0,
    side_off: 0.1,
    most_vague: 2.0,
};

impl Sheet {
    /// What is known of it.
    ///
    /// *Source:* ISO 216 for A4; ANSI/ASME Y14.1, size A, for US Letter.
    pub fn about(self) -> About {
        match self {
            Self::A4 => PAPER,
            Self::Letter => About {
                size: (215.9, 279.4),
                ..PAPER
            },
            Self::Card => CARD,
        }
    }
}
