use thiserror::Error;

use crate::quantity::{Dimension, Exact, Quantity, ReadError, Unit, read_exact, read_quantity};

/// A target or limit that may be worked out from other readings.
///
/// Notation: an amount (`10 mm`), a reading's id (`thickness`), a number of the
/// piece specification (`piece.finished.width`), a share of one of them
/// (`2/3 of thickness`, `half of web`, `110 % of width`), `greater of A and B`,
/// `lesser of A and B`, and sums of these with `plus` and `minus`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Expression {
    /// A fixed amount.
    Amount(Quantity),
    /// The mean of a reading.
    Reading(String),
    /// A share of something.
    Share(Exact, Box<Expression>),
    /// First and second added.
    Sum(Box<Expression>, Box<Expression>),
    /// Second taken from first.
    Difference(Box<Expression>, Box<Expression>),
    /// The larger of the two.
    Greater(Box<Expression>, Box<Expression>),
    /// The smaller of the two.
    Lesser(Box<Expression>, Box<Expression>),
}

/// Why a text is no expression.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum ExpressionError {
    /// An amount that cannot be read.
    #[error("{0}")]
    Amount(#[from] ReadError),
    /// A word is missing.
    #[error(
        "`{text}` stops short; write it like `2/3 of thickness` or `greater of width and length`"
    )]
    Unfinished {
        /// The part that stops short.
        text: String,
    },
    /// The piece specification has no such number.
    #[error("the piece specification has no {dimension} at `{path}`; use a key that stands under [piece], such as piece.finished.width", dimension = .dimension.word())]
    UnknownPieceNumber {
        /// The path as written.
        path: String,
        /// What is measured here.
        dimension: Dimension,
    },
    /// Too many parts.
    #[error("this has too many parts; use at most {MOST_PARTS}")]
    TooLong,
}

const MOST_PARTS: usize = 32;

/// How to read an expression: its dimension, what a bare number means and
/// where the numbers of the piece come from.
pub struct Context<'a> {
    /// What is measured.
    pub dimension: Dimension,
    /// What a bare number takes.
    pub bare_unit: Unit,
    /// The number at a path under `piece`, as text.
    pub piece_number: &'a dyn Fn(&str) -> Option<String>,
}

impl Expression {
    /// Reads the notation described at [`Expression`].
    ///
    /// *Errors:* [`ExpressionError`]; whether a named reading exists is checked
    /// later, when all are known.
    pub fn read(text: &str, context: &Context<'_>) -> Result<Self, ExpressionError> {
        let words: Vec<&str> = text.split_whitespace().collect();
        if words.len() > MOST_PARTS * 2 {
            return Err(ExpressionError::TooLong);
        }
        read_sum(&words, context).map_err(|fault| match fault {
            ExpressionError::Unfinished { text: part } if part.is_empty() => {
                let text = words.join(" ");
                ExpressionError::Unfinished { text }
            }
            fault => fault,
        })
    }

    /// The fixed amount, where no reading is needed.
    pub fn constant(&self) -> Option<Quantity> {
        self.value(&|_| None)
    }

    /// The amount with `reading` giving the mean of each named reading; `None`
    /// where one is missing, dimensions differ or numbers overflow.
    pub fn value(&self, reading: &dyn Fn(&str) -> Option<Quantity>) -> Option<Quantity> {
        let both = |a: &Self, b: &Self| Some((a.value(reading)?, b.value(reading)?));
        match self {
            Self::Amount(quantity) => Some(*quantity),
            Self::Reading(id) => reading(id),
            Self::Share(share, of) => of.value(reading)?.times(*share),
            Self::Sum(a, b) => both(a, b).and_then(|(a, b)| a.plus(b)),
            Self::Difference(a, b) => both(a, b).and_then(|(a, b)| a.minus(b)),
            Self::Greater(a, b) => both(a, b).map(|(a, b)| if b.base > a.base { b } else { a }),
            Self::Lesser(a, b) => both(a, b).map(|(a, b)| if b.base < a.base { b } else { a }),
        }
    }

    /// Ids of the readings that this needs, each once, in order.
    pub fn readings(&self) -> Vec<&str> {
        let mut found = Vec::new();
        self.collect_readings(&mut found);
        found
    }

    fn collect_readings<'a>(&'a self, found: &mut Vec<&'a str>) {
        match self {
            Self::Amount(_) => {}
            Self::Reading(id) if found.contains(&id.as_str()) => {}
            Self::Reading(id) => found.push(id),
            Self::Share(_, of) => of.collect_readings(found),
            Self::Sum(a, b) | Self::Difference(a, b) | Self::Greater(a, b) | Self::Lesser(a, b) => {
                a.collect_readings(found);
                b.collect_readings(found);
            }
        }
    }
}

fn read_sum(words: &[&str], context: &Context<'_>) -> Result<Expression, ExpressionError> {
    let sign_at = words
        .iter()
        .rposition(|word| *word == "plus" || *word == "minus");
    let Some((left, sign, right)) = sign_at.and_then(|at| {
        let (left, rest) = words.split_at_checked(at)?;
        let (sign, right) = rest.split_first()?;
        Some((left, *sign, right))
    }) else {
        return read_term(words, context);
    };
    let (left, right) = (
        Box::new(read_sum(left, context)?),
        Box::new(read_term(right, context)?),
    );
    Ok(if sign == "plus" {
        Expression::Sum(left, right)
    } else {
        Expression::Difference(left, right)
    })
}

fn read_term(words: &[&str], context: &Context<'_>) -> Result<Expression, ExpressionError> {
    let unfinished = || ExpressionError::Unfinished {
        text: words.join(" "),
    };
    if let ["greater" | "lesser", "of", rest @ ..] = words {
        let at = rest
            .iter()
            .position(|word| *word == "and")
            .ok_or_else(unfinished)?;
        let (a, b) = rest.split_at_checked(at).ok_or_else(unfinished)?;
        let b = b.get(1..).unwrap_or(&[]);
        let (a, b) = (
            Box::new(read_term(a, context)?),
            Box::new(read_term(b, context)?),
        );
        return Ok(if words.first() == Some(&"greater") {
            Expression::Greater(a, b)
        } else {
            Expression::Lesser(a, b)
        });
    }
    if let Some((share, rest)) = words
        .iter()
        .position(|word| *word == "of")
        .and_then(|at| Some((words.get(..at)?, words.get(at + 1..)?)))
    {
        return Ok(Expression::Share(
            read_share(share)?,
            Box::new(read_term(rest, context)?),
        ));
    }
    read_atom(words, context)
}

fn read_share(words: &[&str]) -> Result<Exact, ExpressionError> {
    let text = words.join(" ");
    if text == "half" {
        return Ok(read_exact("1/2")?);
    }
    match text.strip_suffix('%') {
        Some(percent) => read_exact(percent)?
            .over(Exact::HUNDRED)
            .ok_or(ExpressionError::Amount(ReadError::TooLarge { text })),
        None => Ok(read_exact(&text)?),
    }
}

/// What the number of the piece at `path` measures, however it is written.
fn measures(path: &str) -> Dimension {
    match path {
        "nails.outer" | "nails.inner" => Dimension::Count,
        "nails.pitch_toe" | "nails.pitch_heel" => Dimension::Angle,
        _ => Dimension::Length,
    }
}

fn read_atom(words: &[&str], context: &Context<'_>) -> Result<Expression, ExpressionError> {
    let text = words.join(" ");
    if text.is_empty() {
        return Err(ExpressionError::Unfinished { text });
    }
    let starts_a_name = text.starts_with(|c: char| c.is_ascii_lowercase());
    if !starts_a_name {
        let quantity = read_quantity(&text, context.dimension, context.bare_unit)?;
        return Ok(Expression::Amount(quantity));
    }
    let Some(path) = text.strip_prefix("piece.") else {
        return Ok(Expression::Reading(text));
    };
    let number = (context.piece_number)(path)
        .filter(|_| measures(path) == context.dimension)
        .and_then(|number| read_quantity(&number, context.dimension, context.bare_unit).ok());
    match number {
        Some(quantity) => Ok(Expression::Amount(quantity)),
        None => Err(ExpressionError::UnknownPieceNumber {
            path: text.clone(),
            dimension: context.dimension,
        }),
    }
}
