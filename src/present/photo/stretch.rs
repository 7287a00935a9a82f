use crate::gauge::Dot;

/// A stretch of outline.
#[derive(Debug, Clone, PartialEq)]
pub struct Stretch {
    /// `on`, `near` or `off`.
    pub name: &'static str,
    /// The line in SVG's notation.
    pub path: String,
    /// Ticks across it, outwards where it stands out and inwards where it lies back, several
    /// times as long as that is.
    pub ticks: String,
}

/// A place of an edge that stands off.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StoodOff {
    /// The place, in the drawing's units.
    pub at: Dot,
    /// By how much, in mm.
    pub by: f64,
    /// Where its tick ends.
    pub tick: Dot,
}

/// How an edge is taken apart into stretches and drawn.
#[derive(Debug, Clone, Copy)]
pub struct Look {
    /// Up to this a place counts as on, and up to twice this as near, in mm.
    pub near: f64,
    /// A tick stands at every so many places.
    pub tick_each: usize,
    /// Whether its end meets its start.
    pub is_closed: bool,
    /// Digits after the point of each coordinate.
    pub digits: usize,
}

/// An edge in runs of places that lie alike far off.
pub fn stretches(edge: &[StoodOff], look: Look) -> Vec<Stretch> {
    let class = |by: f64| class(by, look.near);
    let runs = edge.chunk_by(|one, other| class(one.by) == class(other.by));
    let mut begins = 0;
    runs.map(|run| {
        let from = begins;
        begins += run.len();
        // A run goes on to where the next one begins, so that no gap is left.
        let next = edge.get(begins);
        let next = next.or_else(|| edge.first().filter(|_| look.is_closed));
        let line = run.iter().chain(next).map(|place| place.at);
        let ticks = (from..).zip(run);
        let ticks = ticks.filter(|(place, _)| place % look.tick_each == 0);
        let ticks = ticks.map(|(_, place)| path([place.at, place.tick], look.digits));
        Stretch {
            name: run.first().map_or("on", |place| class(place.by)),
            path: path(line, look.digits),
            ticks: ticks.collect(),
        }
    })
    .collect()
}

/// How a place lies that stands off by so many mm.
fn class(by: f64, near: f64) -> &'static str {
    if by.abs() <= near {
        "on"
    } else if by.abs() <= 2.0 * near {
        "near"
    } else {
        "off"
    }
}

/// A path through dots, in SVG's notation, with so many digits after the point.
pub fn path(line: impl IntoIterator<Item = Dot>, digits: usize) -> String {
    let places = line.into_iter().enumerate().map(|(place, (x, y))| {
        let letter = if place == 0 { 'M' } else { 'L' };
        format!("{letter}{x:.digits$} {y:.digits$}")
    });
    places.collect()
}
