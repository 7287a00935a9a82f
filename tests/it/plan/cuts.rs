use evenshod::piece::{Foot, Section, ShoeKind};
use evenshod::plan::{Caveat, Fit, Hoof, Inputs, Method, PlanFault, Sample, Spread, plan};
use evenshod::quantity::{Exact, Mass, Unit};

use super::sample::{answer, bar, contest, cut, hind, length, shipped_piece};

#[track_caller]
fn refused(piece: &evenshod::piece::PieceSpecification, inputs: &Inputs, method: Method) -> String {
    let plan = plan(piece, inputs);
    match &answer(&plan, method).fit {
        Fit::Refuses(fault) => fault.to_string(),
        fit => panic!("{fit:?}"),
    }
}

#[test]
fn every_method_answers_in_order_with_its_source() {
    let (piece, inputs) = bar();
    let plan = plan(&piece, &inputs);
    let methods: Vec<Method> = plan.answers.iter().map(|one| one.method).collect();
    assert_eq!(methods, Method::ALL);
    for one in &plan.answers {
        assert!(one.source.len() > 10, "{one:?}");
        assert_eq!(Method::from_word(one.method.word()), Some(one.method));
        assert_eq!(one.length.is_some(), !one.working.is_empty(), "{one:?}");
        assert_eq!(one.length.is_none(), matches!(one.fit, Fit::Refuses(_)));
        if let Some(length) = one.length {
            let sum: i64 = one.terms.iter().map(|term| term.length.base()).sum();
            // Terms under 0.005 mm are left out.
            assert!((sum - length.base()).abs() < 40_000, "{one:?}");
        }
    }
}

#[test]
fn the_handbook_sum_is_of_the_hoof_and_warns_of_bars() {
    let (piece, mut inputs) = bar();
    let of_shoe = plan(&piece, &inputs);
    let of_shoe = answer(&of_shoe, Method::Handbook);
    assert_eq!(of_shoe.length, Some(length("10 3/8 in")));
    let both = vec![Caveat::ShoeForHoof, Caveat::CorrespondinglyLonger];
    assert_eq!(of_shoe.fit, Fit::Warns(both));
    inputs.hoof = Some(Hoof {
        length: length("5 in"),
        width: length("4 7/8 in"),
        wall: None,
    });
    let of_hoof = plan(&piece, &inputs);
    let of_hoof = answer(&of_hoof, Method::Handbook);
    let working = "length of the hoof 5 in + greatest width 4 7/8 in = 9 7/8 in";
    assert_eq!(of_hoof.working, working);
    assert_eq!(of_hoof.fit, Fit::Warns(vec![Caveat::CorrespondinglyLonger]));
    let (piece, usual) = hind();
    inputs.foot = usual.foot;
    assert_eq!(
        answer(&plan(&piece, &inputs), Method::Handbook).fit,
        Fit::Fits
    );
}

#[test]
fn the_tape_rule_refuses_other_shoes_and_stock() {
    let (mut piece, mut inputs) = bar();
    inputs.tape = Some(length("14 1/2 in"));
    let said = refused(&piece, &inputs, Method::Tape);
    assert_eq!(
        said,
        "this was told on flat bar of 3/4 by 5/16 in only, and the piece is made of 19.05 mm by \
         9.525 mm, flat; take another method"
    );
    piece.stock.thickness = length("5/16 in");
    assert_eq!(cut(&piece, &inputs, Method::Tape), length("14 in"));
    // 8 by 19 mm is that bar as it is sold by the millimetre.
    piece.stock.thickness = length("8 mm");
    piece.stock.width = length("19 mm");
    assert_eq!(cut(&piece, &inputs, Method::Tape), length("14 in"));
    piece.stock.width = length("20 mm");
    assert!(refused(&piece, &inputs, Method::Tape).contains("20 mm by 8 mm"));
    piece.stock.width = length("3/4 in");
    inputs.tape = None;
    assert!(refused(&piece, &inputs, Method::Tape).contains("soft tape"));
    inputs.tape = Some(length("2 in"));
    assert!(refused(&piece, &inputs, Method::Tape).contains("measure again"));
    piece.fuller = None;
    assert!(refused(&piece, &inputs, Method::Tape).contains("straight bar, plain"));
}

#[test]
fn published_cuts_warn_outside_their_sizes_and_refuse_other_stock() {
    let piece = contest("5 3/16 in", "5 3/16 in", Foot::NearFore);
    let inputs = Inputs::usual(&piece, Foot::NearFore);
    let found = plan(&piece, &inputs);
    assert_eq!(answer(&found, Method::Published).fit, Fit::Fits);
    let mut larger = piece.clone();
    larger.finished.width = length("5 1/4 in");
    let found = plan(&larger, &inputs);
    let Fit::Warns(caveats) = &answer(&found, Method::Published).fit else {
        panic!("{:?}", answer(&found, Method::Published));
    };
    let said = caveats[0].to_string();
    assert!(said.contains("252.4125 mm to 263.525 mm"), "{said}");
    let mut thinner = piece.clone();
    thinner.stock.thickness = length("5/16 in");
    assert!(refused(&thinner, &inputs, Method::Published).contains("3/4 by 3/8 in"));
    let mut concave = piece.clone();
    concave.stock.section = Section::Concave;
    assert!(refused(&concave, &inputs, Method::Published).contains("concave"));
    let mut plain = piece;
    plain.fuller = None;
    assert!(refused(&plain, &inputs, Method::Published).contains("open-heeled, plain"));
    let (egg, foot) = shipped_piece("egg-bar-shoe");
    let inputs = Inputs::usual(&egg, foot);
    assert!(refused(&egg, &inputs, Method::Published).contains("egg bar"));
}

#[test]
fn a_straight_bar_takes_two_to_two_and_a_half_inches_more() {
    let (piece, inputs) = bar();
    let found = plan(&piece, &inputs);
    let found = answer(&found, Method::Published);
    let open = 1.157 * 25.4 * (5.125 + 5.25);
    let Some(Spread::Between { low, high }) = found.spread else {
        panic!("{found:?}");
    };
    assert!((low.to_mm() - open - 50.8).abs() < 1e-3);
    assert!((high.to_mm() - open - 63.5).abs() < 1e-3);
    assert_eq!(found.length.unwrap().base() * 2, low.base() + high.base());
}

#[test]
fn concave_bar_is_weighed_first() {
    let (piece, foot) = shipped_piece("concave-front-shoe");
    let mut inputs = Inputs::usual(&piece, foot);
    let said = refused(&piece, &inputs, Method::Volume);
    assert!(said.contains("weigh a sample"), "{said}");
    let (width, thick) = (piece.stock.width.to_mm(), piece.stock.thickness.to_mm());
    // Three quarters of the rectangle, 100 mm of it.
    let grams = 0.75 * width * thick * 100.0 * 7.85e-3;
    let sample = |grams: f64| Sample {
        length: length("100 mm"),
        mass: Mass::read(&format!("{grams:.3} g")).unwrap(),
    };
    inputs.sample = Some(sample(grams));
    let by_volume = cut(&piece, &inputs, Method::Volume);
    let mut flat = piece.clone();
    flat.stock.section = Section::Flat;
    inputs.sample = None;
    let as_flat = cut(&flat, &inputs, Method::Volume);
    // Only clips and grooves take another share of a lighter bar.
    let apart = (by_volume.to_mm() - as_flat.to_mm()).abs();
    assert!(apart < 0.05 * as_flat.to_mm(), "{by_volume} and {as_flat}");
    for wrong in [0.0, 1.0, 3.0 * grams] {
        inputs.sample = Some(sample(wrong));
        assert!(refused(&piece, &inputs, Method::Volume).contains("sample"));
    }
}

#[test]
fn scale_compounds_by_heat_and_its_range_is_half_to_twice() {
    let (piece, mut inputs) = hind();
    let with = |percent: i128, heats: u32, inputs: &mut Inputs| {
        inputs.scale_loss = Exact::fraction(percent, 100).unwrap();
        inputs.heats = heats;
        cut(&piece, inputs, Method::Volume).to_mm()
    };
    let none = with(0, 6, &mut inputs);
    assert!((with(2, 7, &mut inputs) - none / 0.98_f64.powi(7)).abs() < 1e-4);
    let found = plan(&piece, &inputs);
    let Some(Spread::Between { low, high }) = answer(&found, Method::Volume).spread else {
        panic!();
    };
    assert!((low.to_mm() - none / 0.99_f64.powi(7)).abs() < 1e-4);
    assert!((high.to_mm() - none / 0.96_f64.powi(7)).abs() < 1e-4);
}

#[test]
fn what_it_says_is_in_the_unit_of_the_sheet() {
    let (piece, mut inputs) = hind();
    let said = |inputs: &Inputs| {
        let found = plan(&piece, inputs);
        answer(&found, Method::Published).working.clone()
    };
    let inches = "1.157 × (width 4 3/4 in + length 5 3/16 in) = 11 1/2 in";
    assert_eq!(said(&inputs), inches);
    inputs.unit = Unit::Millimetre;
    let mm = "1.157 × (width 120.65 mm + length 131.76 mm) = 292.0 mm";
    assert_eq!(said(&inputs), mm);
}

#[test]
fn a_heart_bar_is_planned_without_its_plate() {
    let piece = crate::piece::sample::bar_shoe(ShoeKind::HeartBar, 132, 136);
    let found = plan(&piece, &Inputs::usual(&piece, Foot::OffFore));
    let developed = answer(&found, Method::Developed);
    assert_eq!(developed.fit, Fit::Warns(vec![Caveat::WithoutPlate]));
    assert!(matches!(
        answer(&found, Method::Record).fit,
        Fit::Refuses(PlanFault::TooFew { has: 0, needs: 3 })
    ));
}
