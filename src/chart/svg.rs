use super::class::Class;
use std::fmt::Write as _;

use super::drawing::{Drawing, Shape};

/// What stands inside the `svg` element of a drawing: its title and description
/// under these ids, then its shapes. Every text is escaped.
pub fn svg_inside(drawing: &Drawing, title_id: &str, text_id: &str) -> String {
    let mut svg = String::new();
    element(&mut svg, "title", &[("id", title_id)], Some(&drawing.title));
    if !drawing.description.is_empty() {
        element(
            &mut svg,
            "desc",
            &[("id", text_id)],
            Some(&drawing.description),
        );
    }
    for shape in &drawing.shapes {
        write_shape(&mut svg, shape);
    }
    svg
}

fn write_shape(svg: &mut String, shape: &Shape) {
    match shape {
        Shape::Rect {
            x,
            y,
            width,
            height,
            class,
            band,
        } => {
            let band = band.map(|band| band.to_string()).unwrap_or_default();
            let at = [number(*x), number(*y), number(*width), number(*height)];
            rect(svg, &at, *class, ("data-band", &band));
        }
        Shape::TurnedRect {
            x,
            y,
            width,
            height,
            degrees,
            class,
        } => {
            let at = [
                number(-width / 2.0),
                number(-height / 2.0),
                number(*width),
                number(*height),
            ];
            let turn = format!(
                "translate({},{}) rotate({})",
                number(*x),
                number(*y),
                number(*degrees)
            );
            rect(svg, &at, *class, ("transform", &turn));
        }
        Shape::Line {
            x1,
            y1,
            x2,
            y2,
            class,
        } => {
            let (x1, y1, x2, y2) = (number(*x1), number(*y1), number(*x2), number(*y2));
            let keys = [
                ("x1", &*x1),
                ("y1", &y1),
                ("x2", &x2),
                ("y2", &y2),
                ("class", class.word()),
            ];
            element(svg, "line", &keys, None);
        }
        Shape::Path { d, class } => {
            let keys = [
                ("d", d.as_str()),
                ("class", class.word()),
                ("fill-rule", "evenodd"),
            ];
            element(svg, "path", &keys, None);
        }
        Shape::Groove { d, width, class } => {
            let width = number(*width);
            let keys = [
                ("d", d.as_str()),
                ("class", class.word()),
                ("stroke-width", &width),
            ];
            element(svg, "path", &keys, None);
        }
        Shape::Part {
            href,
            label,
            band,
            inside,
        } => {
            let band = band.map(|band| band.to_string()).unwrap_or_default();
            let band = ("data-band", &*band);
            let name = if let Some(href) = href {
                let class = ("class", "shaded tap");
                open(
                    svg,
                    "a",
                    &[("href", href), ("aria-label", label), class, band],
                );
                "a"
            } else {
                // Only what can be tapped is named; the description of the whole names the rest.
                open(svg, "g", &[("class", "shaded"), band]);
                "g"
            };
            for shape in inside {
                write_shape(svg, shape);
            }
            let _ = write!(svg, "</{name}>");
        }
        Shape::Circle {
            x,
            y,
            radius,
            class,
        } => {
            let (x, y, radius) = (number(*x), number(*y), number(*radius));
            let keys = [
                ("cx", &*x),
                ("cy", &y),
                ("r", &radius),
                ("class", class.word()),
            ];
            element(svg, "circle", &keys, None);
        }
        Shape::Note {
            x,
            y,
            align,
            height,
            text,
            class,
        } => {
            let (x, y, height) = (number(*x), number(*y), number(*height));
            let keys = [
                ("x", &*x),
                ("y", &y),
                ("text-anchor", align.word()),
                ("font-size", &height),
                ("class", class.word()),
            ];
            element(svg, "text", &keys, Some(text));
        }
        Shape::Text {
            x,
            y,
            align,
            text,
            class,
        } => {
            let (x, y) = (number(*x), number(*y));
            let keys = [
                ("x", &*x),
                ("y", &y),
                ("text-anchor", align.word()),
                ("class", class.word()),
            ];
            element(svg, "text", &keys, Some(text));
        }
    }
}

fn rect(svg: &mut String, at: &[String; 4], class: Class, other: (&str, &str)) {
    let [x, y, width, height] = at;
    let keys = [
        ("x", x.as_str()),
        ("y", y),
        ("width", width),
        ("height", height),
        ("class", class.word()),
        other,
    ];
    element(svg, "rect", &keys, None);
}

/// Keys without a value are left out.
fn element(svg: &mut String, name: &str, keys: &[(&str, &str)], text: Option<&str>) {
    open(svg, name, keys);
    if let Some(text) = text {
        escape(svg, text);
    }
    svg.push_str("</");
    svg.push_str(name);
    svg.push('>');
}

fn open(svg: &mut String, name: &str, keys: &[(&str, &str)]) {
    svg.push('<');
    svg.push_str(name);
    for (key, value) in keys.iter().filter(|(_, value)| !value.is_empty()) {
        svg.push(' ');
        svg.push_str(key);
        svg.push_str("=\"");
        escape(svg, value);
        svg.push('"');
    }
    svg.push('>');
}

fn escape(svg: &mut String, text: &str) {
    for c in text.chars() {
        match c {
            '&' => svg.push_str("&amp;"),
            '<' => svg.push_str("&lt;"),
            '>' => svg.push_str("&gt;"),
            '"' => svg.push_str("&quot;"),
            c => svg.push(c),
        }
    }
}

/// A coordinate with two places, which is finer than any screen.
fn number(value: f64) -> String {
    let mut text = String::new();
    // Writing to a string does not fail.
    let _ = write!(text, "{value:.2}");
    text
}
