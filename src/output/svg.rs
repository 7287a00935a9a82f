//! Drawings as files of their own: SVG 2, with title and description, a size in millimetres
//! and the look of each class in the file, so that it stands alone.
//!
//! The look is that of paper ([`look`](super::look)), as in a PDF. What can be tapped on the
//! page leads nowhere here. Characters that XML 1.0 has no place for are left out.

use std::fmt::Write as _;

use super::ink::Ink;
use super::look::{Look, Pen, groove, line, look, words};
use crate::chart::{Class, Drawing, Shape, svg_inside, with_check_lines};

/// Points in a millimetre.
const POINTS: f64 = 72.0 / 25.4;
/// Height of words where there is room, in points; as in a PDF.
const WORDS: f64 = 7.5;
/// White around a drawing, in points: words and lines may stand out of it a little.
const MARGIN: f64 = 9.0;
/// A drawing so many times as wide as high is a chart or a ruler.
const WIDE: f64 = 1.4;
/// Width of a chart, of another drawing and of a QR code, in millimetres without the margin.
const WIDTHS: [f64; 3] = [160.0, 100.0, 32.0];
/// The greatest height in millimetres.
const HIGHEST: f64 = 200.0;

/// A drawing as a file.
#[derive(Debug, Clone, PartialEq)]
pub struct SvgFile {
    /// The whole file.
    pub text: String,
    /// Its width in millimetres.
    pub width: f64,
    /// Its height in millimetres.
    pub height: f64,
}

/// `drawing` as a file.
pub fn svg(drawing: &Drawing) -> SvgFile {
    file(drawing, width_of(drawing))
}

/// A drawing of which a unit is a millimetre, as a file at its true size, check lines below it.
pub fn svg_at_true_size(drawing: &Drawing) -> SvgFile {
    let drawing = with_check_lines(drawing);
    file(&drawing, drawing.width)
}

/// A drawing so many millimetres wide without its margin.
fn file(drawing: &Drawing, inner: f64) -> SvgFile {
    // Points to a unit of the drawing.
    let scale = inner * POINTS / drawing.width.max(1.0);
    let margin = MARGIN / scale;
    let (wide, high) = (drawing.width + 2.0 * margin, drawing.height + 2.0 * margin);
    let (left, top) = (drawing.left - margin, drawing.top - margin);
    let (width, height) = (wide * scale / POINTS, high * scale / POINTS);
    let inside = svg_inside(&untied(drawing), "title", "desc");
    let style = style(&inside, scale);
    let told = if drawing.description.is_empty() {
        ""
    } else {
        " aria-describedby=\"desc\""
    };
    let text = format!(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\" \
         width=\"{width:.2}mm\" height=\"{height:.2}mm\" viewBox=\"{left:.2} {top:.2} {wide:.2} \
         {high:.2}\" role=\"img\" aria-labelledby=\"title\"{told}>\n<style>\n{style}</style>\n\
         {inside}</svg>\n"
    );
    SvgFile {
        text: text.chars().filter(|letter| is_of_xml(*letter)).collect(),
        width,
        height,
    }
}

fn width_of(drawing: &Drawing) -> f64 {
    let [chart, other, code] = WIDTHS;
    let is_code = |shape: &Shape| {
        matches!(
            shape,
            Shape::Path {
                class: Class::CodeDark,
                ..
            }
        )
    };
    let ratio = drawing.width.max(1.0) / drawing.height.max(1.0);
    let width = if drawing.shapes.iter().any(is_code) {
        code
    } else if ratio > WIDE {
        chart
    } else {
        other
    };
    width.min(HIGHEST * ratio)
}

/// The same where nothing leads anywhere.
fn untied(drawing: &Drawing) -> Drawing {
    fn of(shape: &Shape) -> Shape {
        match shape {
            Shape::Part {
                label,
                band,
                inside,
                ..
            } => Shape::Part {
                href: None,
                label: label.clone(),
                band: *band,
                inside: inside.iter().map(of).collect(),
            },
            other => other.clone(),
        }
    }
    Drawing {
        shapes: drawing.shapes.iter().map(of).collect(),
        ..drawing.clone()
    }
}

/// Whether XML 1.0 (fifth edition, 2.2) has a place for it.
fn is_of_xml(letter: char) -> bool {
    matches!(letter, '\t' | '\n' | '\r' | '\u{20}'..='\u{fffd}' | '\u{10000}'..)
}

/// The rules for the classes and bands that stand in `inside`, of which a unit is `scale`
/// points.
fn style(inside: &str, scale: f64) -> String {
    let mut css = String::new();
    let plain = size(words(Class::Label).most, scale);
    rule(
        &mut css,
        "svg",
        &format!("font-family:sans-serif;font-size:{plain}"),
    );
    let used = Class::ALL.iter().copied();
    let used = used.filter(|class| inside.contains(&format!("class=\"{}\"", class.word())));
    let bands: Vec<u8> = (0..=4)
        .filter(|band| inside.contains(&format!("data-band=\"{band}\"")))
        .collect();
    for class in used {
        of_class(&mut css, class, &bands, scale);
    }
    for band in bands {
        let ink = hex(Ink::of_band(band));
        rule(
            &mut css,
            &format!("rect[data-band=\"{band}\"]"),
            &format!("fill:{ink}"),
        );
    }
    css
}

fn of_class(css: &mut String, class: Class, bands: &[u8], scale: f64) {
    let word = class.word();
    let whole = look(class, None);
    rule(css, &format!(".{word}"), &shape(whole, scale));
    if line(class) != whole {
        rule(css, &format!("line.{word}"), &shape(line(class), scale));
    }
    if let Some(ink) = groove(class, None) {
        rule(css, &format!("path.{word}"), &grooved(ink));
    }
    for band in bands {
        let inside = format!("[data-band=\"{band}\"]");
        let own = look(class, Some(*band));
        if own != whole {
            rule(css, &format!("{inside} .{word}"), &shape(own, scale));
        }
        if let Some(ink) = groove(class, Some(*band)) {
            rule(css, &format!("{inside} path.{word}"), &grooved(ink));
        }
    }
    rule(css, &format!("text.{word}"), &lettered(class, scale));
}

fn rule(css: &mut String, of: &str, says: &str) {
    // Writing to a string does not fail.
    let _ = writeln!(css, "{of}{{{says}}}");
}

fn shape(look: Look, scale: f64) -> String {
    let fill = look.fill.map_or_else(|| "none".to_owned(), hex);
    let pen = look.pen.map_or_else(
        || "stroke:none".to_owned(),
        |pen| drawn(pen, look.is_fixed, scale),
    );
    format!("fill:{fill};{pen}")
}

/// A pen; one that is fixed has its width in points, whatever a unit is.
fn drawn(pen: Pen, is_fixed: bool, scale: f64) -> String {
    let unit = if is_fixed { scale } else { 1.0 };
    let lengths = pen.dash.iter().map(|length| f64::from(*length) / unit);
    let lengths: Vec<String> = lengths.map(|length| format!("{length:.2}")).collect();
    let dash = if pen.dash.iter().any(|length| *length > 0.0) {
        format!(";stroke-dasharray:{}", lengths.join(" "))
    } else {
        String::new()
    };
    let width = f64::from(pen.width) / unit;
    format!("stroke:{};stroke-width:{width:.2}{dash}", hex(pen.ink))
}

/// A groove has its width in the drawing.
fn grooved(ink: Ink) -> String {
    format!(
        "fill:none;stroke:{};stroke-linecap:round;stroke-linejoin:round",
        hex(ink)
    )
}

fn lettered(class: Class, scale: f64) -> String {
    let look = words(class);
    let mut says = format!("fill:{};stroke:none", hex(look.ink));
    if look.is_bold {
        says.push_str(";font-weight:bold");
    }
    if look.has_halo {
        says.push_str(";stroke:#fff;stroke-width:3;paint-order:stroke");
    }
    if look.most < words(Class::Label).most {
        let _ = write!(says, ";font-size:{}", size(look.most, scale));
    }
    says
}

/// A height of words, in units of the drawing: at most `most` of them.
fn size(most: f32, scale: f64) -> String {
    format!("{:.2}px", f64::from(most).min(WORDS / scale))
}

fn hex(Ink(red, green, blue): Ink) -> String {
    format!("#{red:02x}{green:02x}{blue:02x}")
}
