//! The result in plain sentences.

use super::Told;
use crate::figures::Lacking;
use crate::figures::agreement::Within;
use crate::figures::gauge::VarianceStudy;
use crate::quantity::print_figure;
use crate::sheet::document::{Block, Weight};
use crate::sheet::scored::{heading, notice};
use crate::study::LEVEL;

/// Fewer repeats than this say little (degrees of freedom; ten readings of one place).
const FEW: f64 = 9.0;
/// Fewer people or parts than this say little of others.
const FEW_PEOPLE: usize = 3;
const FEW_PARTS: usize = 5;
/// A gauge that tells fewer steps apart is too coarse for the parts at hand (AIAG).
const STEPS: u32 = 5;

pub(super) fn blocks(told: &Told<'_>) -> Vec<Block> {
    let mut blocks = vec![heading("How far off a reading can be")];
    let say = |text: String| Block::Paragraph(text);
    let worked = told.worked;
    let by_variance = worked.by_variance.as_ref();
    blocks.extend(by_variance.ok().map(|found| say(anybody(told, found))));
    match &worked.repeatability {
        Ok(found) => blocks.push(say(one_person(told, found))),
        Err(_) => {
            let text = "Nothing can be said yet: type two readings or more of one part by one \
                        person.";
            blocks.push(notice(Weight::Info, text, Vec::new()));
            return blocks;
        }
    }
    match by_variance {
        Ok(found) => {
            blocks.push(say(people(told, found)));
            blocks.push(say(steps(found)));
            blocks.extend(few(told));
        }
        Err(why) => blocks.push(notice(Weight::Info, no_people(why), Vec::new())),
    }
    blocks
}

fn anybody(told: &Told<'_>, found: &VarianceStudy) -> String {
    let half = found
        .reading_uncertainty()
        .and_then(|one| one.expanded(LEVEL));
    match half {
        Ok(half) => format!(
            "One reading with {}, whoever of such people takes it, lies within {} of the mean of \
             many such readings, 19 times of 20. What all readings share, such as a zero error, \
             is not in this; only parts of known size show that.",
            told.instrument,
            told.amount(half)
        ),
        Err(Lacking::NotANumber("an uncertainty of nothing")) => format!(
            "All readings of each part are alike, so {} shows no scatter here. It reads too \
             coarsely for that, or too few were taken.",
            told.instrument
        ),
        Err(_) => "Too few people measured to say how far off a reading of somebody else would \
                   be."
        .to_owned(),
    }
}

fn one_person(told: &Told<'_>, found: &Within) -> String {
    if found.deviation <= 0.0 {
        return "One person’s readings of the same part never differ here. That says that the \
                instrument reads no finer, not that it is without error."
            .to_owned();
    }
    let few = if found.df < FEW {
        " These are few repeats, so the interval is wide; ten readings of a part or more say more."
    } else {
        ""
    };
    format!(
        "Two readings of the same part by the same person differ by more than {} only about once \
         in 20 times. The repeatability, their standard deviation, is {}; it may be from {} to {} \
         (95 % interval).{few}",
        told.amount(found.limit),
        told.amount(found.deviation),
        told.bare(found.interval.low),
        told.amount(found.interval.high),
    )
}

fn people(told: &Told<'_>, found: &VarianceStudy) -> String {
    let own = found.deviations;
    let share = own.reproducibility_of_gauge();
    let Some(share) = share.ok().filter(|share| *share > 0.0) else {
        return "Between people nothing shows beyond what one person’s readings scatter by."
            .to_owned();
    };
    format!(
        "Different people add a standard deviation of {} (reproducibility). Of the scatter of \
         readings of one part, {} % comes of who measures and the rest of repeats; shares of the \
         variance.",
        told.amount(own.reproducibility),
        print_figure(share * 100.0, 0)
    )
}

fn steps(found: &VarianceStudy) -> String {
    match found.deviations.categories() {
        Ok(found) => {
            let coarse = if found.distinct < STEPS {
                " That is coarse: by common practice it takes five steps or more to tell such \
                 parts apart."
            } else {
                ""
            };
            let steps = match found.distinct {
                0 => "no two of these parts apart".to_owned(),
                1 => "no more than one group of these parts".to_owned(),
                steps => format!("about {steps} steps apart over the sizes of these parts"),
            };
            format!("Readings tell {steps}.{coarse} Parts that differ more give more steps.")
        }
        Err(_) => "How many steps readings tell apart cannot be said, as readings of one part \
                   are all alike."
            .to_owned(),
    }
}

fn few(told: &Told<'_>) -> Option<Block> {
    let (people, parts) = (told.facts.people.len(), told.worked.grid.whole.len());
    let text = match (people < FEW_PEOPLE, parts < FEW_PARTS) {
        (true, true) => "Two people and few parts",
        (true, false) => "Two people",
        (false, true) => "So few parts",
        (false, false) => return None,
    };
    let text = format!(
        "{text} say little of others: take what is said of people and steps as a first hint. \
         Three people and five to ten parts say more."
    );
    Some(notice(Weight::Info, text, Vec::new()))
}

fn no_people(why: &Lacking) -> String {
    let what = match why {
        Lacking::TooFew {
            what: "operators", ..
        } => "it takes two people or more",
        Lacking::TooFew { what: "parts", .. } => {
            "it takes two parts or more of which every reading is there"
        }
        _ => "the readings do not allow it",
    };
    format!("How people differ is not worked out: {what}.")
}
