//! One entry between the examiners: alike, settled by the rubric's rule or by people, or
//! open.

use crate::marking::entry::Judgement;
use crate::marking::result::{CriterionResult, Marking, Problem, ResultState};
use crate::marking::words::with_marks;
use crate::quantity::{Exact, Marks, ReadError};
use crate::rubric::{Criterion, Entry, Moderation, Settle};

use super::{Point, PointState, Settled, Settlement, Source};

/// What the rubric lets its rule settle.
pub(super) struct Limits {
    moderation: Moderation,
    /// The totals lie further apart than the rubric lets pass.
    totals_beyond: bool,
}

impl Limits {
    /// `None` on overflow.
    pub fn of(moderation: &Moderation, marked: &[Marking]) -> Option<Self> {
        let totals_beyond = match moderation.discuss_beyond {
            None => false,
            Some(limit) => {
                let most = marked.iter().map(|marking| marking.out_of).max();
                let apart = apart(marked.iter().map(|marking| marking.marks))?;
                apart > limit.of(most.unwrap_or(Marks::ZERO))?
            }
        };
        Some(Self {
            moderation: *moderation,
            totals_beyond,
        })
    }

    /// Whether marks of an entry that lie `apart` are beyond what a rule may settle;
    /// `None` on overflow.
    fn is_beyond(&self, apart: Marks, out_of: Marks) -> Option<bool> {
        Some(match self.moderation.discuss_beyond {
            None => self.moderation.settle == Settle::Discussion,
            Some(limit) => self.totals_beyond || apart > limit.of(out_of)?,
        })
    }
}

/// How far the largest lies from the smallest; `None` on overflow.
fn apart(marks: impl Iterator<Item = Marks> + Clone) -> Option<Marks> {
    match (marks.clone().max(), marks.min()) {
        (Some(most), Some(least)) => most.minus(least),
        _ => Some(Marks::ZERO),
    }
}

/// One entry as every source has it.
pub(super) struct Between<'a, 's, S> {
    pub entry: &'a Entry<'a>,
    pub sources: &'a [Source<'s, S>],
    pub judged: Vec<&'a Judgement>,
    pub limits: &'a Limits,
}

impl<S: PartialEq> Between<'_, '_, S> {
    /// The entry's own judgement, and how it stands; `None` on overflow.
    pub fn combine(&self, settled: Option<&Settled<S>>) -> Option<(Judgement, Point)> {
        let point = |state, needs_reason| Point {
            entry: self.entry.id.clone(),
            state,
            needs_reason,
        };
        if self.is_alike() {
            return Some((self.alike()?, point(PointState::Alike, false)));
        }
        let numbers = self.numbers();
        let beyond = match &numbers {
            // Where one has no marks, or they are of unlike totals, no rule can settle it.
            None => true,
            Some((marks, out_of)) => self
                .limits
                .is_beyond(apart(marks.iter().copied())?, *out_of)?,
        };
        if let Some(settled) = settled {
            let has_reason = !beyond || !settled.reason.trim().is_empty();
            let stands = match self.settle(settled)? {
                Ok(judgement) if has_reason => (judgement, point(PointState::Settled, beyond)),
                Ok(_) => (self.open()?, point(PointState::Open, beyond)),
                Err(message) => {
                    let mut open = self.open()?;
                    let id = self.entry.id.clone();
                    open.problems.push(Problem { id, message });
                    (open, point(PointState::Open, beyond))
                }
            };
            return Some(stands);
        }
        let rule = self.limits.moderation.settle;
        match numbers {
            Some((marks, out_of)) if !beyond && rule != Settle::Discussion => {
                let ruled = self.by_rule(rule, &marks, out_of, "")?;
                Some((ruled, point(PointState::Ruled, beyond)))
            }
            _ => Some((self.open()?, point(PointState::Open, beyond))),
        }
    }

    fn is_alike(&self) -> bool {
        let told = |judgement: &Judgement| {
            let result = &judgement.result;
            let stops = !judgement.stops.is_empty();
            (result.marks, result.out_of, stops, judgement.warnings)
        };
        let mut all = self.judged.iter().map(|judgement| told(judgement));
        let first = all.next();
        all.all(|other| Some(other) == first)
    }

    /// The marks of all, and what they are of, where all have some of one total.
    fn numbers(&self) -> Option<(Vec<Marks>, Marks)> {
        let first = self.judged.first()?.result.out_of;
        let marks = self.judged.iter().map(|judgement| {
            let result = &judgement.result;
            result.marks.filter(|_| result.out_of == first)
        });
        Some((marks.collect::<Option<Vec<_>>>()?, first))
    }

    fn alike(&self) -> Option<Judgement> {
        let mut judgement = self.blank()?;
        let first = self.judged.first();
        if let Some(first) = first {
            judgement.result.state = first.result.state;
            judgement.result.out_of = first.result.out_of;
            judgement.result.measured.clone_from(&first.result.measured);
        }
        match first.and_then(|first| first.result.marks) {
            Some(marks) => self.give(&mut judgement, marks, "all examiners alike"),
            None => say(&mut judgement, "no examiner has marked it".to_owned()),
        }
        self.take_effects(&mut judgement);
        Some(judgement)
    }

    fn open(&self) -> Option<Judgement> {
        let mut judgement = self.blank()?;
        say(&mut judgement, format!("not settled yet: {}", self.given()));
        self.take_effects(&mut judgement);
        Some(judgement)
    }

    /// What people settled; the error says what is wrong with it.
    fn settle(&self, settled: &Settled<S>) -> Option<Result<Judgement, String>> {
        let reason = settled.reason.trim();
        let because = match reason {
            "" => String::new(),
            reason => format!(", because {reason}"),
        };
        let ruled = match &settled.by {
            Settlement::From(id) => return Some(self.from(id, &because)),
            Settlement::Marks(text) => {
                let out_of = self.blank()?.result.out_of;
                let given = self.judged.iter().filter_map(|one| one.result.marks);
                let least = given.min().unwrap_or(Marks::ZERO).min(Marks::ZERO);
                match decided(text, least, out_of) {
                    Ok(marks) => self.decided(marks, &because)?,
                    Err(message) => return Some(Err(message)),
                }
            }
            Settlement::Mean => {
                let Some((marks, out_of)) = self.numbers() else {
                    let message = "there is no mean where an examiner gave no marks; take \
                                   one of the markings, or decide on marks";
                    return Some(Err(message.to_owned()));
                };
                self.by_rule(Settle::Mean, &marks, out_of, &because)?
            }
        };
        let mut judgement = ruled;
        self.settle_effects(&mut judgement);
        Some(Ok(judgement))
    }

    fn from(&self, id: &S, because: &str) -> Result<Judgement, String> {
        let taken = self.sources.iter().zip(&self.judged);
        let taken = taken.into_iter().find(|(source, _)| source.id == *id);
        let Some((source, taken)) = taken else {
            let message = "it is taken from a marking that this one is not made from; choose again";
            return Err(message.to_owned());
        };
        let mut judgement = Judgement {
            result: taken.result.clone(),
            stops: taken.stops.clone(),
            warnings: taken.warnings,
            problems: Vec::new(),
        };
        // What was given back counts in the marks that were taken.
        judgement.result.given_back = Marks::ZERO;
        match taken.result.marks {
            Some(marks) => {
                let why = format!("as {} marked it{because}", source.who);
                self.give(&mut judgement, marks, &why);
                Ok(judgement)
            }
            None => Err(format!("{} gave no marks for it; choose again", source.who)),
        }
    }

    fn decided(&self, marks: Marks, because: &str) -> Option<Judgement> {
        let mut judgement = self.blank()?;
        judgement.result.state = ResultState::Valued;
        let why = format!("{}; decided{because}", self.given());
        self.give(&mut judgement, marks, &why);
        let criterion: &Criterion = self.entry.criterion;
        if let Some(least) = criterion.stops_below {
            let least = least.times(criterion.weight)?;
            if marks < least {
                judgement
                    .stops
                    .push(format!("{marks} marks decided, below {least}"));
            }
        }
        Some(judgement)
    }

    fn by_rule(
        &self,
        rule: Settle,
        marks: &[Marks],
        out_of: Marks,
        because: &str,
    ) -> Option<Judgement> {
        let mut judgement = self.blank()?;
        judgement.result.state = ResultState::Valued;
        judgement.result.out_of = out_of;
        let (word, given) = if rule == Settle::Lower {
            ("lowest", marks.iter().copied().min()?)
        } else {
            let exact: Vec<Exact> = marks.iter().map(|marks| marks.0).collect();
            ("mean", Marks(Exact::mean(&exact)?))
        };
        let why = format!("{word} of {}{because}", self.given());
        self.give(&mut judgement, given, &why);
        self.take_effects(&mut judgement);
        Some(judgement)
    }

    /// Stops of any source, and the most warnings.
    fn take_effects(&self, judgement: &mut Judgement) {
        for stop in self.judged.iter().flat_map(|one| &one.stops) {
            if !judgement.stops.contains(stop) {
                judgement.stops.push(stop.clone());
            }
        }
        let warnings = self.judged.iter().map(|one| one.warnings);
        judgement.warnings = warnings.max().unwrap_or(0);
    }

    /// Where people settled it by marks, what only some saw is set aside.
    fn settle_effects(&self, judgement: &mut Judgement) {
        if self.judged.iter().all(|one| !one.stops.is_empty()) {
            self.take_effects(judgement);
        } else {
            let seen = |stop: &String| self.judged.iter().any(|one| one.stops.contains(stop));
            judgement.stops.retain(|stop| !seen(stop));
        }
        let warnings = self.judged.iter().map(|one| one.warnings);
        judgement.warnings = warnings.min().unwrap_or(0);
    }

    /// An entry without marks, with the faults that any source saw.
    fn blank(&self) -> Option<Judgement> {
        let mut result = CriterionResult {
            out_of: self.entry.criterion.out_of()?,
            ..CriterionResult::without_marks(&self.entry.id, "")
        };
        for (id, times) in self.judged.iter().flat_map(|one| &one.result.faults) {
            match result.faults.iter_mut().find(|(known, _)| known == id) {
                Some((_, most)) => *most = (*most).max(*times),
                None => result.faults.push((id.clone(), *times)),
            }
        }
        Some(Judgement {
            result,
            stops: Vec::new(),
            warnings: 0,
            problems: Vec::new(),
        })
    }

    fn give(&self, judgement: &mut Judgement, marks: Marks, why: &str) {
        judgement.result.marks = Some(marks);
        judgement.result.reason = with_marks(why, marks, judgement.result.out_of);
        judgement.result.value = String::new();
        why.clone_into(&mut judgement.result.because);
    }

    /// Who gave what: `Wm. Green 3, Jo Reed 5`.
    fn given(&self) -> String {
        let said = self.sources.iter().zip(&self.judged).map(|(source, one)| {
            let marks = one.result.marks;
            let marks = marks.map_or_else(|| "no marks".to_owned(), |marks| marks.to_string());
            format!("{} {marks}", source.who)
        });
        said.collect::<Vec<_>>().join(", ")
    }
}

/// Says why there are no marks.
fn say(judgement: &mut Judgement, why: String) {
    judgement.result.because.clone_from(&why);
    judgement.result.reason = why;
}

fn decided(text: &str, least: Marks, most: Marks) -> Result<Marks, String> {
    let marks: Marks = text
        .trim()
        .parse()
        .map_err(|fault: ReadError| fault.to_string())?;
    if marks < least || marks > most {
        return Err(format!(
            "{marks} marks cannot be given; use {least} to {most}"
        ));
    }
    Ok(marks)
}
