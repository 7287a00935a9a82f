//! What stands off a face of the shoe: clips and calks, which may lift it and hide its edge.

use super::form::{PhotoField, PhotoForm, PhotoHead, Shows, WrongField};
use crate::gauge::{Face, Hidden, Shown};
use crate::piece::ClipPlace;

impl PhotoHead {
    /// Whether the outer branch of the shoe with this id, or of the only one, lies on the right,
    /// ground side seen with the toe up; `None` where no foot is named or no clip asks for it.
    pub fn outer_is_right(&self, shoe: Option<&str>) -> Option<bool> {
        let is_asked = self.clips.iter().any(|clip| *clip != ClipPlace::Toe);
        let mut feet = self.feet.iter().filter(|_| is_asked);
        let foot = feet.find(|(id, _)| shoe.is_none_or(|shoe| shoe == id));
        foot.map(|(_, foot)| foot.outer_is_right())
    }

    /// Whether its clips can hang over the edge of a board while the sheet lies flat under it: one
    /// at a quarter would take most of its branch along.
    pub fn may_hang(&self) -> bool {
        self.clips.iter().all(|clip| *clip == ClipPlace::Toe)
    }

    /// Whether it matters if the clips hang over the edge of a board.
    pub fn asks_for_edge(&self, shows: Shows) -> bool {
        shows == Shows::Ground && !self.clips.is_empty()
    }
}

/// Where something hides the edge of the face that lies up.
///
/// *Errors:* a shoe that lies on its clips or calks.
pub(super) fn hidden(head: &PhotoHead, form: &PhotoForm) -> Result<Vec<Hidden>, WrongField> {
    if form.is_drawn() {
        return Ok(Vec::new());
    }
    let wrong = |field, text: &str| WrongField {
        field,
        text: text.to_owned(),
    };
    let is_over_edge = head.may_hang() && form.is_over_edge;
    if head.asks_for_edge(form.shows) && !is_over_edge {
        return Err(wrong(
            PhotoField::OverEdge,
            "Ground side up the shoe rests on its clips and lies higher than its thickness says, \
             so everything would read too large. Lay it foot side up. A clip at the toe alone may \
             hang over the edge of a board on which the sheet lies, if that is ticked; one at a \
             quarter would take most of its branch with it.",
        ));
    }
    if form.has_calks && form.face() == Face::Foot {
        return Err(wrong(
            PhotoField::Calks,
            "Foot side up the shoe stands on its calks or studs: 10 mm higher, seen from 400 mm, \
             reads 2.6 % too large. Lay it ground side up.",
        ));
    }
    let clips = head.clips.iter().flat_map(|clip| clip_at(*clip, form));
    let mut all: Vec<Hidden> = clips.collect();
    if form.has_calks {
        all.push(Hidden::Heels);
    }
    all.dedup();
    Ok(all)
}

/// Where a clip is in the photo; on either side where the foot is not known.
fn clip_at(clip: ClipPlace, form: &PhotoForm) -> Vec<Hidden> {
    let is_right = match clip {
        ClipPlace::Toe => return vec![Hidden::Toe],
        ClipPlace::OuterQuarter => form.outer_is_right,
        ClipPlace::InnerQuarter => form.outer_is_right.map(|is_right| !is_right),
    };
    let is_turned = form.face() == Face::Foot;
    match is_right.map(|is_right| is_right != is_turned) {
        Some(true) => vec![Hidden::RightQuarter],
        Some(false) => vec![Hidden::LeftQuarter],
        None => vec![Hidden::LeftQuarter, Hidden::RightQuarter],
    }
}

/// Which places were left out, and why; `None` where none was.
pub(super) fn hidden_words(shown: &Shown) -> Option<String> {
    let clip = match shown.face {
        Face::Ground => "a clip hangs below the face, so the edge is not seen against paper",
        Face::Foot => "a clip stands off the face and hides the edge",
    };
    let each = shown.hidden.iter().map(|place| match place {
        Hidden::Toe => format!("at the toe {clip}"),
        Hidden::LeftQuarter => format!("at the left quarter {clip}"),
        Hidden::RightQuarter => format!("at the right quarter {clip}"),
        Hidden::Heels => "at the heels calks or studs hide the edge".to_owned(),
    });
    let each: Vec<String> = each.collect();
    (!each.is_empty()).then(|| {
        format!(
            "What rests on the edge in these places is left blank, to be measured by hand: {}.",
            each.join("; ")
        )
    })
}
