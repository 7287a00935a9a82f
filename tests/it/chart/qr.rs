//! The drawn QR code, read by a reader that this program is not made of.

use evenshod::chart::{Drawing, Shape, qr_code};
use kurbo::{BezPath, Point, Shape as _};

/// Pixels to a module.
const PIXELS: usize = 6;

/// The drawing as grey pixels: dark where its path covers the middle of the pixel.
fn pixels(drawing: &Drawing) -> (usize, Vec<u8>) {
    let path = drawing.shapes.iter().find_map(|shape| match shape {
        Shape::Path { d, .. } => Some(BezPath::from_svg(d).unwrap()),
        _ => None,
    });
    let path = path.unwrap();
    let modules = (1..200).find(|count| drawing.width == f64::from(*count));
    let modules = usize::try_from(modules.unwrap()).unwrap();
    let dark: Vec<bool> = (0..modules * modules)
        .map(|at| {
            let middle = |n: usize| n as f64 + 0.5;
            path.contains(Point::new(middle(at % modules), middle(at / modules)))
        })
        .collect();
    let side = modules * PIXELS;
    let pixels = (0..side * side).map(|at| {
        let (x, y) = (at % side / PIXELS, at / side / PIXELS);
        if dark[y * modules + x] { 0 } else { 255 }
    });
    (side, pixels.collect())
}

fn read(drawing: &Drawing) -> String {
    let (side, pixels) = pixels(drawing);
    let mut image =
        rqrr::PreparedImage::prepare_from_greyscale(side, side, |x, y| pixels[y * side + x]);
    let grids = image.detect_grids();
    assert_eq!(grids.len(), 1);
    let (meta, text) = grids[0].decode().unwrap();
    // The two bits that ISO/IEC 18004 writes for M (from memory).
    assert_eq!(meta.ecc_level, 0);
    text
}

#[test]
fn an_independent_reader_reads_what_was_drawn() {
    let digest = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
    let text = format!("evenshod:sha256:{digest}");
    let drawing = qr_code(&text, "The digest".to_owned(), "A code".to_owned()).unwrap();
    assert_eq!(read(&drawing), text);
    assert_eq!((drawing.width, drawing.left), (drawing.height, 0.0));
}

#[test]
fn it_is_one_path_with_a_clear_edge() {
    let drawing = qr_code("abc", String::new(), String::new()).unwrap();
    assert_eq!(drawing.shapes.len(), 2);
    let Shape::Path { d, .. } = &drawing.shapes[1] else {
        panic!("{:?}", drawing.shapes[1]);
    };
    let inside = BezPath::from_svg(d).unwrap().bounding_box();
    let edge = [
        inside.x0,
        inside.y0,
        drawing.width - inside.x1,
        drawing.height - inside.y1,
    ];
    assert_eq!(edge, [4.0; 4]);
}

#[test]
fn what_no_code_holds_gives_none() {
    let long = "x".repeat(3_000);
    assert!(qr_code(&long, String::new(), String::new()).is_none());
}
