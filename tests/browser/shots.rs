//! No page is wider than its window; and with `EVENSHOD_SHOTS` set, pictures of every page
//! for people to look at, in `shots/`.

use crate::harness::{in_browser, shots};
use crate::pages::Sight;
use crate::steps::fits_across;

/// A phone, a tablet upright, a desk; and the narrowest that WCAG asks for.
const WIDTHS: [(u32, u32, bool); 4] = [
    (320, 640, true),
    (390, 844, true),
    (820, 1180, true),
    (1440, 900, false),
];

#[test]
fn every_page_fits_its_window() {
    in_browser(|page| async move {
        let folder = shots("");
        // Some minutes, for people alone.
        let are_wanted = std::env::var_os("EVENSHOD_SHOTS").is_some();
        for sight in Sight::ALL {
            page.resize(1280, 900, false).await;
            sight.show(&page).await;
            for (width, height, is_phone) in WIDTHS {
                page.resize(width, height, is_phone).await;
                fits_across(&page, &format!("{} at {width}", sight.name())).await;
                if width == 320 || !are_wanted {
                    continue;
                }
                for scheme in ["light", "dark"] {
                    page.prefer(scheme).await;
                    let name = format!("{}-{width}-{scheme}", sight.name());
                    page.whole_picture(&folder.join(format!("{name}.png")))
                        .await;
                    // What the eye has at once; the whole is long.
                    let window = folder.join(format!("{name}-window.png"));
                    page.picture(&window).await;
                }
            }
        }
    });
}
