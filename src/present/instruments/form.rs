use super::super::start::sentence;
use crate::command::{Command, CommandError, InstrumentDetails};
use crate::marking::{Figure, InstrumentFact};
use crate::quantity::Dimension;
use crate::records::OwnInstrument;
use crate::rubric::ShapeWord;

/// What an instrument may measure: the word kept by the form, and what it shows.
pub const MEASURED: [(Dimension, &str, &str); 3] = [
    (
        Dimension::Length,
        "Lengths",
        "in mm, unless a unit is written",
    ),
    (Dimension::Angle, "Angles", "in degrees"),
    (
        Dimension::Mass,
        "Masses",
        "in grams, unless a unit is written",
    ),
];

/// The two ways to say an uncertainty: the word kept by the form, and what it shows.
pub const UNCERTAINTIES: [(&str, &str, &str); 2] = [
    (HALF_WIDTH, "Half-width", "off by this at most"),
    (STANDARD, "Standard uncertainty", "as certificates state it"),
];

/// The shapes of a half-width: the word kept by the form, and what it shows.
pub const SHAPES: [(&str, &str, &str); 4] = [
    (
        "rectangular",
        "Rectangular",
        "all errors alike; as is usual",
    ),
    ("triangular", "Triangular", "the smaller, the likelier"),
    ("u-shaped", "U-shaped", "near the ends likeliest"),
    (TRAPEZOID, "Trapezoid", "level in the middle, then rarer"),
];

const TRAPEZOID: &str = "trapezoid";
const HALF_WIDTH: &str = "half-width";
const STANDARD: &str = "standard-uncertainty";

/// The form for an instrument, every field as text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct InstrumentForm {
    /// The name.
    pub name: String,
    /// The short name; only asked for where it is new.
    pub id: String,
    /// A word of [`Dimension`].
    pub measures: String,
    /// Which of [`UNCERTAINTIES`] the amount is.
    pub kind: String,
    /// Half-width or standard uncertainty.
    pub amount: String,
    /// Which of [`SHAPES`] a half-width has.
    pub shape: String,
    /// The level share of a trapezoid.
    pub level_share: String,
    /// Standard deviation of repeats.
    pub repeatability: String,
    /// The shared part.
    pub shared: String,
    /// Where the figures come from.
    pub source: String,
}

/// What is wrong, by field.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct InstrumentErrors {
    /// About the name.
    pub name: Option<String>,
    /// About the short name.
    pub id: Option<String>,
    /// About half-width or standard uncertainty.
    pub amount: Option<String>,
    /// About the level share.
    pub level_share: Option<String>,
    /// About the repeatability.
    pub repeatability: Option<String>,
    /// About the shared part.
    pub shared: Option<String>,
    /// About the source.
    pub source: Option<String>,
    /// About something else.
    pub other: Option<String>,
}

impl InstrumentForm {
    /// The form as it opens: for a new instrument, or for one that is here.
    pub fn of(before: Option<&OwnInstrument>) -> Self {
        let Some(OwnInstrument { id, fact, .. }) = before else {
            return Self {
                name: String::new(),
                id: String::new(),
                measures: Dimension::Length.word().to_owned(),
                kind: HALF_WIDTH.to_owned(),
                amount: String::new(),
                shape: ShapeWord::Rectangular.word().to_owned(),
                level_share: String::new(),
                repeatability: String::new(),
                shared: String::new(),
                source: String::new(),
            };
        };
        let said = |text: &Option<String>| text.clone().unwrap_or_default();
        let is_standard = fact.half_width.is_none() && fact.standard_uncertainty.is_some();
        let (kind, amount) = match is_standard {
            true => (STANDARD, &fact.standard_uncertainty),
            false => (HALF_WIDTH, &fact.half_width),
        };
        Self {
            name: fact.name.clone(),
            id: id.clone(),
            measures: fact.measures.word().to_owned(),
            kind: kind.to_owned(),
            amount: said(amount),
            shape: fact
                .shape
                .unwrap_or(ShapeWord::Rectangular)
                .word()
                .to_owned(),
            level_share: said(&fact.level_share),
            repeatability: said(&fact.repeatability),
            shared: said(&fact.shared),
            source: fact.source.clone(),
        }
    }

    /// The command that writes what the form says, but for what it left as it was `before`.
    pub fn command(&self, before: Option<&OwnInstrument>) -> Command {
        let measures = MEASURED.into_iter().map(|(dimension, ..)| dimension);
        let measures = measures.chain(before.map(|before| before.fact.measures));
        let measures = { measures }.find(|dimension| dimension.word() == self.measures);
        let of_kind = |kind: &str| (self.kind == kind).then(|| self.amount.clone());
        let after = InstrumentDetails {
            fact: InstrumentFact {
                name: self.name.clone(),
                measures: measures.unwrap_or(Dimension::Length),
                half_width: of_kind(HALF_WIDTH),
                shape: self.shape(),
                level_share: Self::asks_level(&self.kind, &self.shape)
                    .then(|| self.level_share.clone()),
                standard_uncertainty: of_kind(STANDARD),
                repeatability: Some(self.repeatability.clone()),
                shared: Some(self.shared.clone()),
                source: self.source.clone(),
            },
            retired: before.is_some_and(|before| before.retired),
        };
        Command::SetInstrument {
            id: match before {
                Some(before) => before.id.clone(),
                None => self.short_name(),
            },
            before: before.map(|before| Box::new(InstrumentDetails::of(before))),
            after: Box::new(after),
        }
    }

    /// Whether the form asks for a shape.
    pub fn asks_shape(kind: &str) -> bool {
        kind == HALF_WIDTH
    }

    /// Whether the form asks for the level share of this kind and shape.
    pub fn asks_level(kind: &str, shape: &str) -> bool {
        Self::asks_shape(kind) && shape == TRAPEZOID
    }

    /// The shape, where it is not the usual one.
    fn shape(&self) -> Option<ShapeWord> {
        let mut words = ShapeWord::WORDS.iter();
        let (_, word) = words.find(|(word, _)| *word == self.shape)?;
        let is_usual = *word == ShapeWord::Rectangular;
        (Self::asks_shape(&self.kind) && !is_usual).then_some(*word)
    }

    /// The short name that is written, or else one made from the name.
    fn short_name(&self) -> String {
        let written = self.id.trim();
        if !written.is_empty() {
            return written.to_owned();
        }
        let plain = |c: char| match c {
            c if c.is_ascii_alphanumeric() => c.to_ascii_lowercase(),
            _ => ' ',
        };
        let spaced: String = self.name.chars().map(plain).collect();
        spaced.split_whitespace().collect::<Vec<_>>().join("-")
    }
}

impl InstrumentErrors {
    /// What a refused command says, beside the field that it is about.
    pub fn refused(error: &CommandError) -> Self {
        let mut errors = Self::default();
        let (field, why) = match error {
            CommandError::NoName { .. } | CommandError::NameTaken { .. } => {
                (&mut errors.name, error.to_string())
            }
            CommandError::InstrumentId { .. } | CommandError::InstrumentTaken { .. } => {
                (&mut errors.id, error.to_string())
            }
            CommandError::InstrumentRefused { fault, .. } => {
                let field = match fault.figure {
                    Some(Figure::Repeatability) => &mut errors.repeatability,
                    Some(Figure::Shared) => &mut errors.shared,
                    Some(Figure::Source) => &mut errors.source,
                    Some(Figure::LevelShare) => &mut errors.level_share,
                    Some(Figure::Shape | Figure::HalfWidth | Figure::StandardUncertainty)
                    | None => &mut errors.amount,
                };
                (field, fault.why.clone())
            }
            _ => (&mut errors.other, error.to_string()),
        };
        *field = Some(sentence(&why));
        errors
    }

    /// The id of the first field with an error, from the top of the form.
    pub fn first_field(&self) -> Option<&'static str> {
        let fields = [
            ("instrument-name", &self.name),
            ("instrument-id", &self.id),
            ("instrument-amount", &self.amount),
            ("instrument-level-share", &self.level_share),
            ("instrument-repeatability", &self.repeatability),
            ("instrument-shared", &self.shared),
            ("instrument-source", &self.source),
        ];
        let wrong = fields.into_iter().find(|(_, error)| error.is_some());
        wrong.map(|(id, _)| id)
    }
}
