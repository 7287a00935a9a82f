use crate::sheet::sample::{look, sealed_bar_shoe};
use evenshod::conformity::weigh;

#[test]
fn smoke() {
    let (ledger, marking) = sealed_bar_shoe();
    look(&ledger, marking, |scored| {
        let begun = std::time::Instant::now();
        let found = weigh(scored.rubric, &scored.parts.marking.facts).unwrap();
        println!("{:?}", begun.elapsed());
        println!("{found:#?}");
    });
}
