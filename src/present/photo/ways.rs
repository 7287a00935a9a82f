use crate::gauge::sheet::Sheet;

/// What gives a photo its scale.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Way {
    /// A sheet under the shoe, or a card beside it.
    Sheet(Sheet),
    /// Two marks on a ruler.
    Ruler,
    /// How finely it was scanned.
    Scan,
}

/// The ways, each with its name and what it is.
pub const WAYS: [(Way, &str, &str); 5] = [
    (Way::Sheet(Sheet::A4), "A4", "210 × 297 mm"),
    (Way::Sheet(Sheet::Letter), "US Letter", "8 1/2 × 11 in"),
    (
        Way::Sheet(Sheet::Card),
        "Card",
        "as a bank card; beside the shoe",
    ),
    (Way::Ruler, "Ruler", "two marks on it; less sure"),
    (Way::Scan, "Scan", "of a drawn outline"),
];

impl Way {
    /// The name of each place that can be marked by hand, in order, as its handle is called.
    pub fn places(self) -> Vec<String> {
        let corners = |of: &str| {
            (1..=4)
                .map(|number| format!("Corner {number} of the {of}"))
                .collect()
        };
        match self {
            Self::Sheet(Sheet::Card) => corners("card"),
            Self::Sheet(_) => corners("sheet"),
            Self::Ruler => ["First", "Second"]
                .map(|which| format!("{which} mark on the ruler"))
                .into(),
            Self::Scan => Vec::new(),
        }
    }

    /// Where the marks stand while nothing is known, as shares of the picture.
    pub fn at_first(self) -> &'static [(f64, f64)] {
        match self {
            Self::Sheet(_) => &[(0.15, 0.15), (0.85, 0.15), (0.85, 0.85), (0.15, 0.85)],
            Self::Ruler => &[(0.3, 0.9), (0.7, 0.9)],
            Self::Scan => &[],
        }
    }

    /// Whether nothing is measured before all places are marked by hand.
    pub fn needs_marks(self) -> bool {
        self == Self::Ruler
    }

    /// What is to be known of how it is used, beside its tile; nothing where its name says all.
    pub fn hint(self) -> &'static str {
        match self {
            Self::Sheet(Sheet::A4 | Sheet::Letter) => "",
            Self::Sheet(Sheet::Card) => {
                "Lay the card flat beside the shoe, clear of it, both on plain light ground."
            }
            Self::Ruler => {
                "Lay the ruler flat close beside the shoe, on plain light ground, and hold the camera straight above both. In the photo, drag two marks onto lines of the ruler."
            }
            Self::Scan => {
                "Scan the paper flat at 150 dots per inch or more, in its own size. Trace with a sharp pencil held upright, one closed line, and a second one round the hole of a bar shoe."
            }
        }
    }
}
