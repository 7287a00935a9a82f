use super::class::Class;
use super::drawing::{Drawing, Shape};
use super::row::{self, FOOT, HALF, WIDTH};
use super::symbol::Symbol;

/// One row: a making step and when it was worked on.
#[derive(Debug, Clone, PartialEq)]
pub struct StepLane {
    /// The step.
    pub label: String,
    /// Heats and time as people read them.
    pub words: String,
    /// The heats planned for it, each from and to in minutes from the start, and whether it is a
    /// welding heat.
    pub planned: Vec<(f64, f64, bool)>,
    /// When the piece was in the fire for it, from and to in minutes from the start.
    pub fire: Vec<(f64, f64)>,
    /// When it was out of the fire, alike.
    pub anvil: Vec<(f64, f64)>,
    /// When it came out at welding heat, in minutes from the start.
    pub welds: Vec<f64>,
}

/// The making of a piece over its time.
#[derive(Debug, Clone, PartialEq)]
pub struct HeatLanes {
    /// The steps in order.
    pub lanes: Vec<StepLane>,
    /// How long it took so far, in minutes.
    pub end: f64,
    /// The time allowed, in minutes from the start, pauses so far among it.
    pub limit: Option<f64>,
    /// When faults were seen, in minutes from the start.
    pub faults: Vec<f64>,
    /// What it is.
    pub title: String,
    /// What it says.
    pub description: String,
}

/// What one row takes: its words, what was planned and what was made.
const ROW: f64 = 56.0;
/// Where the middle of the planned lies below the top of its row, and half its height.
const PLANNED: (f64, f64) = (25.0, 4.0);
/// Where the middle of what was made lies, clear below it.
const MADE: f64 = 41.0;
/// Less than this is not seen.
const LEAST: f64 = 1.0;
/// What faults take on top.
const HEAD: f64 = 20.0;
/// From tick to tick in minutes: the first of which there are no more than so many.
const APART: [f64; 7] = [1.0, 2.0, 5.0, 10.0, 20.0, 30.0, 60.0];
const MOST_TICKS: f64 = 8.0;

/// A row for each step: above when its heats were planned, a hollow box each with a hollow diamond
/// on a welding heat; below when it was worked on, thin in the fire, thick out of it, a diamond where
/// it came out at welding heat; the time allowed as a short line, faults as squares on top. As narrow
/// as a phone, so that words keep their size there.
pub fn heat_lanes(all: &HeatLanes) -> Drawing {
    let long = all.end.max(all.limit.unwrap_or(0.0)).max(1.0);
    let across = |minutes: f64| row::across(minutes / long);
    let count = u32::try_from(all.lanes.len()).unwrap_or(u32::MAX);
    let bottom = HEAD + f64::from(count) * ROW;
    let mut shapes = scale(long, bottom, &across);
    let faults = all.faults.iter();
    shapes.extend(faults.map(|at| Symbol::Square.shape((across(*at), HEAD / 2.0), 5.0, false)));
    let mut top = HEAD;
    for lane in &all.lanes {
        shapes.extend(all.limit.map(|limit| limit_at(across(limit), top)));
        shapes.extend(lane_shapes(lane, top, &across));
        top += ROW;
    }
    Drawing {
        left: 0.0,
        top: 0.0,
        width: WIDTH,
        height: bottom + FOOT,
        title: all.title.clone(),
        description: all.description.clone(),
        shapes,
        ..Drawing::default()
    }
}

/// The time allowed beside the bars of a row, clear of its words.
fn limit_at(x: f64, top: f64) -> Shape {
    let over = HALF + 4.0;
    Shape::Line {
        x1: x,
        y1: top + MADE - over,
        x2: x,
        y2: top + MADE + over,
        class: Class::Pass,
    }
}

fn scale(long: f64, bottom: f64, across: &impl Fn(f64) -> f64) -> Vec<Shape> {
    let apart = APART.into_iter().find(|apart| long / apart <= MOST_TICKS);
    let apart = apart.unwrap_or_else(|| (long / MOST_TICKS / 60.0).ceil() * 60.0);
    let ticks = (0..=20_u8)
        .map(|number| f64::from(number) * apart)
        .take_while(|tick| *tick <= long);
    let ticks = ticks.map(|at| row::tick(across(at), HEAD, bottom, at.to_string()));
    ticks.flatten().collect()
}

fn lane_shapes(lane: &StepLane, top: f64, across: &impl Fn(f64) -> f64) -> Vec<Shape> {
    let y = top + MADE;
    let fire = lane.fire.iter().map(|(from, to)| Shape::Line {
        x1: across(*from),
        y1: y,
        x2: across(*to).max(across(*from) + LEAST),
        y2: y,
        class: Class::Whisker,
    });
    let anvil = lane.anvil.iter().map(|(from, to)| Shape::Rect {
        x: across(*from),
        y: y - HALF,
        width: (across(*to) - across(*from)).max(LEAST),
        height: 2.0 * HALF,
        class: Class::BarBefore,
        band: None,
    });
    let welds = lane.welds.iter();
    let welds = welds.map(|at| Symbol::Diamond.shape((across(*at), y), 6.0, false));
    row::words(&lane.label, &lane.words, top)
        .into_iter()
        .chain(planned_shapes(lane, top, across))
        .chain(fire)
        .chain(anvil)
        .chain(welds)
        .collect()
}

fn planned_shapes(lane: &StepLane, top: f64, across: &impl Fn(f64) -> f64) -> Vec<Shape> {
    let (middle, half) = PLANNED;
    let y = top + middle;
    let boxes = lane.planned.iter().map(|(from, to, _)| Shape::Rect {
        x: across(*from),
        y: y - half,
        width: (across(*to) - across(*from)).max(LEAST),
        height: 2.0 * half,
        class: Class::Frame,
        band: None,
    });
    let welds = lane.planned.iter().filter(|(.., weld)| *weld);
    let welds = welds.map(|(from, to, _)| {
        let x = across(from.midpoint(*to));
        Symbol::Diamond.shape((x, y), 3.5, true)
    });
    boxes.chain(welds).collect()
}
