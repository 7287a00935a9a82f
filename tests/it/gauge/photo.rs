//! Whole photographs, rendered from exact models, against what is known of them: see
//! `tests/data/gauge/photos/README.md`.

use evenshod::gauge::decode::decode;
use evenshod::gauge::features::Side;
use evenshod::gauge::sheet::Sheet;
use evenshod::gauge::{Ask, Found, Picture, Refused, Scale, look};
use evenshod::piece::Feature;
use kurbo::Point;
use serde_json::Value;

fn read(name: &str) -> (Result<Found, Refused>, Value) {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/data/gauge/photos");
    let truth = std::fs::read_to_string(format!("{folder}/{name}.json")).unwrap();
    let truth: Value = serde_json::from_str(&truth).unwrap();
    let photo = decode(&std::fs::read(format!("{folder}/{name}.jpg")).unwrap()).unwrap();
    let thick = truth["top"]["z"].as_f64().unwrap();
    let ask = Ask {
        focal: photo.focal(),
        ..Ask::of(Scale::Sheet(Sheet::A4), (thick, 0.05))
    };
    let picture = Picture::of(photo.width, photo.height, photo.pixels).unwrap();
    (look(&picture, &ask, |_| ()), truth)
}

/// What is known of a feature of the outlines, in mm and radians; chords and the gap between the
/// heels are not.
fn known(feature: Feature, truth: &Value) -> Option<f64> {
    let top = &truth["top"];
    let (web, mirror, bar) = (&top["web"], &top["mirror_axis"], &top["bar"]);
    let value = match feature {
        Feature::OverallWidth => &top["overall_width"],
        Feature::OverallLength => &top["overall_length"],
        Feature::WebToe => &web["toe_on_axis"],
        Feature::WebToeQuarterLeft => &web["toe_quarter_L"],
        Feature::WebToeQuarterRight => &web["toe_quarter_R"],
        Feature::WebQuarterLeft => &web["quarter_L"],
        Feature::WebQuarterRight => &web["quarter_R"],
        Feature::WebHeelLeft => &web["heel_L"],
        Feature::WebHeelRight => &web["heel_R"],
        Feature::BranchLengthLeft => &top["branch_outer_length"]["L"],
        Feature::BranchLengthRight => &top["branch_outer_length"]["R"],
        Feature::BranchDeviationMax => &mirror["max_dev_first_90pct_mm"],
        Feature::BranchDeviationRms => &mirror["rms_dev_first_90pct_mm"],
        Feature::ToeRadius => &top["toe_circle"]["radius"],
        Feature::BarWidth => &bar["width_on_axis"],
        Feature::BarBackStraightness => &bar["back_straightness_min_zone"],
        Feature::BarBackSquareness => {
            return Some(bar["back_angle_lsq_deg"].as_f64()?.to_radians());
        }
        _ => return None,
    };
    Some(value.as_f64().unwrap_or_else(|| panic!("{feature:?}")))
}

/// Both grooves end within a hundredth of a branch of where they do.
fn assert_fuller(found: &Found, truth: &Value) {
    let known = &truth["top"]["fuller"];
    for (name, fuller) in [("L", found.fuller.left), ("R", found.fuller.right)] {
        let fuller = fuller.unwrap();
        for (end, told) in [("start", fuller.start), ("end", fuller.end)] {
            let known = known[format!("{end}_{name}")]["frac"].as_f64().unwrap();
            let off = told.unwrap() - known;
            assert!(off.abs() < 0.01, "{end} {name}: {told:?} for {known}");
        }
    }
}

/// All nail holes and no other, each within three of its uncertainties.
fn assert_holes(found: &Found, truth: &Value) {
    let known = truth["top"]["nail_holes"].as_array().unwrap();
    assert_eq!(found.holes.len(), known.len());
    for (told, known) in found.holes.iter().zip(known) {
        let side = if told.hole.side == Side::Left {
            "L"
        } else {
            "R"
        };
        assert_eq!(known["side"], side, "{told:?}");
        let number = |name: &str| known[name].as_f64().unwrap();
        let off = told.hole.centre - Point::new(number("x"), number("y"));
        let from_edge = told.hole.to_edge - number("to_outer_edge");
        assert!(off.hypot() < 0.9, "{told:?} for {known}");
        assert!(from_edge.abs() < 0.9, "{told:?} for {known}");
        assert!(off.hypot() < 3.0 * told.unsure, "{told:?} for {known}");
    }
}

/// All features of a bar shoe, with its fuller and nail holes, each near what is known and within
/// three of its uncertainties.
#[test]
fn a_bar_shoe_is_measured() {
    let (found, truth) = read("bar");
    let found = found.unwrap();
    assert_fuller(&found, &truth);
    assert_holes(&found, &truth);
    let estimates = found.estimates;
    let told = estimates.features.iter().zip(&estimates.values);
    let mut seen = 0;
    for ((feature, value), u) in told.zip(estimates.uncertainties()) {
        let Some(known) = known(*feature, &truth) else {
            continue;
        };
        let off = value - known;
        let most = if feature.is_angle() {
            0.3_f64.to_radians()
        } else {
            0.6
        };
        assert!(off.abs() < most, "{feature:?}: {value} for {known}");
        assert!(
            off.abs() < 3.0 * u,
            "{feature:?}: {value} for {known}, u {u}"
        );
        seen += 1;
    }
    assert_eq!(seen, 17, "a bar shoe has all but a gap between its heels");
}

#[test]
fn a_covered_corner_is_refused() {
    let (found, truth) = read("covered");
    assert_eq!(truth["expect"], "refuse-or-manual");
    assert!(matches!(found, Err(Refused::Corner(_))), "{found:?}");
}

#[test]
fn a_sheet_with_nothing_on_it_has_no_shoe() {
    let is_paper = |x: usize, y: usize| (103..697).contains(&x) && (90..510).contains(&y);
    let places = (0..600).flat_map(|y| (0..800).map(move |x| (x, y)));
    let light = places.flat_map(|(x, y)| [if is_paper(x, y) { 235 } else { 60 }; 3]);
    let picture = Picture::of(800, 600, light.collect()).unwrap();
    let ask = Ask::of(Scale::Sheet(Sheet::A4), (10.0, 0.05));
    assert_eq!(look(&picture, &ask, |_| ()), Err(Refused::NoShoe));
}
