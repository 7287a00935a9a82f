//! A gauge to print and lay a made shoe on.

use crate::chart::{Drawing, LayOn, Side, lay_on};
use crate::piece::{Feature, Foot, PieceSpecification};
use crate::plan::{PlanFault, shoe};
use crate::quantity::{Dimension, Exact, Length, Quantity, Unit};
use crate::rubric::{Kind, Limit, Limits, Rubric};

use super::document::{Block, Document, Fact, Item, Oversize, Weight};
use super::scored::notice;
use super::words::join;

/// How far a shoe may be off its size, and who says so.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct GaugeTolerance {
    /// Of the overall width, to either side.
    pub width: Length,
    /// Of the overall length, to either side.
    pub length: Length,
    /// Who says so.
    pub from: ToleranceFrom,
}

/// Who says how far off a shoe may be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ToleranceFrom {
    /// The rubric, by what it gives most marks for.
    Rubric,
    /// Nobody: it is usual.
    Usual,
    /// Whoever prints the gauge.
    Typed,
}

/// The widest tolerance of a gauge: beyond it the narrowest shoe is none. Common practice, no
/// source.
const MOST: Length = Length::from_base(20_000_000);

impl GaugeTolerance {
    /// The same to either side of width and length, as somebody typed it; `None` for one that is
    /// nothing or less, or over [`Self::most`].
    pub fn typed(size: Length) -> Option<Self> {
        let is_one = size.base() > 0 && size <= MOST;
        is_one.then_some(Self {
            width: size,
            length: size,
            from: ToleranceFrom::Typed,
        })
    }

    /// The widest that is taken.
    pub fn most() -> Length {
        MOST
    }
}

impl Default for GaugeTolerance {
    /// 1.5 mm: common practice, no source.
    fn default() -> Self {
        let usual = Length::from_base(1_500_000);
        Self {
            width: usual,
            length: usual,
            from: ToleranceFrom::Usual,
        }
    }
}

/// The tolerance of overall width and length that a rubric gives most marks for; `None` where it
/// has none of either.
pub fn gauge_tolerance(rubric: &Rubric) -> Option<GaugeTolerance> {
    let width = most_marks(rubric, Feature::OverallWidth);
    let length = most_marks(rubric, Feature::OverallLength);
    let one = width.or(length)?;
    Some(GaugeTolerance {
        width: width.unwrap_or(one),
        length: length.unwrap_or(one),
        from: ToleranceFrom::Rubric,
    })
}

/// How far the best band of what measures a feature goes to either side, the nearer of both.
fn most_marks(rubric: &Rubric, feature: Feature) -> Option<Length> {
    let criteria = rubric.sections.iter().flat_map(|section| &section.criteria);
    let mut scales = criteria.filter_map(|criterion| match &criterion.kind {
        Kind::Toleranced(kind) if kind.photo == Some(feature) => Some(&kind.scale),
        _ => None,
    });
    let scale = scales.find(|scale| scale.dimension == Dimension::Length)?;
    let asked = scale.target.as_ref().and_then(|target| target.constant());
    let band = scale.bands.first()?;
    let Limits::Around { under, over } = &band.limits else {
        return None;
    };
    let both = [under, over].map(|limit| amount(limit, asked));
    let [Some(under), Some(over)] = both else {
        return None;
    };
    Some(under.min(over)).filter(|least| least.base() > 0)
}

fn amount(limit: &Limit, asked: Option<Quantity>) -> Option<Length> {
    let amount = match limit {
        Limit::Amount(amount) => amount.constant()?,
        Limit::Percent(percent) => asked?.times(percent.over(Exact::HUNDRED)?)?,
    };
    Length::nearest(amount)
}

/// What a gauge is made for.
#[derive(Debug, Clone, PartialEq)]
pub struct LayOnGauge<'a> {
    /// The piece.
    pub piece: &'a PieceSpecification,
    /// What it is called.
    pub title: &'a str,
    /// The foot that the shoe is for.
    pub foot: Foot,
    /// The side of the shoe that lies up.
    pub side: Side,
    /// How far off it may be.
    pub tolerance: GaugeTolerance,
    /// The unit of its words.
    pub unit: Unit,
}

/// The drawing of a gauge, in mm.
///
/// *Errors:* why the piece's sizes give no shoe.
pub fn gauge_drawing(gauge: &LayOnGauge<'_>) -> Result<Drawing, PlanFault> {
    let shoe = shoe(gauge.piece, gauge.foot)?;
    let finished = &gauge.piece.finished;
    let say = |length: Length| length.quantity().print_limit(gauge.unit);
    let words = [
        gauge.foot.word().to_owned(),
        format!("{} up", gauge.side.word()),
        format!("{} \u{d7} {}", say(finished.width), say(finished.length)),
    ];
    let asked = LayOn {
        side: gauge.side,
        tolerance: (
            gauge.tolerance.width.to_mm(),
            gauge.tolerance.length.to_mm(),
        ),
        words: &words,
        title: &format!("{}, {}", gauge.title, gauge.foot.word()),
    };
    Ok(lay_on(gauge.piece, &shoe, &asked))
}

/// A gauge to print at full size, on as many sheets as it takes.
///
/// *Errors:* why the piece's sizes give no shoe.
pub fn lay_on_gauge(gauge: &LayOnGauge<'_>) -> Result<Document, PlanFault> {
    let drawing = gauge_drawing(gauge)?;
    Ok(Document {
        title: "Lay-on gauge".to_owned(),
        about: format!(
            "{}, {}, {} up",
            gauge.title,
            gauge.foot.word(),
            gauge.side.word()
        ),
        language: "en-GB".into(),
        most_pages: None,
        blocks: vec![
            Block::Series(facts(gauge)),
            notice(
                Weight::Warn,
                "Print at 100 % (“actual size”), never fitted to the page, and measure the check lines \
                 before you trust it. Lay only a cold shoe on it: black heat burns.",
                Vec::new(),
            ),
            Block::Items(how_to(gauge)),
            Block::TrueSize {
                drawing,
                otherwise: Oversize::Sheets,
            },
        ],
    })
}

fn facts(gauge: &LayOnGauge<'_>) -> Vec<Fact> {
    let say = |length: Length| length.quantity().print_limit(gauge.unit);
    let GaugeTolerance {
        width,
        length,
        from,
    } = gauge.tolerance;
    let from = match from {
        ToleranceFrom::Rubric => "as the rubric gives most marks for",
        ToleranceFrom::Usual => "as no rubric says: common practice, no source",
        ToleranceFrom::Typed => "as you chose",
    };
    let finished = &gauge.piece.finished;
    let sizes = format!(
        "{} wide, {} long",
        say(finished.width),
        say(finished.length)
    );
    let tolerance = format!(
        "\u{b1}{} of width and \u{b1}{} of length, {from}",
        say(width),
        say(length)
    );
    let facts = [("Finished size", sizes), ("Tolerance", tolerance)];
    let fact = |(label, value): (&'static str, String)| Fact {
        label: label.into(),
        value,
    };
    facts.map(fact).into()
}

fn how_to(gauge: &LayOnGauge<'_>) -> Vec<Item> {
    let (has_fuller, side) = (gauge.piece.fuller.is_some(), gauge.side);
    let seen = if has_fuller && side == Side::Ground {
        ", so that you see the fuller"
    } else {
        ""
    };
    let mut items = vec![
        format!("Lay the shoe on it {} up{seen}.", side.word()),
        "Move it until it stands out evenly. Broken lines: the widest and longest shoe, and the \
         narrowest and shortest, that the tolerance takes."
            .to_owned(),
    ];
    let nails = gauge
        .piece
        .nails
        .as_ref()
        .map(|_| "to the nail holes by number");
    let fuller = has_fuller.then_some("F to the ends of the fuller");
    let leaders = join([nails, fuller].into_iter().flatten(), ", ");
    if !leaders.is_empty() {
        items.push(format!("Lines outside the edge lead {leaders}."));
    }
    items.into_iter().map(Item::plain).collect()
}
