//! Tickets to cut out and tie on, two side by side, in mm.

use super::class::Class;
use super::drawing::{Align, Drawing, Shape};
use super::qr::scaled_code;

/// Width of a ticket, in mm: two stand on a sheet of A4 or Letter.
const WIDTH: f64 = 90.0;
/// Its height, in mm: four rows stand on such a sheet.
const HEIGHT: f64 = 47.0;
/// The code with its clear edge, in mm.
const CODE: f64 = 41.0;
/// Width of what stands beside the code, in mm.
const BESIDE: f64 = 42.0;
/// How high a number may be, in mm.
const TALLEST: f64 = 24.0;
/// A digit is so wide, of its height; the widest face that a file may be set in. Common practice,
/// no source.
const DIGIT: f64 = 0.66;
/// Characters of small words on a line, and how many lines they may take.
const LINE: usize = 27;
const LINES: usize = 5;

/// What stands on one ticket.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TicketText {
    /// Its number.
    pub number: String,
    /// What stands below it, each from a new line on.
    pub words: Vec<String>,
    /// What its code reads.
    pub address: String,
}

/// Tickets in a row, each within the line to cut along, with a place to punch a hole.
pub fn ticket_row(tickets: &[TicketText]) -> Drawing {
    let mut shapes = Vec::new();
    let mut left = 0.0;
    for ticket in tickets {
        one(&mut shapes, ticket, left);
        left += WIDTH;
    }
    let numbers: Vec<&str> = tickets.iter().map(|one| one.number.as_str()).collect();
    let told = tickets.iter().map(|one| {
        let words = one.words.join(", ");
        format!(
            "Ticket {}: {words}. Its code reads {}",
            one.number, one.address
        )
    });
    Drawing {
        left: -0.5,
        top: -0.5,
        width: left + 1.0,
        height: HEIGHT + 1.0,
        title: match numbers.as_slice() {
            [number] => format!("Ticket {number}"),
            numbers => format!("Tickets {}", numbers.join(" and ")),
        },
        description: told.collect::<Vec<_>>().join(". "),
        shapes,
        ..Drawing::default()
    }
}

fn one(shapes: &mut Vec<Shape>, ticket: &TicketText, left: f64) {
    let corners = [
        (0.0, 0.0, WIDTH, 0.0),
        (WIDTH, 0.0, WIDTH, HEIGHT),
        (0.0, HEIGHT, WIDTH, HEIGHT),
        (0.0, 0.0, 0.0, HEIGHT),
    ];
    shapes.extend(corners.map(|(x1, y1, x2, y2)| Shape::Line {
        x1: left + x1,
        y1,
        x2: left + x2,
        y2,
        class: Class::GaugeLimit,
    }));
    shapes.push(Shape::Circle {
        x: left + 8.0,
        y: 7.5,
        radius: 3.0,
        class: Class::GaugeEdge,
    });
    let note = |y: f64, height: f64, text: String| Shape::Note {
        x: left + 4.0,
        y,
        align: Align::Start,
        height,
        text,
        class: Class::Size,
    };
    let letters = ticket.number.chars().fold(0.0, |count, _| count + 1.0);
    let high = TALLEST.min(BESIDE / (DIGIT * f64::max(letters, 1.0)));
    shapes.push(note(29.0, high, ticket.number.clone()));
    let words = ticket.words.iter().flat_map(|words| lines(words));
    let mut y = 33.0;
    for line in words.take(LINES) {
        shapes.push(note(y, 2.9, line));
        y += 3.3;
    }
    shapes.extend(scaled_code(
        &ticket.address,
        (left + WIDTH - CODE - 2.0, (HEIGHT - CODE) / 2.0),
        CODE,
    ));
}

/// Words broken into lines; a word that is longer than a line is cut.
fn lines(text: &str) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        let word: String = word.chars().take(LINE).collect();
        match lines.last_mut() {
            Some(line) if line.chars().count() + 1 + word.chars().count() <= LINE => {
                line.push(' ');
                line.push_str(&word);
            }
            _ => lines.push(word),
        }
    }
    lines
}
