use unicode_linebreak::linebreaks;

use super::face::Faces;
use super::line::{Span, Style};
use super::together::belong_together;

/// What adding up widths may be off, in points.
pub(super) const SLACK: f32 = 0.01;

/// The words of a text, measured.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct Measured {
    /// Each paragraph's words: how wide without the spaces at their end and with them, in
    /// points.
    paragraphs: Vec<Vec<(f32, f32)>>,
}

impl Measured {
    /// Measures a text.
    pub(super) fn of(faces: &mut Faces, spans: &[Span]) -> Self {
        let paragraphs = paragraphs(spans);
        let paragraphs = paragraphs.iter().map(|paragraph| {
            let words = words(paragraph).into_iter();
            words.map(|word| measure(faces, &word)).collect()
        });
        Self {
            paragraphs: paragraphs.collect(),
        }
    }

    /// Width of the widest word, in points.
    pub(super) fn word(&self) -> f32 {
        let words = self.paragraphs.iter().flatten();
        words.map(|(visible, _)| *visible).fold(0.0, f32::max)
    }

    /// Width of the widest paragraph in one line, in points.
    pub(super) fn line(&self) -> f32 {
        let lines = self.paragraphs.iter().map(|words| {
            let full = words.iter().map(|(_, full)| full).sum::<f32>();
            let end = words.last().map_or(0.0, |(visible, full)| full - visible);
            full - end
        });
        lines.fold(0.0, f32::max)
    }

    /// How many lines it takes, if no word is wider than `room` points.
    pub(super) fn lines(&self, room: f32) -> usize {
        let mut lines = self.paragraphs.len();
        for words in &self.paragraphs {
            let mut used = 0.0;
            for (visible, full) in words {
                if used > 0.0 && used + visible > room + SLACK {
                    lines += 1;
                    used = 0.0;
                }
                used += full;
            }
        }
        lines
    }
}

/// `text` with `\n` as the only line end and without what is no character to print.
pub(super) fn plain(text: &str) -> String {
    let text = text.replace("\r\n", "\n");
    let plain = text.chars().filter_map(|c| match c {
        '\n' | '\r' | '\u{b}' | '\u{c}' | '\u{85}' | '\u{2028}' | '\u{2029}' => Some('\n'),
        '\t' => Some(' '),
        // No PDF may map a glyph to these.
        '\u{feff}' | '\u{fffe}' | '\u{ffff}' => None,
        c if c.is_control() => None,
        c => Some(c),
    });
    plain.collect()
}

/// A part of a word that is of one span.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Piece<'a> {
    /// Which span it is of.
    pub(super) span: usize,
    /// How it is set.
    pub(super) style: Style,
    /// What it says.
    pub(super) text: &'a str,
}

/// The spans, taken apart at typed line ends.
pub(super) fn paragraphs(spans: &[Span]) -> Vec<Vec<Piece<'_>>> {
    let mut all = vec![Vec::new()];
    for (span, Span { text, style }) in spans.iter().enumerate() {
        for (at, text) in text.split('\n').enumerate() {
            if at > 0 {
                all.push(Vec::new());
            }
            let piece = Piece {
                span,
                style: *style,
                text,
            };
            if let (Some(paragraph), false) = (all.last_mut(), text.is_empty()) {
                paragraph.push(piece);
            }
        }
    }
    all
}

/// A paragraph, taken apart where a line may break; spaces stay behind their word.
pub(super) fn words<'a>(paragraph: &[Piece<'a>]) -> Vec<Vec<Piece<'a>>> {
    let joined: String = paragraph.iter().map(|piece| piece.text).collect();
    let may_break = |at: &usize| {
        let parts = joined.split_at_checked(*at);
        parts.is_none_or(|(before, after)| !belong_together(before, after))
    };
    let breaks = linebreaks(&joined).map(|(at, _)| at);
    let mut breaks = breaks.filter(may_break).peekable();
    let mut all = vec![Vec::new()];
    let mut passed = 0;
    for piece in paragraph {
        let mut rest = piece.text;
        while !rest.is_empty() {
            let next = breaks.peek().copied().unwrap_or(joined.len());
            let room = next.saturating_sub(passed);
            let (text, left) = rest.split_at_checked(room).unwrap_or((rest, ""));
            passed += text.len();
            rest = left;
            if let (Some(word), false) = (all.last_mut(), text.is_empty()) {
                let piece = Piece {
                    text,
                    ..piece.clone()
                };
                word.push(piece);
            }
            if passed >= next {
                breaks.next();
                all.push(Vec::new());
            }
            if text.is_empty() && left.is_empty() {
                break;
            }
        }
    }
    all.retain(|word| !word.is_empty());
    all
}

/// Width of a word without the spaces at its end, and with them, in points.
pub(super) fn measure(faces: &mut Faces, word: &[Piece<'_>]) -> (f32, f32) {
    let (mut visible, mut full) = (0.0, 0.0);
    for Piece { style, text, .. } in word {
        let shown = faces.width(style.face, style.size, text.trim_end());
        if !text.trim_end().is_empty() {
            visible = full + shown;
        }
        full += faces.width(style.face, style.size, text);
    }
    (visible, full)
}
