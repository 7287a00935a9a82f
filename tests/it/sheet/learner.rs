//! A learner over time, in words; the sums are those of the `progress` tests.

use std::sync::Arc;

use evenshod::progress::{Made, Pair, all_series};
use evenshod::records::{Day, Role, SittingKind};
use evenshod::sheet::{
    Block, MilestoneShown, Report, Table, criteria_shown, criteria_table, learner_report,
    marks_over_time, next_shown, own_shown, practice_shown, step_heats_shown, steps_shown,
    tallies_shown, with_milestones,
};

use crate::marking::{facts, rubric};
use crate::progress::step_heats::{entered, tapped};
use crate::progress::{RUBRIC, made, made_of, seen};

fn rows(table: &Table) -> Vec<String> {
    let rows = table.groups.iter().flat_map(|group| &group.rows);
    let said = rows.map(|row| {
        let cells: Vec<&str> = row.iter().map(|cell| cell.text.as_str()).collect();
        cells.join(" | ")
    });
    said.collect()
}

/// Of 20 marks: 20, then one that was not marked as a whole, then 11 as a mock.
fn three(all: &[evenshod::marking::Facts; 3]) -> Vec<Made<'_>> {
    let mut pieces = made_of(&Arc::new(rubric(RUBRIC)), all);
    pieces[2].sitting = SittingKind::Mock;
    pieces
}

fn three_facts() -> [evenshod::marking::Facts; 3] {
    [
        seen(4, 1, 6, 6, ""),
        facts(r#"{"levels": {"toe": "2"}}"#),
        seen(1, 0, 5, 6, "flat"),
    ]
}

#[test]
fn marks_over_time_stand_in_chart_caption_and_table() {
    let all = three_facts();
    let pieces = three(&all);
    let chart = marks_over_time(&all_series(&pieces)[0], &[]);
    assert_eq!(chart.heading, "Try over time");
    assert_eq!(
        chart.caption,
        "3 pieces, from 20 of 20 at first to 11 of 20 at last. Dot: practice. Square: mock. \
         Open: stopped, or not marked as a whole."
    );
    assert_eq!(
        rows(&chart.table),
        [
            "1 Mar 2026 | practice | 20 of 20 | 100 % | pass",
            "2 Mar 2026 | practice | 4 of 20 | 20 % | incomplete",
            "3 Mar 2026 | mock | 11 of 20 | 55 % | not yet",
        ]
    );
    assert!(chart.drawing.description.contains("pass 60 %"));
}

/// A milestone between the first day and the last has a flag; all else of the chart stays.
#[test]
fn milestones_stand_on_charts_in_words_and_in_the_table() {
    let all = three_facts();
    let pieces = three(&all);
    let plain = marks_over_time(&all_series(&pieces)[0], &[]);
    let note = |number, month, day, text: &str| MilestoneShown {
        number,
        day: Day::new(2026, month, day).unwrap(),
        text: text.to_owned(),
    };
    let noted = [
        note(1, 2, 28, "Too early"),
        note(2, 3, 2, "Out six weeks, wrist"),
        note(3, 3, 4, "Too late"),
    ];
    let chart = with_milestones(plain.clone(), &noted);
    let told = "Milestone 2, 2 Mar 2026: Out six weeks, wrist";
    assert_eq!(
        chart.drawing.description,
        format!("{} {told}.", plain.drawing.description)
    );
    assert_eq!(
        chart.caption,
        format!("{} Numbered flags: milestones.", plain.caption)
    );
    assert_eq!(chart.table.groups[0], plain.table.groups[0]);
    assert_eq!(chart.table.groups[1].heading, "Milestones");
    let cells = chart.table.groups[1].rows[0].iter().map(|cell| &*cell.text);
    assert_eq!(
        cells.collect::<Vec<_>>(),
        ["2 Mar 2026", "2: Out six weeks, wrist", "–", "–", "–"]
    );
    // Read off in its place among the pieces, at the height of its flag.
    let words: Vec<_> = chart
        .drawing
        .readings
        .iter()
        .map(|one| &*one.words)
        .collect();
    assert_eq!(words.len(), 4);
    assert_eq!(words[2], told);
    assert_eq!(chart.drawing.readings[1].x, chart.drawing.readings[2].x);
    let outside = [noted[0].clone(), noted[2].clone()];
    assert_eq!(with_milestones(plain.clone(), &outside), plain);
}

#[test]
fn a_new_version_of_the_rubric_breaks_the_line_and_says_so() {
    let all = three_facts();
    let mut pieces = three(&all);
    let mut next = rubric(RUBRIC);
    next.version = "2".to_owned();
    pieces[2].rubric = Arc::new(next);
    let chart = marks_over_time(&all_series(&pieces)[0], &[]);
    assert!(
        chart
            .caption
            .ends_with("A line joins what one version of the rubric marked.")
    );
}

#[test]
fn criteria_stand_by_section_with_their_latest_marks() {
    let all = three_facts();
    let pieces = three(&all);
    let series = &all_series(&pieces)[0];
    let sections = criteria_shown(series);
    let said: Vec<_> = sections
        .iter()
        .map(|section| {
            let criteria = section.criteria.iter();
            let said: Vec<_> = criteria
                .map(|one| format!("{} {}", one.name, one.latest))
                .collect();
            format!("{}: {}", section.heading, said.join(", "))
        })
        .collect();
    assert_eq!(
        said,
        [
            "Form: Toe 1 of 4, Heels 0 of 1",
            "Fuller: Depth 5 of 6, Heats 2 of 2, Time 2 of 2",
        ]
    );
    assert_eq!(
        rows(&criteria_table(series))[..2],
        ["Toe | 4, 2, 1 | 4 | 3", "Heels | 1, –, 0 | 1 | 1"]
    );
    assert_eq!(
        sections[0].criteria[1].drawing.description,
        "Marks, the oldest piece first: 1, –, 0; the latest 0 of 1."
    );
    // All of a section in one drawing, to be saved.
    assert_eq!(sections[0].drawing.title, "Form");
    assert_eq!(
        sections[0].drawing.description,
        "Marks of each criterion, the oldest piece first; the latest are Toe: 1 of 4, \
         Heels: 0 of 1."
    );
}

#[test]
fn heats_and_time_name_what_is_allowed() {
    let all = [seen(4, 1, 6, 9, ""), seen(4, 1, 6, 7, "")];
    let pieces = made_of(&Arc::new(rubric(RUBRIC)), &all);
    let charts = tallies_shown(&all_series(&pieces)[0], &[]);
    let captions: Vec<_> = charts
        .iter()
        .map(|chart| format!("{}: {}", chart.heading, chart.caption))
        .collect();
    assert_eq!(
        captions,
        [
            "Heats: 9 at first, 7 at last; allowed 6.",
            "Time: 30 min at first, 30 min at last; allowed 35 min.",
        ]
    );
    assert_eq!(rows(&charts[0].table)[1], "2 Mar 2026 | practice | 7");
    let none = [facts("{}")];
    let pieces = made_of(&Arc::new(rubric(RUBRIC)), &none);
    assert!(tallies_shown(&all_series(&pieces)[0], &[]).is_empty());
}

#[test]
fn steps_are_told_a_piece() {
    let all = [
        seen(2, 1, 6, 6, ""),
        seen(4, 1, 5, 6, ""),
        seen(3, 1, 6, 6, ""),
        seen(4, 1, 6, 6, ""),
    ];
    let pieces = made_of(&Arc::new(rubric(RUBRIC)), &all);
    let chart = steps_shown(&all_series(&pieces)[0], None).unwrap();
    assert_eq!(
        rows(&chart.table),
        ["Bending | 0.7 | 4", "Fullering | 0.3 | 0"]
    );
    assert_eq!(
        chart.caption,
        "A piece of Try, on the mean. Bars: the latest 3 pieces. Thin bars: all pieces before. \
         Longer is worse."
    );
    assert!(steps_shown(&all_series(&pieces[3..])[0], None).is_none());
    let worst = steps_shown(&all_series(&pieces)[0], Some(1)).unwrap();
    assert_eq!(rows(&worst.table), ["Bending | 0.7 | 4"]);
    assert!(
        worst
            .caption
            .ends_with("Longer is worse. Left out, as they cost less: 1.")
    );
}

#[test]
fn heats_by_step_stand_beside_the_marks_lost() {
    let all = [
        entered(seen(0, 1, 6, 6, ""), r#"{"bend": "4"}"#),
        tapped(seen(3, 1, 6, 6, ""), &["bend", "", "", "groove", ""]),
        seen(4, 1, 6, 6, ""),
        tapped(seen(4, 1, 5, 6, ""), &["bend", "", "", "", "groove"]),
    ];
    let pieces = made_of(&Arc::new(rubric(RUBRIC)), &all);
    let chart = step_heats_shown(&all_series(&pieces)[0]).unwrap();
    assert_eq!(
        rows(&chart.table),
        [
            "Bending | 4, 2, –, 3 | 2.5 in 2 of 3 | 4 | 0.7 | 8",
            "Fullering | –, 1, –, 0 | 0.5 in 2 of 3 | not counted | 0.3 | 0",
        ]
    );
    assert!(chart.drawing.description.contains("before not counted"));
    assert!(
        chart
            .caption
            .contains("Bars: the latest 3 pieces. Thin bars")
    );
    // Nobody counted by step: there is nothing to show.
    assert!(step_heats_shown(&all_series(&pieces[2..3])[0]).is_none());
}

#[test]
fn practice_names_fault_cause_remedy_and_step() {
    let all = [seen(4, 1, 2, 6, ""), seen(1, 1, 6, 6, "flat")];
    let pieces = made_of(&Arc::new(rubric(RUBRIC)), &all);
    let shown = practice_shown(&pieces);
    let toe = &shown[0];
    assert_eq!(
        [
            &*toe.name,
            &toe.why,
            &toe.seen,
            &toe.cause,
            &toe.remedy,
            &toe.step,
            &toe.asked
        ],
        [
            "Toe",
            "Cost marks in 1 of the 2 latest pieces that ask for it. Last 2 Mar 2026, Try, 1 of 4.",
            "Seen: Flat toe",
            "Bent cold",
            "Bend at a bright heat",
            "Bending",
            "by eye, 0 to 4",
        ]
    );
    // The depth asks for the same practice, so it is not named again.
    assert_eq!(shown.len(), 1);
    let shown = practice_shown(&pieces[..1]);
    assert_eq!(shown[0].seen, "No fault was noted. A usual one: Shallow");
    assert_eq!(shown[0].step, "Fullering");
    // A fault that was seen tells its own step, a usual one that of a criterion without.
    for fault in ["thin", ""] {
        let all = [seen(4, 0, 6, 6, fault)];
        let pieces = made_of(&Arc::new(rubric(RUBRIC)), &all);
        assert_eq!(practice_shown(&pieces)[0].step, "Fullering");
    }
}

#[test]
fn own_marks_are_told_higher_or_lower() {
    let rubric = Arc::new(rubric(RUBRIC));
    let (own, counts) = (seen(4, 0, 6, 6, ""), seen(2, 1, 6, 6, ""));
    let pairs = [Pair {
        own: made(&rubric, &own, 0, Role::Own),
        counts: made(&rubric, &counts, 0, Role::First),
    }];
    let shown = own_shown(&pairs).unwrap();
    // Own 8 + 0 + 10, the examiner's 4 + 2 + 10.
    assert_eq!(
        rows(&shown.chart.table),
        ["1 Mar 2026 | Try | 18 of 20 | 16 of 20 | 10 % higher"]
    );
    let said: Vec<_> = shown
        .differ
        .iter()
        .map(|item| format!("{}: {}", item.lead, item.lines.join(" ")))
        .collect();
    assert_eq!(
        said,
        [
            "Heels: own marks 100 % of its marks lower, in one piece",
            "Toe: own marks 50 % of its marks higher, in one piece",
        ]
    );
    assert!(own_shown(&[]).is_none());
}

/// Three pieces are too few to say anything; five are told with their pass mark.
#[test]
fn the_next_piece_is_told_with_what_it_rests_on() {
    let all = three_facts();
    let pieces = three(&all);
    let told = next_shown(&all_series(&pieces)[0]);
    assert!(!told.is_empty());
    for next in &told {
        assert!(!next.has_figure && next.words.ends_with("before there are 5."));
    }
    let rubric = Arc::new(rubric(RUBRIC));
    let depths = [1, 3, 2, 4, 5].map(|depth| seen(2, 1, depth, 6, ""));
    let pieces = made_of(&rubric, &depths);
    let told = next_shown(&all_series(&pieces)[0]);
    assert_eq!(told.len(), 1);
    assert_eq!(told[0].name, "Practice, timed");
    let words = &told[0].words;
    let begins = "The next one, made as these 5 pieces were, reaches the pass mark of 12 with a \
                  probability of about 9";
    assert!(words.starts_with(begins), "{words}");
    assert!(words.ends_with(" of 20 marks."), "{words}");
    assert!(told[0].has_figure);
}

fn texts(blocks: &[Block]) -> Vec<String> {
    let said = blocks.iter().map(|block| match block {
        Block::Heading { text, .. } | Block::Paragraph(text) => text.clone(),
        Block::Drawings(drawings) => format!("{} drawings", drawings.len()),
        Block::Table(table) => table.caption.clone(),
        Block::Items(items) => format!("{} items", items.len()),
        Block::Notice(notice) => notice.text.clone(),
        Block::Facts(facts) => format!("{} facts", facts.len()),
        other => format!("{other:?}").chars().take(10).collect(),
    });
    said.collect()
}

#[test]
fn a_page_to_print_tells_all_of_it() {
    let all = three_facts();
    let pieces = three(&all);
    let report = |pieces| Report {
        milestones: &[],
        left_out: 0,
        name: "Ada".to_owned(),
        facts: Vec::new(),
        day: "today".to_owned(),
        pieces,
        pairs: &[],
        rubric: Some("not there"),
        held: 0,
        figures: None,
    };
    let document = learner_report(&report(&pieces));
    assert_eq!(document.title, "Ada");
    assert_eq!(
        texts(&document.blocks),
        [
            "1 facts",
            "To practise next",
            "2 items",
            "Try over time",
            "4 drawings",
            "Most to win, marks of the total a piece: Toe 1 of 4, to win 3; Heels 0 of 1, to win 1; Depth 5 of 6, to win 0.5.",
            "Signatures",
        ]
    );
    let note = |number, day| MilestoneShown {
        number,
        day: Day::new(2026, 3, day).unwrap(),
        text: format!("Weld {number}"),
    };
    let noted = [note(1, 2), note(2, 9)];
    let document = learner_report(&Report {
        milestones: &noted,
        left_out: 1,
        ..report(&pieces)
    });
    let said = document.blocks.iter().find_map(|block| match block {
        Block::Series(facts) => Some(facts.clone()),
        _ => None,
    });
    let said = said.unwrap().into_iter();
    let said: Vec<_> = said
        .map(|fact| format!("{}: {}", fact.label, fact.value))
        .collect();
    assert_eq!(
        said,
        [
            "Earlier milestones: 1, on the learner’s page",
            "Milestone 1, 2 Mar 2026: Weld 1",
            "Milestone 2, 9 Mar 2026: Weld 2",
        ]
    );
    let document = learner_report(&report(&[]));
    assert_eq!(
        texts(&document.blocks),
        [
            "0 facts",
            "Nothing of theirs is marked and sealed yet.",
            "Signatures"
        ]
    );
}
