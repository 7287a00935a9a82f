//! Every page in every state through axe-core, in light and in dark.

use serde_json::{Value, json};

use crate::browser::Page;
use crate::harness::in_browser;
use crate::pages::Sight;

const AXE: &str = include_str!("axe/axe.min.js");

/// Everything that is asked for; the 2.0 and 2.1 tags are part of 2.2.
const TAGS: [&str; 7] = [
    "wcag2a",
    "wcag2aa",
    "wcag21a",
    "wcag21aa",
    "wcag22a",
    "wcag22aa",
    "best-practice",
];

/// What may change between light and dark; the rest is alike, and axe-core takes long.
const OF_COLOUR: [&str; 2] = ["color-contrast", "link-in-text-block"];

#[test]
fn every_page_is_accessible_on_a_desk() {
    in_browser(|page| async move { look_at_all(&page).await });
}

#[test]
fn every_page_is_accessible_on_a_phone() {
    in_browser(|page| async move {
        page.resize(390, 844, true).await;
        look_at_all(&page).await;
    });
}

/// A check that finds nothing may be one that looks at nothing.
#[test]
fn planted_faults_are_found() {
    in_browser(|page| async move {
        page.go("/").await;
        assert_eq!(violations(&page, "bench").await, Vec::<String>::new());
        page.run(
            "document.querySelector('main').insertAdjacentHTML('beforeend',
                '<img src=\"data:,\"><button></button><p id=pale>pale</p>');
            document.querySelector('#pale').style.color = '#ddd';",
            Vec::new(),
        )
        .await;
        let found = violations(&page, "bench").await.join("\n");
        for rule in ["image-alt", "button-name", "color-contrast"] {
            assert!(found.contains(rule), "{rule} is not found: {found}");
        }
    });
}

async fn look_at_all(page: &Page) {
    let mut found = Vec::new();
    for sight in Sight::ALL {
        sight.show(page).await;
        page.prefer("light").await;
        found.extend(violations(page, &format!("{} in light", sight.name())).await);
        page.prefer("dark").await;
        let dark = json!({ "type": "rule", "values": OF_COLOUR });
        found.extend(faults(page, &format!("{} in dark", sight.name()), dark).await);
    }
    assert!(
        found.is_empty(),
        "{} faults:\n{}",
        found.len(),
        found.join("\n")
    );
}

/// What axe-core finds wrong with the page as it stands.
pub(crate) async fn violations(page: &Page, name: &str) -> Vec<String> {
    faults(page, name, json!({ "type": "tag", "values": TAGS })).await
}

/// The same by some of its rules.
async fn faults(page: &Page, name: &str, rules: Value) -> Vec<String> {
    if page.value("typeof window.axe").await != "object" {
        page.run(AXE, Vec::new()).await;
    }
    let script = "const [rules, done] = arguments;
        axe.run(document, { runOnly: rules, resultTypes: ['violations'] })
            .then(found => done(found.violations.flatMap(one => one.nodes.map(node =>
                `${one.id} at ${node.target.join(' ')}: ${node.failureSummary}`))))
            .catch(fault => done([`axe-core failed: ${fault}`]));";
    let found = page.run_async(script, vec![rules]).await;
    let Value::Array(found) = found else {
        panic!("axe-core gives no list for {name}: {found}");
    };
    let found = found.iter().filter_map(Value::as_str);
    found.map(|fault| format!("{name}: {fault}")).collect()
}
