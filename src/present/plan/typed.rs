use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::fields::{PLAN_CHOICE, PLAN_FOOT, PLAN_OWN, PLAN_PAST};
use super::own::OwnRecord;
use crate::piece::{Foot, PieceSpecification};
use crate::plan::heat::celsius;
use crate::plan::{Choice, Hoof, Inputs, Method, PastPiece, Sample};
use crate::present::start::sentence;
use crate::quantity::{
    Dimension, Exact, Length, Mass, Quantity, Unit, print_decimal, read_exact, read_quantity,
};
use crate::rubric::Rubric;

/// What was typed into a plan, by the name of the field; a field that is not there is as it was
/// at first.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct PlanTyped(pub BTreeMap<String, String>);

/// The choice of whoever has none.
const USUAL: &str = "usual";
/// A length of one's own.
const OWN: &str = "own";

/// What a plan was asked.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Read {
    pub(super) inputs: Inputs,
    pub(super) hot: Option<(Length, f64)>,
    /// What is wrong with a field, by its name.
    pub(super) wrong: BTreeMap<&'static str, String>,
}

/// What a plan is asked where nothing is typed.
pub(super) fn usual(rubric: &Rubric) -> Inputs {
    let foot = rubric
        .shoes
        .first()
        .map_or(Foot::NearFore, |shoe| shoe.drawn_foot());
    let heats = rubric.heats.iter().map(|heats| heats.count).sum();
    let usual = Inputs::usual(&rubric.piece, foot);
    Inputs {
        unit: rubric.unit,
        heats: if heats == 0 { usual.heats } else { heats },
        ..usual
    }
}

/// What the fields show where nothing is typed.
pub(super) fn usual_texts(rubric: &Rubric) -> BTreeMap<&'static str, String> {
    let inputs = usual(rubric);
    let length = |length: Length| length.quantity().print_limit(inputs.unit);
    let percent = |share: Exact| {
        let percent = share.times(Exact::whole(100));
        percent.map_or_else(String::new, |percent| print_decimal(percent, 0))
    };
    BTreeMap::from([
        (PLAN_FOOT, inputs.foot.word().to_owned()),
        (PLAN_CHOICE, USUAL.to_owned()),
        ("plan-lap", length(inputs.lap)),
        ("plan-bump", length(inputs.toe_bump)),
        ("plan-fuller", percent(inputs.fuller_lengthens)),
        ("plan-scale", percent(inputs.scale_loss)),
        ("plan-heats", inputs.heats.to_string()),
    ])
}

/// The feet that may be chosen: word and name.
pub fn plan_feet() -> Vec<(String, String)> {
    let feet = Foot::WORDS.iter();
    feet.map(|(word, _)| ((*word).to_owned(), (*word).to_owned()))
        .collect()
}

/// The lengths that may be chosen: word and name.
pub fn plan_choices(piece: &PieceSpecification) -> Vec<(String, String)> {
    let usual = if piece.stock.length.is_some() {
        "As the piece gives it"
    } else {
        "My own record, or else the developed length"
    };
    let methods = Method::ALL.into_iter();
    let methods = methods.map(|method| {
        (
            method.word().to_owned(),
            format!("By the {}", method.word()),
        )
    });
    let first = (USUAL.to_owned(), usual.to_owned());
    let last = (OWN.to_owned(), "A length of my own".to_owned());
    std::iter::once(first)
        .chain(methods)
        .chain([last])
        .collect()
}

/// Whether a length of one's own is asked for.
pub fn is_own_length(typed: &PlanTyped) -> bool {
    typed.0.get(PLAN_CHOICE).is_some_and(|word| word == OWN)
}

/// Reads what is typed; what cannot be read is as it was at first, and told.
pub(super) fn read(typed: &PlanTyped, rubric: &Rubric, own: &OwnRecord) -> Read {
    let usual = usual(rubric);
    let mut reader = Reader {
        typed,
        unit: rubric.unit,
        wrong: BTreeMap::new(),
    };
    let piece = &rubric.piece;
    let hoof = reader.both("plan-hoof-length", "plan-hoof-width");
    let wall = reader.length("plan-wall");
    let inputs = Inputs {
        foot: reader.foot().unwrap_or(usual.foot),
        unit: usual.unit,
        hoof: hoof.map(|(length, width)| Hoof {
            length,
            width,
            wall,
        }),
        tape: reader.length("plan-tape"),
        between_heels: reader.length("plan-between"),
        lap: reader.length("plan-lap").unwrap_or(usual.lap),
        toe_bump: reader.length("plan-bump").unwrap_or(usual.toe_bump),
        fuller_lengthens: reader
            .share("plan-fuller")
            .unwrap_or(usual.fuller_lengthens),
        scale_loss: reader.share("plan-scale").unwrap_or(usual.scale_loss),
        heats: reader.heats().unwrap_or(usual.heats),
        sample: reader.sample(),
        record: own.counting().chain(reader.record(piece)).collect(),
        choice: reader.choice(),
    };
    let hot = reader.hot();
    Read {
        inputs,
        hot,
        wrong: reader.wrong,
    }
}

struct Reader<'a> {
    typed: &'a PlanTyped,
    unit: Unit,
    wrong: BTreeMap<&'static str, String>,
}

impl Reader<'_> {
    /// What is typed there; nothing where it is empty.
    fn text(&self, id: &str) -> Option<&str> {
        let text = self.typed.0.get(id)?.trim();
        (!text.is_empty()).then_some(text)
    }

    fn told<T>(&mut self, id: &'static str, read: Result<T, String>) -> Option<T> {
        read.map_err(|why| self.wrong.insert(id, why)).ok()
    }

    fn length(&mut self, id: &'static str) -> Option<Length> {
        let read = length(self.text(id)?, self.unit);
        self.told(id, read)
    }

    /// Two lengths that say something together only.
    fn both(&mut self, one: &'static str, other: &'static str) -> Option<(Length, Length)> {
        self.together(one, other);
        let found = (self.length(one), self.length(other));
        found.0.zip(found.1)
    }

    /// Tells of the one that is missing where the other is there.
    fn together(&mut self, one: &'static str, other: &'static str) {
        for (id, beside) in [(one, other), (other, one)] {
            if self.text(id).is_none() && self.text(beside).is_some() {
                let why = "This and the field beside it are used together: write this one too.";
                self.wrong.insert(id, why.to_owned());
            }
        }
    }

    fn share(&mut self, id: &'static str) -> Option<Exact> {
        let text = self.text(id)?.trim_end_matches('%').trim_end();
        let read = read_exact(text).map_err(|fault| sentence(&fault.to_string()));
        let share = read.and_then(|percent| {
            percent
                .over(Exact::whole(100))
                .ok_or_else(|| "Write a smaller number.".to_owned())
        });
        self.told(id, share)
    }

    fn heats(&mut self) -> Option<u32> {
        let read = self.text("plan-heats")?.parse();
        let read = read.map_err(|_| "Write a whole number of heats, such as 9.".to_owned());
        self.told("plan-heats", read)
    }

    fn foot(&self) -> Option<Foot> {
        let word = self.text(PLAN_FOOT)?;
        let found = Foot::WORDS.iter().find(|(own, _)| *own == word);
        found.map(|(_, foot)| *foot)
    }

    fn sample(&mut self) -> Option<Sample> {
        self.together("plan-sample-length", "plan-sample-mass");
        let long = self.length("plan-sample-length");
        let mass = self.text("plan-sample-mass").map(mass);
        let mass = mass.and_then(|read| self.told("plan-sample-mass", read));
        let (length, mass) = long.zip(mass)?;
        Some(Sample { length, mass })
    }

    fn choice(&mut self) -> Choice {
        match self.text(PLAN_CHOICE) {
            Some(OWN) => {
                if self.text(PLAN_OWN.id).is_none() {
                    let why = "Write the length that you cut.".to_owned();
                    self.wrong.insert(PLAN_OWN.id, why);
                }
                self.length(PLAN_OWN.id).map_or(Choice::Usual, Choice::Own)
            }
            Some(word) => Method::from_word(word).map_or(Choice::Usual, Choice::Method),
            None => Choice::Usual,
        }
    }

    fn record(&mut self, piece: &PieceSpecification) -> Vec<PastPiece> {
        let lines = self.text(PLAN_PAST.id).unwrap_or_default().lines();
        let read = lines
            .map(str::trim)
            .enumerate()
            .filter(|(_, line)| !line.is_empty());
        let read: Result<Vec<PastPiece>, String> = read
            .map(|(at, line)| {
                past(line, self.unit, piece).map_err(|why| format!("Line {}: {why}", at + 1))
            })
            .collect();
        self.told(PLAN_PAST.id, read).unwrap_or_default()
    }

    /// A size measured hot, and how hot, in °C.
    fn hot(&mut self) -> Option<(Length, f64)> {
        self.together("plan-hot-size", "plan-hot-heat");
        let size = self.length("plan-hot-size")?;
        let read = heat(self.text("plan-hot-heat")?);
        let heat = self.told("plan-hot-heat", read)?;
        Some((size, heat))
    }
}

/// A temperature in °C, unless °F is written.
fn heat(text: &str) -> Result<f64, String> {
    let text = text.trim_end_matches('C');
    let number = text.trim_end_matches('F');
    let degrees = number.trim_end().trim_end_matches('°').trim_end();
    let read = read_exact(degrees).map_err(|fault| sentence(&fault.to_string()))?;
    let read = read.to_f64();
    Ok(if number == text { read } else { celsius(read) })
}

/// One earlier piece: what was cut, how wide and how long it came out.
fn past(line: &str, unit: Unit, piece: &PieceSpecification) -> Result<PastPiece, String> {
    let sizes: Result<Vec<Length>, String> =
        line.split(';').map(|text| length(text, unit)).collect();
    let [cut, width, long] = sizes?
        .try_into()
        .map_err(|_| "write three sizes with a semicolon between: cut; width; length".to_owned())?;
    Ok(PastPiece::of(piece, cut, width, long))
}

/// A length, where a bare number means `unit`; an error says what would do.
pub(super) fn length(text: &str, unit: Unit) -> Result<Length, String> {
    let read = quantity(text, Dimension::Length, unit)?;
    Length::nearest(read).ok_or_else(|| "Write a smaller length.".to_owned())
}

fn mass(text: &str) -> Result<Mass, String> {
    let read = quantity(text, Dimension::Mass, Unit::Gram)?;
    Mass::nearest(read).ok_or_else(|| "Write a smaller mass.".to_owned())
}

fn quantity(text: &str, dimension: Dimension, unit: Unit) -> Result<Quantity, String> {
    read_quantity(text, dimension, unit).map_err(|fault| sentence(&fault.to_string()))
}
