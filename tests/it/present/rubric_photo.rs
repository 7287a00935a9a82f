//! In the forms of a rubric: which measure of a photo fills a reading.

use evenshod::present::rubrics::{FieldKind, FormField, FormPart, field_edit, form_plan, work};
use evenshod::rubric::edit::{Outline, Path, change};
use evenshod::rubric::shipped;

const AT: &str = "sections.0.criteria.0.photo";

fn with_criterion(keys: &str) -> String {
    format!("[[sections]]\n[[sections.criteria]]\nid = \"it\"\n{keys}\n")
}

fn photo_fields(text: &str) -> Vec<FormField> {
    fn of(part: &FormPart, found: &mut Vec<FormField>) {
        let photos = part.fields.iter();
        let photos = photos.filter(|field| matches!(field.kind, FieldKind::Perhaps(_)));
        found.extend(photos.cloned());
        part.parts.iter().for_each(|part| of(part, found));
    }
    let mut found = Vec::new();
    let plan = form_plan(&Outline::of(text).unwrap());
    plan.parts.iter().for_each(|part| of(part, &mut found));
    found
}

fn offered(keys: &str) -> Vec<&'static str> {
    let fields = photo_fields(&with_criterion(keys));
    let words = fields.first().and_then(|field| field.kind.choices());
    words.unwrap_or_default().iter().map(|one| one.0).collect()
}

#[test]
fn only_measures_that_fit_are_offered() {
    let single = offered("kind = \"toleranced\"");
    assert_eq!((single.len(), single[0]), (23, "overall width"));
    assert!(!single.contains(&"hole inset") && !single.contains(&"bar back squareness"));
    let several = offered("kind = \"toleranced\"\nseveral_places = true");
    assert_eq!(several.len(), 27);
    assert!(several.contains(&"hole inset"));
    let angle = offered("kind = \"toleranced\"\nmeasures = \"angle\"");
    assert_eq!(angle, ["bar back squareness"]);
    let pair = offered("kind = \"paired\"");
    assert_eq!(pair.len(), 7);
    assert!(pair.contains(&"branch chord"));
    let series = offered("kind = \"spread\"");
    assert_eq!(
        series,
        ["fuller inset", "fuller width", "hole inset", "hole spacing"]
    );
    for none in [
        "kind = \"toleranced\"\nmeasures = \"mass\"",
        "kind = \"paired\"\nmeasures = \"angle\"",
        "kind = \"tally\"",
        "kind = \"judged\"",
    ] {
        assert_eq!(photo_fields(&with_criterion(none)), [], "{none}");
    }
    // What is written all the same has a field to take it out by.
    let text = with_criterion("kind = \"toleranced\"\nmeasures = \"mass\"\nphoto = \"toe radius\"");
    assert_eq!(photo_fields(&text).len(), 1);
}

/// Whatever is offered is what the check of a rubric takes, in the criterion's own kind.
#[test]
fn what_is_offered_is_not_refused() {
    let at: Path = AT.parse().unwrap();
    for keys in [
        "kind = \"toleranced\"",
        "kind = \"toleranced\"\nseveral_places = true",
        "kind = \"toleranced\"\nmeasures = \"angle\"",
        "kind = \"paired\"",
        "kind = \"spread\"",
    ] {
        let text = with_criterion(keys);
        let field = &photo_fields(&text)[0];
        assert_eq!(field.path, at);
        for (word, _) in field.kind.choices().unwrap() {
            let chosen = change(&text, &field_edit(field, word)).unwrap();
            assert!(chosen.contains(&format!("photo = \"{word}\"")), "{chosen}");
            let state = work(&chosen);
            assert_eq!(state.troubles_at(&at), "", "{keys}: {word}");
            // With none chosen the text is as it was, byte for byte.
            let again = change(&chosen, &field_edit(field, "")).unwrap();
            assert_eq!(again, text);
        }
    }
}

#[test]
fn what_the_check_refuses_stands_at_the_field() {
    let at: Path = AT.parse().unwrap();
    let said = |keys: &str| work(&with_criterion(keys)).troubles_at(&at);
    let many = said("kind = \"toleranced\"\nphoto = \"hole inset\"");
    assert!(many.contains("and this is one reading"), "{many}");
    let mass = said("kind = \"toleranced\"\nmeasures = \"mass\"\nphoto = \"toe radius\"");
    assert!(mass.contains("and this measures mass"), "{mass}");
    let unknown = said("kind = \"paired\"\nphoto = \"branch chord left\"");
    assert!(unknown.contains("is not known here"), "{unknown}");
}

/// Readings that criteria name have the field too, as the check sends people there.
#[test]
fn readings_have_the_field() {
    let text = "[[readings]]\nid = \"wide\" # as asked\nname = \"Width\"\n";
    let fields = photo_fields(text);
    let paths: Vec<String> = fields.iter().map(|one| one.path.to_string()).collect();
    assert_eq!(paths, ["readings.0.photo"]);
    let chosen = change(text, &field_edit(&fields[0], "overall width")).unwrap();
    assert_eq!(chosen, format!("{text}photo = \"overall width\"\n"));
}

/// Each shipped rubric shows what it names, and choosing that again changes no byte.
#[test]
fn a_shipped_rubric_goes_round_byte_for_byte() {
    let mut filled = 0;
    for shipped in shipped() {
        let outline = Outline::of(shipped.text).unwrap();
        for field in photo_fields(shipped.text) {
            let Some(said) = outline.text(&field.path) else {
                continue;
            };
            let words = field.kind.choices().unwrap();
            assert!(words.iter().any(|one| one.0 == said), "{}", field.path);
            let same = change(shipped.text, &field_edit(&field, &said)).unwrap();
            assert_eq!(same, shipped.text, "{}", field.path);
            filled += 1;
        }
    }
    assert!(filled > 15, "{filled}");
}
