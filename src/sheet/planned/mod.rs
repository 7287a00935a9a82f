//! A plan as a document: how long the bar is cut, where it is marked, what it weighs.

mod cut;
mod heat;
mod rules;

use super::bench_card::{at_the_anvil, marks};
use super::document::{Block, Document, Fact, Notice, Oversize, Weight};
use crate::plan::{Inputs, Plan, PlanFault};
use crate::quantity::{Length, Unit};
use crate::rubric::Rubric;

/// Headings of what stands behind the length to cut and the marks: a page may fold them.
pub const PLAN_BEHIND: &[&str] = &[
    "What it weighs",
    "What each method says",
    "Measured hot",
    "Beside old rules",
];

/// A plan with what it is for.
#[derive(Debug, Clone, Copy)]
pub struct Planned<'a> {
    /// The rubric whose piece is planned.
    pub rubric: &'a Rubric,
    /// What was asked.
    pub inputs: &'a Inputs,
    /// What that comes to.
    pub plan: &'a Plan,
    /// A size measured hot, and how hot, in °C.
    pub hot: Option<(Length, f64)>,
}

impl Planned<'_> {
    fn unit(&self) -> Unit {
        at_the_anvil(self.inputs.unit)
    }

    fn say(&self, length: Length) -> String {
        length.quantity().print(self.unit())
    }
}

/// The document of a plan.
pub fn plan_sheet(planned: &Planned<'_>) -> Document {
    let mut blocks = cut::chosen(planned);
    blocks.push(heading("Marks on the bar"));
    match &planned.plan.layout {
        Ok(layout) => blocks.extend(marks(layout, planned.unit(), Oversize::Smaller)),
        Err(fault) => blocks.push(Block::Paragraph(format!(
            "No marks: {}.",
            fault.words(planned.unit())
        ))),
    }
    blocks.extend(mass(planned));
    blocks.extend(cut::methods(planned));
    blocks.extend(heat::blocks(planned));
    blocks.extend(rules::blocks(planned));
    blocks.push(Block::Notice(Notice {
        weight: Weight::Info,
        text: "A plan is a start: note what you cut and what came of it. It marks nothing, and \
               says nothing of what a horse should wear; that is for law, the college’s rules and \
               licensed practice."
            .to_owned(),
        items: planned.rubric.cautions.clone(),
    }));
    Document {
        title: planned.rubric.title.clone(),
        about: format!("Plan, {}", planned.inputs.foot.word()),
        language: "en-GB".into(),
        most_pages: None,
        blocks,
    }
}

fn heading(text: &str) -> Block {
    Block::Heading {
        level: 2,
        text: text.to_owned(),
    }
}

fn fact(label: &'static str, value: String) -> Fact {
    Fact {
        label: label.into(),
        value,
    }
}

/// What it comes to, or why it comes to nothing.
fn or_why<T>(found: &Result<T, PlanFault>, unit: Unit, say: impl Fn(&T) -> String) -> String {
    match found {
        Ok(found) => say(found),
        Err(fault) => format!("not told: {}", fault.words(unit)),
    }
}

fn mass(planned: &Planned<'_>) -> Vec<Block> {
    let (masses, unit) = (&planned.plan.masses, planned.unit());
    let say = |mass: &crate::quantity::Mass| mass.quantity().print(Unit::Gram);
    let mut facts = vec![fact("The bar", or_why(&masses.bar, unit, say))];
    if let Some(mass) = &masses.bar_by_handbook {
        facts.push(fact("The bar by the rule of 3.4 lb", say(mass)));
    }
    facts.push(fact(
        "What the heats leave of it",
        or_why(&masses.after_heats, unit, say),
    ));
    facts.push(fact("The finished shoe", or_why(&masses.shoe, unit, say)));
    facts.push(fact("A metre of the bar", or_why(&masses.metre, unit, say)));
    vec![
        heading("What it weighs"),
        Block::Facts(facts),
        Block::Paragraph(
            "Steel of 7850 kg/m³. The rule of 3.4 lb to the foot of a square inch is the older \
             one of handbooks, a little less."
                .to_owned(),
        ),
    ]
}
