use leptos::prelude::*;

use crate::job::{Job, Topic};
use crate::page::jobs;
use crate::page::keeper::Keeper;
use crate::page::widgets::{not_worked_out, working};
use crate::present::{CourseAsked, Sure, course_state, course_wanted};
use crate::records::{LearnerId, Whom};
use crate::sheet::CourseFigures;

/// What the worker comes to about the pieces that are told of. A copy is a handle.
#[derive(Debug, Clone, Copy)]
pub(super) struct Figures {
    wanted: Memo<Option<(Topic, Job)>>,
    state: Memo<Sure<CourseFigures>>,
}

impl Figures {
    /// Asks for it, and asks anew whenever other pieces are told of.
    pub(super) fn begin(
        id: Memo<Option<LearnerId>>,
        asked: Memo<CourseAsked>,
        whom: Signal<Whom>,
    ) -> Self {
        let keeper = Keeper::here();
        let wanted = Memo::new(move |_| {
            let id = id.get()?;
            let whom = whom.get();
            asked.with(|asked| {
                keeper.look(|ledger, rubrics| course_wanted(ledger, rubrics, id, asked, whom))
            })
        });
        let state = Memo::new(move |_| {
            let state = wanted.with(|wanted| {
                let (topic, _) = wanted.as_ref()?;
                jobs::state(topic)
            });
            course_state(state.as_ref())
        });
        let figures = Self { wanted, state };
        Effect::new(move |_| {
            wanted.track();
            figures.ask();
        });
        figures
    }

    fn ask(self) {
        if let Some((topic, job)) = self.wanted.get_untracked() {
            jobs::ask(topic, job);
        }
    }

    fn stop(self) {
        self.wanted.with_untracked(|wanted| {
            if let Some((topic, _)) = wanted {
                jobs::stop(&topic.about);
            }
        });
    }

    /// What is asked, with what the worker came to where it has.
    pub(super) fn known(self, asked: CourseAsked) -> CourseAsked {
        let figures = self.state.with(|state| match state {
            Sure::Known(figures) => Some(figures.clone()),
            _ => None,
        });
        CourseAsked { figures, ..asked }
    }

    /// What is shown while it is not there.
    pub(super) fn meanwhile(self) -> Option<AnyView> {
        self.wanted.with(Option::is_some).then_some(())?;
        let inside = match self.state.get() {
            Sure::Known(_) => return None,
            Sure::Busy { text, share } => working(text, share, move || self.stop()),
            Sure::Unknown { text, again } => not_worked_out(text, again, move || self.ask()),
        };
        Some(view! { <section class="part stack screen-only">{inside}</section> }.into_any())
    }
}
