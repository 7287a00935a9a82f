//! The drawing in Help against the code that measures, on the outlines of a known shoe.

use evenshod::gauge::features::Measures;
use evenshod::piece::Feature;
use evenshod::present::photo::{MEASURES_BOX, MEASURES_DRAWN, definitions};
use kurbo::Point;

use crate::gauge::features::known;

/// Where a number stands, moved so that none covers another: by so many mm to the right and
/// down, from the middle of the line.
fn aside(feature: Feature) -> (f64, f64) {
    match feature {
        Feature::OverallWidth => (14.0, -3.0),
        Feature::OverallLength => (-5.0, 12.0),
        Feature::WebToe => (8.0, 0.0),
        Feature::BranchLengthLeft => (-7.0, 0.0),
        Feature::BranchLengthRight => (7.0, 0.0),
        Feature::BranchChordLeft => (-5.0, 3.0),
        Feature::BranchChordRight => (5.0, 3.0),
        Feature::BranchDeviationMax => (6.0, -4.0),
        Feature::ToeRadius => (-14.0, 48.0),
        Feature::BarWidth => (6.0, 0.0),
        Feature::BarBackStraightness => (-16.0, 5.0),
        Feature::BarBackSquareness => (16.0, 5.0),
        _ => (0.0, 0.0),
    }
}

fn path(line: &[Point]) -> String {
    let places = line.iter().enumerate().map(|(place, at)| {
        let letter = if place == 0 { 'M' } else { 'L' };
        format!("{letter}{:.1} {:.1}", at.x, at.y)
    });
    places.collect()
}

fn drawn(measures: &Measures, rings: &[Vec<Point>]) -> String {
    let frame = measures.frame;
    let own =
        |points: &[Point]| -> Vec<Point> { points.iter().map(|at| frame.into_shoe(*at)).collect() };
    let thinned = |ring: &[Point]| -> Vec<Point> { own(ring).into_iter().step_by(6).collect() };
    let rings: Vec<String> = rings
        .iter()
        .map(|ring| path(&thinned(ring)) + "Z")
        .collect();
    let mut svg = format!(
        "<path class=\"defined-steel\" fill-rule=\"evenodd\" d=\"{}\"/>\n<path class=\"defined-axis\" d=\"{}\"/>\n",
        rings.concat(),
        path(&own(&measures.axis()))
    );
    for (place, feature) in Feature::ALL.into_iter().enumerate() {
        let line = own(&measures.line_of(feature));
        let at = match line.as_slice() {
            [] => continue,
            [from, to] => from.midpoint(*to),
            more => more[more.len() / 2],
        };
        let (x, y) = aside(feature);
        svg += &format!(
            "<path class=\"defined-line\" d=\"{}\"/>\n<text x=\"{:.1}\" y=\"{:.1}\">{}</text>\n",
            path(&line),
            at.x + x,
            at.y + y,
            place + 1
        );
    }
    svg
}

/// Should the definitions change, the drawing does: the new one stands in `target/`.
#[test]
fn the_drawing_in_help_is_of_what_is_measured() {
    let shoes = known();
    let shoe = shoes.iter().find(|shoe| !shoe.inner().is_empty()).unwrap();
    let mut rings = vec![shoe.outer()];
    rings.extend(shoe.inner());
    let svg = drawn(&shoe.measured(), &rings);
    let file = concat!(env!("CARGO_MANIFEST_DIR"), "/target/measures.svg");
    std::fs::write(file, &svg).unwrap();
    assert!(
        svg == MEASURES_DRAWN,
        "copy {file} to src/present/photo/measures.svg"
    );
    let [left, top, width, height] = [0, 1, 2, 3].map(|at| {
        let number = MEASURES_BOX.split(' ').nth(at).unwrap();
        number.parse::<f64>().unwrap()
    });
    let frame = shoe.measured().frame;
    for at in rings.iter().flatten().map(|at| frame.into_shoe(*at)) {
        assert!((left..left + width).contains(&at.x), "{at:?}");
        assert!((top..top + height).contains(&at.y), "{at:?}");
    }
}

#[test]
fn every_measure_is_defined() {
    let all = definitions();
    assert_eq!(all.len(), Feature::ALL.len());
    assert!(
        all.iter()
            .zip(1..)
            .all(|((number, ..), place)| *number == place)
    );
}
