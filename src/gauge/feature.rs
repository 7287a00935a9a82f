use super::features::{Heels, Measures};

/// What is measured of a whole shoe.
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
}

impl Feature {
    /// All of them, in the order of a sheet.
    pub const ALL: [Self; 18] = [
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
        Self::BranchDeviationMax,
        Self::BranchDeviationRms,
        Self::ToeRadius,
        Self::BarWidth,
        Self::BarBackStraightness,
        Self::BarBackSquareness,
        Self::HeelGap,
    ];

    /// Its name in files.
    pub fn name(self) -> &'static str {
        match self {
            Self::OverallWidth => "overall_width",
            Self::OverallLength => "overall_length",
            Self::WebToe => "web_toe",
            Self::WebToeQuarterLeft => "web_toe_quarter_left",
            Self::WebToeQuarterRight => "web_toe_quarter_right",
            Self::WebQuarterLeft => "web_quarter_left",
            Self::WebQuarterRight => "web_quarter_right",
            Self::WebHeelLeft => "web_heel_left",
            Self::WebHeelRight => "web_heel_right",
            Self::BranchLengthLeft => "branch_length_left",
            Self::BranchLengthRight => "branch_length_right",
            Self::BranchDeviationMax => "branch_deviation_max",
            Self::BranchDeviationRms => "branch_deviation_rms",
            Self::ToeRadius => "toe_radius",
            Self::BarWidth => "bar_width",
            Self::BarBackStraightness => "bar_back_straightness",
            Self::BarBackSquareness => "bar_back_squareness",
            Self::HeelGap => "heel_gap",
        }
    }

    /// Whether it is an angle, in radians; all others are in mm.
    pub fn is_angle(self) -> bool {
        self == Self::BarBackSquareness
    }

    /// Whether it cannot be less than nothing, so that noise only ever raises it.
    pub fn is_raised_by_noise(self) -> bool {
        matches!(
            self,
            Self::BranchDeviationMax | Self::BranchDeviationRms | Self::BarBackStraightness
        )
    }

    /// Whether it rests on the toe's outer edge, where a bevel would hide it.
    pub fn rests_on_toe(self) -> bool {
        matches!(
            self,
            Self::OverallLength
                | Self::WebToe
                | Self::ToeRadius
                | Self::BranchLengthLeft
                | Self::BranchLengthRight
                | Self::BranchDeviationMax
                | Self::BranchDeviationRms
        )
    }

    /// Whether it rests on all of the outer edge, or on where that reaches furthest.
    pub fn rests_on_outline(self) -> bool {
        matches!(
            self,
            Self::OverallWidth
                | Self::OverallLength
                | Self::BranchLengthLeft
                | Self::BranchLengthRight
                | Self::BranchDeviationMax
                | Self::BranchDeviationRms
        )
    }

    /// Its value; `None` where such a shoe has none.
    pub fn of(self, measures: &Measures) -> Option<f64> {
        let webs = &measures.webs;
        let (bar, gap) = match measures.heels {
            Heels::Bar(bar) => (Some(bar), None),
            Heels::Open(gap) => (None, Some(gap)),
        };
        match self {
            Self::OverallWidth => Some(measures.width),
            Self::OverallLength => Some(measures.length),
            Self::WebToe => Some(webs.toe),
            Self::WebToeQuarterLeft => Some(webs.toe_quarters.left),
            Self::WebToeQuarterRight => Some(webs.toe_quarters.right),
            Self::WebQuarterLeft => Some(webs.quarters.left),
            Self::WebQuarterRight => Some(webs.quarters.right),
            Self::WebHeelLeft => Some(webs.heels.left),
            Self::WebHeelRight => Some(webs.heels.right),
            Self::BranchLengthLeft => Some(measures.branches.left),
            Self::BranchLengthRight => Some(measures.branches.right),
            Self::BranchDeviationMax => Some(measures.deviation.first_most.by.abs()),
            Self::BranchDeviationRms => Some(measures.deviation.first_rms),
            Self::ToeRadius => Some(measures.toe_circle.radius),
            Self::BarWidth => Some(bar?.width),
            Self::BarBackStraightness => Some(bar?.straightness),
            Self::BarBackSquareness => Some(bar?.angle),
            Self::HeelGap => gap,
        }
    }
}
