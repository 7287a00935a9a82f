use crate::piece::Feature;
use crate::sheet::capital;

/// Inside of an SVG element: a bar shoe with a number where each measure is taken. A test draws
/// it anew from the outlines of a known shoe, by the code that measures.
pub const MEASURES_DRAWN: &str = include_str!("measures.svg");
/// What is shown of it, as SVG's `viewBox`.
pub const MEASURES_BOX: &str = "-95 -20 190 170";

/// The number by which a measure is told, from 1: the same in every photo.
pub fn number(feature: Feature) -> usize {
    let place = Feature::ALL.iter().position(|one| *one == feature);
    place.map_or(0, |place| place + 1)
}

/// Every measure with its number, its name and how it is defined.
pub fn definitions() -> Vec<(usize, String, &'static str)> {
    let all = Feature::ALL.into_iter();
    all.map(|feature| {
        let name = capital(feature.word());
        (number(feature), name, definition(feature))
    })
    .collect()
}

/// How a measure is defined; frame, circles and zones are those of [`crate::gauge::features`].
fn definition(feature: Feature) -> &'static str {
    match feature {
        Feature::OverallWidth => {
            "How far the outer edge reaches across the middle line, from its furthest place on the left to that on the right."
        }
        Feature::OverallLength => {
            "How far it reaches along the middle line, from the toe to the furthest place behind."
        }
        Feature::WebToe => "Width of the steel on the middle line at the toe.",
        Feature::WebToeQuarterLeft | Feature::WebToeQuarterRight => {
            "Width of the steel square to the outer edge, a quarter of the way along the branch from the toe."
        }
        Feature::WebQuarterLeft | Feature::WebQuarterRight => "The same half way along.",
        Feature::WebHeelLeft | Feature::WebHeelRight => "The same at four fifths.",
        Feature::BranchLengthLeft | Feature::BranchLengthRight => {
            "Along the outer edge from the toe to the heel corner: the place that reaches furthest back and out, at 45 degrees."
        }
        Feature::BranchChordLeft | Feature::BranchChordRight => {
            "Straight from the toe to the heel corner."
        }
        Feature::BranchDeviationMax => {
            "The largest distance of a branch from the mirror image of the other one, over the first nine tenths of both. A branch that is pushed out by 1 mm shows half of it or less, as the middle line turns towards it."
        }
        Feature::BranchDeviationRms => {
            "The same over all places together: the root of the mean of squares."
        }
        Feature::ToeRadius => {
            "Radius of the circle that comes nearest to the toe, over 35 degrees to either side (least squares; Gander, Golub and Strebel 1994)."
        }
        Feature::BarWidth => "Width of the bar on the middle line.",
        Feature::BarBackStraightness => {
            "Least distance of two parallels that hold the back edge between them, over the middle four fifths between the heel corners (ISO 12780)."
        }
        Feature::BarBackSquareness => {
            "Angle of the same part of the back edge from square to the middle line; above zero where its right end lies further back."
        }
        Feature::HeelGap => {
            "Of an open shoe: least distance between the inner edges, across the middle line, over the last fifth of the length."
        }
        Feature::FullerInset => {
            "From the outer edge to the middle of the groove, beside each nail hole; from the toe back, left and then right."
        }
        Feature::FullerWidth => "Width of the groove at the ground face, left and right.",
        Feature::FullerEndLeft | Feature::FullerEndRight => {
            "Along the outer edge from the toe to where the groove ends."
        }
        Feature::HoleInset => {
            "From the outer edge to the centre of each nail hole; from the toe back, left and then right."
        }
        Feature::HoleSpacing => {
            "Straight from the centre of each nail hole to that of the next one behind it, left and then right."
        }
        Feature::HeelHoleLeft | Feature::HeelHoleRight => {
            "Along the outer edge from the toe to the place beside the last nail hole."
        }
    }
}
