//! What is printed at its true size, measured in the file.

use evenshod::chart::{OVERLAP, Side};
use evenshod::output::pdf::{Kind, Paper, pdf, plan};
use evenshod::output::svg_at_true_size;
use evenshod::piece::{Foot, MadeShoe, PieceSpecification};
use evenshod::quantity::{Length, Unit};
use evenshod::sheet::{
    Block, GaugeTolerance, LayOnGauge, Oversize, ToleranceFrom, gauge_drawing, lay_on_gauge,
};
use kurbo::{Affine, Shape as _};

use super::paths::{Drawn, paths};
use super::sample::{checked, document};
use super::tools::{check_syntax, pages};
use crate::piece::sample::{nailed, open_shoe};
use crate::plan::sample::shipped_piece;

/// Height of the paper in mm.
fn high(paper: Paper) -> f64 {
    f64::from(paper.size().1) * 25.4 / 72.0
}

fn gauge<'a>(piece: &'a PieceSpecification, foot: Foot, side: Side) -> LayOnGauge<'a> {
    LayOnGauge {
        piece,
        title: "Straight bar shoe",
        foot,
        side,
        tolerance: GaugeTolerance::default(),
        unit: Unit::Millimetre,
    }
}

/// Paths that are so wide and high within a tenth of a mm, in mm.
fn sized(found: &[Drawn], (width, height): (f64, f64)) -> Vec<&Drawn> {
    let is_so = |drawn: &&Drawn| {
        let (wide, high) = drawn.size();
        drawn.is_seen && (wide - width).abs() < 0.1 && (high - height).abs() < 0.1
    };
    found.iter().filter(is_so).collect()
}

fn size(piece: &PieceSpecification) -> (f64, f64) {
    (piece.finished.width.to_mm(), piece.finished.length.to_mm())
}

#[test]
fn a_gauge_measures_what_the_piece_asks_for() {
    for (id, side) in [
        ("straight-bar-shoe", Side::Ground),
        ("hind-shoe", Side::Foot),
    ] {
        let (piece, foot) = shipped_piece(id);
        let document = lay_on_gauge(&gauge(&piece, foot, side)).unwrap();
        for paper in [Paper::A4, Paper::Letter] {
            let file = checked(&document, paper);
            check_syntax(&file.bytes);
            let found = paths(&file.bytes, high(paper));
            let (width, length) = size(&piece);
            let outlines = sized(&found, (width, length));
            assert_eq!(outlines.len(), 1, "{id} on {paper:?}");
            let (wide, long) = outlines[0].size();
            assert!((wide - width).abs() < 0.01, "{wide} for {width}");
            assert!((long - length).abs() < 0.01, "{long} for {length}");
            // The widest and the narrowest; of an open shoe the edge, up to the heel corners.
            for way in [-1.5, 1.5] {
                let is_so = |drawn: &&Drawn| (drawn.size().0 - width - way).abs() < 0.01;
                let bounds = found.iter().filter(is_so).count();
                assert_eq!(bounds, 1, "{id} on {paper:?}: {way}");
            }
        }
    }
}

#[test]
fn its_outline_is_that_of_the_shoe_all_along() {
    let (piece, foot) = shipped_piece("straight-bar-shoe");
    for side in [Side::Ground, Side::Foot] {
        let document = lay_on_gauge(&gauge(&piece, foot, side)).unwrap();
        let file = pdf(&document, Paper::A4).unwrap();
        let found = paths(&file.bytes, high(Paper::A4));
        let drawn = sized(&found, size(&piece))[0];
        let shoe = MadeShoe::of(&piece, foot).unwrap();
        let shoe = if side == Side::Ground {
            shoe
        } else {
            shoe.mirrored()
        };
        let by = drawn.path.bounding_box().origin() - shoe.outline.bounding_box().origin();
        let moved = Affine::translate(by) * &shoe.outline;
        for (one, other) in moved.segments().zip(drawn.path.segments()) {
            for t in [0.0, 0.5, 1.0] {
                let apart = kurbo::ParamCurve::eval(&one, t) - kurbo::ParamCurve::eval(&other, t);
                assert!(apart.hypot() < 0.01, "{side:?}: {apart:?}");
            }
        }
    }
}

#[test]
fn check_lines_on_every_sheet_are_100_mm_and_4_in() {
    let piece = nailed(open_shoe(205, 212), 205);
    let draught = lay_on_gauge(&gauge(&piece, Foot::NearFore, Side::Ground)).unwrap();
    let (bar, foot) = shipped_piece("straight-bar-shoe");
    let riding = lay_on_gauge(&gauge(&bar, foot, Side::Ground)).unwrap();
    for (document, on) in [(&riding, [1, 1]), (&draught, [2, 4])] {
        for (paper, sheets) in [Paper::A4, Paper::Letter].into_iter().zip(on) {
            let file = pdf(document, paper).unwrap();
            let found = paths(&file.bytes, high(paper));
            for long in [100.0, 101.6] {
                let lines = found.iter().filter(|drawn| {
                    let (wide, high) = drawn.size();
                    (wide - long).abs() < 0.01 && high < 0.01
                });
                assert_eq!(lines.count(), sheets, "{long} on {paper:?}");
            }
        }
    }
}

#[test]
fn a_large_shoe_goes_over_sheets_that_share_their_register_marks() {
    let piece = nailed(open_shoe(205, 212), 205);
    let document = lay_on_gauge(&gauge(&piece, Foot::NearFore, Side::Ground)).unwrap();
    let file = checked(&document, Paper::A4);
    let found = paths(&file.bytes, high(Paper::A4));
    let outlines = sized(&found, (205.0, 212.0));
    assert_eq!(outlines.len(), 2);
    assert_ne!(outlines[0].page, outlines[1].page);
    // Each sheet shows its frame of the whole, and both frames overlap.
    let frames: Vec<&Drawn> = found
        .iter()
        .filter(|drawn| !drawn.is_seen && drawn.size().1 > 150.0)
        .collect();
    assert_eq!(frames.len(), 2);
    let shown = |at: usize| {
        let left = outlines[at].path.bounding_box().x0;
        let frame = frames[at].path.bounding_box();
        (frame.x0 - left, frame.x1 - left)
    };
    let (first, second) = (shown(0), shown(1));
    assert!(
        (first.1 - second.0 - OVERLAP).abs() < 0.01,
        "{first:?} {second:?}"
    );
    // Circles of register marks lie in the middle of what is shared, on both sheets.
    let circles = |at: usize| {
        let left = outlines[at].path.bounding_box().x0;
        let round = found.iter().filter(|drawn| {
            let (wide, high) = drawn.size();
            drawn.page == outlines[at].page
                && (wide - 4.0).abs() < 0.01
                && (high - 4.0).abs() < 0.01
        });
        round
            .map(|drawn| drawn.path.bounding_box().center().x - left)
            .collect::<Vec<f64>>()
    };
    for at in [0, 1] {
        let marks = circles(at);
        assert_eq!(marks.len(), 3, "{marks:?}");
        let seam = second.0 + OVERLAP / 2.0;
        assert!(marks.iter().all(|x| (x - seam).abs() < 0.01), "{marks:?}");
    }
    let text = pages(&file.bytes).join("\n");
    assert!(text.contains("sheet 1 of 2, row 1, column 1"), "{text}");
    assert!(text.contains("sheet 2 of 2, row 1, column 2"), "{text}");
}

#[test]
fn what_need_not_be_at_full_size_says_how_much_smaller_it_is() {
    let bar = |width: f64| {
        let mut drawing = gauge_drawing(&{
            let (piece, foot) = shipped_piece("hind-shoe");
            gauge(Box::leak(Box::new(piece)), foot, Side::Ground)
        })
        .unwrap();
        drawing.width = width;
        document(vec![Block::TrueSize {
            drawing,
            otherwise: Oversize::Smaller,
        }])
    };
    let said = |document, paper| {
        let file = pdf(&document, paper).unwrap();
        pages(&file.bytes).join("\n")
    };
    let full = said(bar(120.0), Paper::A5);
    assert!(full.contains("Drawn at full size"), "{full}");
    // A5 has 126 mm for text.
    let half = said(bar(252.0), Paper::A5);
    assert!(
        half.contains("Not at full size: 1 mm here is 2.00 mm."),
        "{half}"
    );
}

#[test]
fn on_small_paper_a_millimetre_stays_one() {
    let (piece, foot) = shipped_piece("straight-bar-shoe");
    let document = lay_on_gauge(&gauge(&piece, foot, Side::Ground)).unwrap();
    // Type on A6 is set smaller; lines of 100 mm do not fit it, but the outline keeps its size.
    let file = pdf(&document, Paper::A6).unwrap();
    let found = paths(&file.bytes, high(Paper::A6));
    assert!(!sized(&found, size(&piece)).is_empty());
    let strips = plan(&document, Paper::A6).unwrap();
    assert!(
        strips
            .iter()
            .flatten()
            .filter(|kind| **kind == Kind::Drawings)
            .count()
            > 1
    );
}

#[test]
fn it_speaks_of_what_the_shoe_has() {
    let (mut piece, foot) = shipped_piece("straight-bar-shoe");
    let said = |piece: &PieceSpecification, side| {
        evenshod::output::text(&lay_on_gauge(&gauge(piece, foot, side)).unwrap())
    };
    let text = said(&piece, Side::Ground);
    assert!(
        text.contains("ground side up, so that you see the fuller."),
        "{text}"
    );
    assert!(
        text.contains("lead to the nail holes by number, F to the ends"),
        "{text}"
    );
    assert!(said(&piece, Side::Foot).contains("Lay the shoe on it foot side up."));
    piece.fuller = None;
    assert!(said(&piece, Side::Ground).contains("lead to the nail holes by number."));
    piece.nails = None;
    assert!(!said(&piece, Side::Ground).contains("Lines outside"));
}

#[test]
fn sizes_that_are_no_shoe_are_told_instead_of_drawn() {
    let (mut piece, foot) = shipped_piece("straight-bar-shoe");
    for wrong in [0, -1, i64::MAX] {
        piece.finished.width = Length::from_base(wrong);
        let fault = lay_on_gauge(&gauge(&piece, foot, Side::Ground)).unwrap_err();
        assert!(
            fault.to_string().starts_with("the finished width is"),
            "{fault}"
        );
    }
}

/// The number after a key of an SVG element's head.
fn value(text: &str, key: &str) -> f64 {
    let (_, rest) = text.split_once(&format!(" {key}=\"")).unwrap();
    let (number, _) = rest.split_once('"').unwrap();
    number.trim_end_matches("mm").parse().unwrap()
}

#[test]
fn an_svg_is_in_millimetres_with_check_lines() {
    let (piece, foot) = shipped_piece("straight-bar-shoe");
    let drawing = gauge_drawing(&gauge(&piece, foot, Side::Ground)).unwrap();
    let file = svg_at_true_size(&drawing);
    let (_, view) = file.text.split_once("viewBox=\"").unwrap();
    let view: Vec<f64> = view
        .split('"')
        .next()
        .unwrap()
        .split(' ')
        .map(|one| one.parse().unwrap())
        .collect();
    assert!((value(&file.text, "width") - view[2]).abs() < 0.011);
    assert!((value(&file.text, "height") - view[3]).abs() < 0.011);
    assert!(file.text.contains(">100 mm</text>") && file.text.contains(">4 in</text>"));
    let outline = file.text.split("<path ").nth(1).unwrap();
    let (_, d) = outline.split_once("d=\"").unwrap();
    let path = kurbo::BezPath::from_svg(d.split('"').next().unwrap()).unwrap();
    let (width, length) = size(&piece);
    let box_of = path.bounding_box();
    assert!((box_of.width() - width).abs() < 0.01 && (box_of.height() - length).abs() < 0.01);
}

#[test]
fn a_tolerance_is_the_one_that_the_rubric_gives_most_marks_for() {
    use evenshod::rubric::{read_rubric, shipped};
    let of = |id: &str| {
        let text = shipped().iter().find(|one| one.id == id).unwrap().text;
        evenshod::sheet::gauge_tolerance(&read_rubric(text).rubric.unwrap())
    };
    let found = of("straight-bar-shoe").unwrap();
    assert_eq!(found.width, Length::read("1.5").unwrap());
    assert_eq!(found.from, ToleranceFrom::Rubric);
    assert_eq!(GaugeTolerance::default().from, ToleranceFrom::Usual);
    assert_eq!(
        GaugeTolerance::default().length,
        Length::read("1.5").unwrap()
    );
}

/// A bar that is no wider than the paper keeps its size on a bench card, with the check lines of
/// the gauge under it; on a small card it is drawn smaller and bears none.
#[test]
fn a_bench_card_bears_check_lines_where_its_bar_keeps_its_size() {
    use evenshod::chart::CHECKED_SIZE;
    use evenshod::plan::{Choice, Inputs, plan};
    use evenshod::rubric::{read_rubric, shipped};
    use evenshod::sheet::{BenchCard, bench_card};
    let text = shipped()
        .iter()
        .find(|one| one.id == "hind-shoe")
        .unwrap()
        .text;
    let rubric = read_rubric(text).rubric.unwrap();
    let inputs = Inputs {
        choice: Choice::Own(Length::read("160 mm").unwrap()),
        ..Inputs::usual(&rubric.piece, Foot::NearHind)
    };
    let card = bench_card(&BenchCard {
        rubric: &rubric,
        plan: &plan(&rubric.piece, &inputs),
        unit: Unit::Millimetre,
    });
    let wide = |paper: Paper, long: f64| {
        let file = pdf(&card, paper).unwrap();
        let mut sizes = paths(&file.bytes, high(paper))
            .into_iter()
            .map(|drawn| drawn.size());
        sizes.any(|(wide, high)| (wide - long).abs() < 0.01 && high < 0.01)
    };
    for line in [100.0, 101.6] {
        assert!(wide(Paper::A4, line), "{line} on A4");
        assert!(!wide(Paper::A5, line), "{line} on A5");
    }
    assert!(CHECKED_SIZE.contains("100 mm and 4 in"));
}
