use crate::present::moderation::day;
use crate::records::{Day, Span};
use crate::sheet::CourseFigures;

/// What is asked to be told of a learner's pieces.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct CourseAsked {
    /// The rubric's own id; that with most pieces where none is asked for.
    pub rubric: Option<String>,
    /// The days in which pieces were made that are told of.
    pub span: Span,
    /// What the worker came to about just these, where it has.
    pub figures: Option<CourseFigures>,
}

/// Days as they are typed.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct SpanForm {
    /// The first day; empty for as far back as there is something.
    pub from: String,
    /// The last day; empty for up to now.
    pub to: String,
}

impl CourseAsked {
    /// What an address asks. A day that is none is left out: the page says which days it
    /// tells of.
    pub fn in_address(rubric: Option<String>, from: Option<String>, to: Option<String>) -> Self {
        let day = |text: Option<String>| text.and_then(|text| text.parse().ok());
        Self {
            rubric,
            span: Span {
                from: day(from),
                to: day(to),
            },
            figures: None,
        }
    }

    /// The same as the end of an address; empty where nothing is asked.
    pub fn address(&self) -> String {
        let iso = |day: Option<Day>| day.map(Day::iso);
        let parts = [
            ("rubric", self.rubric.clone()),
            ("from", iso(self.span.from)),
            ("to", iso(self.span.to)),
        ];
        let parts = parts.into_iter();
        let said = parts.filter_map(|(name, value)| Some(format!("{name}={}", value?)));
        match said.collect::<Vec<_>>().join("&") {
            none if none.is_empty() => none,
            said => format!("?{said}"),
        }
    }

    /// The same by the rubric with this id.
    pub fn by(&self, rubric: &str) -> Self {
        Self {
            rubric: Some(rubric.to_owned()),
            span: self.span,
            figures: None,
        }
    }

    /// The days as the form shows them.
    pub fn form(&self) -> SpanForm {
        let iso = |day: Option<Day>| day.map_or_else(String::new, Day::iso);
        SpanForm {
            from: iso(self.span.from),
            to: iso(self.span.to),
        }
    }
}

impl SpanForm {
    /// The days that the form says.
    ///
    /// *Errors:* what is wrong with the first day, and with the last.
    pub fn read(&self) -> Result<Span, (Option<String>, Option<String>)> {
        let (mut first, mut last) = (None, None);
        let from = day(&self.from, &mut first);
        let to = day(&self.to, &mut last);
        if from.zip(to).is_some_and(|(from, to)| from > to) {
            last = Some("The last day lies before the first one.".to_owned());
        }
        if first.is_some() || last.is_some() {
            return Err((first, last));
        }
        Ok(Span { from, to })
    }
}
