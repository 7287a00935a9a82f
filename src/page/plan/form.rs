use std::collections::BTreeMap;

use leptos::prelude::*;

use crate::page::dom;
use crate::page::keeper::Keeper;
use crate::page::widgets::{PushButton, SelectField, TextBox, Tile, TileKind, tile_words};
use crate::present::plan::{
    OwnRecord, OwnRow, PLAN_CHOICE, PLAN_FIELDS, PLAN_FOOT, PLAN_LEARNER, PLAN_OWN, PLAN_PAST,
    PlanField, PlanPart, PlanShown, PlanTyped, is_own_length, plan_choices, plan_feet,
    plan_learners, plan_usual, with_piece,
};
use crate::rubric::Rubric;

/// What is typed, and what it comes to. A copy is a handle.
#[derive(Clone, Copy)]
pub(super) struct Asked {
    typed: RwSignal<PlanTyped>,
    own: Memo<OwnRecord>,
    shown: Memo<PlanShown>,
    usual: StoredValue<BTreeMap<&'static str, String>>,
}

impl Asked {
    pub(super) fn of(
        rubric: &Rubric,
        typed: RwSignal<PlanTyped>,
        own: Memo<OwnRecord>,
        shown: Memo<PlanShown>,
    ) -> Self {
        Self {
            typed,
            own,
            shown,
            usual: StoredValue::new(plan_usual(rubric)),
        }
    }

    fn text(self, id: &'static str) -> String {
        let typed = self.typed.with(|typed| typed.0.get(id).cloned());
        let usual = || self.usual.with_value(|usual| usual.get(id).cloned());
        typed.or_else(usual).unwrap_or_default()
    }

    fn set(self, id: &'static str, text: String) {
        if untrack(|| self.text(id)) != text {
            self.typed.update(|typed| {
                typed.0.insert(id.to_owned(), text);
            });
        }
    }

    /// A signal for a list to choose from, kept at what is typed.
    fn chosen(self, id: &'static str) -> RwSignal<String> {
        let chosen = RwSignal::new(untrack(|| self.text(id)));
        Effect::new(move |_| self.set(id, chosen.get()));
        Effect::new(move |_| {
            let text = self.text(id);
            if chosen.with_untracked(|chosen| *chosen != text) {
                chosen.set(text);
            }
        });
        chosen
    }

    fn lines(self, field: PlanField, lines: u8) -> AnyView {
        let PlanField {
            id, label, hint, ..
        } = field;
        TextBox {
            id: id.to_owned(),
            label: label.to_owned(),
            hint,
            lines,
            value: Signal::derive(move || self.text(id)),
            wrong: Signal::derive(move || {
                self.shown
                    .with(|shown| shown.wrong.get(id).cloned().unwrap_or_default())
            }),
            typed: Callback::new(move |text| self.set(id, text)),
        }
        .view()
    }

    /// Earlier pieces: those of a learner in the ledger, and others as they are typed.
    fn earlier(self) -> AnyView {
        let keeper = Keeper::here();
        let learners = keeper.look_now(|ledger, _| {
            self.typed
                .with_untracked(|typed| plan_learners(ledger, typed))
        });
        let chosen = self.chosen(PLAN_LEARNER);
        let named = Memo::new(move |_| {
            let of = |row: &OwnRow| (row.key.clone(), row.name.clone(), row.about.clone());
            self.own
                .with(|own| own.rows.iter().map(of).collect::<Vec<_>>())
        });
        let rows = move || {
            let named = named.get().into_iter();
            named.map(|row| self.past(row)).collect_view()
        };
        let says = move || {
            let says = self.own.with(|own| own.says.clone());
            let says = says
                .into_iter()
                .map(|line| view! { <p class="hint">{line}</p> });
            says.collect_view()
        };
        view! {
            <details class="form-part" prop:open=untrack(|| self.has_earlier())>
                <summary>"Earlier pieces"</summary>
                <div class="stack">
                    <SelectField
                        id=PLAN_LEARNER
                        label="Whose earlier pieces count"
                        options=learners
                        value=chosen
                    />
                    <div role="status">{says}</div>
                    <div class="tiles">{rows}</div>
                    {self.lines(PLAN_PAST, 4)}
                </div>
            </details>
        }
        .into_any()
    }

    /// A piece of the own record, to be ticked; it stays the same box whatever it says.
    fn past(self, (key, name, about): (String, String, String)) -> AnyView {
        let own = key.clone();
        let counts = move |record: &OwnRecord| {
            let mut rows = record.rows.iter();
            rows.any(|row| row.key == own && row.counts)
        };
        let tile = Tile {
            kind: TileKind::Check,
            class: "tile",
            checked: Signal::derive(move || self.own.with(&counts)),
            chosen: Callback::new(move |counts| {
                let typed = self.typed;
                typed.update(|typed| *typed = with_piece(std::mem::take(typed), &key, counts));
            }),
            inside: tile_words(name, about),
        };
        tile.view()
    }

    /// Whether any are chosen or typed.
    fn has_earlier(self) -> bool {
        [PLAN_LEARNER, PLAN_PAST.id]
            .into_iter()
            .any(|id| !self.text(id).is_empty())
    }

    fn part(self, part: PlanPart) -> AnyView {
        let fields = PLAN_FIELDS.into_iter().filter(|field| field.part == part);
        let fields: Vec<AnyView> = fields.map(|field| self.lines(field, 1)).collect();
        view! {
            <details class="form-part" prop:open=part == PlanPart::Making>
                <summary>{part.title()}</summary>
                <div class="stack">{fields}</div>
            </details>
        }
        .into_any()
    }
}

/// The form of a plan.
pub(super) fn form(rubric: &Rubric, asked: Asked) -> AnyView {
    let (foot, choice) = (asked.chosen(PLAN_FOOT), asked.chosen(PLAN_CHOICE));
    let is_own = Memo::new(move |_| asked.typed.with(is_own_length));
    // What is typed there, and perhaps wrong, is not hidden.
    let is_open = dom::is_wide() || asked.shown.with_untracked(|shown| !shown.wrong.is_empty());
    let parts: Vec<AnyView> = PlanPart::ALL.map(|part| asked.part(part)).into();
    let again = PushButton::plain("Back to the usual numbers", move || {
        asked.typed.set(PlanTyped::default());
    });
    view! {
        <section class="part stack" aria-labelledby="plan-asked">
            <h2 id="plan-asked">"What it rests on"</h2>
            <SelectField id=PLAN_FOOT label="Foot" options=plan_feet() value=foot />
            <SelectField
                id=PLAN_CHOICE
                label="Which length counts"
                options=plan_choices(&rubric.piece)
                value=choice
            />
            {move || is_own.get().then(|| asked.lines(PLAN_OWN, 1))}
            <details class="form-part" prop:open=is_open>
                <summary>"More that it rests on"</summary>
                <div class="stack">
                    {parts}
                    {asked.earlier()}
                    {again.view()}
                </div>
            </details>
        </section>
    }
    .into_any()
}
