//! How the parts of a drawing look on paper and in files: by class, as the style sheet has it
//! for the page when it prints. PDF and SVG both take it from here.

use super::ink::Ink;
use crate::chart::Class;

/// How a shape looks; widths are in the drawing's own units.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(super) struct Look {
    /// What fills it.
    pub(super) fill: Option<Ink>,
    /// What its edge is drawn with.
    pub(super) pen: Option<Pen>,
    /// Whether the pen keeps its width in points however large the drawing is.
    pub(super) is_fixed: bool,
}

/// What a line is drawn with.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Pen {
    /// Its colour.
    pub(super) ink: Ink,
    /// Its width in points.
    pub(super) width: f32,
    /// Dash, gap and so on in points; empty for a whole line.
    pub(super) dash: [f32; 4],
    /// Whether its ends are round.
    pub(super) is_round: bool,
}

impl Pen {
    /// A whole line.
    pub(super) fn new(ink: Ink, width: f32) -> Self {
        Self {
            ink,
            width,
            dash: [0.0; 4],
            is_round: false,
        }
    }
}

/// How words look.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct WordLook {
    /// Their colour.
    pub(super) ink: Ink,
    /// Whether they are bold.
    pub(super) is_bold: bool,
    /// Whether paper shines around them.
    pub(super) has_halo: bool,
    /// The largest height that the drawing has room for, in its own units.
    pub(super) most: f32,
}

/// The look of a shape of this class, in a part that stands for `band`.
pub(super) fn look(class: Class, band: Option<u8>) -> Look {
    let band = band.map(Ink::of_band);
    let filled = |ink| Look {
        fill: Some(ink),
        ..Look::default()
    };
    let drawn = |ink, width| Look {
        pen: Some(Pen::new(ink, width)),
        ..Look::default()
    };
    let both = |fill, width| Look {
        fill: Some(fill),
        pen: Some(Pen::new(Ink::BLACK, width)),
        is_fixed: false,
    };
    match class {
        Class::Plumb | Class::Won | Class::Bar | Class::Chance | Class::CodeDark => {
            filled(Ink::BLACK)
        }
        Class::Clip => filled(band.unwrap_or(Ink::BLACK)),
        Class::Notch => filled(Ink::BLACK),
        Class::NotchLit | Class::CodePaper => filled(Ink::WHITE),
        Class::Frame => drawn(Ink::BLACK, 1.5),
        Class::Tick => drawn(Ink::BLACK, 1.0),
        Class::Whisker | Class::Pass => drawn(Ink::BLACK, 3.0),
        Class::GridLine => drawn(Ink::STEEL, 1.0),
        Class::Reach => drawn(Ink::BLACK, 1.5),
        Class::Curve => dashed(2.0, [8.0, 3.0, 8.0, 3.0]),
        Class::Flag => both(Ink::WHITE, 1.0),
        Class::FlagPole => dashed(1.0, [2.0, 3.0, 2.0, 3.0]),
        Class::Limit => dashed(1.0, [4.0, 3.0, 4.0, 3.0]),
        Class::Ahead => both(Ink::STEEL, 1.0),
        Class::SmallTop => drawn(Ink::QUIET, 1.0),
        Class::Series => drawn(Ink::BLACK, 2.0),
        Class::Tie => dashed(2.0, [3.0, 3.0, 3.0, 3.0]),
        Class::Roll => dashed(0.8, [3.0, 2.0, 3.0, 2.0]),
        // A centre line as in technical drawings (ISO 128): long dash, gap, dot, gap.
        Class::Centre => dashed(0.5, [9.0, 1.8, 0.6, 1.8]),
        Class::Point => Look {
            fill: Some(Ink::BLACK),
            pen: Some(Pen::new(Ink::WHITE, 2.0)),
            is_fixed: false,
        },
        Class::PointOpen => both(Ink::WHITE, 2.0),
        Class::BarBefore => both(Ink::STEEL, 1.0),
        Class::Hole => both(band.unwrap_or(Ink::WHITE), 0.6),
        Class::Steel => Look {
            is_fixed: true,
            ..both(Ink::STEEL, 1.1)
        },
        Class::Measure => Look {
            is_fixed: true,
            ..drawn(Ink::BLACK, 0.7)
        },
        // Lines that are measured against keep their width in points.
        Class::GaugeEdge => fixed(drawn(Ink::BLACK, 0.6)),
        Class::GaugeLimit => fixed(dashed(0.4, [4.0, 2.0, 4.0, 2.0])),
        Class::GaugeFuller => fixed(dashed(0.5, [1.0, 2.0, 1.0, 2.0])),
        Class::GaugeCentre => fixed(dashed(0.4, [12.0, 2.0, 1.0, 2.0])),
        Class::Zone => Look {
            fill: band,
            ..Look::default()
        },
        Class::Stretch => band.map_or_else(Look::default, filled),
        _ => Look::default(),
    }
}

/// The look of a groove of this class; its width is its own.
pub(super) fn groove(class: Class, band: Option<u8>) -> Option<Ink> {
    match class {
        Class::Fuller => Some(Ink::BLACK),
        Class::Floor => Some(band.map_or(Ink::BLACK, Ink::of_band)),
        _ => None,
    }
}

/// The look of a straight line of this class.
pub(super) fn line(class: Class) -> Look {
    let notch = |ink| Look {
        pen: Some(Pen::new(ink, 1.8)),
        ..Look::default()
    };
    match class {
        Class::Notch => notch(Ink::BLACK),
        Class::NotchLit => notch(Ink::WHITE),
        class => look(class, None),
    }
}

/// The look of words of this class.
pub(super) fn words(class: Class) -> WordLook {
    let plain = WordLook {
        ink: Ink::QUIET,
        is_bold: false,
        has_halo: false,
        most: 18.0,
    };
    match class {
        Class::FlagWords => WordLook {
            ink: Ink::BLACK,
            is_bold: true,
            ..plain
        },
        Class::PassLabel | Class::GivenLabel => WordLook {
            ink: Ink::BLACK,
            is_bold: true,
            has_halo: true,
            ..plain
        },
        Class::BarWords => WordLook {
            ink: Ink::BLACK,
            most: 16.0,
            ..plain
        },
        Class::Size => WordLook {
            ink: Ink::BLACK,
            ..plain
        },
        _ => plain,
    }
}

fn fixed(look: Look) -> Look {
    Look {
        is_fixed: true,
        ..look
    }
}

fn dashed(width: f32, dash: [f32; 4]) -> Look {
    Look {
        pen: Some(Pen {
            dash,
            ..Pen::new(Ink::BLACK, width)
        }),
        ..Look::default()
    }
}
