//! Cut lengths by published rules against the published cuts.

use evenshod::piece::{Foot, PieceSpecification};
use evenshod::plan::{Fit, Hoof, Inputs, LayoutMark, MarkKind, Method, PlanFault, heel_mark, plan};

use crate::plan::sample::{answer, bar, contest, cut, hind, length};

/// Source: A. Lungwitz and J. W. Adams, A Text-Book of Horseshoeing, 1913: length of the hoof
/// plus its greatest width.
#[test]
fn the_handbook_sum_of_a_hoof_of_five_inches() {
    let (piece, mut inputs) = hind();
    inputs.hoof = Some(Hoof {
        length: length("5 in"),
        width: length("5 in"),
        wall: None,
    });
    assert_eq!(cut(&piece, &inputs, Method::Handbook), length("10 in"));
}

fn taped() -> (PieceSpecification, Inputs) {
    let (mut piece, mut inputs) = bar();
    piece.stock.thickness = length("5/16 in");
    piece.stock.length = None;
    inputs.tape = Some(length("14 1/2 in"));
    inputs.between_heels = Some(length("2 1/4 in"));
    inputs.choice = evenshod::plan::Choice::Method(Method::Tape);
    (piece, inputs)
}

/// Source: “Constructing a fullered straight bar shoe”, horseshoes.com: tape less 2 3/4 in plus the
/// distance between the heels; its example marks 1 1/8 in from each end for heels 2 1/4 in apart.
#[test]
fn the_tape_rule() {
    let (piece, inputs) = taped();
    let found = plan(&piece, &inputs);
    assert_eq!(answer(&found, Method::Tape).length, Some(length("14 in")));
    let layout = found.layout.unwrap();
    let of = |kind: MarkKind| {
        let marks = layout.marks.iter().filter(move |mark| mark.kind == kind);
        marks.copied().collect::<Vec<LayoutMark>>()
    };
    assert_eq!(of(MarkKind::Middle)[0].from_left, length("7 in"));
    let heels = of(MarkKind::Heel);
    assert_eq!(heels[0].from_left, length("1 1/8 in"));
    let from_right = layout.length.base() - heels[1].from_left.base();
    assert_eq!(from_right, length("1 1/8 in").base());
}

/// Source: as above, which states 5/16 by 3/4 in.
#[test]
fn the_tape_rule_is_for_one_section() {
    let (mut piece, inputs) = taped();
    piece.stock.thickness = length("3/8 in");
    let found = plan(&piece, &inputs);
    let fit = &answer(&found, Method::Tape).fit;
    assert!(
        matches!(fit, Fit::Refuses(PlanFault::Stock { .. })),
        "{fit:?}"
    );
}

/// Source: Michigan Horseshoers Association, contest divisions and rules: of 3/8 by 3/4 in
/// fullered, a front of 5 3/16 by 5 3/16 in from 12 in, a hind of 4 3/4 by 5 3/16 in from
/// 11 1/2 in. Ratios recomputed.
#[test]
fn the_ratio_of_published_cuts() {
    for (width, foot, cut_to, ratio) in [
        ("5 3/16 in", Foot::NearFore, 12.0, 1.1566),
        ("4 3/4 in", Foot::NearHind, 11.5, 1.1572),
    ] {
        let piece = contest(width, "5 3/16 in", foot);
        let both = (piece.finished.width.to_mm() + piece.finished.length.to_mm()) / 25.4;
        assert!((cut_to / both - ratio).abs() < 1e-4);
        let inputs = Inputs::usual(&piece, foot);
        let found = cut(&piece, &inputs, Method::Published).to_mm() / 25.4;
        assert!((found - cut_to).abs() < 0.005, "{found}");
    }
}

/// Half a circle and two straight branches along the middle of the web, in inches:
/// π/2 (W − web) + 2 (L − W/2).
fn u_model(width: f64, long: f64, web: f64) -> f64 {
    std::f64::consts::FRAC_PI_2 * (width - web) + 2.0 * (long - width / 2.0)
}

/// Source: recomputed; the cuts are those above. It is no method here, as it knows neither the toe
/// nor the heels.
#[test]
fn a_u_comes_within_four_per_cent_of_published_cuts() {
    for (width, model, cut_to, over) in [(5.1875, 12.158, 12.0, 0.013), (4.75, 11.908, 11.5, 0.035)]
    {
        let found = u_model(width, 5.1875, 0.75);
        assert!((found - model).abs() < 1e-3, "{found}");
        assert!((found / cut_to - 1.0 - over).abs() < 1e-3);
        assert!(found / cut_to < 1.04);
    }
}

/// The developed length of a shoe that nearly is a U: without fuller and its heels as wide apart as
/// the shoe.
#[test]
fn a_shoe_with_straight_branches_is_a_u() {
    let mut piece = contest("5 3/16 in", "5 3/16 in", Foot::NearFore);
    piece.fuller = None;
    piece.heels.as_mut().unwrap().gap = length("3 11/16 in");
    piece.heels.as_mut().unwrap().shape = evenshod::piece::HeelShape::Square;
    let inputs = Inputs::usual(&piece, Foot::NearFore);
    let found = cut(&piece, &inputs, Method::Developed).to_mm() / 25.4;
    let model = u_model(5.1875, 5.1875, 0.75);
    assert!((found / model - 1.0).abs() < 1e-3, "{found} for {model}");
}

/// Source: the same contest: 14 in for a straight bar against 12 and 11 1/2 in.
#[test]
fn a_straight_bar_takes_more() {
    let more = |open: &str| length("14 in").base() - length(open).base();
    assert_eq!(more("12 in"), length("50.8 mm").base());
    assert_eq!(more("11 1/2 in"), length("63.5 mm").base());
}

/// Source: common practice, no source: 2 in at 16 in, a quarter inch for each inch.
#[test]
fn the_heel_mark() {
    for (bar, mark) in [
        ("15 in", "1 3/4 in"),
        ("16 in", "2 in"),
        ("17 in", "2 1/4 in"),
    ] {
        assert_eq!(heel_mark(length(bar)), Some(length(mark)));
    }
    assert_eq!(heel_mark(length("8 in")), None);
}
