//! Edges that something is known to hide: which places, and what rests on them.

use evenshod::gauge::features::Measures;
use evenshod::gauge::steel::Followed;
use evenshod::gauge::{Doubt, Hidden};
use evenshod::piece::Feature;
use kurbo::{Point, Vec2};

use super::features::known;

/// Outlines of which all is plain but so many places from the first on.
fn followed(lines: &[Vec<Point>], unclear: usize) -> Vec<Followed> {
    let each = lines.iter().map(|line| Followed {
        line: line.clone(),
        outward: vec![Vec2::ZERO; line.len()],
        unsure: vec![0.1; line.len()],
        likely: (0..line.len())
            .map(|place| if place < unclear { -9.0 } else { 0.0 })
            .collect(),
    });
    each.collect()
}

fn shoe(has_bar: bool) -> (Vec<Vec<Point>>, Measures) {
    let all = known();
    let mut all = all.iter();
    let shoe = all.find(|shoe| shoe.inner().is_empty() != has_bar).unwrap();
    let lines = [vec![shoe.outer()], shoe.inner()].concat();
    (lines, shoe.measured())
}

/// Of these, what is left blank.
fn blank(has_bar: bool, hidden: Hidden, of: &[Feature]) -> Vec<Feature> {
    let (lines, measures) = shoe(has_bar);
    let doubt = Doubt::of(&followed(&lines, 0), measures.under(hidden));
    assert_eq!(
        doubt.share, 0.0,
        "what is known to be hidden counts as none"
    );
    let blank = of.iter().filter(|one| doubt.is_under(&measures, **one));
    blank.copied().collect()
}

#[test]
fn a_clip_at_the_toe_leaves_what_rests_on_the_toe_blank() {
    let of = [
        Feature::OverallLength,
        Feature::WebToe,
        Feature::BranchLengthLeft,
        Feature::ToeRadius,
        Feature::OverallWidth,
        Feature::WebQuarterLeft,
        Feature::WebHeelRight,
        Feature::BarWidth,
    ];
    assert_eq!(blank(true, Hidden::Toe, &of), of[..4]);
}

#[test]
fn a_clip_at_a_quarter_leaves_that_side_blank() {
    let of = [
        Feature::WebQuarterLeft,
        Feature::BranchDeviationMax,
        Feature::WebQuarterRight,
        Feature::WebToeQuarterLeft,
        Feature::WebHeelLeft,
        Feature::OverallLength,
        Feature::HeelGap,
    ];
    assert_eq!(blank(false, Hidden::LeftQuarter, &of), of[..2]);
    let other = blank(false, Hidden::RightQuarter, &of);
    assert_eq!(
        other,
        [Feature::BranchDeviationMax, Feature::WebQuarterRight]
    );
}

#[test]
fn calks_leave_both_heels_blank() {
    let of = [
        Feature::OverallLength,
        Feature::BranchLengthLeft,
        Feature::BranchChordRight,
        Feature::HeelGap,
        Feature::OverallWidth,
        Feature::WebToe,
        Feature::WebQuarterLeft,
        Feature::ToeRadius,
    ];
    assert_eq!(blank(false, Hidden::Heels, &of), of[..4]);
    let of = [
        Feature::BarBackStraightness,
        Feature::BarBackSquareness,
        Feature::BarWidth,
        Feature::WebQuarterRight,
        Feature::ToeRadius,
    ];
    assert_eq!(blank(true, Hidden::Heels, &of), of[..2]);
}

/// Places lie where they are said to: a clip's on the outer edge, calks' on both.
#[test]
fn hidden_places_lie_on_the_edges() {
    for has_bar in [false, true] {
        let (lines, measures) = shoe(has_bar);
        let off = |at: Point| {
            let far = lines.iter().flatten().map(|place| place.distance(at));
            far.fold(f64::INFINITY, f64::min)
        };
        for hidden in Hidden::ALL {
            let places = measures.under(hidden);
            assert!(places.len() > 20, "{hidden:?}");
            let furthest = places.iter().map(|at| off(*at)).fold(0.0, f64::max);
            assert!(furthest < 1.5, "{hidden:?} by {furthest}");
        }
        let toe = measures.under(Hidden::Toe);
        let wide = toe[0].distance(toe[toe.len() - 1]);
        assert!((26.0..30.0).contains(&wide), "{wide}");
    }
}

/// Doubt that a photo shows where it was told that the edge is hidden refuses no photo.
#[test]
fn only_doubt_elsewhere_counts() {
    let (lines, measures) = shoe(false);
    let seen = followed(&lines, 120);
    let all = Doubt::of(&seen, Vec::new());
    assert!(all.share > 0.05, "{}", all.share);
    let hidden = Doubt::of(&seen, seen[0].line[..140].to_vec());
    assert_eq!(hidden.share, 0.0);
    let every = Feature::ALL.into_iter();
    let under = every.filter(|feature| hidden.is_under(&measures, *feature));
    assert!(under.count() > 0);
}

#[test]
fn each_place_has_a_word() {
    for hidden in Hidden::ALL {
        assert_eq!(Hidden::from_word(hidden.word()), Some(hidden));
    }
    assert_eq!(Hidden::from_word("somewhere"), None);
}
