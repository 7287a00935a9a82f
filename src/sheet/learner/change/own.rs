use super::interval_words;
use crate::figures::Lacking;
use crate::figures::trend::LEAST_PIECES;
use crate::progress::{Bias, Numbers, own_bias};
use crate::quantity::{counted, print_figure, print_signed};
use crate::sheet::learner::Told;

const HOW: &str = "Own marks less the examiner’s, in per cent of what the piece could have, of \
    pieces by any rubric that both marked as a whole: the mean with its interval by Student’s t \
    (Bland and Altman, The Lancet 327, 1986, 307). Closer or farther: the median slope of the \
    distances between both, whichever is higher, over the order of the pieces, its interval by \
    ranks (Sen, J. Am. Stat. Assoc. 63, 1968, 1379).";

/// How own marks lie off an examiner's, and whether they come closer; `None` where no piece
/// was marked by both.
pub fn own(numbers: &Numbers) -> Option<Told> {
    let (own, others): (Vec<f64>, Vec<f64>) = numbers
        .own
        .iter()
        .map(|pair| (pair.own.to_f64(), pair.counts.to_f64()))
        .unzip();
    if own.is_empty() {
        return None;
    }
    let words = match own_bias(&own, &others) {
        Ok(bias) => vec![mean_words(&bias, own.len()), distance_words(&bias)],
        Err(Lacking::TooFew { .. }) => vec![format!(
            "Nothing is claimed: {} by maker and examiner, and it takes {LEAST_PIECES}.",
            counted(
                own.len(),
                "piece was marked as a whole",
                "pieces were marked as a whole"
            )
        )],
        Err(why) => vec![format!("Nothing is told here: {why}.")],
    };
    Some(Told {
        heading: "Own eye against the examiner’s".to_owned(),
        words,
        how: HOW.to_owned(),
    })
}

fn mean_words(bias: &Bias, pairs: usize) -> String {
    let mean = bias.mean;
    let over = format!(
        "over {}, {}",
        super::pieces(pairs),
        interval_words(mean.interval)
    );
    let size = print_figure(mean.value.abs(), 1);
    if mean.interval.low > 0.0 {
        format!(
            "Own marks are the kinder: on the mean {size} per cent of the marks higher ({over})."
        )
    } else if mean.interval.high < 0.0 {
        format!(
            "Own marks are the stricter: on the mean {size} per cent of the marks lower ({over})."
        )
    } else {
        format!(
            "Own marks are neither kinder nor stricter as far as can be told: on the mean {} per \
             cent of the marks off ({over}).",
            print_signed(mean.value, 1)
        )
    }
}

fn distance_words(bias: &Bias) -> String {
    let interval = bias.distance.interval;
    let size = print_figure(bias.distance.slope.abs(), 1);
    let between = interval_words(interval);
    if interval.high < 0.0 {
        format!(
            "They come closer to the examiner’s: by about {size} per cent of the marks from one \
             piece to the next ({between})."
        )
    } else if interval.low > 0.0 {
        format!(
            "They drift away from the examiner’s: by about {size} per cent of the marks from one \
             piece to the next ({between})."
        )
    } else {
        format!("Whether they come closer to the examiner’s cannot be told yet ({between}).")
    }
}
