use crate::harness::{in_browser, shots};
use crate::pages::Sight;
use crate::steps::fits_across;
#[test]
fn ownshots() {
    in_browser(|page| async move {
        let folder = shots("own");
        let mine = [
            Sight::StartFormOfBoth,
            Sight::StartFormAlone,
            Sight::WhoMarks,
            Sight::Unseen,
            Sight::ThrowAway,
            Sight::SecondSeal,
            Sight::OwnSheet,
            Sight::SideBySide,
            Sight::MarkAgain,
        ];
        page.go("/learners").await;
        page.fill("#new", "Bea Coe").await;
        page.keys(crate::browser::key::ENTER).await;
        page.wait_text("main", "Bea Coe is added").await;
        let mut found = Vec::new();
        for sight in mine {
            page.resize(1280, 900, false).await;
            sight.show(&page).await;
            for (width, height, is_phone) in [
                (320, 640, true),
                (390, 844, true),
                (820, 1180, true),
                (1440, 900, false),
            ] {
                page.resize(width, height, is_phone).await;
                fits_across(&page, &format!("{} at {width}", sight.name())).await;
                if width == 320 {
                    continue;
                }
                for scheme in ["light", "dark"] {
                    page.prefer(scheme).await;
                    let name = format!("{}-{width}-{scheme}", sight.name());
                    page.whole_picture(&folder.join(format!("{name}.png")))
                        .await;
                    if width != 820 {
                        found.extend(crate::access::violations(&page, &name).await);
                    }
                }
            }
        }
        assert!(found.is_empty(), "{}", found.join("\n"));
    });
}
