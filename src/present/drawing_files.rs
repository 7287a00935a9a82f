//! Drawings as files of their own.

use num_traits::ToPrimitive as _;

use crate::chart::Drawing;
use crate::output::{SvgFile, file_base, svg, svg_at_true_size, with_density};
use crate::records::Day;

/// Dots to the inch of a drawing as a picture.
const PER_INCH: u32 = 300;

/// A drawing as it is saved.
#[derive(Debug, Clone, PartialEq)]
pub struct DrawingFile {
    /// What the file is called, without an ending.
    pub base: String,
    /// The drawing as SVG.
    pub svg: String,
    /// Width and height of it as a picture, in dots.
    pub dots: (u32, u32),
}

/// `drawing`, saved on this day.
pub fn drawing_file(day: Day, drawing: &Drawing) -> DrawingFile {
    saved(day, drawing, svg(drawing))
}

/// `drawing`, of which a unit is a millimetre, saved on this day at its true size with check
/// lines.
pub fn true_size_file(day: Day, drawing: &Drawing) -> DrawingFile {
    saved(day, drawing, svg_at_true_size(drawing))
}

fn saved(day: Day, drawing: &Drawing, file: SvgFile) -> DrawingFile {
    let dots = |millimetres: f64| {
        let dots = millimetres / 25.4 * f64::from(PER_INCH);
        dots.round().to_u32().unwrap_or(1).max(1)
    };
    DrawingFile {
        base: file_base(day, &drawing.title, ""),
        svg: file.text,
        dots: (dots(file.width), dots(file.height)),
    }
}

/// A picture of a drawing that says how large it is meant.
pub fn as_picture(png: &[u8]) -> Vec<u8> {
    with_density(png, PER_INCH)
}

/// What is said where this browser draws no picture; `why` is what it says, or nothing.
pub fn not_drawn(why: &str) -> String {
    let why = if why.is_empty() {
        String::new()
    } else {
        format!(" ({why})")
    };
    format!("This browser made no picture of it{why}. Save it as SVG instead.")
}
