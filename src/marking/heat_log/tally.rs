//! What a heat log says of a tally.

use std::borrow::Cow;

use crate::marking::Facts;
use crate::quantity::{Dimension, Unit, read_quantity};
use crate::rubric::{Tally, TallyOf};

use super::plan::{Afterwards, PlannedPart};
use super::timeline::{Counted, Timeline, timeline};

/// Where what a tally holds comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TallySource {
    /// Typed at its own row.
    Typed,
    /// Taps.
    Log,
    /// Entered when the piece was done.
    Afterwards,
}

impl TallySource {
    /// As it stands behind the number; nothing where it was typed there.
    pub fn words(self, of: Option<TallyOf>) -> &'static str {
        match (self, of) {
            (Self::Typed, _) => "",
            (Self::Log, Some(TallyOf::Time)) => "by the clock of the heat log",
            (Self::Log, _) => "counted in the heat log",
            (Self::Afterwards, _) => "entered afterwards",
        }
    }
}

impl Facts {
    /// The text of a tally: what was typed at its row, or else what the heat log says where the
    /// rubric takes the tally from there.
    ///
    /// Of the log taps count before figures entered afterwards, and a count only where it is known.
    /// A log's time has its own pauses off already; [`Facts::pauses`] come off as from a typed one.
    /// An entry of one shoe among several has nothing from a log, which is of the whole piece.
    /// What an allowance of planned heats allows is the rubric's plan, not one changed here.
    pub fn tally(&self, tally: &Tally, entry: &str) -> Option<Cow<'_, str>> {
        self.tally_with_source(tally, entry).map(|(text, _)| text)
    }

    /// As [`Facts::tally`], with where it comes from.
    pub fn tally_with_source(
        &self,
        tally: &Tally,
        entry: &str,
    ) -> Option<(Cow<'_, str>, TallySource)> {
        let typed = self.tallies.get(entry);
        if let Some(typed) = typed.filter(|text| !text.trim().is_empty()) {
            return Some((Cow::Borrowed(typed), TallySource::Typed));
        }
        let of = tally.counts.filter(|_| self.has_log_of(entry))?;
        if let Some(text) = self.tapped(tally, of) {
            return Some((Cow::Owned(text), TallySource::Log));
        }
        let entered = self.heat_log.afterwards.as_ref()?.text(of)?;
        Some((entered, TallySource::Afterwards))
    }

    /// How many heats were seen at least, where others may have been and nothing says how many
    /// there were.
    pub(in crate::marking) fn seen_at_least(&self, tally: &Tally, entry: &str) -> Option<u32> {
        let of = tally.counts.filter(|_| self.has_log_of(entry))?;
        match self.counted_heats(tally, of)? {
            Counted::AtLeast(count) => Some(count),
            Counted::Known(_) | Counted::NotCounted => None,
        }
    }

    /// Ids have no full stops, so one stands only behind a shoe.
    fn has_log_of(&self, entry: &str) -> bool {
        !self.heat_log.is_empty() && !entry.contains('.')
    }

    fn tapped(&self, tally: &Tally, of: TallyOf) -> Option<String> {
        if self.heat_log.taps.is_empty() {
            return None;
        }
        match self.counted_heats(tally, of) {
            Some(counted) => counted.known().map(|count| count.to_string()),
            None => self.followed(tally).time_ms.map(time_text),
        }
    }

    /// Heats or weld heats; `None` for a time.
    fn counted_heats(&self, tally: &Tally, of: TallyOf) -> Option<Counted> {
        match of {
            TallyOf::Heats => Some(self.followed(tally).heats),
            TallyOf::WeldHeats => Some(self.followed(tally).weld_heats),
            TallyOf::Time => None,
        }
    }

    /// A rubric that allows weld heats plans them, where the plan was not changed.
    fn followed(&self, tally: &Tally) -> Timeline {
        let plans_welds = !tally.allowance.base.is_zero();
        let rubrics = [PlannedPart {
            part: String::new(),
            step: None,
            count: u32::from(plans_welds),
            weld: true,
        }];
        let own = self.heat_log.plan.as_deref();
        timeline(&self.heat_log, own.unwrap_or(&rubrics))
    }
}

impl Afterwards {
    /// What was entered for a tally, as typed; `None` where nothing was. Heats of the steps are
    /// added up; where one cannot be read, it stands for all, so that it is told of.
    pub fn text(&self, of: TallyOf) -> Option<Cow<'_, str>> {
        let entered = match of {
            TallyOf::WeldHeats => &self.weld_heats,
            TallyOf::Time => &self.time,
            TallyOf::Heats => return self.all_heats(),
        };
        let said = entered.as_deref().filter(|text| !text.trim().is_empty());
        said.map(Cow::Borrowed)
    }

    fn all_heats(&self) -> Option<Cow<'_, str>> {
        let written = self.heats.values().filter(|text| !text.trim().is_empty());
        let mut sum: Option<u32> = None;
        for text in written {
            match whole(text).and_then(|count| sum.unwrap_or(0).checked_add(count)) {
                Some(more) => sum = Some(more),
                None => return Some(Cow::Borrowed(text)),
            }
        }
        sum.map(|sum| Cow::Owned(sum.to_string()))
    }
}

/// A whole number as it was typed; `None` where it is none.
pub(super) fn whole(text: &str) -> Option<u32> {
    let count = read_quantity(text, Dimension::Count, Unit::One).ok()?;
    let is_whole = count.base.denominator() == 1;
    is_whole
        .then(|| u32::try_from(count.base.numerator()).ok())
        .flatten()
}

/// Whole minutes and seconds as they are typed; what is left of a second is left out.
fn time_text(ms: u64) -> String {
    let seconds = ms / 1_000;
    match (seconds / 60, seconds % 60) {
        (0, seconds) => format!("{seconds} s"),
        (minutes, 0) => format!("{minutes} min"),
        (minutes, seconds) => format!("{minutes} min {seconds} s"),
    }
}
