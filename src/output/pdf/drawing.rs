use kurbo::{Affine, BezPath, Circle, Line as Straight, Rect, Shape as _};
use num_traits::ToPrimitive;

use super::face::{Face, Faces};
use super::ink::Ink;
use super::line::{Run, Style};
use super::look::{self, Look};
use super::strip::{Mark, Outline, Pen, What};
use crate::chart::{Align, Class, Drawing, Shape};

/// Height of words in drawings where there is room, in points.
const WORDS: f32 = 7.5;
/// How exact circles are, in the drawing's units.
const EXACT: f64 = 0.01;

/// A drawing that is `width` points wide, its parts from its upper left corner.
pub(super) fn drawn(faces: &mut Faces, drawing: &Drawing, width: f32) -> Vec<Mark> {
    let scale = f64::from(width) / drawing.width.max(1.0);
    let mut painter = Painter {
        faces,
        place: Affine::scale(scale) * Affine::translate((-drawing.left, -drawing.top)),
        scale: single(scale),
        marks: Vec::new(),
    };
    for shape in &drawing.shapes {
        painter.shape(shape, None);
    }
    painter.marks
}

/// How high a drawing is that is `width` points wide.
pub(super) fn height(drawing: &Drawing, width: f32) -> f32 {
    single(drawing.height / drawing.width.max(1.0)) * width
}

/// What a drawing says, for those who do not see it.
pub(super) fn alt(drawing: &Drawing) -> String {
    let Drawing {
        title, description, ..
    } = drawing;
    match (title.is_empty(), description.is_empty()) {
        (true, true) => "A drawing".to_owned(),
        (true, false) => description.clone(),
        (false, true) => title.clone(),
        (false, false) => format!("{}. {description}", title.trim_end_matches('.')),
    }
}

fn single(value: f64) -> f32 {
    value
        .to_f32()
        .filter(|value| value.is_finite())
        .unwrap_or(0.0)
}

struct Painter<'a> {
    faces: &'a mut Faces,
    place: Affine,
    scale: f32,
    marks: Vec<Mark>,
}

impl Painter<'_> {
    fn shape(&mut self, shape: &Shape, tapped: Option<u8>) {
        match shape {
            Shape::Rect {
                x,
                y,
                width,
                height,
                class,
                band,
            } => {
                let path = Rect::new(*x, *y, x + width, y + height).to_path(EXACT);
                let mut look = look::look(*class, band.or(tapped));
                look.fill = band.map(Ink::of_band).or(look.fill);
                self.outline(path, look);
            }
            Shape::TurnedRect {
                x,
                y,
                width,
                height,
                degrees,
                class,
            } => {
                let (right, down) = (width / 2.0, height / 2.0);
                let turn = Affine::translate((*x, *y)) * Affine::rotate(degrees.to_radians());
                let path = Rect::new(-right, -down, right, down).to_path(EXACT);
                self.outline(turn * path, look::look(*class, tapped));
            }
            Shape::Line {
                x1,
                y1,
                x2,
                y2,
                class,
            } => {
                let path = Straight::new((*x1, *y1), (*x2, *y2)).to_path(EXACT);
                self.outline(path, look::line(*class));
            }
            Shape::Path { d, class } => self.path(d, look::look(*class, tapped)),
            Shape::Groove { d, width, class } => {
                let pen = look::groove(*class, tapped).map(|ink| Pen {
                    is_round: true,
                    ..Pen::new(ink, single(*width))
                });
                let look = Look {
                    pen,
                    ..Look::default()
                };
                self.path(d, look);
            }
            Shape::Part { band, inside, .. } => {
                for shape in inside {
                    self.shape(shape, *band);
                }
            }
            Shape::Circle {
                x,
                y,
                radius,
                class,
            } => {
                let path = Circle::new((*x, *y), *radius).to_path(EXACT);
                self.outline(path, look::look(*class, tapped));
            }
            Shape::Note {
                x,
                y,
                align,
                height,
                text,
                class,
            } => {
                let size = single(*height) * self.scale;
                self.words((*x, *y), *align, text, *class, size);
            }
            Shape::Text {
                x,
                y,
                align,
                text,
                class,
            } => {
                let size = WORDS.min(look::words(*class).most * self.scale);
                self.words((*x, *y), *align, text, *class, size);
            }
        }
    }

    /// A path in SVG's notation; one that is none is left out, as browsers do.
    fn path(&mut self, d: &str, look: Look) {
        if let Ok(path) = BezPath::from_svg(d) {
            self.outline(path, look);
        }
    }

    fn outline(&mut self, path: BezPath, look: Look) {
        let Look {
            fill,
            pen,
            is_fixed,
        } = look;
        let scale = if is_fixed { 1.0 } else { self.scale };
        let pen = pen.map(|pen| Pen {
            width: (pen.width * scale).max(0.25),
            dash: pen.dash.map(|length| length * scale),
            ..pen
        });
        if fill.is_none() && pen.is_none() {
            return;
        }
        self.marks.push(Mark {
            x: 0.0,
            y: 0.0,
            node: None,
            what: What::Shape(Outline {
                path: self.place * path,
                fill,
                pen,
            }),
        });
    }

    fn words(&mut self, at: (f64, f64), align: Align, text: &str, class: Class, size: f32) {
        let look = look::words(class);
        let style = Style {
            face: if look.is_bold {
                Face::Bold
            } else {
                Face::Regular
            },
            size,
            ink: look.ink,
        };
        let run = Run::of(self.faces, text, style);
        let at = self.place * kurbo::Point::from(at);
        let back = match align {
            Align::Start => 0.0,
            Align::Middle => run.width() / 2.0,
            Align::End => run.width(),
        };
        self.marks.push(Mark {
            x: single(at.x) - back,
            y: single(at.y),
            node: None,
            what: What::Words {
                run,
                has_halo: look.has_halo,
            },
        });
    }
}
