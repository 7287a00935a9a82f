//! Rubrics as a college owns them: copied, written by forms, kept, listed.

use std::collections::BTreeSet;

use evenshod::command::{Command, apply};
use evenshod::present::rubrics::{
    BLANK, FormField, FormPart, FormPlan, beside, copy_of, field_edit, form_plan, keep_command,
    next_version, own_offers, rubric_list, rubric_page, text_of, try_rows, work,
};
use evenshod::present::{Rubrics, offers};
use evenshod::quantity::Exact;
use evenshod::records::{Ledger, Moment, Stamp};
use evenshod::rubric::edit::{Edit, Outline, change};
use evenshod::rubric::{FirstImpression, Settle, Severity, Threshold, read_rubric, shipped};
use proptest::prelude::*;

fn stamp(ms: u64) -> Stamp {
    Stamp::first(
        1_795_000_000_000 + ms,
        evenshod::records::Device::new("desk", [3; 8]),
    )
}

fn done(ledger: &mut Ledger, command: Command, at: u64) -> evenshod::records::Made {
    let change = apply(ledger, command, &stamp(at)).unwrap();
    ledger.make(&change);
    change.made
}

fn now() -> Moment {
    Moment::new(1_795_000_100_000, 0)
}

#[test]
fn the_blank_rubric_is_a_rubric_and_is_drawn() {
    let checked = read_rubric(BLANK);
    assert_eq!(checked.diagnostics, []);
    assert_eq!(checked.rubric.unwrap().out_of().unwrap().to_string(), "4");
}

#[test]
fn a_copy_has_an_id_of_its_own_and_keeps_the_rest() {
    let text = shipped()[0].text;
    let mut taken: BTreeSet<String> = shipped().iter().map(|one| one.id.to_owned()).collect();
    for wanted in [
        "own-straight-bar-shoe",
        "own-straight-bar-shoe-2",
        "own-straight-bar-shoe-3",
    ] {
        let copy = copy_of(text, &taken);
        let rubric = read_rubric(&copy).rubric.unwrap();
        assert_eq!((rubric.id.as_str(), rubric.version.as_str()), (wanted, "1"));
        assert!(rubric.title.ends_with(", our own"), "{}", rubric.title);
        // Of the lines three differ.
        let differ = text
            .lines()
            .zip(copy.lines())
            .filter(|(one, other)| one != other);
        assert!(differ.count() <= 3);
        taken.insert(rubric.id);
    }
    assert_eq!(copy_of("no = [", &taken), "no = [");
}

#[test]
fn the_next_version_is_one_that_is_free() {
    let version = |old: &str, taken: &[&str]| {
        let text = BLANK.replace("version = \"1\"", &format!("version = \"{old}\""));
        let taken = taken.iter().map(|&one| one.to_owned()).collect();
        read_rubric(&next_version(&text, &taken))
            .rubric
            .unwrap()
            .version
    };
    assert_eq!(version("1", &["1"]), "2");
    assert_eq!(version("1", &["1", "2", "3"]), "4");
    assert_eq!(version("1.9", &[]), "1.10");
    assert_eq!(version("draft", &[]), "draft-2");
    assert_eq!(version("18446744073709551615", &[]), "18446744073709551615");
}

/// Begun, written, kept, used, followed by a next version: each step as the page does it.
#[test]
fn a_rubric_goes_from_draft_to_version_to_piece() {
    let (mut ledger, rubrics, shipped) = (Ledger::default(), Rubrics::default(), offers());
    let draft = done(&mut ledger, Command::DraftRubric { text: BLANK.into() }, 1)
        .rubric_draft
        .unwrap();
    let text = BLANK.replace("within = \"3 mm\"", "within = \"4 mm\"");
    done(
        &mut ledger,
        Command::WriteRubric {
            draft,
            text: text.clone(),
        },
        2,
    );
    assert_eq!(
        text_of(&ledger, &shipped, &draft.to_string()),
        Some(text.clone())
    );
    let list = rubric_list(&ledger, &rubrics, &shipped, now());
    assert_eq!(
        (list.drafts.len(), list.own.len(), list.shipped.len()),
        (1, 0, shipped.len())
    );
    assert_eq!(list.drafts[0].title, "Our shoe");

    done(&mut ledger, keep_command(&text, Some(draft)).unwrap(), 3);
    let own = own_offers(&ledger, &rubrics, &shipped);
    assert_eq!(own.len(), 1);
    assert!(ledger.rubric_draft(draft).is_none());
    let first = own[0].key().to_owned();

    // The same version with another text is refused, and so is a shipped id.
    let other = text.replace("4 mm", "5 mm");
    let refused = apply(&ledger, keep_command(&other, None).unwrap(), &stamp(4)).unwrap_err();
    assert!(
        refused
            .to_string()
            .contains("give this one another version"),
        "{refused}"
    );
    let theirs = shipped[0]
        .rubric
        .text
        .replace("version = \"1\"", "version = \"9\"");
    let refused = apply(&ledger, keep_command(&theirs, None).unwrap(), &stamp(4)).unwrap_err();
    assert!(
        refused.to_string().contains("give yours an id of its own"),
        "{refused}"
    );

    let next = next_version(&other, &BTreeSet::from(["1".to_owned()]));
    done(&mut ledger, keep_command(&next, None).unwrap(), 5);
    let own = own_offers(&ledger, &rubrics, &shipped);
    assert_eq!(
        own.iter()
            .map(|offer| offer.rubric.version.as_str())
            .collect::<Vec<_>>(),
        ["2"]
    );
    let page = rubric_page(&ledger, &shipped, own[0].key(), None, now()).unwrap();
    let names: Vec<_> = page
        .versions
        .iter()
        .map(|row| (row.name.as_str(), row.is_here))
        .collect();
    assert_eq!(names, [("version 2", true), ("version 1", false)]);
    assert_eq!(page.versions[0].before.as_deref(), Some(first.as_str()));
    assert!(page.is_free && !page.is_shipped);

    // Removing is for what nobody uses.
    done(
        &mut ledger,
        Command::RemoveRubric {
            digest: first.clone(),
        },
        6,
    );
    assert!(ledger.rubric(&first).is_none());
    assert!(try_rows(&ledger, &first).is_empty());
}

#[test]
fn what_is_no_rubric_is_not_kept() {
    let why = keep_command("schema = 1\n", None).unwrap_err();
    assert!(why.starts_with("It cannot be kept yet: line "), "{why}");
}

fn all_fields(plan: &FormPlan) -> Vec<FormField> {
    fn of(part: &FormPart, found: &mut Vec<FormField>) {
        found.extend(part.fields.clone());
        for row in part.tables.iter().flat_map(|table| &table.rows) {
            found.extend(row.fields.clone());
        }
        part.parts.iter().for_each(|part| of(part, found));
    }
    let mut found = Vec::new();
    plan.parts.iter().for_each(|part| of(part, &mut found));
    found
}

fn all_adds(plan: &FormPlan) -> Vec<Edit> {
    fn of(part: &FormPart, found: &mut Vec<Edit>) {
        found.extend(
            part.adds
                .iter()
                .chain(&part.changes)
                .map(|add| add.edit.clone()),
        );
        for table in &part.tables {
            found.push(table.add.edit.clone());
            found.extend(table.rows.iter().map(|row| row.remove.edit.clone()));
        }
        part.parts.iter().for_each(|part| of(part, found));
    }
    let mut found: Vec<Edit> = plan.adds.iter().map(|add| add.edit.clone()).collect();
    plan.parts.iter().for_each(|part| of(part, &mut found));
    found
}

#[test]
fn every_field_has_a_place_of_its_own_and_holds_what_the_text_says() {
    for shipped in shipped() {
        let outline = Outline::of(shipped.text).unwrap();
        let fields = all_fields(&form_plan(&outline));
        let places: BTreeSet<String> = fields.iter().map(FormField::dom).collect();
        assert_eq!(places.len(), fields.len(), "{}", shipped.file);
        let filled = fields
            .iter()
            .filter(|field| outline.text(&field.path).is_some())
            .count();
        assert!(
            filled > 200,
            "{}: {filled} of {}",
            shipped.file,
            fields.len()
        );
        // What a choice holds is one of its words.
        for field in &fields {
            if let (Some(words), Some(said)) = (field.kind.choices(), outline.text(&field.path)) {
                assert!(
                    words.iter().any(|(word, _)| *word == said),
                    "{}: {said}",
                    field.path
                );
            }
        }
    }
}

/// Whatever is added, moved or taken out by its button, the text stays one that can be read
/// as TOML, and what is then wrong with it is told with a place.
#[test]
fn every_button_does_what_it_says() {
    for shipped in shipped() {
        let outline = Outline::of(shipped.text).unwrap();
        for edit in all_adds(&form_plan(&outline)) {
            let after = change(shipped.text, &edit).unwrap();
            assert_ne!(after, shipped.text, "{edit:?}");
            let state = work(&after);
            assert!(state.outline.is_some(), "{edit:?}");
            for trouble in &state.troubles {
                assert!(
                    trouble.span.end <= after.len() && trouble.line > 0,
                    "{edit:?}"
                );
            }
        }
    }
}

/// A new criterion of each kind needs its bands, levels or faults, and then it is one.
#[test]
fn a_rubric_is_made_from_the_blank_one_by_buttons_alone() {
    let mut text = BLANK.to_owned();
    for kind in 0..6 {
        let plan = form_plan(&Outline::of(&text).unwrap());
        let section = plan
            .parts
            .iter()
            .find(|part| part.title == "Section")
            .unwrap();
        text = change(&text, &section.adds[kind].edit).unwrap();
    }
    for _ in 0..2 {
        let plan = form_plan(&Outline::of(&text).unwrap());
        let section = plan
            .parts
            .iter()
            .find(|part| part.title == "Section")
            .unwrap();
        // From the last one up, so that places stay.
        for criterion in section.parts.iter().skip(1).rev() {
            for table in &criterion.tables {
                text = change(&text, &table.add.edit).unwrap();
            }
        }
    }
    let checked = read_rubric(&text);
    let errors: Vec<String> = checked
        .diagnostics
        .iter()
        .filter(|found| found.severity == Severity::Error)
        .map(ToString::to_string)
        .collect();
    // Bands that reach equally far, which a person sets apart.
    assert!(
        errors.iter().all(|error| error.contains("never reached")),
        "{errors:#?}"
    );
    assert_eq!(
        Outline::of(&text)
            .unwrap()
            .count(&"sections.0.criteria".parse().unwrap()),
        7
    );
}

#[test]
fn an_emptied_field_takes_its_key_out_unless_it_is_needed() {
    let outline = Outline::of(BLANK).unwrap();
    let fields = all_fields(&form_plan(&outline));
    let field = |path: &str| {
        fields
            .iter()
            .find(|field| field.path.to_string() == path)
            .unwrap()
    };
    let emptied = change(BLANK, &field_edit(field("sections.0.criteria.0.note"), " ")).unwrap();
    assert!(!emptied.contains("note ="));
    let kept = change(BLANK, &field_edit(field("sections.0.criteria.0.name"), "")).unwrap();
    let state = work(&kept);
    let at = "sections.0.criteria.0.name".parse().unwrap();
    assert!(
        state.troubles_at(&at).contains("this text is empty"),
        "{:?}",
        state.troubles
    );
}

fn part(text: &str, id: &str) -> FormPart {
    let plan = form_plan(&Outline::of(text).unwrap());
    plan.parts.into_iter().find(|part| part.dom == id).unwrap()
}

fn keys(part: &FormPart) -> Vec<String> {
    part.fields
        .iter()
        .map(|field| field.path.to_string())
        .collect()
}

/// `text` after typing `said` into the field of `part` that stands at `path`.
fn filled(text: &str, part: &FormPart, path: &str, said: &str) -> String {
    let field = part.fields.iter();
    let field = field
        .into_iter()
        .find(|field| field.path.to_string() == path);
    change(text, &field_edit(field.unwrap(), said)).unwrap()
}

#[test]
fn moderation_is_put_in_filled_and_taken_out() {
    let asks = part(BLANK, "part-moderation");
    assert_eq!((asks.fields.len(), asks.changes.len()), (0, 0));
    let mut text = change(BLANK, &asks.adds[0].edit).unwrap();
    let on = part(&text, "part-moderation");
    assert!(on.adds.is_empty());
    assert_eq!(
        keys(&on),
        [
            "moderation.settle",
            "moderation.discuss_beyond",
            "moderation.third_examiner"
        ]
    );
    for (path, said) in [
        ("moderation.settle", "mean"),
        ("moderation.discuss_beyond", "20 %"),
        ("moderation.third_examiner", "true"),
    ] {
        text = filled(&text, &on, path, said);
    }
    let rules = read_rubric(&text).rubric.unwrap().moderation;
    assert_eq!(rules.settle, Settle::Mean);
    assert_eq!(
        rules.discuss_beyond,
        Some(Threshold::Percent(Exact::whole(20)))
    );
    assert!(rules.third_examiner);
    let no = filled(&text, &on, "moderation.third_examiner", "false");
    assert!(no.contains("third_examiner = false"), "{no}");
    let unsaid = filled(&text, &on, "moderation.third_examiner", "");
    assert!(!unsaid.contains("third_examiner"), "{unsaid}");
    assert_eq!(change(&text, &on.changes[0].edit).unwrap(), BLANK);
}

#[test]
fn a_first_impression_is_put_in_filled_and_taken_out() {
    let asks = part(BLANK, "part-first-impression");
    // The blank rubric judges nothing by eye, so nothing can be counted.
    assert_eq!((asks.fields.len(), asks.adds.len()), (0, 1));
    let mut text = change(BLANK, &asks.adds[0].edit).unwrap();
    let on = part(&text, "part-first-impression");
    for (path, said) in [
        ("first_impression.ask", "Well?"),
        ("first_impression.least", "1"),
        ("first_impression.most", "5"),
        ("first_impression.step", "1/2"),
    ] {
        text = filled(&text, &on, path, said);
    }
    let Some(FirstImpression::Apart { ask, allowed }) =
        read_rubric(&text).rubric.unwrap().first_impression
    else {
        panic!("{text}");
    };
    assert_eq!((ask.as_str(), allowed.len()), ("Well?", 9));
    assert_eq!(change(&text, &on.changes[0].edit).unwrap(), BLANK);
}

#[test]
fn a_criterion_by_eye_is_taken_as_the_first_impression() {
    let text = shipped()[0].text;
    let asks = part(text, "part-first-impression");
    let counted = change(text, &asks.adds[1].edit).unwrap();
    let rubric = read_rubric(&counted).rubric.unwrap();
    assert!(rubric.counted_impression().is_some());
    let on = part(&counted, "part-first-impression");
    assert_eq!(keys(&on), ["first_impression.counts_as"]);
    // What is written with it stays in sight, so that it can be mended there.
    let both = format!("{counted}most = 5\n");
    let on = part(&both, "part-first-impression");
    assert_eq!(
        keys(&on),
        ["first_impression.counts_as", "first_impression.most"]
    );
    assert_eq!(change(&counted, &on.changes[0].edit).unwrap(), text);
}

#[test]
fn troubles_stand_beside_their_lines() {
    let text = "one = 1\ntwo = 2\nthree = 3\n";
    let state = work(text);
    assert!(state.words().ends_with("to mend."), "{}", state.words());
    let pieces = beside(text, &state.troubles);
    let whole: String = pieces.iter().map(|piece| piece.before.as_str()).collect();
    assert_eq!(whole, text);
    assert!(
        pieces
            .iter()
            .any(|piece| piece.before.ends_with("two = 2") && piece.is_error)
    );
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn no_text_panics(text in "\\PC{0,300}") {
        let state = work(&text);
        let whole: String = beside(&text, &state.troubles).iter().map(|piece| piece.before.clone()).collect();
        prop_assert_eq!(&whole, &text);
        copy_of(&text, &BTreeSet::new());
        next_version(&text, &BTreeSet::new());
        if let Some(outline) = state.outline {
            form_plan(&outline);
        }
    }
}
