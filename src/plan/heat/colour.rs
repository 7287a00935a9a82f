/// A colour of heat and the temperature from which it is called so, or at which it is seen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Colour {
    /// In °C.
    pub celsius: u16,
    /// What it is called.
    pub name: &'static str,
}

/// How a table is read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Read {
    /// Each colour from its temperature up to the next one's.
    From,
    /// Each colour at its temperature; between two, the nearer.
    Nearest,
}

/// A table of colours of heat. Names differ between tables, so a heat is kept as a temperature
/// and called by a table that is chosen. Colours depend on the light, and tinted glasses mislead.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ColourTable {
    /// What it is called.
    pub name: &'static str,
    /// Where it comes from.
    pub source: &'static str,
    /// Its colours, the coldest first.
    pub colours: &'static [Colour],
    read: Read,
}

const fn colour(celsius: u16, name: &'static str) -> Colour {
    Colour { celsius, name }
}

/// Bands, each from its lower end on.
pub const CHAPMAN: ColourTable = ColourTable {
    name: "Chapman",
    source: "W. A. J. Chapman, Workshop Technology, Part 1, 5th ed., 1972",
    colours: &[
        colour(426, "black red"),
        colour(593, "very dark red"),
        colour(704, "dark red"),
        colour(815, "cherry red"),
        colour(871, "light cherry"),
        colour(981, "orange"),
        colour(1_093, "yellow"),
        colour(1_259, "yellow white"),
        colour(1_315, "white"),
    ],
    read: Read::From,
};

/// Single temperatures; the nearest counts.
pub const STIRLING: ColourTable = ColourTable {
    name: "Stirling",
    source: "Stirling Boiler Co., A Book of Steam for Engineers, 1905, p. 50",
    colours: &[
        colour(525, "just visible"),
        colour(700, "dull red"),
        colour(800, "dull cherry"),
        colour(900, "full cherry"),
        colour(1_000, "clear cherry"),
        colour(1_100, "deep orange"),
        colour(1_200, "clear orange"),
        colour(1_300, "white"),
        colour(1_400, "bright white"),
        colour(1_500, "dazzling"),
    ],
    read: Read::Nearest,
};

/// Every table.
pub const COLOURS: [ColourTable; 2] = [CHAPMAN, STIRLING];

impl ColourTable {
    /// What steel of a temperature is called; `None` where it does not glow by this table, or
    /// is no steel any more (over 1540 °C).
    pub fn at(&self, celsius: f64) -> Option<&'static str> {
        let of = |colour: &Colour| f64::from(colour.celsius);
        let first = self.colours.first().map(of)?;
        if !(first..=1_540.0).contains(&celsius) {
            return None;
        }
        let found = match self.read {
            Read::From => self.colours.iter().rev().find(|one| of(one) <= celsius),
            Read::Nearest => {
                let off = |one: &Colour| (of(one) - celsius).abs();
                self.colours
                    .iter()
                    .min_by(|one, other| off(one).total_cmp(&off(other)))
            }
        };
        found.map(|colour| colour.name)
    }
}
