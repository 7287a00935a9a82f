use super::face::{Face, Faces, Glyph};
use super::ink::Ink;
use super::line::{Run, Style};
use super::paper::Format;
use super::strip::{Mark, What, bar};

/// What stands at the foot of a page.
pub(super) struct Foot<'a> {
    /// The title of the document.
    pub(super) title: &'a str,
    /// The page's number in its document, from 1.
    pub(super) number: u32,
    /// How many pages the document has.
    pub(super) of: usize,
}

/// The text at the foot.
const FOOT: Style = Style {
    face: Face::Regular,
    size: 7.5,
    ink: Ink::QUIET,
};
/// Between title and number at least.
const GUTTER: f32 = 24.0;
/// From the rule to the base line below it.
const RULE: f32 = 11.0;

impl Foot<'_> {
    /// Title and number under a rule, in points from the page's upper left corner; no part
    /// of what is read.
    pub(super) fn marks(&self, faces: &mut Faces, on: Format) -> Vec<Mark> {
        let (margin, y) = (on.margin(), on.foot());
        let number = format!("Page {} of {}", self.number, self.of);
        let number = Run::of(faces, &number, FOOT);
        let right = on.width() - margin - number.width();
        let title = shortened(faces, self.title, right - margin - GUTTER);
        let words = |x, run| Mark {
            x,
            y,
            node: None,
            what: What::Words {
                run,
                has_halo: false,
            },
        };
        vec![
            bar(margin, y - RULE, on.text_width(), 0.4, Ink::HAIR),
            words(margin, title),
            words(right, number),
        ]
    }
}

/// A title that fits, with dots for what does not.
fn shortened(faces: &mut Faces, title: &str, room: f32) -> Run {
    let run = Run::of(faces, title, FOOT);
    if run.width() <= room {
        return run;
    }
    let mut used = faces.width(FOOT.face, FOOT.size, "…");
    let fits = |glyph: &&Glyph| {
        used += glyph.advance * FOOT.size;
        used <= room
    };
    let end = run.glyphs.iter().take_while(fits).last();
    let end = end.map_or(0, |glyph| glyph.end);
    let text = run.text.get(..end).unwrap_or_default().trim_end();
    Run::of(faces, &format!("{text}…"), FOOT)
}
