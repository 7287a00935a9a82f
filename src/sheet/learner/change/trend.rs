use super::{alike_words, interval_words, percents, too_few};
use crate::figures::Lacking;
use crate::progress::{Change, Numbers, change};
use crate::quantity::{print_figure, print_signed};
use crate::sheet::learner::Told;

const HOW: &str = "The change is the middle one (median) of the slopes between all pairs of \
    pieces over their order, so that one stray piece turns it little; its interval is by ranks \
    (Theil 1950; Sen, J. Am. Stat. Assoc. 63, 1968, 1379). By the order alone: pairs in which \
    the later piece has more marks less those in which it has fewer, ties taken off, over what \
    chance makes of them (Mann, Econometrica 13, 1945, 245; Kendall, Rank Correlation Methods, \
    1975), by the normal distribution, which is rough below ten pieces. Whether a piece \
    resembles the one before it is told by the correlation of neighbours, the line taken off \
    (Yue and others, Hydrological Processes 16, 2002, 1807). The pieces are the latest of which \
    five were made alike.";

/// Whether marks rise or fall.
pub fn told(numbers: &Numbers) -> Told {
    let words = match (alike_words(numbers), change(&percents(numbers))) {
        (Some(alike), Ok(change)) => {
            let serial = change.serial.map(serial_words);
            let first = [line_words(&alike, &change), rank_words(&change)];
            first.into_iter().chain(serial).collect()
        }
        (Some(alike), Err(Lacking::NoSpread(_))) => {
            vec![format!(
                "All {alike} have the same marks: there is no change to tell."
            )]
        }
        (Some(_), Err(why)) => vec![format!("No change is told here: {why}.")],
        (None, _) => vec![too_few(numbers)],
    };
    Told {
        heading: "Is it a real change?".to_owned(),
        words,
        how: HOW.to_owned(),
    }
}

fn line_words(alike: &str, change: &Change) -> String {
    let interval = change.line.interval;
    let size = print_figure(change.line.slope.abs(), 1);
    let between = interval_words(interval);
    if interval.low > 0.0 {
        format!(
            "Marks rise. Over {alike} by about {size} per cent of the marks from one piece to \
             the next ({between})."
        )
    } else if interval.high < 0.0 {
        format!(
            "Marks fall. Over {alike} by about {size} per cent of the marks from one piece to \
             the next ({between})."
        )
    } else {
        format!(
            "Whether marks rise or fall cannot be told from {alike}: from one piece to the next \
             they change by about {} per cent of the marks ({between}).",
            print_signed(change.line.slope, 1)
        )
    }
}

/// How clear the order alone is: the statistic beside the chance.
fn rank_words(change: &Change) -> String {
    let tau = print_signed(change.ranks.tau, 2);
    format!(
        "By their order alone, from −1 where each piece is worse than all before it to +1 where \
         each is better, it comes to {tau} (Kendall’s tau). Pieces in no order at all come as far \
         from 0 {}.",
        how_often(change.ranks.chance)
    )
}

/// How often something comes about that chance gives so often.
fn how_often(chance: f64) -> String {
    if chance < 0.001 {
        "less than once in 1,000 times".to_owned()
    } else if chance < 0.1 {
        format!("about once in {:.0} times", 1.0 / chance)
    } else {
        format!("about {:.0} times in 100", 100.0 * chance)
    }
}

fn serial_words(correlation: f64) -> String {
    let size = print_signed(correlation, 1);
    if correlation > 0.0 {
        format!(
            "A piece resembles the one before it more than chance explains (correlation {size}): \
             good and poor days come in rows, so both figures claim more than they should."
        )
    } else {
        format!(
            "Better and poorer pieces take turns more than chance explains (correlation {size}), \
             so both figures claim less than they could."
        )
    }
}
