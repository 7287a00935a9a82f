mod agreement;
mod chances;
mod course;
mod flags;
mod heats;
mod lay_on;
mod marked_bar;
mod qr;
mod shoe;
mod svg;
mod ticket;
mod tolerance;
mod true_size;

use evenshod::chart::{Drawing, Shape};

/// What is written in a drawing, in its order.
fn texts(drawing: &Drawing) -> Vec<&str> {
    let texts = drawing.shapes.iter().filter_map(|shape| match shape {
        Shape::Text { text, .. } => Some(text.as_str()),
        _ => None,
    });
    texts.collect()
}
