use std::collections::BTreeMap;

use evenshod::piece::{
    BarShape, Branch, ClipPlace, Foot, MadeShoe, PieceSpecification, Place, ShapeFault, ShoeKind,
    centroid, length, plan_area,
};
use kurbo::Shape as _;
use proptest::prelude::*;

use super::sample::{bar_shoe, mm, nailed, open_shoe, ten, um};

fn drawn(piece: &PieceSpecification, foot: Foot) -> MadeShoe {
    MadeShoe::of(piece, foot).unwrap_or_else(|faults| panic!("{faults:?}"))
}

#[test]
fn a_shoe_is_as_wide_and_as_long_as_asked_for() {
    for (name, piece, foot) in ten() {
        let size = drawn(&piece, foot).outline.bounding_box();
        let (width, length) = (piece.finished.width.to_mm(), piece.finished.length.to_mm());
        assert!((size.width() - width).abs() < 1e-6, "{name}: {size:?}");
        assert!((size.height() - length).abs() < 1e-6, "{name}: {size:?}");
    }
}

#[test]
fn the_outer_branch_is_fuller_and_lies_on_the_right_of_a_near_foot() {
    let mut piece = nailed(open_shoe(130, 134), 130);
    piece.outer_fuller_by = mm(4);
    for (foot, is_right) in [
        (Foot::NearFore, true),
        (Foot::OffFore, false),
        (Foot::NearHind, true),
        (Foot::OffHind, false),
    ] {
        let shoe = drawn(&piece, foot);
        let size = shoe.outline.bounding_box();
        let (right, left) = (size.x1, -size.x0);
        assert!((right + left - 130.0).abs() < 1e-6);
        let more = if is_right { right - left } else { left - right };
        assert!((more - 4.0).abs() < 1e-6, "{foot:?}: {size:?}");
        let outer = shoe
            .holes
            .iter()
            .filter(|hole| hole.branch == Branch::Outer);
        assert!(outer.clone().all(|hole| (hole.centre.x > 0.0) == is_right));
        assert_eq!(outer.count(), 4);
    }
}

#[test]
fn the_heels_are_as_far_apart_as_asked_for() {
    let shoe = drawn(&bar_shoe(ShoeKind::StraightBar, 130, 133), Foot::NearFore);
    let opening = shoe.opening.as_ref().unwrap();
    let front = shoe.bar_front.unwrap();
    // 43 % of the width, as the sample asks.
    assert!((opening.bounding_box().y1 - front).abs() < 1e-6);
    for (x, is_open) in [(27.9, true), (-27.9, true), (28.1, false), (-28.1, false)] {
        let inside = opening.contains(kurbo::Point::new(x, front - 0.01));
        assert_eq!(inside, is_open, "{x}");
    }
}

#[test]
fn holes_lie_in_the_groove_and_the_web_is_as_wide_as_asked_for() {
    for (name, piece, foot) in ten() {
        let shoe = drawn(&piece, foot);
        for hole in &shoe.holes {
            assert!(shoe.outline.contains(hole.centre), "{name}");
        }
        let heel = shoe.right.heel();
        for (part, web) in [
            (0.0, piece.web.toe),
            (0.5, piece.web.quarter),
            (1.0, piece.web.heel),
        ] {
            let found = shoe.web_at(&shoe.right, part * heel);
            assert!((found - web.to_mm()).abs() < 1e-6, "{name} at {part}");
        }
        let (toe, _, inward) = shoe.right.at(0.0);
        let inside = toe + inward * (piece.web.toe.to_mm() + 0.05);
        let in_steel = shoe.outline.contains(inside)
            && shoe
                .opening
                .as_ref()
                .is_none_or(|opening| !opening.contains(inside));
        assert!(!in_steel, "{name}: the toe is no wider than its web");
    }
}

#[test]
fn each_part_has_its_place() {
    for (name, piece, foot) in ten() {
        let shoe = drawn(&piece, foot);
        let is_bar = piece.bar.is_some();
        assert!(shoe.has(Place::Toe) && shoe.has(Place::Branches), "{name}");
        assert_eq!(shoe.has(Place::Bar), is_bar, "{name}");
        assert_eq!(shoe.has(Place::Heels), !is_bar, "{name}");
        assert_eq!(shoe.has(Place::Fuller), piece.fuller.is_some(), "{name}");
        assert_eq!(shoe.has(Place::NailHoles), piece.nails.is_some(), "{name}");
        assert_eq!(shoe.has(Place::Clips), !piece.clips.is_empty(), "{name}");
        // Together the parts are the shoe, but for what the corners and curves leave.
        let parts = [Place::Toe, Place::Branches, Place::Bar, Place::Heels];
        let sum: f64 = parts
            .iter()
            .filter_map(|place| shoe.zone(*place))
            .map(|path| path.area().abs())
            .sum();
        let whole = plan_area(&shoe);
        // Both branches of a part run the same way round, or their areas would cancel.
        assert!((sum / whole - 1.0).abs() < 0.06, "{name}: {sum} of {whole}");
    }
}

type Numbers = BTreeMap<String, f64>;

/// Source: shapely 2.0 (GEOS), run by tests/data/shoes/measure.py on the same curves.
#[test]
fn area_length_and_centroid_agree_with_a_geometry_library() {
    let measured: BTreeMap<String, Numbers> =
        serde_json::from_str(include_str!("../../data/shoes/measured.json")).unwrap();
    let paths: BTreeMap<String, BTreeMap<String, Option<String>>> =
        serde_json::from_str(include_str!("../../data/shoes/paths.json")).unwrap();
    assert_eq!(measured.len(), 10);
    for (name, piece, foot) in ten() {
        let shoe = drawn(&piece, foot);
        let theirs = &measured[name];
        same_path(
            name,
            &shoe.outline.to_svg(),
            paths[name]["outline"].as_deref(),
        );
        let opening = shoe.opening.as_ref().map(kurbo::BezPath::to_svg);
        same_path(
            name,
            &opening.unwrap_or_default(),
            paths[name]["opening"].as_deref(),
        );
        let near = |ours: f64, what: &str, within: f64| {
            let theirs = theirs[what];
            assert!(
                (ours - theirs).abs() <= within,
                "{name}, {what}: {ours} and {theirs}"
            );
        };
        near(plan_area(&shoe), "area", 1e-5 * theirs["area"]);
        near(length(&shoe.outline), "around", 1e-5 * theirs["around"]);
        let centre = centroid(&shoe).unwrap();
        near(centre.x, "x", 1e-3);
        near(centre.y, "y", 1e-3);
    }
}

/// The curves measured are the curves drawn.
#[track_caller]
fn same_path(name: &str, ours: &str, theirs: Option<&str>) {
    let numbers = |text: &str| -> Vec<f64> {
        let words = text.split(|c: char| !(c.is_ascii_digit() || ".-e".contains(c)));
        words.filter_map(|word| word.parse().ok()).collect()
    };
    let (ours, theirs) = (numbers(ours), numbers(theirs.unwrap_or_default()));
    assert_eq!(ours.len(), theirs.len(), "{name}");
    let same = ours
        .iter()
        .zip(&theirs)
        .all(|(one, two)| (one - two).abs() < 1e-6);
    assert!(
        same,
        "{name} is drawn differently: write the paths and measure them again"
    );
}

#[test]
#[ignore = "writes tests/data/shoes/paths.json, for measure.py"]
fn write_the_paths() {
    let paths: BTreeMap<&str, serde_json::Value> = ten()
        .into_iter()
        .map(|(name, piece, foot)| {
            let shoe = drawn(&piece, foot);
            let opening = shoe.opening.as_ref().map(kurbo::BezPath::to_svg);
            let paths = serde_json::json!({ "outline": shoe.outline.to_svg(), "opening": opening });
            (name, paths)
        })
        .collect();
    let text = serde_json::to_string_pretty(&paths).unwrap();
    std::fs::write("tests/data/shoes/paths.json", text + "\n").unwrap();
}

#[track_caller]
fn refused(piece: &PieceSpecification, words: &str) {
    let faults = MadeShoe::of(piece, Foot::NearFore).unwrap_err();
    let said: Vec<String> = faults.iter().map(ShapeFault::to_string).collect();
    assert!(said.iter().any(|said| said.contains(words)), "{said:?}");
}

#[test]
fn what_cannot_be_is_refused_with_the_reason() {
    let straight = || bar_shoe(ShoeKind::StraightBar, 130, 133);
    let mut piece = straight();
    piece.bar.as_mut().unwrap().width = mm(60);
    refused(&piece, "is wider than the heels are apart");
    let mut piece = straight();
    piece.bar.as_mut().unwrap().gap = mm(120);
    refused(&piece, "heels 120.0 mm apart do not fit");
    let mut piece = straight();
    piece.nails.as_mut().unwrap().first = mm(12);
    refused(&piece, "nail hole 1 lies 12.0 mm along the branch");
    let mut piece = straight();
    piece.nails.as_mut().unwrap().inset = mm(15);
    refused(&piece, "outside the fuller");
    let mut piece = straight();
    piece.nails.as_mut().unwrap().spacing = mm(80);
    refused(&piece, "the last nail hole reaches");
    let mut piece = straight();
    piece.fuller.as_mut().unwrap().end = mm(400);
    refused(&piece, "the fuller reaches 400.0 mm");
    let mut piece = straight();
    piece.fuller.as_mut().unwrap().width = mm(18);
    refused(&piece, "does not lie within a web");
    let mut piece = straight();
    piece.toe.radius = Some(mm(300));
    refused(&piece, "a toe radius of 300.0 mm does not fit");
    let mut piece = straight();
    piece.web.quarter = mm(62);
    refused(&piece, "leaves no room");
    let mut piece = straight();
    piece.finished.length = mm(70);
    refused(&piece, "make it longer");
    let mut piece = straight();
    piece.finished.width = mm(0);
    refused(&piece, "the finished width is 0.0 mm");
    let mut piece = straight();
    piece.bar = None;
    refused(&piece, "needs the block [piece.bar]");
    let mut piece = bar_shoe(ShoeKind::EggBar, 128, 150);
    piece.bar.as_mut().unwrap().behind = None;
    refused(&piece, "an egg bar 0.0 mm behind the heels");
    let mut piece = bar_shoe(ShoeKind::HeartBar, 130, 134);
    piece.bar.as_mut().unwrap().plate_length = Some(mm(130));
    refused(&piece, "a frog plate of 130.0 mm by");
    let mut piece = open_shoe(130, 134);
    piece.clips.push(evenshod::piece::Clip {
        place: ClipPlace::Toe,
        width: mm(90),
        height: mm(10),
        thickness: mm(4),
    });
    refused(&piece, "a clip 90.0 mm wide has no room at the toe");
    assert_eq!(straight().bar.unwrap().shape, BarShape::Straight);
}

/// Every length of a specification, times `by`.
fn scaled(piece: &PieceSpecification, by: i64) -> PieceSpecification {
    let mut piece = piece.clone();
    let mut all: Vec<&mut evenshod::quantity::Length> = vec![
        &mut piece.finished.width,
        &mut piece.finished.length,
        &mut piece.finished.thickness,
        &mut piece.web.toe,
        &mut piece.web.quarter,
        &mut piece.web.heel,
        &mut piece.outer_fuller_by,
    ];
    let Toes {
        radius,
        depth,
        set_width,
    } = toes(&mut piece.toe);
    all.extend(radius.into_iter().chain(depth).chain(set_width));
    all.extend(piece.heels.iter_mut().map(|heels| &mut heels.gap));
    if let Some(bar) = &mut piece.bar {
        all.extend([&mut bar.width, &mut bar.gap]);
        all.extend(bar.behind.as_mut());
        all.extend(bar.plate_length.as_mut());
        all.extend(bar.plate_width.as_mut());
    }
    if let Some(fuller) = &mut piece.fuller {
        all.extend([
            &mut fuller.start,
            &mut fuller.end,
            &mut fuller.inset,
            &mut fuller.width,
        ]);
    }
    if let Some(nails) = &mut piece.nails {
        all.extend([&mut nails.first, &mut nails.spacing, &mut nails.inset]);
    }
    for clip in &mut piece.clips {
        all.extend([&mut clip.width, &mut clip.thickness]);
    }
    for length in all {
        let base = length.quantity().base.numerator();
        *length = evenshod::quantity::Length::from_base(i64::try_from(base).unwrap() * by);
    }
    piece
}

struct Toes<'a> {
    radius: Option<&'a mut evenshod::quantity::Length>,
    depth: Option<&'a mut evenshod::quantity::Length>,
    set_width: Option<&'a mut evenshod::quantity::Length>,
}

fn toes(toe: &mut evenshod::piece::Toe) -> Toes<'_> {
    Toes {
        radius: toe.radius.as_mut(),
        depth: toe.depth.as_mut(),
        set_width: toe.set_width.as_mut(),
    }
}

fn other_foot(foot: Foot) -> Foot {
    match foot {
        Foot::NearFore => Foot::OffFore,
        Foot::OffFore => Foot::NearFore,
        Foot::NearHind => Foot::OffHind,
        Foot::OffHind => Foot::NearHind,
    }
}

#[test]
fn the_other_foot_mirrors_everything() {
    for (name, piece, foot) in ten() {
        let (one, other) = (
            drawn(&piece, foot),
            drawn(&piece, other_foot(foot)).mirrored(),
        );
        assert_eq!(one.outer_is_right, other.outer_is_right, "{name}");
        assert_eq!(one.right, other.right, "{name}");
        assert_eq!(one.left, other.left, "{name}");
        assert_eq!(one.holes.len(), other.holes.len(), "{name}");
        for (a, b) in one.holes.iter().zip(&other.holes) {
            assert_eq!((a.branch, a.number), (b.branch, b.number));
            assert!((a.centre - b.centre).hypot() < 1e-9 && (a.turn - b.turn).abs() < 1e-9);
        }
        assert_eq!(one.clips.len(), other.clips.len(), "{name}");
        assert!((plan_area(&one) - plan_area(&other)).abs() < 1e-6, "{name}");
        let (a, b) = (centroid(&one).unwrap(), centroid(&other).unwrap());
        assert!((a - b).hypot() < 1e-6, "{name}");
        for place in [Place::Toe, Place::Branches, Place::Bar, Place::Heels] {
            let zones = (one.zone(place), other.zone(place));
            let boxes = (
                zones.0.map(|zone| zone.bounding_box()),
                zones.1.map(|zone| zone.bounding_box()),
            );
            if let (Some(a), Some(b)) = boxes {
                let apart = (a.x0 - b.x0).abs() + (a.y0 - b.y0).abs() + (a.x1 - b.x1).abs();
                assert!(apart < 1e-6, "{name}, {place:?}");
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn scaling_scales_everything(which in 0..10_usize, by in 2..5_i64) {
        let (_, piece, foot) = ten().swap_remove(which);
        let (one, big) = (drawn(&piece, foot), drawn(&scaled(&piece, by), foot));
        let by = f64::from(u8::try_from(by).unwrap());
        let near = |a: f64, b: f64| (a - b).abs() <= 1e-6 * b.abs().max(1.0);
        prop_assert!(near(plan_area(&big), by * by * plan_area(&one)));
        prop_assert!(near(length(&big.outline), by * length(&one.outline)));
        prop_assert!(near(big.right.length(), by * one.right.length()));
        for (big, one) in big.holes.iter().zip(&one.holes) {
            prop_assert!(near(big.centre.x, by * one.centre.x));
            prop_assert!(near(big.centre.y, by * one.centre.y));
            prop_assert!(near(big.size.0, by * one.size.0));
        }
        let (a, b) = (centroid(&big).unwrap(), centroid(&one).unwrap());
        prop_assert!((a.x - by * b.x).abs() < 2e-2 && (a.y - by * b.y).abs() < 2e-2);
    }

    /// Going on along the edge goes on in space, by no more than was gone along it.
    #[test]
    fn length_along_the_edge_is_monotone(which in 0..10_usize, start in 0.0..1.0_f64, step in 0.001..0.2_f64) {
        let (_, piece, foot) = ten().swap_remove(which);
        let shoe = drawn(&piece, foot);
        for edge in [&shoe.right, &shoe.left] {
            let from = start * edge.length();
            let to = (from + step * edge.length()).min(edge.length());
            let chord = (edge.at(to).0 - edge.at(from).0).hypot();
            prop_assert!(chord <= to - from + 1e-4, "{} in {}", chord, to - from);
            prop_assert!(chord > 0.0 || to - from < 1e-9);
        }
    }

    /// A shoe is drawn or refused with a reason, whatever the numbers.
    #[test]
    fn no_size_panics(
        sizes in prop::collection::vec(-400_000..400_000_i64, 14),
        which in 0..10_usize,
        keep in prop::collection::vec(any::<bool>(), 14),
    ) {
        let (_, mut piece, foot) = ten().swap_remove(which);
        let mut sizes = sizes.into_iter().zip(keep);
        let mut set = |length: &mut evenshod::quantity::Length| {
            if let Some((size, true)) = sizes.next() {
                *length = um(size);
            }
        };
        set(&mut piece.finished.width);
        set(&mut piece.finished.length);
        set(&mut piece.web.toe);
        set(&mut piece.web.quarter);
        set(&mut piece.web.heel);
        set(&mut piece.outer_fuller_by);
        if let Some(bar) = &mut piece.bar {
            set(&mut bar.width);
            set(&mut bar.gap);
        }
        if let Some(fuller) = &mut piece.fuller {
            set(&mut fuller.start);
            set(&mut fuller.end);
            set(&mut fuller.inset);
        }
        if let Some(nails) = &mut piece.nails {
            set(&mut nails.first);
            set(&mut nails.spacing);
            set(&mut nails.inset);
        }
        match MadeShoe::of(&piece, foot) {
            Ok(shoe) => {
                prop_assert!(plan_area(&shoe).is_finite());
                prop_assert!(shoe.outline.bounding_box().width().is_finite());
            }
            Err(faults) => prop_assert!(!faults.is_empty()),
        }
    }
}
