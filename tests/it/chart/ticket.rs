//! Tickets, and their codes read by a reader that this program is not made of.

use evenshod::chart::{Class, Shape, TicketText, ticket_row};
use kurbo::{BezPath, Point, Shape as _};

const ADDRESS: &str = "https://forge.example/pieces/019abc00-0000-7000-8000-000000000012";

fn text(number: &str) -> TicketText {
    TicketText {
        number: number.to_owned(),
        words: vec![
            "Straight bar shoe".to_owned(),
            "Exam, 2026-11-25".to_owned(),
        ],
        address: ADDRESS.to_owned(),
    }
}

#[test]
fn its_code_reads_the_address_of_its_piece() {
    let drawing = ticket_row(&[text("7"), text("12")]);
    let codes = drawing.shapes.iter().filter_map(|shape| match shape {
        Shape::Path {
            d,
            class: Class::CodeDark,
        } => Some(BezPath::from_svg(d).unwrap()),
        _ => None,
    });
    let codes: Vec<BezPath> = codes.collect();
    assert_eq!(codes.len(), 2);
    for path in codes {
        let bounds = path.bounding_box();
        // Four pixels a millimetre, with clear paper around it.
        let side = 176;
        let is_dark = |x: usize, y: usize| {
            let (x, y) = (x as f64 / 4.0 - 4.0, y as f64 / 4.0 - 4.0);
            path.contains(Point::new(bounds.x0 + x, bounds.y0 + y))
        };
        let mut image = rqrr::PreparedImage::prepare_from_greyscale(side, side, |x, y| {
            if is_dark(x, y) { 0 } else { 255 }
        });
        let grids = image.detect_grids();
        assert_eq!(grids.len(), 1);
        assert_eq!(grids[0].decode().unwrap().1, ADDRESS);
    }
}

#[test]
fn all_of_it_lies_within_the_line_to_cut_along() {
    for number in ["1", "12", "104", "A-2026-17"] {
        let drawing = ticket_row(&[text(number)]);
        for shape in &drawing.shapes {
            if let Shape::Note {
                x, y, height, text, ..
            } = shape
            {
                let letters = text.chars().count() as f64;
                assert!(*x + 0.5 * letters * height <= 47.0, "{text}");
                assert!(*y <= 46.5 && *height <= 24.0, "{text}");
            }
        }
    }
}
