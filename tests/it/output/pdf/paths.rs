//! Paths of a PDF, read back from its operators: what a printer would draw, in mm.

use kurbo::{Affine, BezPath, Point, Shape as _};

use super::tools::operators;

/// Points in a millimetre.
const MM: f64 = 72.0 / 25.4;

/// A path as it lies on its page, in mm from the upper left corner of the paper.
#[derive(Debug, Clone)]
pub struct Drawn {
    /// The page, from 1.
    pub page: usize,
    /// The path.
    pub path: BezPath,
    /// Whether it is drawn, not only a frame that cuts off.
    pub is_seen: bool,
}

impl Drawn {
    /// Its width and height in mm.
    pub fn size(&self) -> (f64, f64) {
        let size = self.path.bounding_box();
        (size.width(), size.height())
    }
}

/// Every path of every page. Paper is `height` mm high.
pub fn paths(bytes: &[u8], height: f64) -> Vec<Drawn> {
    let text = operators(bytes);
    let mut found = Vec::new();
    for (page, content) in contents(&text) {
        // PDF counts from the lower left corner.
        let paper = Affine::new([1.0 / MM, 0.0, 0.0, -1.0 / MM, 0.0, height]);
        read(content, page, paper, &mut found);
    }
    found
}

/// Number and operators of each page.
fn contents(text: &str) -> Vec<(usize, &str)> {
    let pages = text.split("%% Contents for page ").skip(1);
    let content = pages.map(|rest| {
        let (number, rest) = rest.split_once('\n').unwrap();
        let (_, rest) = rest.split_once("stream\n").unwrap();
        let (content, _) = rest.split_once("endstream").unwrap();
        (number.trim().parse().unwrap(), content)
    });
    content.collect()
}

fn read(content: &str, page: usize, paper: Affine, found: &mut Vec<Drawn>) {
    let mut place = paper;
    let mut places = Vec::new();
    let mut numbers: Vec<f64> = Vec::new();
    let mut path = BezPath::new();
    let mut is_clip = false;
    for word in content.split_whitespace() {
        if let Ok(number) = word.parse::<f64>() {
            numbers.push(number);
            continue;
        }
        let all = std::mem::take(&mut numbers);
        let point = |at: usize| Point::new(all[at], all[at + 1]);
        match word {
            "q" => places.push(place),
            "Q" => place = places.pop().unwrap(),
            "cm" => place *= Affine::new(all.try_into().unwrap()),
            "m" => path.move_to(point(0)),
            "l" => path.line_to(point(0)),
            "c" => path.curve_to(point(0), point(2), point(4)),
            "v" => {
                let last = path.segments().last().unwrap();
                path.curve_to(kurbo::ParamCurve::end(&last), point(0), point(2));
            }
            "y" => path.curve_to(point(0), point(2), point(2)),
            "h" => path.close_path(),
            "re" => {
                let rect = kurbo::Rect::from_origin_size(point(0), (all[2], all[3]));
                path.extend(rect.path_elements(0.1));
            }
            "W" | "W*" => is_clip = true,
            "S" | "s" | "f" | "f*" | "B" | "B*" | "b" | "b*" | "n" => {
                found.push(Drawn {
                    page,
                    path: place * std::mem::take(&mut path),
                    is_seen: !(is_clip && word == "n"),
                });
                is_clip = false;
            }
            _ => {}
        }
    }
}
