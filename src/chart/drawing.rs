use serde::{Deserialize, Serialize};

use super::class::Class;
use super::flags::Days;

/// A drawing in its own coordinates: `x` to the right, `y` down.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
pub struct Drawing {
    /// Left edge of what is shown.
    pub left: f64,
    /// Top edge of what is shown.
    pub top: f64,
    /// Width of what is shown.
    pub width: f64,
    /// Height of what is shown.
    pub height: f64,
    /// What it is, in a few words.
    pub title: String,
    /// What it says, for those who do not see it; may be empty.
    pub description: String,
    /// Its parts, the hindmost first.
    pub shapes: Vec<Shape>,
    /// What can be read off it place by place, in the order in which it is walked through;
    /// none where nothing can.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub readings: Vec<Reading>,
    /// Where days stand on it; `None` where it is not over days.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub days: Option<Days>,
}

/// A place of a drawing, and what stands there in words.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Reading {
    /// Where.
    pub x: f64,
    /// Where.
    pub y: f64,
    /// What is read off there.
    pub words: String,
}

impl Drawing {
    /// Whether something in it can be tapped.
    pub fn has_links(&self) -> bool {
        let is_link = |shape: &Shape| matches!(shape, Shape::Part { href: Some(_), .. });
        self.shapes.iter().any(is_link)
    }

    /// The number of the reading that lies nearest to a place; `None` where there is none.
    pub fn nearest(&self, x: f64, y: f64) -> Option<usize> {
        let away = |reading: &Reading| (reading.x - x).hypot(reading.y - y);
        let numbered = self.readings.iter().enumerate();
        let nearest = numbered.min_by(|(_, one), (_, other)| away(one).total_cmp(&away(other)));
        nearest.map(|(at, _)| at)
    }

    /// What is shown, as the `viewBox` of SVG 2.
    pub fn view_box(&self) -> String {
        let Self {
            left,
            top,
            width,
            height,
            ..
        } = self;
        format!("{left} {top} {width} {height}")
    }
}

/// A path through these points, in SVG's notation.
pub(super) fn path_through(points: impl IntoIterator<Item = (f64, f64)>) -> String {
    let points = points.into_iter().map(|(x, y)| format!("{x:.1},{y:.1}"));
    format!("M{}", points.collect::<Vec<_>>().join(" L"))
}

/// Where a text stands on its point.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum Align {
    /// The point is where it starts.
    Start,
    /// The point is its middle.
    Middle,
    /// The point is where it ends.
    End,
}

impl Align {
    /// The word that SVG's `text-anchor` uses.
    pub fn word(self) -> &'static str {
        match self {
            Self::Start => "start",
            Self::Middle => "middle",
            Self::End => "end",
        }
    }
}

/// One part of a drawing; `class` names what it is.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub enum Shape {
    /// An upright rectangle.
    Rect {
        /// Left edge.
        x: f64,
        /// Top edge.
        y: f64,
        /// Width.
        width: f64,
        /// Height.
        height: f64,
        /// What it is.
        class: Class,
        /// The band that it stands for: 4 is the most marks, 0 none.
        band: Option<u8>,
    },
    /// A rectangle around its middle, turned; as a nail hole lies.
    TurnedRect {
        /// Its middle.
        x: f64,
        /// Its middle.
        y: f64,
        /// Width before it is turned.
        width: f64,
        /// Height before it is turned.
        height: f64,
        /// Turn in degrees, clockwise as seen.
        degrees: f64,
        /// What it is.
        class: Class,
    },
    /// A straight line.
    Line {
        /// Start.
        x1: f64,
        /// Start.
        y1: f64,
        /// End.
        x2: f64,
        /// End.
        y2: f64,
        /// What it is.
        class: Class,
    },
    /// A path in SVG's notation; where it covers itself twice it is a hole.
    Path {
        /// The path.
        d: String,
        /// What it is.
        class: Class,
    },
    /// A path drawn as wide as it says, such as a groove.
    Groove {
        /// Its middle.
        d: String,
        /// Its width.
        width: f64,
        /// What it is.
        class: Class,
    },
    /// A part of what is drawn, shaded by the band that it stands for; where it leads
    /// somewhere, it can be tapped.
    Part {
        /// Where to; `None` where it leads nowhere.
        href: Option<String>,
        /// What it says to those who do not see it, where it can be tapped.
        label: String,
        /// The band that it stands for: 4 is the most marks, 0 none.
        band: Option<u8>,
        /// What it is made of.
        inside: Vec<Shape>,
    },
    /// A circle.
    Circle {
        /// Its middle.
        x: f64,
        /// Its middle.
        y: f64,
        /// Half its width.
        radius: f64,
        /// What it is.
        class: Class,
    },
    /// A text with letters as high as it says, in the drawing's own units.
    Note {
        /// Where it stands.
        x: f64,
        /// Its base line.
        y: f64,
        /// How it stands there.
        align: Align,
        /// Height of its letters.
        height: f64,
        /// What it says.
        text: String,
        /// What it is.
        class: Class,
    },
    /// A text.
    Text {
        /// Where it stands.
        x: f64,
        /// Its base line.
        y: f64,
        /// How it stands there.
        align: Align,
        /// What it says.
        text: String,
        /// What it is.
        class: Class,
    },
}
