//! One criterion of a rubric as people read it.

use crate::marking::CriterionResult;
use crate::quantity::Marks;
use crate::rubric::{
    AppliesTo, Criterion, Effect, Entry, Fault, Judged, Kind, Level, NotApplicable, Rubric,
    SeenFrom, When,
};

use super::document::{Block, Cell, CellRole, Pictured};
use super::rubric::table;
use super::scale::drawn_scale;
use super::tolerance::Asked;
use super::words::{capital, effect_words, join, marks_words};

/// One criterion as people read it: how it is looked at, tolerance, levels, faults.
pub(super) fn one_criterion(asked: &Asked<'_>, result: &CriterionResult) -> Vec<Block> {
    let (rubric, entry): (&Rubric, &Entry<'_>) = (asked.rubric, asked.entry);
    let criterion = entry.criterion;
    let most = criterion.out_of().map_or_else(String::new, marks_words);
    let mut blocks = vec![Block::Heading {
        level: 3,
        text: format!("{}, {most}", criterion.name),
    }];
    let how = join([criterion.note.clone(), seen_words(rubric, criterion)], " ");
    blocks.push(Block::Paragraph(how));
    if !matches!(criterion.kind, Kind::Judged(_) | Kind::Faults(_)) {
        blocks.push(Block::Paragraph(capital(&asked.words(result))));
    }
    let drawn = result.measured.as_ref().and_then(|measured| {
        drawn_scale(
            measured,
            criterion.most_unweighted(),
            asked.sheet,
            &criterion.name,
        )
    });
    blocks.extend(drawn.map(|drawing| Block::Drawings(vec![drawing])));
    blocks.extend(judged_table(criterion));
    blocks.extend(level_photos(criterion));
    blocks.extend(fault_list(criterion));
    blocks
}

/// From where and when it is looked at, with what, and what is special about it.
fn seen_words(rubric: &Rubric, criterion: &Criterion) -> String {
    let seen = match criterion.seen_from {
        SeenFrom::Anvil => "",
        SeenFrom::FootSide => "from the foot side",
        SeenFrom::GroundSide => "from the ground side",
        SeenFrom::Edge => "from the edge",
        SeenFrom::FlatPlate => "on a flat plate",
        SeenFrom::NailInHole => "with a nail in the hole",
        SeenFrom::AfterBreakTest => "after the break test",
    };
    let when = match criterion.when {
        When::During => "while it is made",
        When::WhenCalled => "when called",
        When::After => "",
    };
    let instrument = criterion.instrument();
    let instrument = instrument.and_then(|id| rubric.instrument(id));
    let with = instrument.map(|found| format!("measured with {}", found.name.to_lowercase()));
    let shoes = match &criterion.applies_to {
        _ if rubric.shoes.len() < 2 => String::new(),
        AppliesTo::EachShoe => "for each shoe".to_owned(),
        AppliesTo::Piece => "once for the whole piece".to_owned(),
        AppliesTo::Shoe(id) => {
            let shoe = rubric.shoes.iter().find(|shoe| &shoe.id == id);
            shoe.map_or_else(String::new, |shoe| format!("for {}", shoe.name))
        }
    };
    let away = match criterion.not_applicable {
        NotApplicable::Refused => "",
        NotApplicable::Rescale => "may not apply: then its marks leave the total",
        NotApplicable::Keep => "may not apply: then it gives none",
    };
    let looked = join([when, seen], ", ");
    let looked = if looked.is_empty() {
        looked
    } else {
        format!("looked at {looked}")
    };
    let said = join(
        [looked, with.unwrap_or_default(), shoes, away.to_owned()],
        "; ",
    );
    if said.is_empty() {
        said
    } else {
        format!("{}.", capital(&said))
    }
}

fn judged_table(criterion: &Criterion) -> Option<Block> {
    let caption = format!("Levels of {}", criterion.name);
    let given = |marks: Marks, effect: Effect| {
        let text = format!("{}{}", criterion.weighted(marks), effect_words(effect));
        Cell {
            band: Some(marks.rank(criterion.most_unweighted())),
            ..Cell::new(CellRole::Text, text)
        }
    };
    let rows: Vec<Vec<Cell>> = match &criterion.kind {
        Kind::Judged(Judged::Levels(levels)) => levels
            .iter()
            .map(|level| {
                let example = level.example.as_deref();
                let example =
                    example.map_or_else(String::new, |text| format!("For example: {text}"));
                vec![
                    Cell::text(&level.name),
                    given(level.marks, level.effect),
                    Cell::text(join([level.text.clone(), example], " ")),
                ]
            })
            .collect(),
        Kind::Judged(Judged::Numbers {
            allowed,
            descriptors,
        }) => {
            let ends = allowed.first().zip(allowed.last())?;
            if descriptors.is_empty() {
                let text = format!("By eye, {} to {}.", ends.0, ends.1);
                return Some(Block::Paragraph(text));
            }
            let mut said: Vec<_> = descriptors.iter().collect();
            said.sort_by_key(|(at, _)| std::cmp::Reverse(*at));
            let rows = said.into_iter().map(|(at, text)| {
                vec![
                    Cell::text(at.to_string()),
                    given(*at, Effect::Noted),
                    Cell::text(text),
                ]
            });
            rows.collect()
        }
        _ => return None,
    };
    let columns = [
        ("Level", CellRole::Text),
        ("Marks", CellRole::Text),
        ("What is seen", CellRole::Text),
    ];
    Some(table(caption, &columns, rows))
}

/// The photo of an example of `level`, under its name.
pub fn level_photo(level: &Level) -> Option<Pictured> {
    Some(Pictured {
        digest: level.photo.clone()?,
        alt: format!("An example of {}", level.name),
        caption: level.name.clone(),
    })
}

/// Photos of its levels.
fn level_photos(criterion: &Criterion) -> Option<Block> {
    let Kind::Judged(Judged::Levels(levels)) = &criterion.kind else {
        return None;
    };
    let photos: Vec<Pictured> = levels.iter().filter_map(level_photo).collect();
    (!photos.is_empty()).then_some(Block::Pictures(photos))
}

/// Faults with cause and remedy, and what each costs.
fn fault_list(criterion: &Criterion) -> Option<Block> {
    if criterion.faults.is_empty() {
        return None;
    }
    let costs: Vec<String> = criterion
        .faults
        .iter()
        .map(|fault| cost_words(criterion, fault))
        .collect();
    let any_costs = costs.iter().any(|cost| !cost.is_empty());
    let rows = criterion.faults.iter().zip(costs).map(|(fault, cost)| {
        let cost = any_costs.then(|| Cell::text(cost));
        let first = std::iter::once(Cell::text(&fault.name)).chain(cost);
        let said = [&fault.cause, &fault.remedy].map(Cell::text);
        first.chain(said).collect()
    });
    let cost = any_costs.then_some(("Costs", CellRole::Text));
    let said = [
        ("Usual cause", CellRole::Text),
        ("Practise", CellRole::Text),
    ];
    let first = std::iter::once(("Fault", CellRole::Text)).chain(cost);
    let columns: Vec<_> = first.chain(said).collect();
    let caption = match &criterion.kind {
        Kind::Faults(list) => format!(
            "Faults of {}: {} where none is seen, never below {}",
            criterion.name,
            criterion.weighted(list.marks),
            criterion.weighted(list.least)
        ),
        _ => format!("Faults often seen at {}", criterion.name),
    };
    Some(table(caption, &columns, rows.collect()))
}

fn cost_words(criterion: &Criterion, fault: &Fault) -> String {
    let zero = Marks::ZERO;
    let takes = (fault.deduct > zero).then(|| {
        let most = fault
            .most
            .map(|most| format!(", at most {}", criterion.weighted(most)));
        format!(
            "{} each{}",
            criterion.weighted(fault.deduct),
            most.unwrap_or_default()
        )
    });
    let effect = match fault.effect {
        Effect::Warn => "a warning",
        Effect::Stop => "stops the award",
        Effect::Noted => "",
    };
    join([takes.unwrap_or_default(), effect.to_owned()], "; ")
}
