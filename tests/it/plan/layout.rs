use evenshod::piece::Branch;
use evenshod::plan::{Choice, Layout, LayoutMark, MarkKind, Method, heel_mark, plan};
use evenshod::quantity::{Length, Unit};

use super::sample::{bar, hind, length};

fn at(layout: &Layout, kind: MarkKind, branch: Branch) -> LayoutMark {
    let found = layout
        .marks
        .iter()
        .find(|mark| mark.kind == kind && mark.branch == Some(branch));
    *found.unwrap_or_else(|| panic!("{kind} of {branch:?}: {layout:?}"))
}

#[test]
fn a_straight_bar_has_its_marks_from_left_to_right() {
    let (piece, inputs) = bar();
    let layout = plan(&piece, &inputs).layout.unwrap();
    let said: Vec<String> = layout
        .marks
        .iter()
        .map(|mark| mark.kind.to_string())
        .collect();
    let inner = [
        "heel",
        "fuller ends",
        "nail 3",
        "nail 2",
        "end of the bumped toe",
        "toe nail",
        "fuller starts",
    ];
    assert_eq!(said[..7], inner);
    assert_eq!(said[7], "middle");
    assert_eq!(said.len(), 15, "{said:?}");
    // The outer branch of a near fore lies on the right, ground side up and toe away.
    assert_eq!(layout.left, Branch::Inner);
    assert!(
        layout
            .marks
            .iter()
            .zip(layout.marks.iter().skip(1))
            .all(|(a, b)| a.from_left <= b.from_left)
    );
    for mark in &layout.marks {
        let off = mark.from_left.base() - layout.length.base() / 2 - mark.from_middle.base();
        assert!(off.abs() <= 1, "{mark:?}");
    }
    assert!(layout.left_out.is_empty(), "{:?}", layout.left_out);
}

#[test]
fn heel_marks_are_as_far_from_either_end() {
    let (piece, inputs) = bar();
    let layout = plan(&piece, &inputs).layout.unwrap();
    let left = at(&layout, MarkKind::Heel, Branch::Inner).from_left;
    let right = at(&layout, MarkKind::Heel, Branch::Outer).from_left;
    assert!((left.to_mm() - 25.4 * 1.75).abs() < 1e-5, "{left}");
    assert!(
        (layout.length.to_mm() - right.to_mm() - 25.4 * 1.75).abs() < 1e-5,
        "{right}"
    );
}

#[test]
fn by_the_tape_rule_heels_are_marked_at_half_their_distance() {
    let (mut piece, mut inputs) = bar();
    piece.stock.thickness = length("5/16 in");
    inputs.tape = Some(length("14 1/2 in"));
    inputs.choice = Choice::Method(Method::Tape);
    let layout = plan(&piece, &inputs).layout.unwrap();
    assert_eq!(layout.length, length("14 in"));
    let left = at(&layout, MarkKind::Heel, Branch::Inner).from_left;
    assert!((left.to_mm() - 25.4 * 1.125).abs() < 1e-5, "{left}");
}

#[test]
fn an_open_shoe_has_no_heel_mark() {
    let (piece, inputs) = hind();
    let layout = plan(&piece, &inputs).layout.unwrap();
    assert!(layout.marks.iter().all(|mark| mark.kind != MarkKind::Heel));
    assert!(layout.marks.iter().all(|mark| mark.kind != MarkKind::Bump));
    assert_eq!(layout.bumped, None);
    let nails = layout
        .marks
        .iter()
        .filter(|mark| matches!(mark.kind, MarkKind::Nail(_)));
    assert_eq!(nails.count(), 6);
}

#[test]
fn the_toe_lies_off_the_middle_where_a_branch_is_longer() {
    let (mut piece, inputs) = hind();
    piece.outer_fuller_by = length("20 mm");
    let toe = |layout: &Layout| {
        let found = layout.marks.iter().find(|mark| mark.kind == MarkKind::Toe);
        found.map(|mark| mark.from_middle.to_mm())
    };
    let near = toe(&plan(&piece, &inputs).layout.unwrap()).unwrap();
    // The right one is longer, so the toe lies left of the middle.
    assert!((-10.0..-1.0).contains(&near), "{near}");
    piece.outer_fuller_by = length("0");
    assert_eq!(toe(&plan(&piece, &inputs).layout.unwrap()), None);
}

#[test]
fn marks_lie_where_bump_and_fuller_bring_them_from() {
    let (mut piece, mut inputs) = bar();
    piece.outer_fuller_by = length("0");
    inputs.toe_bump = length("0");
    let none = inputs.clone();
    let with = |inputs: &evenshod::plan::Inputs, kind| {
        let layout = plan(&piece, inputs).layout.unwrap();
        at(&layout, kind, Branch::Outer).from_middle.to_mm()
    };
    inputs.toe_bump = length("12 mm");
    let moved = |kind| with(&inputs, kind) - with(&none, kind);
    // What lies past the bumped zone is pushed in by half of what it takes in, the toe nail by
    // most of that.
    assert!((moved(MarkKind::FullerEnd) - 6.0).abs() < 1e-5);
    assert!((4.0..6.0).contains(&moved(MarkKind::Nail(1))));
    let mut unfullered = none.clone();
    unfullered.fuller_lengthens = evenshod::quantity::Exact::ZERO;
    // The fuller pushes its end out and leaves its start.
    let start = with(&unfullered, MarkKind::FullerStart) - with(&none, MarkKind::FullerStart);
    let end = with(&unfullered, MarkKind::FullerEnd) - with(&none, MarkKind::FullerEnd);
    assert!(start.abs() < 1e-5 && end > 1.0, "{start} {end}");
    // Along the middle of the web it is less far than along the edge.
    assert!(with(&unfullered, MarkKind::FullerStart) < 25.4 * 0.875);
    // The ends of the bar are where the developed line ends.
    inputs.choice = Choice::Method(Method::Developed);
    assert!(plan(&piece, &inputs).layout.unwrap().left_out.is_empty());
}

#[test]
fn the_bumped_toe_gets_thicker() {
    let (piece, inputs) = bar();
    let layout = plan(&piece, &inputs).layout.unwrap();
    let zone = at(&layout, MarkKind::Bump, Branch::Outer)
        .from_middle
        .base()
        - at(&layout, MarkKind::Bump, Branch::Inner)
            .from_middle
            .base();
    let zone = Length::from_base(zone).to_mm();
    let thick = 9.525 * zone / (zone - 12.7);
    assert!((layout.bumped.unwrap().to_mm() - thick).abs() < 1e-4);
}

#[test]
fn marks_off_the_bar_are_told() {
    let (piece, mut inputs) = bar();
    inputs.choice = Choice::Own(length("150 mm"));
    let layout = plan(&piece, &inputs).layout.unwrap();
    assert_eq!(heel_mark(length("150 mm")), None);
    let told = |unit: Unit| {
        let words = layout.left_out.iter().map(|mark| mark.words(unit));
        words.collect::<Vec<_>>().join("\n")
    };
    // 150 mm is 5 29/32 in, to the nearest 32nd.
    let inches = told(Unit::Inch32);
    assert!(inches.contains("is off a bar of 5 29/32 in"), "{inches}");
    assert!(!inches.contains(" mm"), "{inches}");
    let told = told(Unit::Millimetre);
    assert!(told.contains("fuller ends: "), "{told}");
    assert!(told.contains("is off a bar of 150 mm"), "{told}");
    assert!(told.contains("longer than 8 in"), "{told}");
}
