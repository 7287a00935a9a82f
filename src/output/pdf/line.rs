use unicode_linebreak::linebreaks;

use super::face::{Face, Faces, Glyph};
use super::ink::Ink;
use super::together::belong_together;

/// How a text is set.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Style {
    /// Its face.
    pub(super) face: Face,
    /// Its size in points.
    pub(super) size: f32,
    /// Its colour.
    pub(super) ink: Ink,
}

/// A text in one style, a part of a paragraph.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Span {
    /// What it says.
    pub(super) text: String,
    /// How it is set.
    pub(super) style: Style,
}

impl Span {
    /// A text in this style.
    pub(super) fn new(text: &str, style: Style) -> Self {
        Self {
            text: plain(text),
            style,
        }
    }
}

/// What of a span stands in one line.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Run {
    /// Which span it is of.
    pub(super) span: usize,
    /// How it is set.
    pub(super) style: Style,
    /// What it says, spaces at its end included.
    pub(super) text: String,
    /// Its glyphs, which name bytes of its text.
    pub(super) glyphs: Vec<Glyph>,
}

impl Run {
    /// A text of one style in one line.
    pub(super) fn of(faces: &mut Faces, text: &str, style: Style) -> Self {
        let text = plain(text).replace('\n', " ");
        Self {
            span: 0,
            style,
            glyphs: faces.shape(style.face, &text).to_vec(),
            text,
        }
    }

    /// How wide it is, in points.
    pub(super) fn width(&self) -> f32 {
        let advances = self.glyphs.iter().map(|glyph| glyph.advance);
        advances.sum::<f32>() * self.style.size
    }
}

/// A line of text.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct Line {
    /// Its parts from left to right.
    pub(super) runs: Vec<Run>,
    /// How wide it is without the spaces at its end, in points.
    pub(super) width: f32,
}

/// The lines of a paragraph, none wider than `room` points unless one letter is. They
/// break as UAX 14 allows, a word that is too wide between letters. A line end that was
/// typed ends the line. At least one line, which may be empty.
pub(super) fn lines(faces: &mut Faces, spans: &[Span], room: f32) -> Vec<Line> {
    let mut all = Vec::new();
    let paragraphs = paragraphs(spans);
    let last = paragraphs.len().saturating_sub(1);
    for (at, paragraph) in paragraphs.iter().enumerate() {
        let mut filler = Filler {
            room,
            ..Filler::default()
        };
        for word in words(paragraph) {
            filler.add(faces, &word);
        }
        if at < last {
            filler.space(faces);
        }
        filler.end();
        all.append(&mut filler.done);
    }
    all
}

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
fn plain(text: &str) -> String {
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
struct Piece<'a> {
    span: usize,
    style: Style,
    text: &'a str,
}

/// The spans, taken apart at typed line ends.
fn paragraphs(spans: &[Span]) -> Vec<Vec<Piece<'_>>> {
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
fn words<'a>(paragraph: &[Piece<'a>]) -> Vec<Vec<Piece<'a>>> {
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
fn measure(faces: &mut Faces, word: &[Piece<'_>]) -> (f32, f32) {
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

/// Fills line after line.
#[derive(Default)]
struct Filler {
    room: f32,
    done: Vec<Line>,
    line: Line,
    used: f32,
}

/// What adding up widths may be off, in points.
const SLACK: f32 = 0.01;

impl Filler {
    fn add(&mut self, faces: &mut Faces, word: &[Piece<'_>]) {
        let (visible, full) = measure(faces, word);
        if self.used > 0.0 && self.used + visible > self.room + SLACK {
            self.end();
        }
        if visible > self.room + SLACK {
            self.add_broken(faces, word);
            return;
        }
        self.line.width = self.used + visible;
        self.used += full;
        for piece in word {
            let glyphs = faces.shape(piece.style.face, piece.text);
            self.push(piece, piece.text, &glyphs, 0);
        }
    }

    /// Adds a word that no line holds, breaking it between letters.
    fn add_broken(&mut self, faces: &mut Faces, word: &[Piece<'_>]) {
        for piece in word {
            let glyphs = faces.shape(piece.style.face, piece.text);
            for cluster in glyphs.chunk_by(|one, next| one.start == next.start) {
                let advances = cluster.iter().map(|glyph| glyph.advance);
                let width = advances.sum::<f32>() * piece.style.size;
                let Some(range) = cluster.first().map(|first| first.start..first.end) else {
                    continue;
                };
                let start = range.start;
                let text = piece.text.get(range).unwrap_or_default();
                let is_space = text.trim().is_empty();
                if !is_space && self.used > 0.0 && self.used + width > self.room + SLACK {
                    self.end();
                }
                self.used += width;
                if !is_space {
                    self.line.width = self.used;
                }
                self.push(piece, text, cluster, start);
            }
        }
    }

    /// Adds glyphs that name bytes of the piece from `start` on.
    fn push(&mut self, piece: &Piece<'_>, text: &str, glyphs: &[Glyph], start: usize) {
        if !matches!(self.line.runs.last(), Some(run) if run.span == piece.span) {
            self.line.runs.push(Run {
                span: piece.span,
                style: piece.style,
                text: String::new(),
                glyphs: Vec::new(),
            });
        }
        if let Some(run) = self.line.runs.last_mut() {
            let shift = run.text.len();
            run.text.push_str(text);
            run.glyphs.extend(glyphs.iter().map(|glyph| Glyph {
                start: glyph.start - start + shift,
                end: glyph.end - start + shift,
                ..glyph.clone()
            }));
        }
    }

    /// A space at the end, so that who copies the text gets two words.
    fn space(&mut self, faces: &mut Faces) {
        let Some(run) = self.line.runs.last() else {
            return;
        };
        let piece = Piece {
            span: run.span,
            style: run.style,
            text: " ",
        };
        let glyphs = faces.shape(piece.style.face, piece.text);
        self.push(&piece, piece.text, &glyphs, 0);
    }

    fn end(&mut self) {
        self.done.push(std::mem::take(&mut self.line));
        self.used = 0.0;
    }
}
