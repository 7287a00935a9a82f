use std::fmt;

/// What can be measured of a whole shoe from above: extents and angles of its outlines, and where
/// its fuller and nail holes lie.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Feature {
    /// Extent of the outer outline across the mirror axis.
    OverallWidth,
    /// Extent of the outer outline along the mirror axis.
    OverallLength,
    /// Width of the web on the mirror axis.
    WebToe,
    /// Width of the web at a quarter of the left branch.
    WebToeQuarterLeft,
    /// Of the right branch.
    WebToeQuarterRight,
    /// Width of the web half way along the left branch.
    WebQuarterLeft,
    /// Of the right branch.
    WebQuarterRight,
    /// Width of the web at four fifths of the left branch.
    WebHeelLeft,
    /// Of the right branch.
    WebHeelRight,
    /// Length along the outer edge of the left branch.
    BranchLengthLeft,
    /// Of the right branch.
    BranchLengthRight,
    /// Distance straight from the toe to the left heel corner.
    BranchChordLeft,
    /// To the right heel corner.
    BranchChordRight,
    /// Largest distance of either branch from the mirror image of the other, over the first 90 %.
    BranchDeviationMax,
    /// Root mean square of those distances.
    BranchDeviationRms,
    /// Radius of the circle through the toe.
    ToeRadius,
    /// Width of the bar on the mirror axis.
    BarWidth,
    /// Straightness of the bar's back edge.
    BarBackStraightness,
    /// Angle of the bar's back edge from square to the mirror axis.
    BarBackSquareness,
    /// Least distance between the heels.
    HeelGap,
    /// From the outer edge to the middle of the fuller, at each nail hole.
    FullerInset,
    /// Width of the fuller, of each branch.
    FullerWidth,
    /// Length along the outer edge from the toe to where the left branch's fuller ends.
    FullerEndLeft,
    /// Of the right branch.
    FullerEndRight,
    /// From the outer edge to the centre of each nail hole.
    HoleInset,
    /// From the centre of each nail hole to that of the next one behind it.
    HoleSpacing,
    /// Length along the outer edge from the toe to the left branch's last nail hole.
    HeelHoleLeft,
    /// Of the right branch.
    HeelHoleRight,
}

impl Feature {
    /// All of them, in the order of a sheet.
    pub const ALL: [Self; 28] = [
        Self::OverallWidth,
        Self::OverallLength,
        Self::WebToe,
        Self::WebToeQuarterLeft,
        Self::WebToeQuarterRight,
        Self::WebQuarterLeft,
        Self::WebQuarterRight,
        Self::WebHeelLeft,
        Self::WebHeelRight,
        Self::BranchLengthLeft,
        Self::BranchLengthRight,
        Self::BranchChordLeft,
        Self::BranchChordRight,
        Self::BranchDeviationMax,
        Self::BranchDeviationRms,
        Self::ToeRadius,
        Self::BarWidth,
        Self::BarBackStraightness,
        Self::BarBackSquareness,
        Self::HeelGap,
        Self::FullerInset,
        Self::FullerWidth,
        Self::FullerEndLeft,
        Self::FullerEndRight,
        Self::HoleInset,
        Self::HoleSpacing,
        Self::HeelHoleLeft,
        Self::HeelHoleRight,
    ];

    /// Its name for people and in rubrics: `web heel left`.
    pub fn word(self) -> &'static str {
        match self {
            Self::OverallWidth => "overall width",
            Self::OverallLength => "overall length",
            Self::WebToe => "web toe",
            Self::WebToeQuarterLeft => "web toe quarter left",
            Self::WebToeQuarterRight => "web toe quarter right",
            Self::WebQuarterLeft => "web quarter left",
            Self::WebQuarterRight => "web quarter right",
            Self::WebHeelLeft => "web heel left",
            Self::WebHeelRight => "web heel right",
            Self::BranchLengthLeft => "branch length left",
            Self::BranchLengthRight => "branch length right",
            Self::BranchChordLeft => "branch chord left",
            Self::BranchChordRight => "branch chord right",
            Self::BranchDeviationMax => "branch deviation max",
            Self::BranchDeviationRms => "branch deviation rms",
            Self::ToeRadius => "toe radius",
            Self::BarWidth => "bar width",
            Self::BarBackStraightness => "bar back straightness",
            Self::BarBackSquareness => "bar back squareness",
            Self::HeelGap => "heel gap",
            Self::FullerInset => "fuller inset",
            Self::FullerWidth => "fuller width",
            Self::FullerEndLeft => "fuller end left",
            Self::FullerEndRight => "fuller end right",
            Self::HoleInset => "hole inset",
            Self::HoleSpacing => "hole spacing",
            Self::HeelHoleLeft => "heel hole left",
            Self::HeelHoleRight => "heel hole right",
        }
    }

    /// The one of that name.
    pub fn from_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|one| one.word() == word)
    }

    /// Those of the left and the right branch that share the rest of their name: of `web heel`,
    /// `web heel left` and `web heel right`.
    pub fn pair(word: &str) -> Option<[Self; 2]> {
        let of = |side: &str| Self::from_word(&format!("{word} {side}"));
        Some([of("left")?, of("right")?])
    }

    /// The same of the other branch; itself where it is of neither or of both.
    #[must_use]
    pub fn mirrored(self) -> Self {
        let word = self.word();
        let other = [("left", "right"), ("right", "left")];
        let found = other.into_iter().find_map(|(from, to)| {
            let stem = word.strip_suffix(from)?;
            Self::from_word(&format!("{stem}{to}"))
        });
        found.unwrap_or(self)
    }

    /// Whether a shoe has several of it: at each hole, in each gap or on each branch.
    pub fn is_many(self) -> bool {
        matches!(
            self,
            Self::FullerInset | Self::FullerWidth | Self::HoleInset | Self::HoleSpacing
        )
    }

    /// Whether it rests on nail holes, so that one that is not seen leaves it wrong.
    pub fn rests_on_holes(self) -> bool {
        matches!(
            self,
            Self::FullerInset
                | Self::HoleInset
                | Self::HoleSpacing
                | Self::HeelHoleLeft
                | Self::HeelHoleRight
        )
    }

    /// Whether it is an angle, in radians; all others are in mm.
    pub fn is_angle(self) -> bool {
        self == Self::BarBackSquareness
    }
}

impl fmt::Display for Feature {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(self.word())
    }
}
