use super::super::PlanFault;
use super::super::sizes::check_cut;
use super::caveat::Caveat;
use crate::quantity::Length;

/// A way to find the length to cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Method {
    /// Length and width of the hoof added.
    Handbook,
    /// A soft tape round the hoof.
    Tape,
    /// What published cuts came to.
    Published,
    /// The length along the middle of the web.
    Developed,
    /// As much metal as the finished shoe holds.
    Volume,
    /// The maker's own earlier pieces.
    Record,
}

impl Method {
    /// All of them, in the order in which they are shown.
    pub const ALL: [Self; 6] = [
        Self::Handbook,
        Self::Tape,
        Self::Published,
        Self::Developed,
        Self::Volume,
        Self::Record,
    ];

    /// What it is called.
    pub fn word(self) -> &'static str {
        match self {
            Self::Handbook => "handbook sum",
            Self::Tape => "tape rule",
            Self::Published => "published cuts",
            Self::Developed => "developed length",
            Self::Volume => "volume",
            Self::Record => "own record",
        }
    }

    /// The one of that name.
    pub fn from_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|one| one.word() == word)
    }

    /// Where it comes from.
    pub fn source(self) -> &'static str {
        match self {
            Self::Handbook => "A. Lungwitz and J. W. Adams, A Text-Book of Horseshoeing, 1913",
            Self::Tape => {
                "“Constructing a fullered straight bar shoe”, horseshoes.com, which calls it \
                 ball-park"
            }
            Self::Published => {
                "Michigan Horseshoers Association, contest divisions and rules: 12 in for \
                 5 3/16 by 5 3/16 in, 11 1/2 in for 4 3/4 by 5 3/16 in, 14 in for a straight bar"
            }
            Self::Developed => {
                "geometry of the piece; bump, lap and what drawing gives: common practice, no source"
            }
            Self::Volume => "conservation of volume; scale: from memory, no solid source",
            Self::Record => {
                "your own pieces; slope of Theil (1950) and Sen (1968), order statistics \
                 (Wilks, 1941)"
            }
        }
    }
}

/// How sure a length is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Spread {
    /// A rough standard uncertainty.
    About(Length),
    /// It lies between these; nothing says how often.
    Between {
        /// Least.
        low: Length,
        /// Most.
        high: Length,
    },
    /// The next piece lies between these so often.
    Interval {
        /// Least.
        low: Length,
        /// Most.
        high: Length,
        /// The share of pieces, `0.5` for half.
        level: f64,
    },
}

/// One of the amounts that add up to a length.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Term {
    /// What it is.
    pub what: &'static str,
    /// How much it adds; below zero where it takes off.
    pub length: Length,
}

/// Whether a method fits the piece.
#[derive(Debug, Clone, PartialEq)]
pub enum Fit {
    /// It was told on such pieces.
    Fits,
    /// It gives a length, to be taken with care.
    Warns(Vec<Caveat>),
    /// It gives none.
    Refuses(PlanFault),
}

/// What a method says.
#[derive(Debug, Clone, PartialEq)]
pub struct Answer {
    /// The method.
    pub method: Method,
    /// The length to cut; `None` where it refuses.
    pub length: Option<Length>,
    /// How sure that is, where anything says so.
    pub spread: Option<Spread>,
    /// What adds up to it, in order; they add up to the length within a nanometre each.
    pub terms: Vec<Term>,
    /// How it is worked out, in words and numbers; empty where it refuses.
    pub working: String,
    /// Where the method comes from.
    pub source: &'static str,
    /// Whether it fits the piece.
    pub fit: Fit,
}

/// A length that a method found.
pub(super) struct Cut {
    pub length: Length,
    pub spread: Option<Spread>,
    pub terms: Vec<Term>,
    pub working: String,
    pub caveats: Vec<Caveat>,
}

impl Answer {
    pub(super) fn of(method: Method, cut: Result<Cut, PlanFault>) -> Self {
        let cut = cut.and_then(|cut| {
            check_cut("the length that this comes to", cut.length)?;
            Ok(cut)
        });
        let nothing = |fit| Self {
            method,
            length: None,
            spread: None,
            terms: Vec::new(),
            working: String::new(),
            source: method.source(),
            fit,
        };
        match cut {
            Err(fault) => nothing(Fit::Refuses(fault)),
            Ok(cut) => Self {
                length: Some(cut.length),
                spread: cut.spread,
                terms: cut.terms,
                working: cut.working,
                ..nothing(if cut.caveats.is_empty() {
                    Fit::Fits
                } else {
                    Fit::Warns(cut.caveats)
                })
            },
        }
    }
}
