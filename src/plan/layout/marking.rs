//! Marks as they are gathered.

use super::bar::other;
use super::{LayoutMark, LeftOut, MarkKind, heel_mark};
use crate::piece::{Branch, PieceSpecification, ShoeKind};
use crate::plan::Chosen;
use crate::plan::cut::{Method, tape};
use crate::plan::inputs::Inputs;
use crate::plan::sizes::from_mm;
use crate::quantity::Length;

/// Marks that are being gathered.
pub(super) struct Marking {
    pub length: Length,
    pub left: Branch,
    /// The middle of the toe, from the middle of the bar.
    pub toe: f64,
    pub marks: Vec<LayoutMark>,
    pub left_out: Vec<LeftOut>,
}

impl Marking {
    /// Adds a mark so many mm right of the middle of the bar.
    pub fn add(&mut self, kind: MarkKind, branch: Option<Branch>, from_middle: f64) {
        let half = self.length.to_mm() / 2.0;
        let at = (from_mm(half + from_middle), from_mm(from_middle));
        let on_bar = from_middle.abs() <= half;
        match at {
            (Some(from_left), Some(from_middle)) if on_bar => self.marks.push(LayoutMark {
                kind,
                branch,
                from_left,
                from_middle,
            }),
            _ => self.left_out.push(LeftOut::OffTheBar {
                kind,
                from_middle: from_mm(from_middle.abs()).unwrap_or(Length::from_base(i64::MAX)),
                bar: self.length,
            }),
        }
    }

    pub fn add_from_toe(&mut self, kind: MarkKind, branch: Branch, from_toe: f64) {
        let side = if branch == self.left { -1.0 } else { 1.0 };
        self.add(kind, Some(branch), self.toe + side * from_toe);
    }

    pub fn heels(&mut self, piece: &PieceSpecification, inputs: &Inputs, chosen: &Chosen) {
        if piece.kind == ShoeKind::OpenHeeled {
            return;
        }
        let by_tape = (chosen.method == Some(Method::Tape))
            .then(|| {
                inputs
                    .between_heels
                    .or(piece.bar.as_ref().map(|bar| bar.gap))
            })
            .flatten()
            .map(tape::half);
        let by_rule = || (piece.kind == ShoeKind::StraightBar).then(|| heel_mark(self.length));
        let Some(mark) = by_tape.or_else(|| by_rule().flatten()) else {
            self.left_out.push(LeftOut::NoHeelRule);
            return;
        };
        let from_middle = self.length.to_mm() / 2.0 - mark.to_mm();
        self.add(MarkKind::Heel, Some(self.left), -from_middle);
        self.add(MarkKind::Heel, Some(other(self.left)), from_middle);
    }
}
