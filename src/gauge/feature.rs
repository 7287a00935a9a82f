use super::features::{Heels, Measures};
use crate::piece::Feature;

/// Whether it cannot be less than nothing, so that noise only ever raises it.
pub fn is_raised_by_noise(feature: Feature) -> bool {
    matches!(
        feature,
        Feature::BranchDeviationMax | Feature::BranchDeviationRms | Feature::BarBackStraightness
    )
}

/// Whether it rests on the inner edge, which on a concave section lies lower than the ground face
/// and so appears elsewhere.
pub fn rests_on_inner(feature: Feature) -> bool {
    matches!(
        feature,
        Feature::WebToe
            | Feature::WebToeQuarterLeft
            | Feature::WebToeQuarterRight
            | Feature::WebQuarterLeft
            | Feature::WebQuarterRight
            | Feature::WebHeelLeft
            | Feature::WebHeelRight
            | Feature::BarWidth
            | Feature::HeelGap
    )
}

/// Its value; `None` where such a shoe has none, and of what does not rest on outlines alone.
pub fn value_of(feature: Feature, measures: &Measures) -> Option<f64> {
    let webs = &measures.webs;
    let (bar, gap) = match measures.heels {
        Heels::Bar(bar) => (Some(bar), None),
        Heels::Open(gap) => (None, Some(gap)),
    };
    match feature {
        Feature::OverallWidth => Some(measures.width),
        Feature::OverallLength => Some(measures.length),
        Feature::WebToe => Some(webs.toe),
        Feature::WebToeQuarterLeft => Some(webs.toe_quarters.left),
        Feature::WebToeQuarterRight => Some(webs.toe_quarters.right),
        Feature::WebQuarterLeft => Some(webs.quarters.left),
        Feature::WebQuarterRight => Some(webs.quarters.right),
        Feature::WebHeelLeft => Some(webs.heels.left),
        Feature::WebHeelRight => Some(webs.heels.right),
        Feature::BranchLengthLeft => Some(measures.branches.left),
        Feature::BranchLengthRight => Some(measures.branches.right),
        Feature::BranchChordLeft => Some(measures.heel_corners.left.to_vec2().hypot()),
        Feature::BranchChordRight => Some(measures.heel_corners.right.to_vec2().hypot()),
        Feature::BranchDeviationMax => Some(measures.deviation.first_most.by.abs()),
        Feature::BranchDeviationRms => Some(measures.deviation.first_rms),
        Feature::ToeRadius => Some(measures.toe_circle.radius),
        Feature::BarWidth => Some(bar?.width),
        Feature::BarBackStraightness => Some(bar?.straightness),
        Feature::BarBackSquareness => Some(bar?.angle),
        Feature::HeelGap => gap,
        // These do not rest on outlines alone; see `fuller_measures` and `hole_measures`.
        Feature::FullerInset
        | Feature::FullerWidth
        | Feature::FullerEndLeft
        | Feature::FullerEndRight
        | Feature::HoleInset
        | Feature::HoleSpacing
        | Feature::HeelHoleLeft
        | Feature::HeelHoleRight => None,
    }
}
