//! What a learner takes along: the practice card and the portfolio.

use std::collections::BTreeSet;

use evenshod::output::pdf::{Paper, checked_pdf_of_many, plan};
use evenshod::present::{
    CourseAsked, Rubrics, learner_page, portfolio_choices, portfolio_document, practice_page,
};
use evenshod::records::{LearnerId, Ledger, PieceId, Whom};
use evenshod::sheet::{Block, Document};

use super::sample::{performed, plain, whole_bar_shoe};
use crate::demo::sample::demo;
use crate::records::sample::{jpeg, keep, now, photos, seal};

/// The learner of the invented school with the most pieces to show.
fn busiest(ledger: &Ledger) -> (LearnerId, Vec<PieceId>) {
    let of = |id: LearnerId| {
        let (_, choices) = portfolio_choices(ledger, &Rubrics::default(), id).unwrap();
        (id, choices.into_iter().map(|choice| choice.piece).collect())
    };
    let all = ledger.learners().map(|learner| of(learner.id));
    all.max_by_key(|(_, pieces): &(_, Vec<_>)| pieces.len())
        .unwrap()
}

#[test]
fn the_card_says_what_the_page_says_without_marks() {
    let ledger = demo();
    let (learner, _) = busiest(ledger);
    let rubrics = Rubrics::default();
    let shown = practice_page(ledger, &rubrics, learner, now()).unwrap();
    let page = learner_page(
        ledger,
        &rubrics,
        learner,
        &CourseAsked::default(),
        now(),
        Whom::Learner,
    )
    .unwrap();
    assert_eq!(shown.practice, page.practice);
    assert_eq!(shown.practice.len(), 3);
    let said = plain(&shown.card);
    for (number, practice) in (1..).zip(&shown.practice) {
        assert!(
            said.contains(&format!("{number}. {}", practice.name)),
            "{said}"
        );
        assert!(said.contains(&practice.remedy) && said.contains(&practice.cause));
        // Why it is named says marks, and a card lies where others read it.
        assert!(!said.contains(&practice.why));
    }
    assert!(shown.latest.contains(" of 100, "), "{}", shown.latest);
    assert!(!said.contains(" of 100"));
    assert!(said.contains("Hot steel burns"));
    let places = shown.card.blocks.iter().find_map(|block| match block {
        Block::Drawings(drawings) => Some(drawings.len()),
        _ => None,
    });
    let drawn = shown
        .practice
        .iter()
        .filter(|one| one.place.is_some())
        .count();
    assert_eq!(places, Some(drawn));
}

#[test]
fn cards_of_everybody_fit_their_paper() {
    let ledger = demo();
    for learner in ledger.learners() {
        let shown = practice_page(ledger, &Rubrics::default(), learner.id, now()).unwrap();
        for (paper, most) in [(Paper::A6, 2), (Paper::A5, 1)] {
            let pages = plan(&shown.card, paper).unwrap();
            assert!(
                pages.len() <= most,
                "{}: {} on {paper:?}",
                learner.name,
                pages.len()
            );
            checked_pdf_of_many([&shown.card], paper, "Card", "en-GB").unwrap();
        }
    }
}

#[test]
fn who_has_nothing_to_practise_is_told_so() {
    let (ledger, marking) = whole_bar_shoe();
    let learner = ledger.learners().next().unwrap().id;
    let shown = practice_page(&ledger, &Rubrics::default(), learner, now()).unwrap();
    assert_eq!(shown.latest, "");
    assert!(shown.practice.is_empty() && ledger.marking(marking).is_some());
    assert!(plain(&shown.card).contains("none is marked yet"));
    checked_pdf_of_many([&shown.card], Paper::A6, "Card", "en-GB").unwrap();
}

fn portfolio_of(ledger: &Ledger, learner: LearnerId, pieces: &[PieceId]) -> Document {
    let wanted: BTreeSet<PieceId> = pieces.iter().copied().collect();
    portfolio_document(ledger, &Rubrics::default(), learner, &wanted, now()).unwrap()
}

#[test]
fn a_portfolio_holds_the_chosen_pieces_and_names_what_is_missing() {
    let ledger = demo();
    let (learner, pieces) = busiest(ledger);
    let whole = plain(&portfolio_of(ledger, learner, &pieces));
    let one = plain(&portfolio_of(ledger, learner, &pieces[..1]));
    let none = plain(&portfolio_of(ledger, learner, &[]));
    let gaps = |said: &str| -> usize {
        let at = said
            .find(" outcomes have no piece yet")
            .map(|end| &said[..end]);
        let words = at.unwrap_or("0 of 1").split_whitespace().rev();
        words.clone().nth(2).unwrap_or("0").parse().unwrap()
    };
    assert!(
        gaps(&whole) < gaps(&one) && gaps(&one) < gaps(&none),
        "{none}"
    );
    assert!(none.contains("No piece was chosen."));
    assert!(whole.matches("Digest of its sheet begins").count() == pieces.len());
    for paper in [Paper::A4, Paper::Letter] {
        let document = portfolio_of(ledger, learner, &pieces);
        checked_pdf_of_many([&document], paper, "Portfolio", "en-GB").unwrap();
    }
}

/// What waits for a release is in no portfolio, nor on a card.
#[test]
fn what_is_held_back_is_not_in_it() {
    let ledger = demo();
    let rubrics = Rubrics::default();
    let mut held = 0;
    for learner in ledger.learners() {
        let (_, choices) = portfolio_choices(ledger, &rubrics, learner.id).unwrap();
        for piece in ledger.pieces_of(learner.id) {
            if ledger.standing_for(piece.id, Whom::Learner).is_held() {
                held += 1;
                assert!(choices.iter().all(|choice| choice.piece != piece.id));
            }
        }
    }
    assert!(held > 0);
}

#[test]
fn its_photos_stand_under_each_piece() {
    let (ledger, marking) = whole_bar_shoe();
    let add = |photo| {
        evenshod::command::Command::edit(marking, evenshod::command::Edit::AddPhoto { photo })
    };
    let mut commands = vec![keep(&jpeg(1))];
    commands.extend(photos().into_iter().take(1).map(add));
    commands.push(seal(marking));
    let ledger = performed(ledger, commands);
    let learner = ledger.learners().next().unwrap().id;
    let (name, choices) = portfolio_choices(&ledger, &Rubrics::default(), learner).unwrap();
    assert_eq!(name, "Ada Smith");
    assert!(
        choices[0].about.ends_with("1 photo"),
        "{}",
        choices[0].about
    );
    let document = portfolio_of(&ledger, learner, &[choices[0].piece]);
    let pictures = document.blocks.iter().filter_map(|block| match block {
        Block::Pictures(pictures) => Some(pictures.len()),
        _ => None,
    });
    assert_eq!(pictures.sum::<usize>(), 1);
}
