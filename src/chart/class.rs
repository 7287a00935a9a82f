use serde::{Deserialize, Serialize};

/// The classes with the word that style sheet and files know each by.
macro_rules! classes {
    ($($(#[$doc:meta])* $name:ident = $word:literal,)*) => {
        /// What a shape of a drawing is, never how it looks.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
        pub enum Class {
            $($(#[$doc])* #[serde(rename = $word)] $name,)*
        }

        impl Class {
            /// Every class.
            pub const ALL: &'static [Self] = &[$(Self::$name,)*];

            /// The word for it, as an SVG's `class` has it.
            pub fn word(self) -> &'static str {
                match self {
                    $(Self::$name => $word,)*
                }
            }
        }
    };
}

classes! {
    /// The band in which the next value comes.
    Ahead = "ahead",
    /// A bar of a bar chart.
    Bar = "bar",
    /// The bar of what was before.
    BarBefore = "bar-before",
    /// What stands at a bar.
    BarWords = "bar-words",
    /// A centre line.
    Centre = "centre",
    /// How likely a total is.
    Chance = "chance",
    /// A clip of a shoe.
    Clip = "clip",
    /// The dark squares of a code.
    CodeDark = "code-dark",
    /// The ground of a code.
    CodePaper = "code-paper",
    /// A curve through the values of a course.
    Curve = "curve",
    /// What bears the number of something that happened on a day.
    Flag = "flag",
    /// The line at that day.
    FlagPole = "flag-pole",
    /// That number.
    FlagWords = "flag-words",
    /// The floor of a groove.
    Floor = "floor",
    /// The edge of a scale.
    Frame = "frame",
    /// A fuller, a groove in the ground side of a shoe.
    Fuller = "fuller",
    /// The centre line of a gauge.
    GaugeCentre = "gauge-centre",
    /// An edge of a gauge, and what is compared with it.
    GaugeEdge = "gauge-edge",
    /// The middle of the fuller on a gauge.
    GaugeFuller = "gauge-fuller",
    /// A limit of size on a gauge.
    GaugeLimit = "gauge-limit",
    /// What stands at the marks given.
    GivenLabel = "given-label",
    /// A line of the grid behind a chart.
    GridLine = "grid-line",
    /// What a finger may hit; nothing is seen of it.
    Hit = "hit",
    /// A nail hole.
    Hole = "hole",
    /// What stands at a scale.
    Label = "label",
    /// How far values usually reach.
    Limit = "limit",
    /// A line with which a size is given.
    Measure = "measure",
    /// One of the notches that say the rank of the marks won.
    Notch = "notch",
    /// The same on a dark ground.
    NotchLit = "notch-lit",
    /// The pass mark.
    Pass = "pass",
    /// What stands at the pass mark.
    PassLabel = "pass-label",
    /// The place that a reading has on its scale.
    Plumb = "plumb",
    /// One piece of a course.
    Point = "point",
    /// One that does not count as the others do.
    PointOpen = "point-open",
    /// From where to where a value may lie.
    Reach = "reach",
    /// A part that is rolled, such as the toe.
    Roll = "roll",
    /// The line through a course.
    Series = "series",
    /// A size in figures.
    Size = "size",
    /// The upper edge of a small chart.
    SmallTop = "small-top",
    /// The steel of a shoe.
    Steel = "steel",
    /// A stretch of a scale that gives some marks.
    Stretch = "stretch",
    /// A mark on a scale.
    Tick = "tick",
    /// A line that ties what belongs together.
    Tie = "tie",
    /// How uncertain a reading is.
    Whisker = "whisker",
    /// The marks given of those that could be had.
    Won = "won",
    /// A part of a shoe that a criterion is about.
    Zone = "zone",
}
