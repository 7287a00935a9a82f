use evenshod::piece::{Foot, PieceSpecification, Section, ShoeKind};
use evenshod::plan::{
    Answer, Caveat, Choice, Fit, Inputs, Method, PastPiece, PlanFault, Spread, plan,
};
use evenshod::quantity::Length;

use super::sample::{answer, contest, length};

/// An earlier piece like `piece`, so wide and long together, in mm, half each.
fn past(piece: &PieceSpecification, both: f64, cut: f64) -> PastPiece {
    let half = Length::read(&format!("{:.6}", both / 2.0)).unwrap();
    PastPiece {
        kind: piece.kind,
        section: piece.stock.section,
        stock_width: piece.stock.width,
        stock_thickness: piece.stock.thickness,
        is_fullered: piece.fuller.is_some(),
        cut: Length::read(&format!("{cut:.6}")).unwrap(),
        width: half,
        length: half,
    }
}

fn front() -> (PieceSpecification, Inputs) {
    let piece = contest("5 3/16 in", "5 3/16 in", Foot::NearFore);
    let inputs = Inputs::usual(&piece, Foot::NearFore);
    (piece, inputs)
}

fn of(points: &[(f64, f64)]) -> Answer {
    let (piece, mut inputs) = front();
    inputs.record = points
        .iter()
        .map(|(both, cut)| past(&piece, *both, *cut))
        .collect();
    answer(&plan(&piece, &inputs), Method::Record).clone()
}

#[test]
fn three_pieces_it_takes() {
    let two = of(&[(260.0, 300.0), (262.0, 303.0)]);
    let fault = PlanFault::TooFew { has: 2, needs: 3 };
    assert_eq!(two.fit, Fit::Refuses(fault.clone()));
    assert!(fault.to_string().contains("of 1 more"), "{fault}");
    assert!(
        of(&[(262.0, 302.0), (264.0, 304.0), (266.0, 306.0)])
            .length
            .is_some()
    );
}

#[test]
fn sizes_that_hardly_differ_take_the_median_ratio() {
    // Ratios 1.15, 1.16 and one stray of 1.30: 263.525 mm takes 1.16 of it.
    let found = of(&[
        (262.0, 262.0 * 1.15),
        (264.0, 264.0 * 1.16),
        (266.0, 266.0 * 1.30),
    ]);
    let size = 2.0 * 131.7625;
    assert!(
        (found.length.unwrap().to_mm() - 1.16 * size).abs() < 1e-3,
        "{found:?}"
    );
    let Some(Spread::Interval { low, high, level }) = found.spread else {
        panic!("{found:?}");
    };
    assert!((low.to_mm() - 1.15 * size).abs() < 1e-3);
    assert!((high.to_mm() - 1.30 * size).abs() < 1e-3);
    // Of three and the next the next lies between the outer two in one of two cases.
    assert!((level - 0.5).abs() < 1e-12);
    assert!(
        found.working.contains("median ratio is 1.160"),
        "{}",
        found.working
    );
    assert!(found.working.contains("50 of 100"), "{}", found.working);
}

#[test]
fn sizes_that_differ_take_the_slope_and_a_stray_does_not_turn_it() {
    // 20 mm and 1.05 of the size; one piece of seven was cut 25 mm long.
    let mut points: Vec<(f64, f64)> = [240.0, 248.0, 256.0, 264.0, 272.0, 280.0]
        .map(|size| (size, 20.0 + 1.05 * size))
        .into();
    points.push((260.0, 20.0 + 1.05 * 260.0 + 25.0));
    let found = of(&points);
    let size = 2.0 * 131.7625;
    assert!(
        (found.length.unwrap().to_mm() - 20.0 - 1.05 * size).abs() < 0.5,
        "{found:?}"
    );
    assert!(
        found.working.contains("1.050 mm of bar for each mm more"),
        "{}",
        found.working
    );
    assert_eq!(found.fit, Fit::Fits);
    let Some(Spread::Interval { level, .. }) = found.spread else {
        panic!();
    };
    assert!((level - 0.75).abs() < 1e-12);
}

#[test]
fn many_pieces_leave_the_outermost_out() {
    // Ratios 1.10 to 1.29 in steps of 0.01: of twenty, the second from either end is the
    // narrowest that holds 80 of 100: (21 - 4) / 21.
    let points: Vec<(f64, f64)> = (0..20_u32)
        .map(|at| (263.525, 263.525 * (1.10 + 0.01 * f64::from(at))))
        .collect();
    let found = of(&points);
    let Some(Spread::Interval { low, high, level }) = found.spread else {
        panic!();
    };
    assert!((level - 17.0 / 21.0).abs() < 1e-12, "{level}");
    assert!((low.to_mm() - 263.525 * 1.11).abs() < 1e-3);
    assert!((high.to_mm() - 263.525 * 1.28).abs() < 1e-3);
}

#[test]
fn a_bar_that_gets_shorter_with_the_shoe_is_chance() {
    let found = of(&[(230.0, 320.0), (260.0, 305.0), (290.0, 290.0)]);
    assert!(found.working.contains("median ratio"), "{}", found.working);
}

#[test]
fn other_kinds_and_stock_do_not_count() {
    let (piece, mut inputs) = front();
    let like = past(&piece, 263.0, 304.0);
    let others = [
        PastPiece {
            kind: ShoeKind::StraightBar,
            ..like
        },
        PastPiece {
            section: Section::Concave,
            ..like
        },
        PastPiece {
            stock_width: length("20 mm"),
            ..like
        },
        PastPiece {
            stock_thickness: length("5/16 in"),
            ..like
        },
        PastPiece {
            is_fullered: false,
            ..like
        },
        like,
        // 9.5 by 19 mm is 3/8 by 3/4 in as it is sold.
        PastPiece {
            stock_width: length("19 mm"),
            stock_thickness: length("9.5 mm"),
            ..like
        },
    ];
    inputs.record = others.into();
    let fault = PlanFault::TooFew { has: 2, needs: 3 };
    let found = plan(&piece, &inputs);
    assert_eq!(answer(&found, Method::Record).fit, Fit::Refuses(fault));
}

#[test]
fn it_warns_beyond_what_was_made() {
    let found = of(&[(230.0, 270.0), (240.0, 281.0), (250.0, 292.0)]);
    let Fit::Warns(caveats) = &found.fit else {
        panic!("{found:?}");
    };
    let (least, most) = (length("230"), length("250"));
    assert_eq!(caveats, &vec![Caveat::OutsideSizes { least, most }]);
}

#[test]
fn a_broken_entry_is_named() {
    let found = of(&[(262.0, 0.0), (264.0, 304.0), (266.0, 306.0)]);
    let Fit::Refuses(fault) = &found.fit else {
        panic!("{found:?}");
    };
    assert!(
        fault
            .to_string()
            .starts_with("the cut length of an earlier piece is 0 mm")
    );
}

#[test]
fn it_is_what_is_cut_where_nothing_else_is_chosen() {
    let (piece, mut inputs) = front();
    assert_eq!(
        plan(&piece, &inputs).chosen.unwrap().method,
        Some(Method::Developed)
    );
    inputs.record = vec![past(&piece, 263.0, 304.0); 3];
    assert_eq!(
        plan(&piece, &inputs).chosen.unwrap().method,
        Some(Method::Record)
    );
    inputs.choice = Choice::Own(length("12 in"));
    let chosen = plan(&piece, &inputs).chosen.unwrap();
    assert_eq!((chosen.method, chosen.length), (None, length("12 in")));
}
