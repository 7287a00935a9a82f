use crate::figures::Lacking;
use crate::figures::trend::{Curve, LEAST_PIECES};
use crate::progress::{Numbers, Practised, TallyNumbers, practised};
use crate::quantity::{Dimension, print_figure};
use crate::sheet::learner::{CurveShown, pieces};

const HOW: &str = "A curve that falls and flattens is laid through the counts over the order of \
    the pieces, by least squares: a floor and a part over it that shrinks either as a power of \
    the piece’s number (Newell and Rosenbloom 1981) or by the same share each time (Heathcote, \
    Brown and Mewhort, Psychonomic Bulletin & Review 7, 2000, 185). Both have three numbers; the \
    one that leaves the smaller squares is drawn. The interval of the floor is by Student’s t \
    (Draper and Smith, Applied Regression Analysis, 1998, 24.2). That the floor is told only \
    where its interval is narrower than what was won so far, and not below nothing, is a rule \
    of our own.";

/// The curve of practice of everything that is counted.
pub fn curves(numbers: &Numbers) -> Vec<CurveShown> {
    let counted = numbers.tallies.iter();
    let counted = counted.filter(|tally| !tally.values.is_empty());
    counted.map(curve).collect()
}

fn curve(tally: &TallyNumbers) -> CurveShown {
    let found = practised(&tally.values);
    CurveShown {
        id: tally.id.clone(),
        words: match &found {
            Ok(found) => words(tally.dimension, found),
            Err(Lacking::TooFew { .. }) => format!(
                "No curve of practice is laid through fewer than {LEAST_PIECES} pieces; these are \
                 {}.",
                tally.values.len()
            ),
            Err(_) => "They do not fall and flatten, so no curve of practice is drawn.".to_owned(),
        },
        heights: found.map(|found| found.heights).unwrap_or_default(),
        how: HOW.to_owned(),
    }
}

/// `Dashes: practice brings it down from about 34 min at the first of 12 pieces to 24 min at
/// the latest, towards about 22 min (95 % interval 19 to 25). The curve is a power law.`
fn words(dimension: Dimension, found: &Practised) -> String {
    let say = |value: f64| amount(dimension, value.max(0.0));
    let ends = found.heights.first().zip(found.heights.last());
    let (first, last) = ends.map_or((0.0, 0.0), |(first, last)| (*first, *last));
    let end = match found.towards {
        Some(interval) => format!(
            ", towards about {} (95 % interval {} to {})",
            say(found.floor),
            bare(dimension, interval.low.max(0.0)),
            bare(dimension, interval.high)
        ),
        None => "; where that ends cannot be told yet".to_owned(),
    };
    let law = match found.fit.curve {
        Curve::PracticeExponential => "an exponential",
        _ => "a power law",
    };
    format!(
        "Dashes: practice brings it down from about {} at the first of {} to {} at the latest\
         {end}. The curve is {law}.",
        say(first),
        pieces(found.heights.len()),
        say(last)
    )
}

/// A time to a whole minute, a count to a tenth: it is a mean.
fn bare(dimension: Dimension, value: f64) -> String {
    print_figure(value, usize::from(dimension == Dimension::Count))
}

fn amount(dimension: Dimension, value: f64) -> String {
    let symbol = dimension.usual_unit().symbol();
    let text = bare(dimension, value);
    match symbol {
        "" => text,
        symbol => format!("{text} {symbol}"),
    }
}
