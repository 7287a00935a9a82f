//! Whatever people type: no panic, no rule broken, no letter lost.

use evenshod::output::pdf::{Paper, plan};
use evenshod::sheet::{Block, Fact, Item, Pictured, Weight};
use proptest::prelude::*;

use super::sample::{checked, document, heading, illustrated, notice, table};
use super::tools::pages;

/// Texts with what is hard in them more often than chance has it.
fn any_text() -> impl Strategy<Value = String> {
    let hard = "[ \t\r\n\u{0}\u{ad}\u{200b}\u{200d}\u{202e}\u{2028}\u{feff}\u{fffd}\u{fe0f}\
                \u{301}\u{1f40e}a-zäßẼжΩ漢س0-9/.%±°−-]{0,60}";
    prop_oneof![hard, any::<String>()]
}

fn every_block(text: &str) -> Vec<Block> {
    vec![
        heading(text),
        Block::Paragraph(text.to_owned()),
        illustrated(text),
        Block::Facts(vec![Fact {
            label: text.to_owned().into(),
            value: text.to_owned(),
        }]),
        notice(Weight::Warn, text, &[text]),
        table([text.to_owned(), String::new()]),
        Block::Items(vec![Item::about(text, text), Item::plain(text)]),
        Block::Code {
            label: text.to_owned(),
            groups: vec![text.to_owned()],
        },
        Block::Signatures(vec![text.to_owned()]),
        Block::Pictures(vec![Pictured {
            digest: String::new(),
            alt: text.to_owned(),
            caption: text.to_owned(),
        }]),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn any_text_makes_a_sound_file(text in any_text()) {
        let mut any = document(every_block(&text));
        any.title = text;
        let file = checked(&any, Paper::A4);
        prop_assert_eq!(file.pages, plan(&any, Paper::A4).unwrap().len());
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]

    #[test]
    fn no_letter_that_the_faces_have_is_lost(
        text in "[a-zäßéжΩё0-9 ,;/()-]{0,400}"
    ) {
        let file = checked(&document(vec![Block::Paragraph(text.clone())]), Paper::A4);
        prop_assert!(file.missing.is_empty());
        let read: String = pages(&file.bytes).concat();
        let bare = |text: &str| -> String {
            text.chars().filter(|c| !c.is_whitespace()).collect()
        };
        prop_assert!(bare(&read).contains(&bare(&text)), "{text:?}: {read:?}");
    }
}
